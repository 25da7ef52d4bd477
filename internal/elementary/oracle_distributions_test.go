package elementary

import (
	"math"
	"math/big"
)

// wideErf returns Erf(x) by a series of positive terms,
// 2/√π exp(-x²) Σ 2^n x^(2n+1) / (1·3·...·(2n+1)) (Abramowitz and Stegun 7.1.6).
func wideErf(x *big.Float) *big.Float {
	if x.Sign() == 0 {
		return big0()
	}
	term, twice := big0().Set(x), mul(x, mul(x, bigOf(2)))
	sum := big0().Set(x)
	for n := 1; !below(term, sum.MantExp(nil)-int(wide)); n++ {
		term.Mul(term, twice)
		term.Quo(term, bigOf(float64(2*n+1)))
		sum.Add(sum, term)
	}
	sum = mul(sum, wideExp(neg(mul(x, x))))
	return quo(mul(sum, bigOf(2)), constants().sqrtPi)
}

// wideErfc returns Erfc(x), from 4 on by Laplace's continued fraction
// (Abramowitz and Stegun 7.1.14) from far inside outwards.
func wideErfc(x *big.Float) *big.Float {
	xf := float(x)
	if xf < 4 {
		return sub(bigOf(1), wideErf(x))
	}
	depth := int(math.Pow(0.4*float64(wide)/xf, 2)/2) + 10
	f := big0().Set(x)
	for n := depth; n > 0; n-- {
		f.Quo(bigOf(float64(n)/2), f)
		f.Add(f, x)
	}
	return quo(wideExp(neg(mul(x, x))), mul(f, constants().sqrtPi))
}

// wideNormalCDF returns the lower tail of the normal distribution.
func wideNormalCDF(z *big.Float) *big.Float {
	return half(wideErfc(neg(quo(z, constants().sqrt2))))
}

func wideNormalPDF(z *big.Float) *big.Float {
	return quo(wideExp(neg(half(mul(z, z)))), mul(constants().sqrtPi, constants().sqrt2))
}

// bernoulli returns B(2), B(4), ..., B(2n).
func bernoulli(n int) []*big.Rat {
	all := []*big.Rat{big.NewRat(1, 1)}
	for m := 1; m <= 2*n; m++ {
		sum := new(big.Rat)
		for k, b := range all {
			c := new(big.Rat).SetInt(new(big.Int).Binomial(int64(m+1), int64(k)))
			sum.Add(sum, c.Mul(c, b))
		}
		all = append(all, sum.Mul(sum, big.NewRat(-1, int64(m+1))))
	}
	var even []*big.Rat
	for k := 2; k <= 2*n; k += 2 {
		even = append(even, all[k])
	}
	return even
}

// stirlingAt holds B(2k)/(2k(2k-1)) per precision, and ln √(2π) last.
var stirlingAt = map[uint][]*big.Float{}

func stirlingNumbers() []*big.Float {
	if stirlingAt[wide] == nil {
		var all []*big.Float
		for i, b := range bernoulli(60) {
			k := float64(2 * (i + 1))
			all = append(all, quo(big0().SetRat(b), bigOf(k*(k-1))))
		}
		stirlingAt[wide] = append(all, half(wideLog(mul(constants().pi, bigOf(2)))))
	}
	return stirlingAt[wide]
}

// wideLogGamma returns ln Γ(x) by Stirling's series at x + n, n large.
func wideLogGamma(x *big.Float) *big.Float {
	product := bigOf(1)
	x = big0().Set(x)
	from := float64(wide) / 6
	if wide > 300 {
		from = 4 * float64(wide) // 60 terms reach 1e-300 and 200 bits only out there
	}
	for float(x) < from {
		product.Mul(product, x)
		x.Add(x, bigOf(1))
	}
	numbers := stirlingNumbers()
	sum := mul(sub(x, bigOf(0.5)), wideLog(x))
	sum.Sub(sum, x)
	sum.Add(sum, numbers[len(numbers)-1])
	power, step := quo(bigOf(1), x), quo(bigOf(1), mul(x, x))
	for _, b := range numbers[:len(numbers)-1] {
		term := mul(b, power)
		if below(term, -int(wide)) {
			break
		}
		sum.Add(sum, term)
		power.Mul(power, step)
	}
	sum.Sub(sum, wideLog(product))
	if below(sum, 30-int(wide)) {
		return big0() // the zeros at 1 and 2 cancel to noise
	}
	return sum
}

// A powerSeries is Σ c(n) x^n with the c(n) worked out once for many x.
type powerSeries struct {
	next func(n int) *big.Float // c(n)/c(n-1)
	c    []*big.Float
}

