package thermal

import (
	"crypto/sha256"
	"flag"
	"fmt"
	"hash"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/units"
)

var update = flag.Bool("update", false, "write testdata/digests.txt anew")

const digestFile = "testdata/digests.txt"

// TestDigests: 20 000 results of each law, to the last bit, are the same as
// they ever were, and the same on every processor. A changed digest is a change
// that users must be told of.
func TestDigests(t *testing.T) {
	var lines strings.Builder
	for _, d := range []struct {
		name string
		one  func(t *testing.T, r *rand01, out *digester)
	}{
		{"Factor", digestFactor}, {"Convert", digestConvert}, {"Density15", digestDensity15}, {"CTL2004", digestCTL},
		{"Contents", digestContents}, {"Closing", digestClosing}, {"Trend", digestTrend}, {"Infrared", digestInfrared},
		{"ConvertMeasured", digestMeasured},
	} {
		r := rand01(2026)
		out := &digester{hash: sha256.New()}
		for out.n < 20_000 {
			d.one(t, &r, out)
		}
		fmt.Fprintf(&lines, "%s %d %x\n", d.name, out.n, out.hash.Sum(nil)[:16])
	}
	if *update {
		if err := os.WriteFile(digestFile, []byte(lines.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(digestFile)
	if err != nil {
		t.Fatal(err)
	}
	if lines.String() != string(want) {
		t.Errorf("results have changed:\n%swas:\n%s", lines.String(), want)
	}
}

type digester struct {
	hash hash.Hash
	n    int
}

// add takes a result; an error counts as its own kind of result.
func (d *digester) add(v any, err error) {
	if err != nil {
		v = "error"
	}
	fmt.Fprintln(d.hash, v)
	d.n++
}

func bitsOf(x float64) uint64 { return math.Float64bits(x) }

// anyFluid and its kin make inputs from whole numbers, so that no processor
// starts from another value.
func anyFluid(t *testing.T, r *rand01) Fluid {
	t.Helper()
	f, err := Lubricant(units.Density(whole(r, 8009, 11634) / 10))
	if err != nil {
		t.Fatal(err)
	}
	if r.next() < 0.25 {
		return UnknownDensity()
	}
	return f
}

func whole(r *rand01, low, high float64) float64 { return math.Round(r.between(low, high)) }

func anyTemperature(r *rand01, low, high float64) units.Temperature {
	return units.Celsius(whole(r, low*100, high*100) / 100)
}

func digestFactor(t *testing.T, r *rand01, out *digester) {
	f, err := anyFluid(t, r).Factor(anyTemperature(r, -50, 150))
	out.add(bitsOf(f), err)
}

func digestConvert(t *testing.T, r *rand01, out *digester) {
	v, err := anyFluid(t, r).Convert(units.Millilitre.Of(whole(r, -20000, 20000)), anyTemperature(r, -20, 120), anyTemperature(r, -20, 120))
	out.add(v, err)
}

func digestDensity15(t *testing.T, r *rand01, out *digester) {
	rho, err := Density15(units.Density(whole(r, 7500, 11000)/10), anyTemperature(r, -50, 150))
	out.add(bitsOf(float64(rho)), err)
}

func digestCTL(t *testing.T, r *rand01, out *digester) {
	p, err := CTL2004{units.Density(whole(r, 6106, 11635) / 10), whole(r, 0, 500), whole(r, 0, 5000) / 10000, 0}.Evaluate(anyTemperature(r, -50, 150))
	out.add(bitsOf(p.Factor), err)
}

func digestContents(t *testing.T, r *rand01, out *digester) {
	all := Materials()
	v := Vessel{ID: "x", Material: all[int(whole(r, 0, float64(len(all)-1)))]}
	c, err := v.Contents(units.Millilitre.Of(whole(r, 0, 20000)), anyTemperature(r, -20, 120))
	out.add(c, err)
}

func digestClosing(t *testing.T, r *rand01, out *digester) {
	c, err := exampleWindow().Closing(anyFluid(t, r), units.Millilitre.Of(whole(r, 1000, 20000)), Aluminium, anyTemperature(r, 0, 120))
	out.add(c.Off, err)
	worth, err := c.Worth(units.Millilitre.Of(20))
	out.add(worth, err)
}

func digestTrend(t *testing.T, r *rand01, out *digester) {
	tr := follow(t, Course{PlateauLow: anyTemperature(r, 70, 80), PlateauHigh: anyTemperature(r, 80, 90), Scatter: units.CelsiusDegree.Of(0.2)})
	for i := range 6 {
		var err error
		tr, err = tr.Add(time.Duration(i+1)*time.Minute, units.Celsius(20+3*float64(i)+whole(r, -3, 3)/10))
		if err != nil {
			t.Fatal(err)
		}
	}
	f, err := tr.Forecast(exampleWindow())
	out.add([]time.Duration{f.Opens.Earliest, f.Opens.Best, f.Opens.Latest, f.Closes.Earliest, f.Closes.Best, f.Closes.Latest}, err)
	e, err := tr.At(10 * time.Minute)
	out.add(e, err)
	m, err := tr.Reach(anyTemperature(r, 20, 80))
	out.add([]time.Duration{m.Earliest, m.Best, m.Latest}, err)
	fit, err := tr.Fit()
	out.add(fit, err)
}

func digestInfrared(t *testing.T, r *rand01, out *digester) {
	i := Infrared{anyTemperature(r, 0, 100), anyTemperature(r, 0, 40), whole(r, 50, 100) / 100, 0.03, whole(r, 90, 100) / 100, ReflectionSubtracted}
	if r.next() < 0.5 {
		i.Reflection = ReflectionKept
	}
	s, err := i.Surface()
	out.add([]any{s.Temperature, s.EmissivityOff, s.FormOff}, err)
}

func digestMeasured(t *testing.T, r *rand01, out *digester) {
	v, from, to := litresWith(t, whole(r, 1, 2000)/100, 0.02, "v"), celsiusWith(t, whole(r, -20, 120), 1, "p"), celsiusWith(t, whole(r, -20, 120), 1, "p")
	m, err := anyFluid(t, r).ConvertMeasured(v, from, to)
	out.add(m.Best(), err)
	for _, term := range m.Reading().Terms() {
		out.add(bitsOf(term.Scale), nil)
	}
}
