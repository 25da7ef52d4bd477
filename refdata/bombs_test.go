package refdata

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/meniscus/internal/sheet"
)

// heads are the least that the three kinds of file begin with.
const (
	bombHead      = "format = 1\nkind = \"procedure\"\nid = \"a\"\ntitle = \"a\"\nrevision = \"1\"\n" + bombSource + "[capacity]\nfrom = \"s\"\ntotal = \"9 L\"\n[fluid]\nfrom = \"s\"\nclass = \"f\"\n"
	bombFluidHead = "format = 1\nkind = \"fluid\"\nid = \"a\"\ntitle = \"a\"\nrevision = \"1\"\n" + bombSource
	bombShopHead  = "format = 1\nkind = \"shop\"\nid = \"a\"\ntitle = \"a\"\nrevision = \"1\"\n" + bombSource
	bombSource    = "[source.s]\ntitle = \"s\"\nkind = \"manual\"\n"
)

// bomb repeats a piece with a running number up to the size limit.
func bomb(head, form string) string {
	var b strings.Builder
	b.WriteString(head)
	for i := 0; ; i++ {
		line := fmt.Sprintf(form, i)
		if b.Len()+len(line) > sheet.MaxBytes {
			return b.String()
		}
		b.WriteString(line)
	}
}

// few repeats a piece n times, then fills the file with another.
func few(form string, n int, rest string) string {
	var b strings.Builder
	b.WriteString(bombHead)
	for i := range n {
		fmt.Fprintf(&b, form, i)
	}
	return b.String() + strings.Repeat(rest, (sheet.MaxBytes-b.Len())/len(rest))
}

// bombs are files up to the size limit that ask for as much work as they can.
func bombs() map[string]string {
	name := strings.Repeat("k", 30)
	deep := strings.Repeat(name[:15]+".", 7)
	figures := "role='drain'\nthread='M16x1.5'\ndrive='hex socket 8 mm'\ntorque='24 N·m'\nshoulder='16 mm'\ncollar='21 mm'\nseat='24 mm'\nplus_minus='1 N·m'\nfrom='s'\n"
	return map[string]string{
		"plugs and washers":   bomb(bombHead, "[washer.w%[1]d]\ninner = \"9 mm\"\n[plug.p%[1]d]\nwasher = \"w%[1]d\"\n"),
		"plugs":               bomb(bombHead, "[plug.p%d]\nrole = \"drain\"\nfrom = \"s\"\nthread = \"M16x1.5\"\n"),
		"plugs, all figures":  bomb(bombHead, "[plug.p%x]\n"+figures),
		"plugs, own tables":   bomb(bombHead, "[plug.drain%x]\nthread='M16x1.5'\nfrom='s'\n[plug.drain%[1]x.torque]\nvalue='9 N·m'\n"),
		"plugs, all wrong":    bomb(bombHead, "[plug.p%x]\nrole='x'\nthread='x'\ndrive='x'\ntorque='x'\n"),
		"plugs, empty":        bomb(bombHead, "[plug.p%x]\n"),
		"plugs, then lines":   few("[plug.p%x]\n"+figures, 390, "\n"),
		"plugs, then lists":   few("[plug.p%x]\n"+figures, 350, "zz=["+strings.Repeat("'x',", 50)+"]\n"),
		"washers":             bomb(bombHead, "[washer.w%x]\nfrom='s'\ninner='9 mm'\nouter='12 mm'\n"),
		"washers, impossible": bomb(bombHead, "[washer.w%x]\nfrom='s'\ninner='19 mm'\nouter='12 mm'\n"),
		"washers, empty":      bomb(bombHead, "[washer.w%x]\n"),
		"sources":             bomb(bombHead, "[source.s%d]\ntitle = \"x\"\nkind = \"manual\"\n"),
		"sources, empty":      bomb(bombHead, "[source.s%x]\n"),
		"densities":           bomb(bombFluidHead, "[density.d%x]\nat='1 °C'\ndensity='850 kg/m³'\nfrom='s'\n"),
		"containers":          bomb(bombFluidHead, "[pack.p%x]\ntitle='x'\nsize='1 L'\nprice='9'\nfrom='s'\n"),
		"vessels":             bomb(bombShopHead, "[vessel.v%x]\nmaterial='glass'\n"),
		"thermometers":        bomb(bombShopHead, "[thermometer.t%x]\nfrom='s'\nplus_minus='x'\nstep='x'\n"),
		"tools":               bomb(bombShopHead, "[tool.t%x]\nlow='1 N·m'\nhigh='9 N·m'\nfrom='s'\n"),
		"unknown tables":      bomb(bombHead, "[x%d]\ny = \"z\"\n"),
		"deep tables":         bomb(bombHead, "["+deep+"%x]\nh='x'\n"),
		"deep keys":           bomb(bombHead+"["+deep+"x]\n", "%x='x'\n"),
		"long keys":           bomb(bombHead, name+"%x='x'\n"),
		"escapes":             bomb(bombHead, "k%x=\""+name+"\\t"+name+"\"\n"),
		"bad escapes":         few("[plug.p%x]\n"+figures, 350, "a=\""+strings.Repeat(`\u12`, 100)+"\"\n"),
		"strange names":       few("[plug.p%x]\n"+figures, 350, "["+strings.Repeat("é.", 100)+"é]\n"),
		"lists":               bomb(bombHead, "l%x=["+strings.Repeat("'x',", 14)+"]\n"),
		"tables of lists":     bomb(bombHead, "[t%x]\nl=["+strings.Repeat("'x',", 33)+"]\n"),
		"not UTF-8":           few("[plug.p%x]\n"+figures, 350, "\xff\n"),
		"removals":            strings.Replace(bombHead, "revision", "overlay_of = \"b\"\nbased_on = \"1\"\nrevision", 1) + "[remove]\nkeys = [" + strings.Repeat(`"capacity.total",`, 64) + "]\n",
		"long note":           bombHead + "[window]\nfrom = \"s\"\nlow = \"30 °C\"\nhigh = \"40 °C\"\nnote = \"" + strings.Repeat("x", 4000) + "\"\n",
		"brackets":            bombHead + strings.Repeat("[", 200_000),
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

// TestBombsAreRefusedInBoundedWork: no file up to the limit has the loader
// allocate more than 10 MB in all, the outside tables and every finding
// included.
func TestBombsAreRefusedInBoundedWork(t *testing.T) {
	for name, text := range bombs() { // order does not matter: each is read by itself
		files := fstest.MapFS{"a.toml": {Data: []byte(text)}}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		found, err := Check(files, ".")
		runtime.ReadMemStats(&after)
		if err != nil || len(found) == 0 || len(found) > 2*sheet.MaxFaults || len(text) > sheet.MaxBytes {
			t.Errorf("%s: %d bytes, %d findings, %v", name, len(text), len(found), err)
		}
		if used := after.TotalAlloc - before.TotalAlloc; used > 10_000_000 {
			t.Errorf("%s: %d bytes allocated", name, used)
		}
	}
}
