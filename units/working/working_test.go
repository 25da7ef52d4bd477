package working

import (
	"encoding/json"
	"strings"
	"testing"
)

// Two drains of 2 L out of 10 L leave 0.8, then 0.64.
func twoDrains() Steps {
	return Steps(nil).
		Add("old share after drain 1", "1 - d/C", "1 - 2 L / 10 L", "0.8").
		Add("old share after drain 2", "x·(1 - d/C)", "0.8 × (1 - 2 L / 10 L)", "0.64")
}

func TestText(t *testing.T) {
	want := "old share after drain 1 = 1 - d/C = 1 - 2 L / 10 L = 0.8\n" +
		"old share after drain 2 = x·(1 - d/C) = 0.8 × (1 - 2 L / 10 L) = 0.64\n"
	if got := twoDrains().Text(); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

func TestEmptyPartsAreLeftOut(t *testing.T) {
	for _, c := range []struct {
		s    Steps
		want string
	}{
		{nil, ""},
		{Steps{{}}, "\n"},
		{Steps{{Quantity: "kept in the hose", Result: "60 mL"}}, "kept in the hose = 60 mL\n"},
		{Steps{{Formula: "d/C", Result: "0.2"}}, "d/C = 0.2\n"},
		{Steps{{Quantity: "over\n two\tlines", Result: "1"}}, "over two lines = 1\n"},
	} {
		if got := c.s.Text(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestMarkdown(t *testing.T) {
	want := "| Quantity | Formula | With numbers | Result |\n| --- | --- | --- | --- |\n" +
		"| old share after drain 1 | 1 - d/C | 1 - 2 L / 10 L | 0.8 |\n" +
		"| old share after drain 2 | x·(1 - d/C) | 0.8 × (1 - 2 L / 10 L) | 0.64 |\n"
	if got := twoDrains().Markdown(); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	if got := Steps(nil).Markdown(); got != "" {
		t.Errorf("no working prints %q", got)
	}
}

func TestMarkdownEscapesMarkup(t *testing.T) {
	got := Steps{{Quantity: "a|b\nc", Formula: "t_0 * <x> [y](z)", Substitution: "`1`", Result: `\`}}.Markdown()
	want := `| a\|b c | t\_0 \* \<x\> \[y\](z) | ` + "\\`1\\`" + ` | \\ |` + "\n"
	if !strings.HasSuffix(got, "|\n"+want) {
		t.Errorf("got\n%swant at the end\n%s", got, want)
	}
	// Every line of a table has the same columns: five bars that are not escaped.
	for line := range strings.Lines(got) {
		if n := strings.Count(strings.ReplaceAll(strings.ReplaceAll(line, `\\`, ""), `\|`, ""), "|"); n != 5 {
			t.Errorf("%d bars in %q", n, line)
		}
	}
}

func TestAddLeavesTheBeginningAlone(t *testing.T) {
	start := make(Steps, 0, 8).Add("a", "", "", "1")
	one := start.Add("b", "", "", "2")
	two := start.Add("c", "", "", "3")
	if one[1].Quantity != "b" || two[1].Quantity != "c" || len(start) != 1 {
		t.Errorf("two workings share a step: %v, %v", one, two)
	}
}

func TestJSONRoundTrip(t *testing.T) {
	b, err := json.Marshal(twoDrains()[:1])
	want := `[{"quantity":"old share after drain 1","formula":"1 - d/C","substitution":"1 - 2 L / 10 L","result":"0.8"}]`
	if err != nil || string(b) != want {
		t.Errorf("got %s, %v", b, err)
	}
	var back Steps
	if err := json.Unmarshal(b, &back); err != nil || back.Text() != twoDrains()[:1].Text() {
		t.Errorf("read back %v, %v", back, err)
	}
}
