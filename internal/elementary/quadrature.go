package elementary

import "math"

// RuleMax is the largest number of nodes of a quadrature rule.
const RuleMax = 256

// GaussLegendre returns the nodes, ascending, and the weights of the rule with n
// nodes on [-1, 1] for a constant weight: exact for polynomials up to degree
// 2n-1, the weights sum to 2. Error of each node and weight: below 1 ulp. The
// rule is symmetric to the last bit. n outside 1..RuleMax gives nil.
func GaussLegendre(n int) (nodes, weights []float64) {
	if n < 1 || n > RuleMax {
		return nil, nil
	}
	nodes, weights = make([]float64, n), make([]float64, n)
	for i := range (n + 1) / 2 {
		x := -Cos(float64(math.Pi*(float64(i)+0.75)) / (float64(n) + 0.5)) // Tricomi
		if i+i+1 == n {
			x = 0
		}
		node, last := family{legendre, legendreSlope}.refine(x, n)
		// At a root (1-x²) P'(x) = n P(n-1)(x).
		slope := last.scaled(float64(n))
		weight := twofold{1, 0}.plus(node.times(node).negated()).shifted(2).over(slope.times(slope))
		mirror(nodes, weights, i, node.value(), weight.value())
	}
	return nodes, weights
}

// GaussHermite returns the nodes, ascending, and the weights of the rule with n
// nodes for the standard normal density (the probabilists' form): the sum of
// weight times f(node) is the mean of f(Z), exact for polynomials up to degree
// 2n-1, and the weights sum to 1. Error of each node and weight: below 1 ulp.
// The rule is symmetric to the last bit. n outside 1..RuleMax gives nil.
func GaussHermite(n int) (nodes, weights []float64) {
	if n < 1 || n > RuleMax {
		return nil, nil
	}
	nodes, weights = make([]float64, n), make([]float64, n)
	for i := range (n + 1) / 2 {
		x := -hermiteGuess(n, (n+1)/2-i)
		node, last := family{hermite, hermiteSlope}.refine(x, n)
		weight := twofold{1, 0}.over(last.times(last).scaled(float64(n)))
		mirror(nodes, weights, i, node.value(), weight.value())
	}
	return nodes, weights
}

// mirror sets the i-th node from both ends.
func mirror(nodes, weights []float64, i int, node, weight float64) {
	j := len(nodes) - 1 - i
	nodes[i], nodes[j] = node, -node
	if i == j {
		nodes[i] = 0 // never -0
	}
	weights[i], weights[j] = weight, weight
}

// family is a sequence of orthogonal polynomials p(0) = 1, p(1), ...
type family struct {
	next  func(x, p1, p0 twofold, k int) twofold  // p(k+1) from p(k) and p(k-1)
	slope func(x, p, last float64, n int) float64 // p'(n) from p(n) and p(n-1)
}

// refine finds the root of p(n) near x by Newton's method with twice the
// digits, and returns it with p(n-1) there.
func (f family) refine(x float64, n int) (root, last twofold) {
	root = twofold{x, 0}
	for range 20 {
		p, before := f.climb(root, n)
		move := -p.hi / f.slope(root.hi, p.hi, before.hi, n)
		root = root.plus(twofold{move, 0})
		if math.Abs(move) <= float64(1e-11*math.Abs(root.hi)) {
			break // the step squares the error: what is left is below 1e-20
		}
	}
	_, last = f.climb(root, n)
	return root, last
}

// climb returns p(n) and p(n-1) at x.
func (f family) climb(x twofold, n int) (p, last twofold) {
	p, last = twofold{1, 0}, twofold{}
	for k := range n {
		p, last = f.next(x, p, last, k), p
	}
	return p, last
}

// legendre returns P(k+1) = ((2k+1) x P(k) - k P(k-1)) / (k+1).
func legendre(x, p1, p0 twofold, k int) twofold {
	up := x.times(p1).scaled(float64(k + k + 1))
	return up.plus(p0.scaled(float64(-k))).over(twofold{float64(k + 1), 0})
}

// legendreSlope returns P'(n) from P(n) and P(n-1).
func legendreSlope(x, p, last float64, n int) float64 {
	return float64(float64(n)*(last-float64(x*p))) / float64((1-x)*(1+x))
}

// hermite returns the next Hermite polynomial scaled to unit mean square,
// h(k+1) = (x h(k) - √k h(k-1)) / √(k+1), which stays in range.
func hermite(x, p1, p0 twofold, k int) twofold {
	return x.times(p1).plus(p0.times(rootOf(float64(k))).negated()).over(rootOf(float64(k + 1)))
}

// hermiteSlope returns h'(n) = √n h(n-1).
func hermiteSlope(_, _, last float64, n int) float64 {
	return float64(math.Sqrt(float64(n)) * last)
}

// rootOf returns √a with twice the digits.
func rootOf(a float64) twofold {
	if a == 0 {
		return twofold{}
	}
	r := math.Sqrt(a)
	p := twoProduct(r, r)
	return fastTwoSum(r, ((a-p.hi)-p.lo)/(r+r))
}

// hermiteGuess returns roughly the j-th root from the middle, 0 for the middle
// one of an odd n, by the phase integral: with x = √(4n+2) sin φ the j-th root
// has (n+1/2)(φ + sin(2φ)/2) = (j-1/2)π, or (j-1)π where n is odd.
func hermiteGuess(n, j int) float64 {
	turns := float64(j) - 0.5
	if n%2 == 1 {
		turns = float64(j - 1)
	}
	c := float64(turns*math.Pi) / (float64(n) + 0.5)
	phi := float64(0.5 * c)
	for range 100 { // the left side is concave: the steps climb to the solution
		step := (c - phi - float64(0.5*Sin(phi+phi))) / (1 + Cos(phi+phi))
		phi += step
		if step <= 1e-9 {
			break
		}
	}
	return float64(math.Sqrt(float64(n+n+n+n+2)) * Sin(phi))
}
