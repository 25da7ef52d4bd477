package elementary

import "math"

// TrigRange is the largest |x|, in radians, that Sin, Cos and Tan take.
const TrigRange = 1e6

// π/2 in pieces. The first three have 33 significant bits, so that their
// product with up to 20 bits of turns is exact. Exact value: OEIS A019669; the
// tests recompute it.
const (
	halfPi1 = 0x1.921fb544p0
	halfPi2 = 0x1.0b4611a6p-34
	halfPi3 = 0x1.3198a2ep-69
	halfPi4 = 0x1.b839a252049c1p-104

	twoOverPi = 0.636619772367581343075535053490057448 // OEIS A060294
)

// Sin returns the sine of x in radians, error below 1 ulp, for |x| <= TrigRange.
// Beyond that, and for infinities, it returns NaN. Sin(±0) is ±0.
func Sin(x float64) float64 {
	if x == 0 {
		return x
	}
	r, quadrant := turn(x)
	sin, cos := sine(r), cosine(r)
	switch quadrant {
	case 0:
		return sin.value()
	case 1:
		return cos.value()
	case 2:
		return -sin.value()
	}
	return -cos.value()
}

// Cos returns the cosine of x in radians, error below 1 ulp, for |x| <=
// TrigRange. Beyond that, and for infinities, it returns NaN.
func Cos(x float64) float64 {
	r, quadrant := turn(x)
	sin, cos := sine(r), cosine(r)
	switch quadrant {
	case 0:
		return cos.value()
	case 1:
		return -sin.value()
	case 2:
		return -cos.value()
	}
	return sin.value()
}

// Tan returns the tangent of x in radians, error below 1.5 ulp, for |x| <=
// TrigRange. Beyond that, and for infinities, it returns NaN. Tan(±0) is ±0.
func Tan(x float64) float64 {
	if x == 0 {
		return x
	}
	r, quadrant := turn(x)
	sin, cos := sine(r), cosine(r)
	sin = fastTwoSum(sin.hi, sin.lo)
	cos = fastTwoSum(cos.hi, cos.lo)
	if quadrant&1 == 0 {
		return sin.over(cos).value()
	}
	return -cos.over(sin).value()
}

// turn writes x as n quarter turns plus r with |r| <= π/4 (a hair more at the
// edge) and returns n modulo 4. Out of range it returns NaN.
func turn(x float64) (r twofold, quadrant int) {
	if !(math.Abs(x) <= TrigRange) {
		return twofold{math.NaN(), 0}, 0
	}
	if math.Abs(x) <= math.Pi/4 {
		return twofold{x, 0}, 0
	}
	const shifter = 0x1.8p52
	n := (float64(x*twoOverPi) + shifter) - shifter
	// Exact, and exact again: nothing is lost however close x is to a multiple.
	r = twoSum(x-float64(n*halfPi1), float64(-n*halfPi2))
	rest := twofold{float64(-n * halfPi3), float64(-n * halfPi4)}
	return r.plus(rest), int(n) & 3
}

// sine returns sin(r) for |r| <= π/4 as its leading part r and the rest. The
// polynomial interpolates at Chebyshev points, error below 2^-66.
func sine(r twofold) twofold {
	z := float64(r.hi * r.hi)
	p := horner(z, -0x1.5555555555555p-3, 0x1.1111111111110p-7, -0x1.a01a01a01992fp-13,
		0x1.71de3a545f836p-19, -0x1.ae645410e937bp-26, 0x1.61217d9252c03p-33, -0x1.ab16f5caa198ap-41)
	lo := float64(r.lo * (1 - float64(0.5*z)))
	return twofold{r.hi, float64(float64(r.hi*z)*p) + lo}
}

// cosine returns cos(r) for |r| <= π/4 as 1 - r²/2 and the rest. The
// polynomial interpolates at Chebyshev points, error below 2^-70.
func cosine(r twofold) twofold {
	z := float64(r.hi * r.hi)
	p := horner(z, 0x1.5555555555555p-5, -0x1.6c16c16c16c16p-10, 0x1.a01a01a019d06p-16,
		-0x1.27e4fb77125c5p-22, 0x1.1eed8deac3dfep-29, -0x1.9394b8bd50ae1p-37, 0x1.ab779550c8d9bp-45)
	half := float64(0.5 * z)
	head := 1 - half
	lost := (1 - head) - half
	return twofold{head, lost + (float64(float64(z*z)*p) - float64(r.hi*r.lo))}
}
