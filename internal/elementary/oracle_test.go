package elementary

import (
	"math"
	"math/big"
)

// The slow oracle: textbook series in math/big. Nothing here shares a
// coefficient with the fast code.

// wide is the precision in bits, enough for well over 200 good ones where little cancels;
// atPrecision raises it for a far tail.
var wide uint = 256

func atPrecision(bits uint, f func()) {
	before := wide
	wide = bits
	defer func() { wide = before }()
	f()
}

func big0() *big.Float               { return new(big.Float).SetPrec(wide) }
func bigOf(x float64) *big.Float     { return big0().SetFloat64(x) }
func add(a, b *big.Float) *big.Float { return big0().Add(a, b) }
func sub(a, b *big.Float) *big.Float { return big0().Sub(a, b) }
func mul(a, b *big.Float) *big.Float { return big0().Mul(a, b) }
func quo(a, b *big.Float) *big.Float { return big0().Quo(a, b) }
func neg(a *big.Float) *big.Float    { return big0().Neg(a) }
func half(a *big.Float) *big.Float   { return big0().SetMantExp(a, -1) }
func float(a *big.Float) float64     { f, _ := a.Float64(); return f }
func below(a *big.Float, e int) bool { return a.Sign() == 0 || a.MantExp(nil) <= e }
func ratio(a, b int64) *big.Float    { return quo(big0().SetInt64(a), big0().SetInt64(b)) }

// ulpError returns how many ulp of want got is off.
func ulpError(got float64, want *big.Float) float64 {
	w := float(want)
	if math.IsInf(w, 0) || math.IsInf(got, 0) || got != got {
		if got == w {
			return 0
		}
		return math.Inf(1)
	}
	_, e := math.Frexp(w)
	off := sub(bigOf(got), want)
	return math.Abs(float(off.SetMantExp(off, -max(e-53, -1074))))
}

// relativeError returns |got/want - 1|.
func relativeError(got float64, want *big.Float) float64 {
	if want.Sign() == 0 || got != got || math.IsInf(got, 0) {
		return math.Inf(1)
	}
	return math.Abs(float(quo(sub(bigOf(got), want), want)))
}

// wideConstants holds what the oracle needs again and again.
type wideConstants struct {
	ln2, pi, halfPi, sqrtPi, sqrt2 *big.Float
	inverseFactorial               []*big.Float // 1/n!
	exp                            []*big.Float // e^(j/256), j = -128..128
	sin, cos                       []*big.Float // of j/64, j = 0..64
}

var constantsAt = map[uint]*wideConstants{}

func constants() *wideConstants {
	if constantsAt[wide] == nil {
		constantsAt[wide] = newConstants()
	}
	return constantsAt[wide]
}

func newConstants() *wideConstants {
	c := &wideConstants{}
	c.ln2 = atanhReciprocal(3, 2*wide)
	c.ln2.SetMantExp(c.ln2, 1)
	// Machin: π = 16 atan(1/5) - 4 atan(1/239).
	p := func(k int64, n int64) *big.Float {
		a := atanReciprocal(k, 2*wide)
		return a.Mul(a, new(big.Float).SetInt64(n))
	}
	c.pi = p(5, 16)
	c.pi.Sub(c.pi, p(239, 4))
	c.halfPi = new(big.Float).SetMantExp(c.pi, -1)
	c.sqrtPi = big0().Sqrt(c.pi)
	c.sqrt2 = big0().Sqrt(bigOf(2))
	f := bigOf(1)
	for n := 1; n < 400; n++ {
		c.inverseFactorial = append(c.inverseFactorial, quo(bigOf(1), f))
		f = mul(f, bigOf(float64(n)))
	}
	for j := -128; j <= 128; j++ {
		c.exp = append(c.exp, taylor(c, ratio(int64(j), 256), 0, 1, 1))
	}
	for j := 0; j <= 64; j++ {
		c.sin = append(c.sin, taylor(c, ratio(int64(j), 64), 1, 2, -1))
		c.cos = append(c.cos, taylor(c, ratio(int64(j), 64), 0, 2, -1))
	}
	return c
}

func atanhReciprocal(k int64, prec uint) *big.Float { return arcSeries(k, prec, 1) }
func atanReciprocal(k int64, prec uint) *big.Float  { return arcSeries(k, prec, -1) }

// arcSeries sums sign^n / ((2n+1) k^(2n+1)).
func arcSeries(k int64, prec uint, sign int64) *big.Float {
	of := func(i int64) *big.Float { return new(big.Float).SetPrec(prec).SetInt64(i) }
	power := of(1)
	power.Quo(power, of(k))
	sum := of(0)
	for n := int64(0); !below(power, -int(prec)-8); n++ {
		sum.Add(sum, new(big.Float).SetPrec(prec).Quo(power, of(2*n+1)))
		power.Quo(power, of(sign*k*k))
	}
	return sum
}

