package thermal

import (
	"math"
	"math/big"
	"testing"
)

// The slow oracle: the same equations in 200-bit arithmetic, with an
// exponential from its own series.

const bits = 200

func bigF(x float64) *big.Float { return new(big.Float).SetPrec(bits).SetFloat64(x) }

func bigS(t testing.TB, s string) *big.Float {
	t.Helper()
	x, ok := new(big.Float).SetPrec(bits).SetString(s)
	if !ok {
		t.Fatalf("not a number: %q", s)
	}
	return x
}

func mul(x *big.Float, more ...*big.Float) *big.Float {
	z := new(big.Float).SetPrec(bits).Set(x)
	for _, y := range more {
		z.Mul(z, y)
	}
	return z
}

func add(x *big.Float, more ...*big.Float) *big.Float {
	z := new(big.Float).SetPrec(bits).Set(x)
	for _, y := range more {
		z.Add(z, y)
	}
	return z
}

func sub(x, y *big.Float) *big.Float { return new(big.Float).SetPrec(bits).Sub(x, y) }
func div(x, y *big.Float) *big.Float { return new(big.Float).SetPrec(bits).Quo(x, y) }

// bigExp halves x sixteen times, sums the series, and squares back.
func bigExp(x *big.Float) *big.Float {
	const halvings = 16
	small := new(big.Float).SetPrec(bits+40).SetMantExp(x, -halvings)
	sum := new(big.Float).SetPrec(bits + 40).SetInt64(1)
	term := new(big.Float).SetPrec(bits + 40).SetInt64(1)
	for n := int64(1); n < 40; n++ {
		term.Mul(term, small)
		term.Quo(term, new(big.Float).SetInt64(n))
		sum.Add(sum, term)
	}
	for range halvings {
		sum.Mul(sum, sum)
	}
	return sum.SetPrec(bits)
}

// bigLog inverts bigExp by Newton's method from the float64 logarithm.
func bigLog(x *big.Float) *big.Float {
	f, _ := x.Float64()
	y := bigF(math.Log(f))
	for range 4 {
		y = add(y, sub(div(x, bigExp(y)), bigF(1)))
	}
	return y
}

// relative is |got/want - 1|, computed in the oracle's precision.
func relative(got float64, want *big.Float) float64 {
	d, _ := sub(div(bigF(got), want), bigF(1)).Float64()
	return math.Abs(d)
}

// near fails when got is farther from want than tolerance.
func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.12g, want %.12g ± %g", what, got, want, tolerance)
	}
}

// rand01 is a small generator of our own, so that the cases never change.
type rand01 uint64

func (r *rand01) next() float64 {
	*r += 0x9e3779b97f4a7c15
	z := uint64(*r)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	z ^= z >> 31
	return float64(z>>11) / (1 << 53)
}

func (r *rand01) between(low, high float64) float64 { return low + float64((high-low)*r.next()) }

// normal is good enough for noise: the sum of twelve uniforms.
func (r *rand01) normal() float64 {
	sum := -6.0
	for range 12 {
		sum += r.next()
	}
	return sum
}

func TestOracle(t *testing.T) {
	e, _ := bigExp(bigF(1)).Float64()
	near(t, "e", e, math.E, 0)
	back, _ := bigLog(bigExp(bigF(0.123))).Float64()
	near(t, "ln exp", back, 0.123, 0)
}
