package elementary

// horner evaluates c[0] + c[1]*x + c[2]*x² + ..., each step rounded twice.
func horner(x float64, c ...float64) float64 {
	if len(c) == 0 {
		return 0
	}
	p := c[len(c)-1]
	for i := len(c) - 2; i >= 0; i-- {
		p = float64(p*x) + c[i]
	}
	return p
}

// cubic evaluates c0 + c1*x + c2*x² + c3*x³ as two halves that a processor
// can work on at once; x2 is x*x.
func cubic(x, x2, c0, c1, c2, c3 float64) float64 {
	low := c0 + float64(c1*x)
	high := c2 + float64(c3*x)
	return low + float64(high*x2)
}
