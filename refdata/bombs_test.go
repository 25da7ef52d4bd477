package refdata

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/meniscus/internal/sheet"
)

// bombs are files up to the size limit that ask for as much work as they can.
func bombs() map[string]string {
	head := "format = 1\nkind = \"procedure\"\nid = \"a\"\ntitle = \"a\"\nrevision = \"1\"\n[source.s]\ntitle = \"s\"\nkind = \"manual\"\n[capacity]\nfrom = \"s\"\ntotal = \"9 L\"\n[fluid]\nfrom = \"s\"\nclass = \"f\"\n"
	repeat := func(form string, n int) string {
		var b strings.Builder
		b.WriteString(head)
		for i := 0; i < n && b.Len() < sheet.MaxBytes-200; i++ {
			fmt.Fprintf(&b, form, i)
		}
		return b.String()
	}
	return map[string]string{
		"plugs and washers": repeat("[washer.w%[1]d]\ninner = \"9 mm\"\n[plug.p%[1]d]\nwasher = \"w%[1]d\"\n", 9999),
		"plugs":             repeat("[plug.p%d]\nrole = \"drain\"\nfrom = \"s\"\nthread = \"M16x1.5\"\n", 9999),
		"sources":           repeat("[source.s%d]\ntitle = \"x\"\nkind = \"manual\"\n", 9999),
		"unknown tables":    repeat("[x%d]\ny = \"z\"\n", 99999),
		"removals":          strings.Replace(head, "revision", "overlay_of = \"b\"\nbased_on = \"1\"\nrevision", 1) + "[remove]\nkeys = [" + strings.Repeat(`"capacity.total",`, 64) + "]\n",
		"long note":         head + "[window]\nfrom = \"s\"\nlow = \"30 °C\"\nhigh = \"40 °C\"\nnote = \"" + strings.Repeat("x", 4000) + "\"\n",
		"brackets":          head + strings.Repeat("[", 200_000),
	}
}

// BenchmarkBombs shows what the worst files cost; see also the bombs of package
// sheet.
func BenchmarkBombs(b *testing.B) {
	for name, text := range bombs() { // order does not matter: each is measured by itself
		files := fstest.MapFS{"a.toml": {Data: []byte(text)}}
		b.Run(strings.ReplaceAll(name, " ", "-"), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Check(files, "."); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func TestBombsAreRefusedInBoundedWork(t *testing.T) {
	for name, text := range bombs() { // order does not matter: each is read by itself
		found, err := Check(fstest.MapFS{"a.toml": {Data: []byte(text)}}, ".")
		if err != nil || len(found) == 0 || len(found) > 2*sheet.MaxFaults {
			t.Errorf("%s: %d findings, %v", name, len(found), err)
		}
	}
}
