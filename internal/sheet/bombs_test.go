package sheet_test

import (
	"fmt"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/internal/sheet"
)

// fill repeats a piece up to the size limit.
func fill(head, piece, tail string) string {
	return head + strings.Repeat(piece, (sheet.MaxBytes-len(head)-len(tail))/len(piece)) + tail
}

// numbered writes lines with a running number, up to the size limit.
func numbered(format string) string {
	var b strings.Builder
	for i := 0; ; i++ {
		line := fmt.Sprintf(format, i)
		if b.Len()+len(line) > sheet.MaxBytes {
			return b.String()
		}
		b.WriteString(line)
	}
}

// bombs are files made to cost as much as they can. Several of them take the TOML library alone seconds or gigabytes;
// three megabytes of the first end the process.
func bombs() map[string]string {
	long := strings.Repeat("k", sheet.MaxKey-8)
	return map[string]string{
		"brackets":             fill("a = ", "[", ""),
		"brackets closed":      fill("a = ", "[", "") + "]",
		"brackets by line":     fill("", "a=[\n", ""),
		"brackets as headers":  fill("", "[", ""),
		"header lines":         fill("", "[\n", ""),
		"braces":               fill("a = ", "{a=", ""),
		"braces by line":       fill("", "a={\n", ""),
		"braces and brackets":  fill("a = ", "[{a=", ""),
		"strings in braces":    fill("", "a={'''\n", ""),
		"20 KB dotted key":     strings.Repeat("a.", 10_000) + "a = \"x\"\n",
		"dotted key":           fill("", "a.", "a=\"\""),
		"dotted quoted key":    fill("", "\"a\".", "a=\"\""),
		"dotted header":        fill("[", "a.", "a]"),
		"dotted quoted header": fill("[", "'a'.", "a]"),
		"dotted keys":          fill("", "a.b.c.d.e.f=\"x\"\n", ""),
		"long key":             fill("", "a", "=\"x\""),
		"keys":                 numbered("k%d=\"x\"\n"),
		"short keys":           numbered("%03x=\"x\"\n"), // a hundred thousand keys are too large a file: TestTooLarge
		"long keys":            numbered(long + "%08d=\"x\"\n"),
		"same key":             fill("", "a=\"x\"\n", ""),
		"twin keys":            numbered("K%d=\"x\"\nk%[1]d=\"x\"\n"),
		"tables":               numbered("[t%d]\n"),
		"deep tables":          numbered("[t%d.a.b.c.d.e.f.g]\nh=\"x\"\n"),
		"deep long tables":     numbered("[" + strings.Repeat(long+".", 7) + "t%d]\n"),
		"numbered tables":      numbered("[step.%d]\nsay=\"x\"\n"),
		"tables backwards":     numbered("[a%d.b.c]\n[a%[1]d.b]\n[a%[1]d]\n"),
		"same table":           fill("", "[a]\n", ""),
		"arrays of tables":     fill("", "[[a]]\n", ""),
		"digits":               fill("a = ", "1", ""),
		"quoted digits":        fill("a = \"", "1", "\""),
		"exponents":            fill("", "a = 1e-999999999\n", ""),
		"many faults":          fill("", "a=1\n", ""),
		"faults of each line":  fill("", "=\n", ""),
		"list":                 fill("a = [", "\"x\",", "]"),
		"list by line":         fill("a = [\n", "\"x\",\n", "]"),
		"list of numbers":      fill("a = [", "1,", "]"),
		"list never closed":    fill("a = [\n", "\"x\"\n", ""),
		"lists never closed":   fill("", "a = [\n\"x\",\n", ""),
		"lists of 64":          numbered("l%d=[" + strings.Repeat("\"x\",", sheet.MaxList) + "]\n"),
		"open string":          fill("a = \"", "x", ""),
		"open literal":         fill("a = '", "x", ""),
		"open text":            fill("a = \"\"\"", "x\n", ""),
		"open literal text":    fill("a = '''", "x\n", ""),
		"open key":             fill("\"", "x", ""),
		"open strings":         fill("", "a=\"\n", ""),
		"texts":                fill("", "a=\"\"\"\n", ""),
		"escaped texts":        fill("", "a=\"\"\"\\\"\"\"\n", ""),
		"quotes":               fill("a = ", "\"", ""),
		"single quotes":        fill("a = ", "'", ""),
		"quote keys":           fill("", "\"", ""),
		"backslashes":          fill("a = \"", "\\", "\""),
		"continuations":        fill("a = \"\"\"", "\\\n", "\"\"\""),
		"long continuations":   fill("a = \"\"\"", "\\  ", "\"\"\""),
		"spaces to the end":    fill("a = \"\"\"\\", " ", "\"\"\""),
		"escapes":              fill("a = \"", `\u0041`, "\""),
		"bad escapes":          fill("a = \"", `\u12`, "\""),
		"hidden":               fill("", "\u200b", ""),
		"hidden by turns":      fill("", "\u200ba", ""),
		"hidden by line":       fill("", "\u200b\n", ""),
		"hidden in a string":   fill("a = \"", "\u200bx", "\""),
		"control":              fill("aaaaa", "\x01", ""),
		"nul":                  fill("aaaaa", "\x00", ""),
		"all nul":              fill("", "\x00", ""),
		"not UTF-8":            fill("", "\xff", ""),
		"not UTF-8 by line":    fill("", "\xff\n", ""),
		"byte-order marks":     fill("", "\ufeff", ""),
		"carriage returns":     fill("", "\r", ""),
		"newlines":             fill("", "\n", ""),
		"CRLF":                 fill("", "\r\n", ""),
		"spaces":               fill("", " ", ""),
		"comment":              fill("#", "x", ""),
		"comments":             fill("", "#\n", ""),
		"one line":             fill("", "a=\"b\" ", ""),
		"equals":               fill("a", "=", ""),
		"wide characters":      fill("a = \"\"\"", "€", "\"\"\""),
		"values of 4 KB":       numbered("k%d=\"" + strings.Repeat("x", sheet.MaxText-2) + "\"\n"),
		"unlike names":         numbered("torqu%d=\"x\"\n"),
		"misplaced":            "[a]\n[a.b]\n" + numbered("k%d=\"x\"\n")[:sheet.MaxBytes-64],
		"dates":                fill("", "a=2024-03-01\n", ""),
	}
}

