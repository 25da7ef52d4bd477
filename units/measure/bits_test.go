package measure_test

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/units/measure"
)

// digestOf gathers results so that one number stands for all their bits.
type digestOf struct {
	tb    testing.TB
	bytes []byte
}

func (d *digestOf) add(err error, x ...float64) {
	d.tb.Helper()
	if err != nil {
		d.tb.Fatal(err)
	}
	for _, v := range x {
		d.bytes = binary.LittleEndian.AppendUint64(d.bytes, math.Float64bits(v))
	}
}

func (d *digestOf) sum() uint64 {
	h := fnv.New64a()
	_, _ = h.Write(d.bytes)
	return h.Sum64()
}

// The same bits on every machine. A digest that changes is a change of results,
// and belongs in the list of changes.
func TestSameBits(t *testing.T) {
	for _, c := range []struct {
		name string
		want uint64 // of 1000 rounds
		more uint64 // of as many as give 20 000 results
		run  func(d *digestOf, rng *rand.Rand)
	}{
		{"propagate", 0x1fdc71092407b0b3, 0x97d7e736b1136fd5, func(d *digestOf, rng *rand.Rand) {
			inputs, model := fiveDrains(t)
			for i := range inputs {
				inputs[i].Of = inputs[i].Of.Shift(float64(rng.Float64() / 4))
			}
			r, err := measure.Propagate(measure.Propagation{Inputs: inputs, Model: model})
			d.add(err, r.Value(), r.U())
			for _, term := range r.Terms() {
				d.add(nil, term.Scale)
			}
		}},
		{"expanded", 0xb6de389eb26d7bd4, 0x10d4e23d9891d828, func(d *digestOf, rng *rand.Rand) {
			a := uncertain(t, "a", 1, rng.Float64(), measure.Student, 1+float64(20*rng.Float64()))
			b := uncertain(t, "b", 1, rng.Float64(), measure.Rectangular, 0)
			e, err := a.Plus(b).Expanded(0.5 + float64(0.499*rng.Float64()))
			d.add(err, e.U, e.K, e.DoF)
		}},
		{"mixture", 0x6392a1fd59a6fb56, 0xf0102a0d1ab62767, func(d *digestOf, rng *rand.Rand) {
			m := measure.Mixture{Low: 10 + rng.Float64(), High: 12 + rng.Float64(), Given: oldShareGiven}
			q, err := m.Quantiles(0.025, 0.2+float64(0.6*rng.Float64()), 0.975)
			d.add(err, q...)
			d.add(nil, m.CDF(q[1]))
		}},
		{"decide", 0xf21a1db03ca0627b, 0x63401bcbce1937c0, func(d *digestOf, rng *rand.Rand) {
			c := curve(t, uncertain(t, "a", 40+float64(20*rng.Float64()), 3*rng.Float64(), measure.Normal, 5), measure.Shape(rng.IntN(3)))
			v, err := measure.DecideOn(measure.Between(40, 60), c, 0.01+float64(0.4*rng.Float64()))
			d.add(err, float64(v.Verdict), v.Inside, v.Below, v.Above, v.AcceptLow, v.AcceptHigh)
		}},
	} {
		rng := rand.New(rand.NewPCG(4, 4))
		d := &digestOf{tb: t}
		for range 1000 {
			c.run(d, rng)
		}
		if got := d.sum(); got != c.want {
			t.Errorf("%s: digest %#x of %d results, want %#x", c.name, got, len(d.bytes)/8, c.want)
		}
		for len(d.bytes) < 8*20_000 {
			c.run(d, rng)
		}
		if got := d.sum(); got != c.more {
			t.Errorf("%s: digest %#x of %d results, want %#x", c.name, got, len(d.bytes)/8, c.more)
		}
	}
}
