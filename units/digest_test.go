package units

import (
	"bufio"
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"fmt"
	"hash"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// Digests of many results, which must be the same on every machine and stay so
// for ever: a change here is a change of values, and belongs in the change log.
//
//go:embed testdata/digests.txt
var digests string

func TestDigests(t *testing.T) {
	var got strings.Builder
	for _, c := range []struct {
		name string
		fill func(hash.Hash)
	}{
		{"of", digestOf}, {"in", digestIn}, {"scale", digestScale}, {"ratio", digestRatio},
		{"text", digestText}, {"string", digestString}, {"temperature", digestTemperature}, {"density", digestDensity},
	} {
		h := sha256.New()
		c.fill(h)
		fmt.Fprintf(&got, "%s %s\n", c.name, hex.EncodeToString(h.Sum(nil)))
	}
	want := map[string]string{}
	for sc := bufio.NewScanner(strings.NewReader(digests)); sc.Scan(); {
		if name, sum, ok := strings.Cut(sc.Text(), " "); ok && name != "#" {
			want[name] = sum
		}
	}
	for line := range strings.Lines(got.String()) {
		name, sum, _ := strings.Cut(strings.TrimSpace(line), " ")
		if want[name] != sum {
			t.Errorf("%s: digest %s, want %q", name, sum, want[name])
		}
		delete(want, name)
	}
	if len(want) > 0 {
		t.Errorf("digests of nothing: %v", want)
	}
}

// The inputs are drawn here and nowhere else, so that a new edge case in another
// test leaves the digests alone.
func frozenTicks(n int) []int64 {
	r := rand.New(rand.NewPCG(11, 12))
	ticks := []int64{0, 1, -1, maxTicks, -maxTicks}
	for range n {
		ticks = append(ticks, int64(r.Uint64()>>1)>>r.IntN(63), -(int64(r.Uint64()>>1) >> r.IntN(63)))
	}
	return ticks
}

func frozenFloats(n int) []float64 {
	r := rand.New(rand.NewPCG(13, 14))
	var xs []float64
	for range n {
		xs = append(xs, math.Ldexp(r.Float64()-0.5, r.IntN(60)-30), float64(r.IntN(1e6))/1000, float64(r.IntN(1e9))/1e6)
	}
	return xs
}

func digestOf(h hash.Hash) {
	for _, x := range frozenFloats(1_000) {
		eachUnit(func(c code) {
			n, _ := decimalTicks(x, ticksPer(c))
			fmt.Fprintln(h, n)
		})
	}
}

func digestIn(h hash.Hash) {
	for _, n := range frozenTicks(800) {
		eachUnit(func(c code) { fmt.Fprintln(h, math.Float64bits(readBack(n, ticksPer(c)))) })
	}
}

func digestScale(h hash.Hash) {
	for _, n := range frozenTicks(150) {
		for _, x := range frozenFloats(150) {
			fmt.Fprintln(h, fromTicks[VolumeDim](n).Scale(x).ticks)
		}
	}
}

func digestRatio(h hash.Hash) {
	ticks := frozenTicks(150)
	for _, n := range ticks {
		for _, d := range ticks {
			fmt.Fprintln(h, math.Float64bits(fromTicks[VolumeDim](n).Ratio(fromTicks[VolumeDim](d))))
		}
	}
}

func digestText(h hash.Hash) {
	for i, n := range frozenTicks(800) {
		eachUnit(func(c code) { fmt.Fprintln(h, string(appendFixed(nil, n, ticksPer(c), i%16))) })
	}
}

func digestString(h hash.Hash) {
	for _, n := range frozenTicks(10_000) {
		fmt.Fprintln(h, fromTicks[TemperatureDeltaDim](n), fromTicks[TorqueDim](n))
	}
}

func digestTemperature(h hash.Hash) {
	for _, n := range frozenTicks(20_000) {
		p := Temperature{max(n, -n)}
		fmt.Fprintln(h, math.Float64bits(p.Celsius()), math.Float64bits(p.Fahrenheit()), math.Float64bits(p.Kelvin()), p)
	}
}

func digestDensity(h hash.Hash) {
	for i := range 20_000 {
		d := PoundsPerUSGallon(float64(i) / 1000)
		fmt.Fprintln(h, math.Float64bits(float64(d)), math.Float64bits(Density(i).PoundsPerUSGallon()))
	}
}