// consume reads a sheet of any shape the way a loader would, asking for things that are not there as well.
func consume(table *sheet.Table, depth int) {
	for i := range 40 {
		name := fmt.Sprintf("torque%d", i)
		table.Need(name)
		table.List(name)
		table.NeedSub(name)
		if depth > 0 {
			break
		}
	}
	if table.Kind("a") != sheet.Group {
		table.String("a")
	}
	for _, sub := range table.Numbered() {
		consume(sub, depth+1)
	}
	for _, sub := range table.Subs() {
		consume(sub, depth+1)
	}
}

// TestBombs: any file up to the limit has less than 10 MB allocated in all, reading and all its faults included, and comes to an end.
// The two seconds only catch a hang; BenchmarkBombs shows what it takes.
func TestBombs(t *testing.T) {
	for name, text := range bombs() {
		if len(text) < 16<<10 {
			t.Errorf("%s: only %d bytes", name, len(text))
		}
		data := []byte(text[:min(len(text), sheet.MaxBytes)])
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		start := time.Now()
		message := explode(t, name, data)
		took := time.Since(start)
		runtime.ReadMemStats(&after)
		if took > 2*time.Second {
			t.Errorf("%s: %v", name, took)
		}
		if used := after.TotalAlloc - before.TotalAlloc; used > 10_000_000 {
			t.Errorf("%s: %d bytes allocated", name, used)
		}
		if len(message) > 1<<20 {
			t.Errorf("%s: message of %d bytes", name, len(message))
		}
	}
}

func explode(t testing.TB, name string, data []byte) string {
	doc, err := sheet.Parse(name, data)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	consume(doc.Root(), 0)
	if err := doc.Finish(); err != nil {
		return err.Error()
	}
	return ""
}

func TestTooLarge(t *testing.T) {
	for name, size := range map[string]int{"3 MB of brackets": 3 << 20, "1 MB of digits": 1 << 20, "100 000 keys": 1_200_000, "one byte more": sheet.MaxBytes + 1} {
		if doc, err := sheet.Parse(name, slices.Repeat([]byte("["), size)); doc != nil || err == nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// BenchmarkBombs shows the dearest files of the catalogue, each read to its last fault.
func BenchmarkBombs(b *testing.B) {
	all := bombs()
	for _, name := range []string{"brackets by line", "dotted quoted key", "keys", "long keys", "deep tables", "tables backwards", "twin keys",
		"list of numbers", "lists of 64", "hidden by turns", "not UTF-8 by line", "newlines", "unlike names", "misplaced", "values of 4 KB"} {
		b.Run(strings.ReplaceAll(name, " ", "-"), func(b *testing.B) {
			data := []byte(all[name])
			data = data[:min(len(data), sheet.MaxBytes)]
			b.ReportAllocs()
			for b.Loop() {
				explode(b, name, data)
			}
		})
	}
}

// BenchmarkParse reads a sheet of ordinary size.
func BenchmarkParse(b *testing.B) {
	data := []byte(tern)
	b.ReportAllocs()
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := sheet.Parse("tern-6.toml", data); err != nil {
			b.Fatal(err)
		}
	}
}
