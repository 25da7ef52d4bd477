package measure

import (
	"fmt"
	"math"

	"example.com/meniscus/internal/elementary"
)

// Distribution is what is known of a quantity, as probabilities: Curve,
// *Outcome and Mixture.
type Distribution interface {
	// CDF returns the probability of at most x, from 0 to 1.
	CDF(x float64) float64
	// Quantile returns the x that is not exceeded with probability p, or an error
	// where p is not between 0 and 1.
	Quantile(p float64) (float64, error)
}

// Curve is the distribution of one shape around a best estimate. The zero value
// is exactly 0.
type Curve struct {
	mean, u, dof float64
	shape        Shape
}

// NewCurve takes a reading as a curve of the given shape with its value as mean
// and its standard uncertainty as scale: normal, rectangular, triangular, or
// Student's t with its effective degrees of freedom (normal where they are
// infinite). Other shapes, and a reading that is not valid, are errors. It is an
// approximation where several causes add up; Simulate gives the distribution
// itself.
func NewCurve(r Reading, shape Shape) (Curve, error) {
	if r.doubt.fault != nil {
		return Curve{}, r.doubt.fault
	}
	c := Curve{mean: r.value, u: r.U(), shape: shape}
	switch shape {
	case Normal, Rectangular, Triangular:
	case Student:
		if c.dof = r.DoF(); c.dof == 0 {
			c.shape = Normal
		}
	default:
		return Curve{}, fmt.Errorf("measure: a %v curve; want normal, rectangular, triangular or student", shape)
	}
	return c, nil
}

// CDF returns the probability of at most x. NaN gives 0.
func (c Curve) CDF(x float64) float64 {
	switch {
	case math.IsNaN(x):
		return 0
	case c.u == 0:
		return step(x, c.mean)
	}
	z := (x - c.mean) / c.u
	switch c.shape {
	case Rectangular:
		return min(max(0.5+float64(z/math.Sqrt(12)), 0), 1)
	case Triangular:
		return triangularCDF(z / math.Sqrt(6))
	case Student:
		return elementary.StudentCDF(z, c.dof)
	}
	return elementary.NormalCDF(z)
}

func step(x, at float64) float64 {
	if x < at {
		return 0
	}
	return 1
}

// triangularCDF is that of the triangle from -1 to 1.
func triangularCDF(t float64) float64 {
	switch {
	case t <= -1:
		return 0
	case t >= 1:
		return 1
	case t < 0:
		return (1 + t) * (1 + t) / 2
	}
	return 1 - float64((1-t)*(1-t)/2)
}

// Quantile returns the x that is not exceeded with probability p. A p outside
// (0, 1) is an error.
func (c Curve) Quantile(p float64) (float64, error) {
	if err := probability("quantile", p); err != nil {
		return 0, err
	}
	if c.u == 0 {
		return c.mean, nil
	}
	x := c.mean + float64(c.u*c.standard(p))
	if !finite(x) {
		return 0, overflow().fault
	}
	return x, nil
}

func (c Curve) standard(p float64) float64 {
	switch c.shape {
	case Rectangular:
		return rectangular(p)
	case Triangular:
		return triangular(p)
	case Student:
		return elementary.StudentQuantile(p, c.dof)
	}
	return elementary.NormalQuantile(p)
}

// rectangular is the quantile function of the rectangle of deviation 1.
func rectangular(p float64) float64 { return (p - 0.5) * math.Sqrt(12) }

// triangular is the quantile function of the triangle of deviation 1.
func triangular(p float64) float64 {
	if p < 0.5 {
		return math.Sqrt(6) * (math.Sqrt(2*p) - 1)
	}
	return math.Sqrt(6) * (1 - math.Sqrt(float64(2*(1-p))))
}
