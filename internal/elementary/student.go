package elementary

import "math"

// From here on Student's distribution is summed from moments of the normal
// tail, below from the incomplete beta function.
const studentLarge = 1e4

// StudentPDF returns the density of Student's t distribution, relative error
// below 1e-13. dof is the number of degrees of freedom, whole or not, between
// ShapeMin and ShapeMax; +Inf means the normal distribution; others give NaN.
func StudentPDF(t, dof float64) float64 {
	switch {
	case !studentTakes(t, dof):
		return math.NaN()
	case math.IsInf(dof, 1):
		return NormalPDF(t)
	case math.IsInf(t, 0):
		return 0
	case math.Abs(t) > 1e100:
		return float64(float64(studentPeak(dof)*math.Sqrt(dof)) / math.Abs(t) * studentFall(math.Abs(t), dof))
	}
	w := studentLog(t, dof)
	return float64(studentPeak(dof) * expTwofold(w.scaled(float64(-0.5*dof)).plus(w.scaled(-0.5))))
}

// StudentCDF returns the probability that a variable of Student's t
// distribution is at most t: relative error below 1e-13 for t <= 0, absolute
// error below 2e-15 above. For an upper tail ask for StudentCDF(-t, dof).
// Below 1e-290 digits are lost to underflow. dof is as for StudentPDF. The ends
// are 0 at -Inf and 1 at +Inf.
func StudentCDF(t, dof float64) float64 {
	switch {
	case !studentTakes(t, dof):
		return math.NaN()
	case math.IsInf(dof, 1):
		return NormalCDF(t)
	case math.IsInf(t, 1):
		return 1
	case math.IsInf(t, -1):
		return 0
	case t > 0:
		return 1 - studentTail(t, dof)
	}
	return studentTail(-t, dof)
}

func studentTakes(t, dof float64) bool {
	return t == t && dof >= ShapeMin && (dof <= ShapeMax || math.IsInf(dof, 1))
}

// studentTail returns the probability above t >= 0.
func studentTail(t, dof float64) float64 {
	square := float64(t * t)
	switch {
	case square > float64(1e20*dof):
		return float64(studentPeak(dof) / math.Sqrt(dof) * studentFall(t, dof))
	case dof >= studentLarge:
		return studentMoments(t, dof)
	case studentOuter(square, dof):
		x, y := studentShares(t, dof)
		return float64(0.5 * betaTail(float64(0.5*dof), 0.5, x, y))
	}
	return 0.5 - studentCentre(t, dof)
}

// studentOuter says whether the tail, not the centre, is the quick side.
func studentOuter(square, dof float64) bool {
	return square > 1 || square > float64(1.5*dof)
}

// studentCentre returns the probability between 0 and t >= 0.
func studentCentre(t, dof float64) float64 {
	square := float64(t * t)
	switch {
	case square < float64(1e-20*math.Min(dof, 1)):
		return float64(t * studentPeak(dof))
	case dof >= studentLarge && t < 1:
		return studentCentreMoments(t, dof)
	case dof >= studentLarge || studentOuter(square, dof):
		return 0.5 - studentTail(t, dof)
	}
	x, y := studentShares(t, dof)
	return float64(0.5 * betaTail(0.5, float64(0.5*dof), y, x))
}

// studentShares returns dof/(dof+t²) and t²/(dof+t²).
func studentShares(t, dof float64) (x, y twofold) {
	square := twoProduct(t, t)
	total := square.plus(twofold{dof, 0})
	return twofold{dof, 0}.over(total), square.over(total)
}

// studentLog returns ln(1 + t²/dof).
func studentLog(t, dof float64) twofold {
	return logTwofold(twoProduct(t, t).over(twofold{dof, 0}).plus(twofold{1, 0}))
}

// studentFall returns (t/√dof)^-dof, what the far tail falls with.
func studentFall(t, dof float64) float64 {
	root := math.Sqrt(dof)
	p := twoProduct(root, root)
	exact := fastTwoSum(root, ((dof-p.hi)-p.lo)/(root+root))
	return expTwofold(logRatio(twofold{t, 0}, exact).scaled(-dof))
}

// studentPeak returns the density at 0, Γ((dof+1)/2) / (Γ(dof/2) √(π dof)).
func studentPeak(dof float64) float64 {
	a := float64(0.5 * dof)
	shapes := gammaStar(a+0.5) / gammaStar(a)
	// ((a+1/2)/a)^a e^(-1/2), the rest of the ratio of the two Γ.
	power := logTwofold(twofold{0.5, 0}.over(twofold{a, 0}).plus(twofold{1, 0})).scaled(a)
	return float64(float64(expTwofold(power.plus(twofold{-0.5, 0}))*shapes) * oneOverSqrt2Pi)
}