// taylor sums sign^i x^n/n! over n = first, first+step, ...
func taylor(c *wideConstants, x *big.Float, first, step int, sign float64) *big.Float {
	base := mul(x, x)
	if step == 1 {
		base = big0().Set(x)
	}
	if sign < 0 {
		base.Neg(base)
	}
	// Far enough that the next term is below 2^-wide of the first.
	last, size := first, 0.0
	e := math.Min(-0.5, float64(x.MantExp(nil)))
	for size > -float64(wide)-10 && last+step < len(c.inverseFactorial) {
		last += step
		size = e*float64(last-first) - logFactorial(last)
	}
	sum := big0().Set(c.inverseFactorial[last])
	for n := last - step; n >= first; n -= step {
		sum.Mul(sum, base)
		sum.Add(sum, c.inverseFactorial[n])
	}
	if first == 1 {
		sum.Mul(sum, x)
	}
	return sum
}

// logFactorial returns the binary logarithm of n!, roughly.
func logFactorial(n int) float64 {
	l, _ := math.Lgamma(float64(n + 1))
	return l / math.Ln2
}

// wideExp returns e^x.
func wideExp(x *big.Float) *big.Float {
	c := constants()
	k := math.Round(float(x) / math.Ln2)
	r := sub(x, mul(bigOf(k), c.ln2))
	j := int(math.Round(float(r) * 256))
	e := mul(c.exp[j+128], taylor(c, sub(r, ratio(int64(j), 256)), 0, 1, 1))
	return e.SetMantExp(e, int(k))
}

// wideExpm1 returns e^x - 1.
func wideExpm1(x *big.Float) *big.Float {
	if below(x, -8) {
		return taylor(constants(), x, 1, 1, 1)
	}
	return sub(wideExp(x), bigOf(1))
}

// wideLog returns ln x by one step of a fourth-order method from a float: the
// float only says where to look.
func wideLog(x *big.Float) *big.Float {
	c := constants()
	m := big0()
	k := x.MantExp(m)
	if float(m) < math.Sqrt2/2 {
		m.SetMantExp(m, 1)
		k--
	}
	start := bigOf(math.Log(float(m)))
	z := sub(mul(m, wideExp(neg(start))), bigOf(1))
	return add(add(start, wideLog1p(z)), mul(bigOf(float64(k)), c.ln2))
}

// wideLog1p returns ln(1+x).
func wideLog1p(x *big.Float) *big.Float {
	if !below(x, -25) {
		return wideLog(new(big.Float).SetPrec(3*wide).Add(bigOf(1), x))
	}
	sum, power := big0().Set(x), big0().Set(x)
	first := x.MantExp(nil)
	for n := 2; !below(power, first-int(wide)); n++ {
		power.Mul(power, x)
		power.Neg(power)
		sum.Add(sum, quo(power, bigOf(float64(n))))
	}
	return sum
}

// widePow returns x^y for x > 0.
func widePow(x, y *big.Float) *big.Float { return wideExp(mul(y, wideLog(x))) }

// wideSinCos returns sine and cosine of x.
func wideSinCos(x *big.Float) (sin, cos *big.Float) {
	c := constants()
	n := math.Round(float(x) / (math.Pi / 2))
	r := new(big.Float).SetPrec(2*wide).Mul(new(big.Float).SetFloat64(n), c.halfPi)
	r.Sub(x, r)
	minus := r.Sign() < 0
	r.Abs(r).SetPrec(wide)
	j := int(math.Round(float(r) * 64))
	t := sub(r, ratio(int64(j), 64))
	st, ct := taylor(c, t, 1, 2, -1), taylor(c, t, 0, 2, -1)
	if t.Sign() == 0 {
		st = big0()
	}
	sin = add(mul(c.sin[j], ct), mul(c.cos[j], st))
	cos = sub(mul(c.cos[j], ct), mul(c.sin[j], st))
	if minus {
		sin.Neg(sin)
	}
	switch int64(n) & 3 {
	case 1:
		return cos, neg(sin)
	case 2:
		return neg(sin), neg(cos)
	case 3:
		return neg(cos), sin
	}
	return sin, cos
}

func wideSin(x *big.Float) *big.Float { s, _ := wideSinCos(x); return s }
func wideCos(x *big.Float) *big.Float { _, c := wideSinCos(x); return c }
func wideTan(x *big.Float) *big.Float { s, c := wideSinCos(x); return quo(s, c) }
