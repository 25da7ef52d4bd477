package refdata

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/BurntSushi/toml"

	"example.com/meniscus/internal/sheet"
)

// manyProcedures is a pack of n procedures the size of tern-6, and their fluid.
func manyProcedures(tb testing.TB, n int) fstest.MapFS {
	tb.Helper()
	tern, err := os.ReadFile("builtin/tern-6.toml")
	if err != nil {
		tb.Fatal(err)
	}
	fluid, err := os.ReadFile("builtin/fluid-s2.toml")
	if err != nil {
		tb.Fatal(err)
	}
	files := fstest.MapFS{"fluid.toml": {Data: fluid}}
	for i := range n {
		id := fmt.Sprintf("tern-%05d", i)
		files[id+".toml"] = &fstest.MapFile{Data: []byte(strings.Replace(string(tern), `"tern-6"`, `"`+id+`"`, 1))}
	}
	return files
}

// BenchmarkLoad compares, over the same bytes, the whole loader with the reader
// of sheets alone and with the bare decode of the TOML library. For the 10 000
// procedures: -bench Load/10000 -benchtime 1x.
func BenchmarkLoad(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		files := manyProcedures(b, n)
		b.Run(fmt.Sprintf("%d/load", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Load(files, "."); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprintf("%d/sheet", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				for name, f := range files { // order does not matter: each is read by itself
					if _, err := sheet.Parse(name, f.Data); err != nil {
						b.Fatal(err)
					}
				}
			}
		})
		b.Run(fmt.Sprintf("%d/bare", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				for _, f := range files { // order does not matter: each is read by itself
					bare(b, f.Data)
				}
			}
		})
	}
}

func bare(tb testing.TB, data []byte) {
	var x map[string]any
	if err := toml.Unmarshal(data, &x); err != nil {
		tb.Fatal(err)
	}
}

// BenchmarkLoadAgainstBare takes the two in turns, so that a busy machine slows
// both, and gives how many times longer the loader takes: x-bare is to stay
// below 2.5.
func BenchmarkLoadAgainstBare(b *testing.B) {
	for _, n := range []int{1000, 10_000} {
		files := manyProcedures(b, n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			var ours, theirs time.Duration
			for b.Loop() {
				start := time.Now()
				if _, err := Load(files, "."); err != nil {
					b.Fatal(err)
				}
				middle := time.Now()
				for _, f := range files { // order does not matter: each is read by itself
					bare(b, f.Data)
				}
				ours, theirs = ours+middle.Sub(start), theirs+time.Since(middle)
			}
			b.ReportMetric(ours.Seconds()/theirs.Seconds(), "x-bare")
		})
	}
}

// BenchmarkLookup asks a pack of 10 000 for an id, without the lists of a procedure
// and with a copy of them; the first two are to stay under 100 ns.
func BenchmarkLookup(b *testing.B) {
	p, err := Load(manyProcedures(b, 10_000), ".")
	if err != nil {
		b.Fatal(err)
	}
	b.Run("has", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if !p.Has("tern-07654") {
				b.Fatal("not found")
			}
		}
	})
	b.Run("outline", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, ok := p.Outline("tern-07654"); !ok {
				b.Fatal("not found")
			}
		}
	})
	b.Run("copy", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, ok := p.Procedure("tern-07654"); !ok {
				b.Fatal("not found")
			}
		}
	})
}