// studentMoments returns the tail for many degrees of freedom. With
// w² = dof ln(1 + t²/dof) the density becomes exp(-w²/2) times a smooth series
// in w²/dof, so that moments of the normal tail add up to the result.
func studentMoments(t, dof float64) float64 {
	square := studentLog(t, dof).scaled(dof)
	if square.hi > 1500 {
		return 0
	}
	return float64(float64(studentPeak(dof)*sqrtTwoPi) * normalTailSum(square, 1/math.Sqrt(dof), studentSeries))
}

// studentCentreMoments is the same between 0 and t < 1.
func studentCentreMoments(t, dof float64) float64 {
	square := studentLog(t, dof).scaled(dof).value()
	w := math.Sqrt(square)
	density := NormalPDF(w)
	moment := float64(0.5 * erfNear(float64(w*sqrtHalf)))
	sum, odd, power := moment, w, 1.0
	for k := 1; k <= 4; k++ {
		moment = float64(float64(k+k-1)*moment) - float64(odd*density)
		odd = float64(odd * square)
		power = power / dof
		sum += float64(float64(studentSeries(k+k)*power) * moment)
	}
	return float64(float64(studentPeak(dof)*sqrtTwoPi) * sum)
}

// studentSeries returns the coefficient of s^k in √(s²/(1-exp(-s²))).
func studentSeries(k int) float64 {
	if k%2 == 1 {
		return 0
	}
	return [...]float64{1, 1.0 / 4, 1.0 / 96, -1.0 / 384, -1.0 / 10240, 19.0 / 368640, 1.27560247189153439e-6,
		-1.11009708788029101e-6, -1.96705840041818232e-8, 2.48363198847156774e-8}[k/2]
}

// StudentQuantile returns the t below which a variable of Student's t
// distribution falls with probability p: relative error below 1e-13 for
// dof >= 1. dof is as for StudentPDF. Near p = 1 the float p itself is the
// limit: for an upper tail q ask for -StudentQuantile(q, dof). p = 0 and p = 1
// give -Inf and +Inf, as do tails beyond the largest float at few degrees of
// freedom; p outside gives NaN.
func StudentQuantile(p, dof float64) float64 {
	switch {
	case !(p >= 0 && p <= 1) || !studentTakes(0, dof):
		return math.NaN()
	case p == 0:
		return math.Inf(-1)
	case p == 1:
		return math.Inf(1)
	case p == 0.5:
		return 0
	case math.IsInf(dof, 1):
		return NormalQuantile(p)
	case p > 0.5:
		return studentAbove(1-p, p-0.5, dof)
	case p >= 0.25:
		return -studentAbove(p, 0.5-p, dof)
	}
	return -studentAbove(p, 0.25, dof)
}

// studentAbove returns the t > 0 with the given tail above it. centre is
// 1/2 - tail, exact where it is below 1/4.
func studentAbove(tail, centre, dof float64) float64 {
	if centre < 0.2 {
		return studentFromCentre(centre, dof)
	}
	return studentFromTail(tail, dof)
}

// studentFromCentre solves studentCentre(t) = centre by Newton's method. The
// function is concave, so that the steps climb to the solution from below.
func studentFromCentre(centre, dof float64) float64 {
	t := centre / studentPeak(dof)
	for range 100 {
		step := (centre - studentCentre(t, dof)) / StudentPDF(t, dof)
		t += step
		if math.Abs(step) <= float64(1e-9*t) {
			break
		}
	}
	return t
}

// studentFromTail solves studentTail(t) = tail by Newton's method on the
// logarithms of both. On that scale the tail is concave: every start leads to
// the solution.
func studentFromTail(tail, dof float64) float64 {
	t := studentPower(tail, dof)
	if t > float64(1e10*math.Sqrt(dof)) {
		return t // the power law is exact out there, and the density may underflow
	}
	t = math.Min(t, studentNear(tail, dof))
	for range 100 {
		q := studentTail(t, dof)
		step := float64(Log(q/tail)*q) / float64(t*StudentPDF(t, dof))
		t = float64(t * Exp(step))
		if math.Abs(step) <= 1e-9 {
			break
		}
	}
	return t
}

// studentNear returns roughly the t with the given tail above it: Wallace's
// normal approximation (Annals of Mathematical Statistics 30, 1959).
func studentNear(tail, dof float64) float64 {
	z := -NormalQuantile(tail)
	w := float64(z*(float64(8*dof)+3)) / (float64(8*dof) + 1)
	return float64(math.Sqrt(dof) * math.Sqrt(Expm1(float64(w*w)/dof)))
}

// studentPower returns the t that would have the given tail if the power law
// of the far tail held everywhere, never less than the true one.
func studentPower(tail, dof float64) float64 {
	root := math.Sqrt(dof)
	log := logTwofold(twofold{studentPeak(dof) / root, 0}).plus(logTwofold(twofold{tail, 0}).negated())
	return float64(root * expTwofold(log.over(twofold{dof, 0})))
}
