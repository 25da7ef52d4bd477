package gnuunits

import (
	"bufio"
	"fmt"
	"io"
	"math/big"
	"strings"
)

// Definitions are the units, prefixes and functions of a definitions file. Of
// the parts that hold for one language or country only, none is read.
type Definitions struct {
	units     map[string]string
	prefixes  map[string]string
	functions map[string]function
}

// function is a scale that does not start at zero, such as tempF(x).
type function struct{ argument, forward, inverse string }

// Read reads a definitions file.
func Read(r io.Reader) (*Definitions, error) {
	d := &Definitions{map[string]string{}, map[string]string{}, map[string]function{}}
	s := bufio.NewScanner(r)
	local, held := false, ""
	for s.Scan() {
		line, _, _ := strings.Cut(s.Text(), "#")
		line = held + strings.TrimSpace(strings.TrimPrefix(line, "\ufeff"))
		held = ""
		switch {
		case strings.HasSuffix(line, `\`):
			held = strings.TrimSuffix(line, `\`) + " "
		case strings.HasPrefix(line, "!locale"), strings.HasPrefix(line, "!var"):
			local = true
		case strings.HasPrefix(line, "!endlocale"), strings.HasPrefix(line, "!endvar"):
			local = false
		case line != "" && line[0] != '!' && !local:
			d.define(line)
		}
	}
	return d, s.Err()
}

func (d *Definitions) define(line string) {
	name, rest, _ := strings.Cut(strings.Replace(line, "\t", " ", 1), " ")
	rest = strings.TrimSpace(rest)
	if head, argument, ok := strings.Cut(strings.TrimSuffix(name, ")"), "("); ok {
		for strings.Contains(strings.SplitN(rest+" ", " ", 2)[0], "=") { // units=, domain=, range=
			_, rest, _ = strings.Cut(rest, " ")
			rest = strings.TrimSpace(rest)
		}
		forward, inverse, _ := strings.Cut(rest, ";")
		d.functions[head] = function{argument, forward, inverse}
		return
	}
	if prefix, ok := strings.CutSuffix(name, "-"); ok {
		d.prefixes[prefix] = rest
		return
	}
	d.units[name] = rest
}

// Ratio returns how many of the unit to make one of the unit from, exactly.
func (d *Definitions) Ratio(from, to string) (*big.Rat, error) {
	a, errA := d.value(from, nil)
	b, errB := d.value(to, nil)
	switch {
	case errA != nil:
		return nil, errA
	case errB != nil:
		return nil, errB
	case b.number.Sign() == 0 || !a.alike(b):
		return nil, fmt.Errorf("%q and %q do not measure the same", from, to)
	}
	return new(big.Rat).Quo(a.number, b.number), nil
}

// Point returns x on a scale such as tempF in the base unit, exactly.
func (d *Definitions) Point(scale string, x *big.Rat) (*big.Rat, error) {
	f, ok := d.functions[scale]
	if !ok {
		return nil, fmt.Errorf("no scale %q", scale)
	}
	v, err := d.value(f.forward, map[string]value{f.argument: {number: x}})
	return v.number, err
}

// Back returns the point, in the base unit given, on a scale: what Point undoes.
func (d *Definitions) Back(scale, base string, x *big.Rat) (*big.Rat, error) {
	f, ok := d.functions[scale]
	if !ok {
		return nil, fmt.Errorf("no scale %q", scale)
	}
	unit, err := d.value(base, nil)
	if err != nil {
		return nil, err
	}
	unit.number = new(big.Rat).Mul(unit.number, x)
	v, err := d.value(f.inverse, map[string]value{scale: unit})
	return v.number, err
}
