package elementary

// A twofold is an unevaluated sum hi + lo of two floats with |lo| at most
// about half an ulp of hi: some 106 bits where a float has 53. Only + - * /
// rounded one by one are used, never a fused instruction.
type twofold struct{ hi, lo float64 }

// twoSum returns a + b exactly (Knuth, TAOCP vol. 2, 4.2.2, theorem B).
func twoSum(a, b float64) twofold {
	s := a + b
	t := s - a
	return twofold{s, (a - (s - t)) + (b - t)}
}

// fastTwoSum returns a + b exactly when |a| >= |b| or a == 0 (Dekker 1971).
func fastTwoSum(a, b float64) twofold {
	s := a + b
	return twofold{s, b - (s - a)}
}

// split returns a as two halves of 26 bits whose products are exact
// (Veltkamp). It overflows above 2^996: callers keep clear of that.
func split(a float64) (hi, lo float64) {
	const factor = 1<<27 + 1
	c := float64(factor * a)
	hi = c - (c - a)
	return hi, a - hi
}

// twoProduct returns a*b exactly (Dekker 1971) as long as nothing
// overflows and the low part does not underflow.
func twoProduct(a, b float64) twofold {
	p := float64(a * b)
	ah, al := split(a)
	bh, bl := split(b)
	e := float64(ah*bh) - p
	e += float64(ah * bl)
	e += float64(al * bh)
	return twofold{p, e + float64(al*bl)}
}

// plus returns a + b, relative error about 2^-104 unless a and b cancel.
func (a twofold) plus(b twofold) twofold {
	s := twoSum(a.hi, b.hi)
	t := twoSum(a.lo, b.lo)
	s = fastTwoSum(s.hi, s.lo+t.hi)
	return fastTwoSum(s.hi, s.lo+t.lo)
}

// times returns a * b, relative error about 2^-102.
func (a twofold) times(b twofold) twofold {
	p := twoProduct(a.hi, b.hi)
	cross := float64(a.hi*b.lo) + float64(a.lo*b.hi)
	return fastTwoSum(p.hi, p.lo+cross)
}

// scaled returns a * b for a plain float b.
func (a twofold) scaled(b float64) twofold {
	p := twoProduct(a.hi, b)
	return fastTwoSum(p.hi, p.lo+float64(a.lo*b))
}

// shifted returns a * b for b a power of two, which is exact.
func (a twofold) shifted(b float64) twofold {
	return twofold{float64(a.hi * b), float64(a.lo * b)}
}

// over returns a / b, relative error about 2^-100.
func (a twofold) over(b twofold) twofold {
	q := a.hi / b.hi
	p := b.scaled(q)
	rest := ((a.hi - p.hi) - p.lo) + a.lo
	return fastTwoSum(q, rest/b.hi)
}

// value rounds to one float.
func (a twofold) value() float64 { return a.hi + a.lo }

// negated returns -a.
func (a twofold) negated() twofold { return twofold{-a.hi, -a.lo} }
