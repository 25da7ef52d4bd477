package measure

import (
	"math"

	"example.com/meniscus/internal/elementary"
)

// fill draws len(z) numbers of the cause's shape: mean 0, standard deviation 1,
// or for Student the t variate itself (JCGM 101:2008 6.4).
func (c *Cause) fill(z []float64, s *Stream) {
	switch c.shape {
	case Rectangular:
		for i := range z {
			z[i] = rectangular(s.Uniform())
		}
	case Triangular: // the sum of two rectangles, JCGM 101:2008 6.4.5
		for i := range z {
			z[i] = (s.Uniform() - s.Uniform()) * math.Sqrt(6)
		}
	case Arcsine: // JCGM 101:2008 6.4.6
		for i := range z {
			z[i] = math.Sqrt2 * elementary.Cos(math.Pi*s.Uniform())
		}
	case Student:
		for i := range z {
			z[i] = student(s, c.dof)
		}
	case Tabled:
		for i := range z {
			z[i] = tableQuantile(c.table, s.Uniform())
		}
	default:
		s.s.FillNormal(z)
	}
}

// student draws t with dof degrees of freedom by the polar method (Bailey,
// Mathematics of Computation 62, 1994): √(ν(u^(-2/ν) - 1))·cos 2πv.
func student(s *Stream, dof float64) float64 {
	grown := elementary.Expm1(-2 / dof * elementary.Log(s.Uniform()))
	return math.Sqrt(dof*grown) * elementary.Cos(2*math.Pi*s.Uniform())
}