// at sums until terms fall below the precision; all are positive.
func (p *powerSeries) at(x *big.Float) *big.Float {
	last, size := 1, 0
	for n := 1; size > -int(wide)-2; n++ {
		for len(p.c) <= n {
			if len(p.c) == 0 {
				p.c = append(p.c, bigOf(1))
				continue
			}
			p.c = append(p.c, mul(p.c[len(p.c)-1], p.next(len(p.c))))
		}
		last = n
		size = p.c[n].MantExp(nil) + int(float64(n)*math.Log2(float(x)))
	}
	sum := big0().Set(p.c[last])
	for n := last - 1; n >= 0; n-- {
		sum.Mul(sum, x)
		sum.Add(sum, p.c[n])
	}
	return sum
}

// A wideGamma is the incomplete gamma function of one shape: P(a, x) =
// x^a exp(-x)/Γ(a+1) (1 + x/(a+1) + ...) (Abramowitz and Stegun 6.5.29).
type wideGamma struct {
	a, logGamma *big.Float
	series      powerSeries
}

func newWideGamma(a float64) *wideGamma {
	g := &wideGamma{a: bigOf(a), logGamma: wideLogGamma(add(bigOf(a), bigOf(1)))}
	g.series.next = func(n int) *big.Float { return quo(bigOf(1), add(g.a, bigOf(float64(n)))) }
	return g
}

func (g *wideGamma) below(x *big.Float) *big.Float {
	e := sub(sub(mul(g.a, wideLog(x)), x), g.logGamma)
	return mul(g.series.at(x), wideExp(e))
}

// density returns x times the density, x^a exp(-x)/Γ(a).
func (g *wideGamma) density(x *big.Float) *big.Float {
	return mul(g.a, wideExp(sub(sub(mul(g.a, wideLog(x)), x), g.logGamma)))
}

// widePoissonBelow returns Q(n, x) for whole n: the chance of fewer than n
// events of mean x, summed from the largest count down.
func widePoissonBelow(n int, x *big.Float) *big.Float {
	sum, term := bigOf(1), bigOf(1)
	for k := n - 1; k > 0 && !below(term, sum.MantExp(nil)-int(wide)); k-- {
		term.Mul(term, bigOf(float64(k)))
		term.Quo(term, x)
		sum.Add(sum, term)
	}
	last := sub(mul(bigOf(float64(n-1)), wideLog(x)), x) // ln of x^(n-1) exp(-x)
	return mul(sum, wideExp(sub(last, wideLogGamma(bigOf(float64(n))))))
}

// wideLogBeta returns ln B(a, b).
func wideLogBeta(a, b *big.Float) *big.Float {
	return sub(add(wideLogGamma(a), wideLogGamma(b)), wideLogGamma(add(a, b)))
}

// A wideBeta is the incomplete beta function of two shapes: I_x(a, b) =
// x^a y^b / (a B) Σ (a+b)_n / (a+1)_n x^n, y = 1-x (Abramowitz and Stegun 26.5.4).
type wideBeta struct {
	a, b, logBeta  *big.Float
	series, mirror powerSeries
}

func newWideBeta(a, b *big.Float) *wideBeta {
	w := &wideBeta{a: a, b: b, logBeta: wideLogBeta(a, b)}
	next := func(a *big.Float) func(int) *big.Float {
		return func(n int) *big.Float {
			m := bigOf(float64(n - 1))
			return quo(add(add(w.a, w.b), m), add(add(a, bigOf(1)), m))
		}
	}
	w.series.next, w.mirror.next = next(a), next(b)
	return w
}

// below returns I_x(a, b), summed on the side of x = 1/2 that is quick.
func (w *wideBeta) below(x, y *big.Float) *big.Float {
	e := wideExp(sub(add(mul(w.a, wideLog(x)), mul(w.b, wideLog(y))), w.logBeta))
	if float(x) < 0.5 {
		return quo(mul(e, w.series.at(x)), w.a)
	}
	return sub(bigOf(1), quo(mul(e, w.mirror.at(y)), w.b))
}

// A wideStudent is Student's distribution of one number of degrees of freedom.
type wideStudent struct {
	dof  *big.Float
	beta *wideBeta
}

func newWideStudent(dof float64) *wideStudent {
	return &wideStudent{bigOf(dof), newWideBeta(half(bigOf(dof)), bigOf(0.5))}
}

// tail returns the chance above t > 0.
func (s *wideStudent) tail(t *big.Float) *big.Float {
	square := mul(t, t)
	total := add(square, s.dof)
	return half(s.beta.below(quo(s.dof, total), quo(square, total)))
}

// density returns the density at t.
func (s *wideStudent) density(t *big.Float) *big.Float {
	e := mul(half(add(s.dof, bigOf(1))), wideLog1p(quo(mul(t, t), s.dof)))
	return quo(wideExp(neg(add(e, s.beta.logBeta))), big0().Sqrt(s.dof))
}
