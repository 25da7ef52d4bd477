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

func BenchmarkText(b *testing.B) {
	b.ReportAllocs()
	v := USQuart.Of(2.5)
	for b.Loop() {
		sinkString = v.Text(USQuart, 2)
	}
}
