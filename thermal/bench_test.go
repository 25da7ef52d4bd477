package thermal

import (
	"testing"
	"time"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func BenchmarkFactor(b *testing.B) {
	f, at := mustLubricant(b, 850), units.Celsius(60)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Factor(at); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkConvert(b *testing.B) {
	for _, c := range []struct {
		name  string
		fluid Fluid
	}{{"lubricant", mustLubricant(b, 850)}, {"table", handbookTable(b)}} {
		b.Run(c.name, func(b *testing.B) {
			v, from, to := units.Litre.Of(2.84), units.Celsius(60), units.Celsius(20)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := c.fluid.Convert(v, from, to); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkConvertMeasured(b *testing.B) {
	f := mustLubricant(b, 850)
	v, from, to := litresWith(b, 2.84, 0.01, "v"), celsiusWith(b, 60, 1, "probe"), measure.TemperatureExactly(units.Celsius(15))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.ConvertMeasured(v, from, to); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkVesselRead(b *testing.B) {
	jug := Vessel{ID: "jug-a", Material: Polypropylene, Graduation: units.Millilitre.Of(50), ScaleError: 0.02, Entry: "drain-1"}
	read, at := units.Litre.Of(2.84), measure.TemperatureExactly(units.Celsius(60))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := jug.Read(read, at); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkClosing(b *testing.B) {
	w, f, c, at := exampleWindow(), mustLubricant(b, 850), units.Litre.Of(12.8), units.Fahrenheit(115)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := w.Closing(f, c, Aluminium, at); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkRefit adds one reading to a trend of 10 and of 10 000: the cost is
// the same.
func BenchmarkRefit(b *testing.B) {
	for _, n := range []int{10, 10_000} {
		b.Run(map[int]string{10: "after10", 10_000: "after10000"}[n], func(b *testing.B) {
			truth := Lumped{units.Celsius(24), units.Celsius(82), 25 * time.Minute}
			tr := follow(b, Course{PlateauLow: units.Celsius(78), PlateauHigh: units.Celsius(86)})
			step := 10 * time.Minute / time.Duration(n)
			for i := range n {
				c, err := truth.At(time.Duration(i) * step)
				if err != nil {
					b.Fatal(err)
				}
				if tr, err = tr.Add(time.Duration(i)*step, c); err != nil {
					b.Fatal(err)
				}
			}
			next, w := units.Celsius(45), exampleWindow()
			b.ReportAllocs()
			for b.Loop() {
				longer, err := tr.Add(11*time.Minute, next)
				if err != nil {
					b.Fatal(err)
				}
				if _, err := longer.Forecast(w); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkSurface(b *testing.B) {
	i := Infrared{Reading: units.Celsius(40), Reflected: units.Celsius(20), Emissivity: 0.9, Set: 0.95, Reflection: ReflectionSubtracted}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := i.Surface(); err != nil {
			b.Fatal(err)
		}
	}
}
