package exchange

import (
	"strings"
	"testing"
)

func TestPurposeText(t *testing.T) {
	for _, p := range [...]Purpose{Refresh, ChangeClass} {
		text, err := p.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		back := Purpose(9)
		if err := back.UnmarshalText(text); err != nil || back != p {
			t.Errorf("%q came back as %v: %v", text, back, err)
		}
	}
	if _, err := Purpose(2).MarshalText(); err == nil || Purpose(2).String() != "unknown purpose" {
		t.Errorf("2 is written as %q: %v", Purpose(2), err)
	}
	p := ChangeClass
	err := p.UnmarshalText([]byte(strings.Repeat("x", 1000)))
	if err == nil || p != ChangeClass || len(err.Error()) > 150 || !strings.Contains(err.Error(), "want refresh or change of class") {
		t.Errorf("%v: %v", p, err)
	}
}
