package elementary

import (
	"math"
	"math/big"
	"testing"
)

// wideClimb runs a three-term recurrence p(k+1) = (u(k) x p(k) - v(k) p(k-1)) / w(k).
func wideClimb(x *big.Float, n int, u, v, w func(k int) *big.Float) (p, last *big.Float) {
	p, last = bigOf(1), big0()
	for k := range n {
		next := sub(mul(mul(u(k), x), p), mul(v(k), last))
		p, last = quo(next, w(k)), p
	}
	return p, last
}

func whole(k int) *big.Float { return bigOf(float64(k)) }

// wideLegendre returns P(n), its slope and the weight at x.
func wideLegendre(x *big.Float, n int) (p, slope, weight *big.Float) {
	p, last := wideClimb(x, n, func(k int) *big.Float { return whole(2*k + 1) }, whole, func(k int) *big.Float { return whole(k + 1) })
	around := sub(bigOf(1), mul(x, x))
	slope = quo(mul(whole(n), sub(last, mul(x, p))), around)
	return p, slope, quo(bigOf(2), mul(around, mul(slope, slope)))
}

// wideHermite does the same for He(n), unscaled: weight (n-1)!/(n He(n-1)²).
func wideHermite(x *big.Float, n int) (p, slope, weight *big.Float) {
	one := func(int) *big.Float { return bigOf(1) }
	p, last := wideClimb(x, n, one, whole, one)
	factorial := big0().SetInt(new(big.Int).MulRange(1, int64(n-1)))
	return p, mul(whole(n), last), quo(factorial, mul(whole(n), mul(last, last)))
}

func orders() []int {
	all := []int{31, 32, 33, 47, 48, 63, 64, 65, 96, 100, 128, 129, 200, 255, 256}
	for n := 1; n <= 24; n++ {
		all = append(all, n)
	}
	return all
}

func TestRulesAgainstWideRecurrence(t *testing.T) {
	for _, c := range []struct {
		name string
		rule func(int) (nodes, weights []float64)
		wide func(*big.Float, int) (p, slope, weight *big.Float)
	}{{"Legendre", GaussLegendre, wideLegendre}, {"Hermite", GaussHermite, wideHermite}} {
		var node, weight tally
		for _, n := range orders() {
			nodes, weights := c.rule(n)
			for i := range (n + 1) / 2 {
				x := bigOf(nodes[i])
				for range 2 { // the float is 2^-52 off: two steps leave 2^-200
					p, slope, _ := c.wide(x, n)
					x = sub(x, quo(p, slope))
				}
				_, _, w := c.wide(x, n)
				if n%2 == 1 && i == n/2 {
					x = big0()
				}
				node.add(ulpError(nodes[i], x), float64(n), float64(i))
				weight.add(ulpError(weights[i], w), float64(n), float64(i))
			}
		}
		node.report(t, "ulp, nodes of "+c.name, 1)
		weight.report(t, "ulp, weights of "+c.name, 1)
	}
}

func TestRulesOfManyOrders(t *testing.T) {
	for n := 1; n <= RuleMax; n += 1 + n/64 {
		for _, c := range []struct {
			name     string
			rule     func(int) (nodes, weights []float64)
			total    float64
			variance float64
		}{{"Legendre", GaussLegendre, 2, 2.0 / 3}, {"Hermite", GaussHermite, 1, 1}} {
			nodes, weights := c.rule(n)
			second := make([]float64, n)
			for i, x := range nodes {
				if i > 0 && !(x > nodes[i-1]) || x != -nodes[n-1-i] || weights[i] != weights[n-1-i] || !(weights[i] > 0) {
					t.Fatalf("%s %d: node %d is %v with weight %v", c.name, n, i, x, weights[i])
				}
				second[i] = weights[i] * x * x
			}
			if math.Abs(Sum(weights)/c.total-1) > 4e-16 {
				t.Errorf("%s %d: weights sum to %v", c.name, n, Sum(weights))
			}
			if n > 1 && math.Abs(Sum(second)/c.variance-1) > 1e-15 {
				t.Errorf("%s %d: second moment %v", c.name, n, Sum(second))
			}
		}
	}
}

// TestRulesIntegrate checks the property they are for: degree 2n-1 exactly, and
// a smooth function to all digits.
func TestRulesIntegrate(t *testing.T) {
	for n := 1; n <= 30; n++ {
		nodes, weights := GaussLegendre(n)
		terms := make([]float64, n)
		for power := 0; power < 2*n; power += 2 {
			for i, x := range nodes {
				terms[i] = weights[i] * IntPow(x, power)
			}
			if got, want := Sum(terms), 2/float64(power+1); math.Abs(got/want-1) > 1e-14 {
				t.Errorf("Legendre %d: x^%d integrates to %v, want %v", n, power, got, want)
			}
		}
		nodes, weights = GaussHermite(n)
		want := 1.0 // (power-1)!!
		for power := 2; power < 2*n; power += 2 {
			want *= float64(power - 1)
			for i, x := range nodes {
				terms[i] = weights[i] * IntPow(x, power)
			}
			if got := Sum(terms); math.Abs(got/want-1) > 1e-13 {
				t.Errorf("Hermite %d: x^%d has mean %v, want %v", n, power, got, want)
			}
		}
	}
	nodes, weights := GaussHermite(40) // the mean of cos Z is exp(-1/2)
	terms := make([]float64, len(nodes))
	for i, x := range nodes {
		terms[i] = weights[i] * Cos(x)
	}
	if got := Sum(terms); math.Abs(got-Exp(-0.5)) > 1e-15 {
		t.Errorf("mean of cos Z: got %v, want %v", got, Exp(-0.5))
	}
}
