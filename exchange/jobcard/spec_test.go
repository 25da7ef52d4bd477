package jobcard

import (
	"math"
	"strings"
	"testing"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

func volumes(low, high float64) units.Range[units.VolumeDim] {
	r, err := units.NewRange(litres(low), litres(high))
	if err != nil {
		panic(err)
	}
	return r
}

// Every limit of a job from both sides: the last figure that is taken, and the first
// that is not, refused by the name of its field.
func TestSpecLimits(t *testing.T) {
	bare := func(edit func(*Spec)) Spec {
		s := Spec{Job: "limits", Capacity: volumes(8, 10), Fluid: Fluid{Density15: 850}}
		edit(&s)
		return s
	}
	huge := litres(math.NaN())
	for name, tt := range map[string]struct {
		good, bad []func(*Spec)
		want      string
	}{
		"capacity": {
			[]func(*Spec){func(s *Spec) { s.Capacity = volumes(3, 9) }, func(s *Spec) { s.Capacity = volumes(900, 1000) }, func(s *Spec) { s.Capacity = volumes(0.001, 0.001) }},
			[]func(*Spec){func(s *Spec) { s.Capacity = volumes(3, 9.001) }, func(s *Spec) { s.Capacity = volumes(900, 1000.001) }, func(s *Spec) { s.Capacity = volumes(0, 0) }, func(s *Spec) { s.Capacity = volumes(-1, 1) }, func(s *Spec) { s.Capacity = units.Range[units.VolumeDim]{} }},
			"capacity is",
		},
		"sump": {
			[]func(*Spec){func(s *Spec) { s.Sump = litres(8) }},
			[]func(*Spec){func(s *Spec) { s.Sump = litres(8.001) }, func(s *Spec) { s.Sump = litres(-0.1) }, func(s *Spec) { s.Sump = huge }},
			"sump is",
		},
		"usual drain": {
			[]func(*Spec){func(s *Spec) { s.UsualDrain = volumes(0, 7.999) }},
			[]func(*Spec){func(s *Spec) { s.UsualDrain = volumes(2, 8) }, func(s *Spec) { s.UsualDrain = volumes(-0.1, 2) }},
			"usual drain is",
		},
		"overfill": {
			[]func(*Spec){func(s *Spec) { s.Overfill = litres(2) }},
			[]func(*Spec){func(s *Spec) { s.Overfill = litres(2.001) }, func(s *Spec) { s.Overfill = litres(-0.1) }, func(s *Spec) { s.Overfill = huge }},
			"overfill is",
		},
		"on hand": {
			[]func(*Spec){func(s *Spec) { s.OnHand = litres(50) }},
			[]func(*Spec){func(s *Spec) { s.OnHand = litres(-0.1) }, func(s *Spec) { s.OnHand = huge }},
			"fluid on hand is",
		},
		"target": {
			[]func(*Spec){func(s *Spec) { s.Target = 0.999 }},
			[]func(*Spec){func(s *Spec) { s.Target = 1 }, func(s *Spec) { s.Target = -0.1 }, func(s *Spec) { s.Target = math.NaN() }},
			"target is",
		},
		"runs": {
			[]func(*Spec){func(s *Spec) { s.Runs = 1000 }},
			[]func(*Spec){func(s *Spec) { s.Runs = 1001 }, func(s *Spec) { s.Runs = -1 }},
			"runs is",
		},
		"reference": {
			[]func(*Spec){func(s *Spec) { s.Reference = units.Celsius(-20) }, func(s *Spec) { s.Reference = units.Celsius(120) }},
			[]func(*Spec){func(s *Spec) { s.Reference = units.Celsius(-20.001) }, func(s *Spec) { s.Reference = units.Celsius(120.001) }, func(s *Spec) { s.Reference = units.Celsius(math.NaN()) }},
			"reference is",
		},
		"fluid": {
			[]func(*Spec){func(s *Spec) { s.Fluid = Fluid{} }, func(s *Spec) { s.Fluid = Fluid{Expansion: 7e-4} }},
			[]func(*Spec){func(s *Spec) { s.Fluid.Expansion = 7e-4 }, func(s *Spec) { s.Fluid.Table = []thermal.DensityPoint{{}} }, func(s *Spec) { s.Fluid.Density15 = 2000 }},
			"fluid: ",
		},
		"ids": {
			[]func(*Spec){func(s *Spec) { s.Thermometers = []Thermometer{{ID: strings.Repeat("a", 64)}, {ID: "azAZ09-_."}} }},
			[]func(*Spec){func(s *Spec) { s.Thermometers = []Thermometer{{ID: strings.Repeat("a", 65)}} }, func(s *Spec) { s.Thermometers = []Thermometer{{}} }},
			"thermometer 1: id ",
		},
		"same id twice": {
			[]func(*Spec){func(s *Spec) { s.Scales = []Scale{{ID: "a"}, {ID: "b"}} }},
			[]func(*Spec){func(s *Spec) { s.Scales = []Scale{{ID: "a"}, {ID: "a"}} }},
			`scale 2: id "a" stands twice`,
		},
		"thermometer": {
			[]func(*Spec){func(s *Spec) { s.Thermometers = []Thermometer{{ID: "a"}} }},
			[]func(*Spec){
				func(s *Spec) { s.Thermometers = []Thermometer{{ID: "a", PlusMinus: units.CelsiusDegree.Of(-1)}} },
				func(s *Spec) { s.Thermometers = []Thermometer{{ID: "a", Step: units.CelsiusDegree.Of(-1)}} },
				func(s *Spec) {
					s.Thermometers = []Thermometer{{ID: "a", PlusMinus: units.CelsiusDegree.Of(math.NaN())}}
				},
				func(s *Spec) { s.Thermometers = []Thermometer{{ID: "a", Step: units.CelsiusDegree.Of(math.NaN())}} },
			},
			"thermometer 1: ± ",
		},
		"scale": {
			[]func(*Spec){func(s *Spec) { s.Scales = []Scale{{ID: "a"}} }},
			[]func(*Spec){
				func(s *Spec) { s.Scales = []Scale{{ID: "a", PlusMinus: units.Gram.Of(-1)}} },
				func(s *Spec) { s.Scales = []Scale{{ID: "a", Step: units.Gram.Of(-1)}} },
				func(s *Spec) { s.Scales = []Scale{{ID: "a", PlusMinus: units.Gram.Of(math.NaN())}} },
				func(s *Spec) { s.Scales = []Scale{{ID: "a", Step: units.Gram.Of(math.NaN())}} },
			},
			"scale 1: ± ",
		},
		"how many": {
			[]func(*Spec){func(s *Spec) { s.Scales = scales(mostListed) }},
			[]func(*Spec){func(s *Spec) { s.Scales = scales(mostListed + 1) }},
			"scales; want at most",
		},
		"washer of a plug": {
			nil,
			[]func(*Spec){func(s *Spec) {
				s.Plugs = []sealing.Plug{{ID: "fill", Role: sealing.Fill, Thread: mustThread("M18x1.5"), Washer: "ring"}}
			}},
			`takes washer "ring", which the job does not list`,
		},
	} {
		for i, edit := range tt.good {
			if err := bare(edit).Check(); err != nil {
				t.Errorf("%s, good %d: %v", name, i+1, err)
			}
		}
		for i, edit := range tt.bad {
			if err := bare(edit).Check(); err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("%s, bad %d: %v; want %q", name, i+1, err, tt.want)
			}
		}
	}
	for _, bad := range []string{"a b", "a/b", "a{", "a`", "a@", "a[", "a:", "ä"} {
		s := bare(func(s *Spec) { s.Thermometers = []Thermometer{{ID: bad}} })
		if err := s.Check(); err == nil || !strings.Contains(err.Error(), "letters, digits") {
			t.Errorf("id %q: %v", bad, err)
		}
	}
}

func scales(n int) []Scale {
	list := make([]Scale, n)
	for i := range list {
		list[i].ID = "s" + strings.Repeat("x", i%50) + string(rune('a'+i/50))
	}
	return list
}
