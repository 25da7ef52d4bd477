package measure

import "fmt"

// Shape is the distribution of a cause of doubt. The zero value is Normal.
type Shape uint8

// The shapes a cause can have; JCGM 100:2008 4.3 and JCGM 101:2008 6.4 say when each is fit.
const (
	// Normal is for what sums many small effects, or a certificate that gives k.
	Normal Shape = iota
	// Rectangular is for limits with nothing else known: "± 1 %", a digital step.
	Rectangular
	// Triangular is for limits where the middle is likelier: a line interpolated by eye.
	Triangular
	// Arcsine is for a cycle between limits: a thermostat, a swinging needle.
	Arcsine
	// Student is for the mean of few observations; it needs degrees of freedom.
	Student
	// Tabled is the caller's own shape, given by its quantiles; see FromQuantiles.
	Tabled
)

// String returns the shape's name, "?" for none of them.
func (s Shape) String() string {
	switch s {
	case Normal:
		return "normal"
	case Rectangular:
		return "rectangular"
	case Triangular:
		return "triangular"
	case Arcsine:
		return "arcsine"
	case Student:
		return "student"
	case Tabled:
		return "tabled"
	}
	return "?"
}

// ParseShape reads a name that String writes.
func ParseShape(name string) (Shape, error) {
	for s := Normal; s <= Tabled; s++ {
		if s.String() == name {
			return s, nil
		}
	}
	return Normal, fmt.Errorf("measure: %s is not a shape; want normal, rectangular, triangular, arcsine, student or tabled", quote(name))
}

// MarshalText writes the shape's name.
func (s Shape) MarshalText() ([]byte, error) {
	if s > Tabled {
		return nil, fmt.Errorf("measure: shape %d is not one of the shapes; want 0 to %d", uint8(s), uint8(Tabled))
	}
	return []byte(s.String()), nil
}

// UnmarshalText reads a name that MarshalText writes.
func (s *Shape) UnmarshalText(text []byte) error {
	if s == nil {
		return errNowhere
	}
	p, err := ParseShape(string(text))
	if err == nil {
		*s = p
	}
	return err
}
