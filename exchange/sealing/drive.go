package sealing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/meniscus/units"
)

// DriveKind is the shape a plug is turned by.
type DriveKind uint8

// The kinds. The zero value is none stated.
const (
	NoDrive      DriveKind = iota
	HexSocket              // internal hexagon, size across flats
	HexHead                // external hexagon, size across flats
	Hexalobular            // ISO 10664 socket, size is its number, such as T45
	SquareSocket           // internal square, size across flats
)

// Drive is what turns a plug. The zero value is none stated.
type Drive struct {
	Kind   DriveKind
	Size   units.Length // across flats; zero for Hexalobular
	Number int          // of a Hexalobular socket; else zero
}

// ParseDrive reads "hex socket 8 mm", "hex head 17 mm", "hexalobular T45" or
// "square socket 3/8 in". Whether the size is made is for a table to say.
func ParseDrive(s string) (Drive, error) {
	const want = `want "hex socket 8 mm", "hex head 17 mm", "hexalobular T45" or "square socket 10 mm"`
	if len(s) > 40 {
		return Drive{}, fmt.Errorf("sealing: drive %.24q…: too long; %s", s, want)
	}
	for kind := HexSocket; kind <= SquareSocket; kind++ {
		rest, ok := strings.CutPrefix(s, kind.String()+" ")
		if !ok {
			continue
		}
		if kind == Hexalobular {
			n, err := strconv.Atoi(strings.TrimPrefix(rest, "T"))
			if err != nil || n < leastLobes || n > mostLobes || rest != "T"+strconv.Itoa(n) {
				return Drive{}, fmt.Errorf("sealing: drive %q: %q is no hexalobular number; want T1 to T100", s, rest)
			}
			return Drive{Kind: kind, Number: n}, nil
		}
		size, err := units.ParseLength(rest)
		if err != nil || !acrossFlats(size) {
			return Drive{}, fmt.Errorf("sealing: drive %q: %q is no size across flats; want such as 8 mm", s, rest)
		}
		return Drive{Kind: kind, Size: size}, nil
	}
	return Drive{}, fmt.Errorf("sealing: drive %q: unknown kind; %s", s, want)
}

// String returns the words ParseDrive reads, such as "hex socket".
func (k DriveKind) String() string {
	switch k {
	case HexSocket:
		return "hex socket"
	case HexHead:
		return "hex head"
	case Hexalobular:
		return "hexalobular"
	case SquareSocket:
		return "square socket"
	}
	return ""
}

// AcrossCorners returns how wide the key is at its corners: 2/√3 times the
// flats of a hexagon, √2 times those of a square, the nearest nanometre; zero
// where the size is a number.
func (d Drive) AcrossCorners() units.Length {
	switch d.Kind {
	case HexSocket, HexHead:
		return d.Size.Scale(2 / math.Sqrt(3))
	case SquareSocket:
		return d.Size.Scale(math.Sqrt(2))
	}
	return units.Length{}
}

// IsZero reports whether no drive is stated.
func (d Drive) IsZero() bool { return d == Drive{} }

// String returns the drive as ParseDrive reads it.
func (d Drive) String() string {
	switch {
	case d.Kind == NoDrive || d.Kind > SquareSocket:
		return ""
	case d.Kind == Hexalobular:
		return d.Kind.String() + " T" + strconv.Itoa(d.Number)
	}
	return d.Kind.String() + " " + d.Size.String()
}

// MarshalText returns String; a drive that ParseDrive would not read back is an error.
func (d Drive) MarshalText() ([]byte, error) {
	if err := d.check(); err != nil {
		return nil, fmt.Errorf("sealing: %w", err)
	}
	return []byte(d.String()), nil
}

// check refuses a drive that ParseDrive cannot give, such as a size for a socket that
// has a number.
func (d Drive) check() error {
	number, size := d.Number != 0, !d.Size.IsZero()
	switch {
	case d.Kind > SquareSocket:
		return fmt.Errorf("drive kind %d is not one of the package's constants; want hex socket, hex head, hexalobular, square socket or none", uint8(d.Kind))
	case d.Kind == NoDrive && (number || size):
		return fmt.Errorf("drive has %s and no kind; want the kind, such as hex socket", d.given())
	case d.Kind == NoDrive:
		return nil
	case d.Kind == Hexalobular && (size || d.Number < leastLobes || d.Number > mostLobes):
		return fmt.Errorf("hexalobular drive has %s; want its number alone, T%d to T%d", d.given(), leastLobes, mostLobes)
	case d.Kind != Hexalobular && (number || !acrossFlats(d.Size)):
		return fmt.Errorf("%s drive has %s; want its size across flats alone, above zero and at most %s", d.Kind, d.given(), widestFlats())
	}
	return nil
}

func (d Drive) given() string {
	if d.Number == 0 {
		return "size " + d.Size.String()
	}
	return "size " + d.Size.String() + " and number " + strconv.Itoa(d.Number)
}

// The numbers of hexalobular sockets that are read: a slip of the pen is none of them.
const (
	leastLobes = 1
	mostLobes  = 100
)

// widestFlats is wider than any plug is.
func widestFlats() units.Length { return units.Millimetre.Of(200) }

func acrossFlats(size units.Length) bool {
	return size.Valid() && size.Sign() > 0 && size.Compare(widestFlats()) <= 0
}

// UnmarshalText reads what MarshalText wrote.
func (d *Drive) UnmarshalText(b []byte) error {
	if d == nil {
		return errNowhere
	}
	if len(b) == 0 {
		*d = Drive{}
		return nil
	}
	got, err := ParseDrive(string(b))
	if err != nil {
		return err
	}
	*d = got
	return nil
}
