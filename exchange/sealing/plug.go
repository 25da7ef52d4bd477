package sealing

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
)

// Role is what a plug is for. The zero value is none stated.
type Role uint8

// The roles.
const (
	NoRole Role = iota
	Drain       // fluid leaves here
	Fill        // fluid enters here; proved open before the drain plug is touched
	Check       // the overflow that proves the level
)

// String returns "drain", "fill", "check" or "".
func (r Role) String() string {
	switch r {
	case Drain:
		return "drain"
	case Fill:
		return "fill"
	case Check:
		return "check"
	}
	return ""
}

// MarshalText returns String; a value that is none of the roles is an error.
func (r Role) MarshalText() ([]byte, error) {
	if err := r.check(); err != nil {
		return nil, fmt.Errorf("sealing: %w", err)
	}
	return []byte(r.String()), nil
}

func (r Role) check() error {
	if r > Check {
		return fmt.Errorf("role %d is not one of the package's constants; want drain, fill, check or none", uint8(r))
	}
	return nil
}

var errNowhere = errors.New("sealing: nowhere to read into; want a pointer that is not nil")

// UnmarshalText reads what String returns.
func (r *Role) UnmarshalText(b []byte) error {
	if r == nil {
		return errNowhere
	}
	for _, role := range [...]Role{NoRole, Drain, Fill, Check} {
		if string(b) == role.String() {
			*r = role
			return nil
		}
	}
	return fmt.Errorf("sealing: role %.20q: want drain, fill or check", b)
}

// Plug is one plug as the sheet and the caliper describe it. A zero dimension
// is one nobody measured.
type Plug struct {
	ID       string       `json:"id"`
	Role     Role         `json:"role"`
	Thread   Thread       `json:"thread,omitzero"`
	Drive    Drive        `json:"drive,omitzero"`
	Torque   units.Torque `json:"torque,omitzero"`   // to set it to; zero: not stated
	Spread   units.Torque `json:"spread,omitzero"`   // allowed either way of Torque; zero: the tool's own tolerance
	Turns    float64      `json:"turns,omitzero"`    // past finger tight, for taper plugs that are not set by torque
	Shoulder units.Length `json:"shoulder,omitzero"` // diameter of the plain part under the head that a washer must pass
	Collar   units.Length `json:"collar,omitzero"`   // diameter of the head or flange that presses the washer
	Seat     units.Length `json:"seat,omitzero"`     // diameter of the spot face on the case
	Washer   string       `json:"washer,omitempty"`  // id of the washer it takes; empty: none stated
}

// Check returns every fault of the plug by itself: a role or drive that is none,
// impossible dimensions, torques or keys, and a washer on a taper plug.
func (p Plug) Check() error {
	var faults []error
	say := func(format string, args ...any) {
		faults = append(faults, fmt.Errorf("sealing: plug %.40q: "+format, append([]any{p.ID}, args...)...))
	}
	if p.ID == "" {
		say("has no id; want a short name such as drain")
	}
	for _, err := range [...]error{p.Role.check(), p.Drive.check()} {
		if err != nil {
			say("%w", err)
		}
	}
	for _, l := range p.lengths() {
		if !l.size.Valid() || l.size.Sign() < 0 {
			say("%s is %s; want a positive length, or none where it was not measured", l.name, l.size)
		}
	}
	if !p.Torque.Valid() || p.Torque.Sign() < 0 {
		say("torque is %s; want a positive torque, or none where it is not stated", p.Torque)
	}
	if !p.Spread.Valid() || p.Spread.Sign() < 0 || p.Spread.Compare(p.Torque) > 0 {
		say("spread is %s; want between zero and the torque itself", p.Spread)
	}
	if !(p.Turns >= 0 && p.Turns <= 20) {
		say("turns is %v; want 0 to 20 past finger tight", p.Turns)
	}
	faults = append(faults, p.crossCheck()...)
	return errors.Join(faults...)
}

type namedLength struct {
	name string
	size units.Length
}

func (p Plug) lengths() []namedLength {
	return []namedLength{{"shoulder", p.Shoulder}, {"collar", p.Collar}, {"seat", p.Seat}}
}

// crossCheck compares the plug's own figures with each other.
func (p Plug) crossCheck() []error {
	var faults []error
	say := func(format string, args ...any) {
		faults = append(faults, fmt.Errorf("sealing: plug %.40q: "+format, append([]any{p.ID}, args...)...))
	}
	if p.Thread.Taper() && p.Washer != "" {
		say("%s seals on its taper and takes no washer; drop washer %.40q", p.Thread, p.Washer)
	}
	known := func(l units.Length) bool { return l.Valid() && l.Sign() > 0 }
	if known(p.Shoulder) && known(p.Collar) && p.Shoulder.Compare(p.Collar) >= 0 {
		say("shoulder %s is not smaller than collar %s; measure both again", p.Shoulder, p.Collar)
	}
	if p.Drive.Kind != HexSocket && p.Drive.Kind != SquareSocket {
		return faults
	}
	wide, root := p.Drive.AcrossCorners(), p.Thread.Minor()
	switch {
	case known(p.Collar) && wide.Compare(p.Collar) >= 0:
		say("a %s is %s at its corners and does not go into a %s head", p.Drive, wide.Text(units.Millimetre, 2), p.Collar)
	case p.Thread.Taper() && known(root) && wide.Compare(root) >= 0:
		say("a %s is %s at its corners and does not go into %s", p.Drive, wide.Text(units.Millimetre, 2), p.Thread)
	}
	return faults
}
