package units

import "testing"

// Results go to package variables so that the compiler cannot drop the work.
var (
	sinkVolume Volume
	sinkFloat  float64
	sinkString string
	sinkBytes  []byte
	sinkErr    error
)

func BenchmarkOf(b *testing.B) {
	b.ReportAllocs()
	x := 2.5
	for b.Loop() {
		sinkVolume = USQuart.Of(x)
	}
}

func BenchmarkIn(b *testing.B) {
	b.ReportAllocs()
	v := USQuart.Of(2.5)
	for b.Loop() {
		sinkFloat = v.In(Millilitre)
	}
}

func BenchmarkOfIn(b *testing.B) {
	b.ReportAllocs()
	x := 2.5
	for b.Loop() {
		sinkFloat = USQuart.Of(x).In(USQuart)
	}
}

func BenchmarkTorqueOfIn(b *testing.B) {
	b.ReportAllocs()
	x := 26.5
	for b.Loop() {
		sinkFloat = PoundForceFoot.Of(x).In(PoundForceFoot)
	}
}

func BenchmarkOfLongDecimal(b *testing.B) {
	b.ReportAllocs()
	x := 2.5000000000000004
	for b.Loop() {
		sinkVolume = USQuart.Of(x)
	}
}

func BenchmarkScale(b *testing.B) {
	b.ReportAllocs()
	v := USQuart.Of(2.5)
	for b.Loop() {
		sinkVolume = v.Scale(0.75)
	}
}

func BenchmarkRatio(b *testing.B) {
	b.ReportAllocs()
	v, w := USQuart.Of(2.5), USQuart.Of(12)
	for b.Loop() {
		sinkFloat = v.Ratio(w)
	}
}

func BenchmarkAdd(b *testing.B) {
	b.ReportAllocs()
	v, w := USQuart.Of(2.5), USQuart.Of(12)
	for b.Loop() {
		sinkVolume = v.Add(w)
	}
}

func BenchmarkParse(b *testing.B) {
	for _, s := range []string{"2.5 qt", "2.5 US qt", "2 1/2 qt", "2½ qt", "1/3 qt", "2.36588236500000 L", "26 frobs"} {
		b.Run(s, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sinkVolume, sinkErr = ParseVolume(s)
			}
		})
	}
}

func BenchmarkParseTorque(b *testing.B) {
	for _, s := range []string{"26 lbf·ft", "26 ft-lb", "35 N·m", "35 Nm"} {
		b.Run(s, func(b *testing.B) {
			b.ReportAllocs()
			var q Torque
			for b.Loop() {
				q, sinkErr = ParseTorque(s)
			}
			sinkFloat = q.In(NewtonMetre)
		})
	}
}

func BenchmarkParseRange(b *testing.B) {
	b.ReportAllocs()
	var r Range[VolumeDim]
	for b.Loop() {
		r, sinkErr = ParseRange[VolumeDim]("12 to 15 US qt")
	}
	sinkVolume = r.High()
}

func BenchmarkMarshalText(b *testing.B) {
	b.ReportAllocs()
	v := USQuart.Of(2.5)
	for b.Loop() {
		sinkBytes, sinkErr = v.MarshalText()
	}
}

func BenchmarkAppendText(b *testing.B) {
	b.ReportAllocs()
	v := USQuart.Of(2.5)
	buf := make([]byte, 0, textBytes)
	for b.Loop() {
		sinkBytes, sinkErr = v.AppendText(buf)
	}
}

func BenchmarkUnmarshalText(b *testing.B) {
	b.ReportAllocs()
	text := []byte("2.365882365 L")
	for b.Loop() {
		sinkErr = sinkVolume.UnmarshalText(text)
	}
}

func BenchmarkInOfNoDecimal(b *testing.B) {
	b.ReportAllocs()
	v := Litre.Of(1)
	for b.Loop() {
		sinkFloat = v.In(USQuart)
	}
}

func BenchmarkDecimal(b *testing.B) {
	b.ReportAllocs()
	v := USQuart.Of(2.5)
	for b.Loop() {
		_, sinkErr = v.Decimal(Litre, 2, HalfEven)
	}
}

func BenchmarkCelsius(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		sinkFloat = Fahrenheit(97).Celsius()
	}
}

func BenchmarkText(b *testing.B) {
	b.ReportAllocs()
	v := USQuart.Of(2.5)
	for b.Loop() {
		sinkString = v.Text(USQuart, 2)
	}
}
