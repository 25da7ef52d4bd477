package measure

import (
	"math"
	"testing"

	"example.com/meniscus/internal/elementary"
)

// The nodes written down are those that internal/elementary computes.
func TestAbscissas(t *testing.T) {
	for _, n := range []int{16, 32} {
		nodes, weights := elementary.GaussLegendre(n)
		for i, a := range abscissas(n) {
			if x, w := nodes[n/2+i], weights[n/2+i]; math.Abs(a.x-x) > 2e-16 || math.Abs(a.w-w) > 2e-16 {
				t.Errorf("node %d of %d: %v with %v, computed %v with %v", i, n, a.x, a.w, x, w)
			}
		}
	}
}

// A rule integrates polynomials exactly: the mean and deviation of a rectangle.
func TestRuleMoments(t *testing.T) {
	m := Mixture{Low: 2, High: 5, Given: func(x float64) Component { return Component{Mean: x} }}
	for n := fewNodes / 2; n <= mostNodes; n *= 2 {
		r, err := m.rule(n, make([]node, fewNodes))
		if err != nil {
			t.Fatal(err)
		}
		if len(r.nodes) != n || math.Abs(r.mean-3.5) > 1e-13 || math.Abs(r.sd-3/math.Sqrt(12)) > 1e-13 {
			t.Errorf("%d nodes: %d, mean %v, deviation %v", n, len(r.nodes), r.mean, r.sd)
		}
	}
}

func TestBeforeIsTheNextFloatDown(t *testing.T) {
	for _, x := range []float64{0, math.SmallestNonzeroFloat64, -math.SmallestNonzeroFloat64, 1, -1, 1e300, -1e300, 0.1} {
		if got, want := before(x), math.Nextafter(x, math.Inf(-1)); got != want {
			t.Errorf("before %v: %v; want %v", x, got, want)
		}
	}
}
