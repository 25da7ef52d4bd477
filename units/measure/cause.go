package measure

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"unicode"
	"unicode/utf8"
)

// Cause is one physical cause of doubt: the scale error of one jug, the offset
// of one probe, the parallax of one look at a line. It is standardised: its mean
// is 0 and its standard deviation 1, and each reading says in a Term how much of
// it went in. (A Student cause is the t variate itself, as JCGM 101:2008 6.4.9
// draws it; its scale is the standard uncertainty s/√n of JCGM 100.)
//
// Causes are shared by pointer and by id: two causes with equal ids are the same
// cause, so that readings stored and read back still cancel. A Cause never
// changes once made. The zero value is no cause and is refused everywhere.
type Cause struct {
	id, label string
	shape     Shape
	dof       float64
	table     []float64 // standardised quantiles of a Tabled cause
}

// Limits on text, so that a stored record cannot grow without bound.
const (
	longestID    = 128
	longestLabel = 200
)

// NewCause returns the cause with a stable id, such as "jug-a/scale", and a
// label for people. dof is the degrees of freedom of the standard uncertainties
// that will scale it: 0 for known (infinite), otherwise at least 1 (JCGM
// 100:2008 G.3 for Type A, G.4.2 for a doubt that is itself doubtful). A
// Student cause needs dof. The id is 1 to 128 ASCII letters, digits and
// "-_./:#+"; the label at most 200 bytes of printable text, and may be empty.
func NewCause(id, label string, shape Shape, dof float64) (*Cause, error) {
	if shape == Tabled {
		return nil, fmt.Errorf("measure: cause %s: a tabled shape needs its table; use FromQuantiles", quote(id))
	}
	return newCause(Cause{id: id, label: label, shape: shape, dof: dof})
}

func newCause(c Cause) (*Cause, error) {
	err := errors.Join(checkID(c.id), checkLabel(c.label), checkShape(c.shape, c.dof))
	if err != nil {
		return nil, fmt.Errorf("measure: cause %s: %w", quote(c.id), err)
	}
	return &c, nil
}

func checkID(id string) error {
	if id == "" || len(id) > longestID {
		return fmt.Errorf("id of %d bytes; want 1 to %d", len(id), longestID)
	}
	for i := range len(id) {
		if !idByte(id[i]) {
			return fmt.Errorf("id has byte %q at %d; want ASCII letters, digits and -_./:#+", id[i], i)
		}
	}
	return nil
}

func idByte(b byte) bool {
	switch {
	case 'a' <= b && b <= 'z', 'A' <= b && b <= 'Z', '0' <= b && b <= '9':
		return true
	}
	switch b {
	case '-', '_', '.', '/', ':', '#', '+':
		return true
	}
	return false
}

func checkLabel(label string) error {
	if len(label) > longestLabel || !utf8.ValidString(label) {
		return fmt.Errorf("label %s; want at most %d bytes of UTF-8", quote(label), longestLabel)
	}
	for _, r := range label {
		if !unicode.IsPrint(r) {
			return fmt.Errorf("label has %q; want printable text", r)
		}
	}
	return nil
}

func checkShape(shape Shape, dof float64) error {
	if shape > Tabled {
		return fmt.Errorf("shape %d is not one of the shapes; want 0 to %d", uint8(shape), uint8(Tabled))
	}
	if !finite(dof) || dof != 0 && dof < 1 {
		return fmt.Errorf("degrees of freedom %v; want 0 for infinite, or a finite number of at least 1", dof)
	}
	if shape == Student && dof == 0 {
		return errors.New("student shape with no degrees of freedom; want at least 1")
	}
	return nil
}

// ID returns the stable id; "" for no cause.
func (c *Cause) ID() string {
	if c == nil {
		return ""
	}
	return c.id
}

// Label returns the text for people; the id where there is none.
func (c *Cause) Label() string {
	if c == nil || c.label == "" {
		return c.ID()
	}
	return c.label
}

// Shape returns the distribution of the cause.
func (c *Cause) Shape() Shape {
	if c == nil {
		return Normal
	}
	return c.shape
}

// DoF returns the degrees of freedom, 0 for infinite.
func (c *Cause) DoF() float64 {
	if c == nil {
		return 0
	}
	return c.dof
}

// same reports whether two causes of one id also mean the same. A label may be
// reworded; a shape may not.
func (c *Cause) same(o *Cause) bool {
	return c == o || c.shape == o.shape &&
		math.Float64bits(c.dof) == math.Float64bits(o.dof) && slices.Equal(c.table, o.table)
}
