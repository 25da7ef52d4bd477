package tables

import (
	"errors"
	"slices"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
)

// Tables are all tables, read once. They never change; accessors return copies.
type Tables struct {
	keys       []Key
	plugs      []Plug
	rings      []Ring
	bands      []Band
	containers []Container
}

// Key is the size of a key, spanner or bit.
type Key struct {
	Kind       sealing.DriveKind
	Name       string
	Size       units.Length // across flats; of a lobular bit over its points
	TestTorque units.Torque // that a key of the size withstands; zero: not in the table
	Pedigree
}

// Plug is one plug of a standard.
type Plug struct {
	Thread      sealing.Thread
	Standard    string
	Drive       sealing.DriveKind
	Key         units.Length // of a socket; zero: none
	AcrossFlats units.Length // of a head; zero: none
	Collar      units.Length // zero: not in the table
	Pedigree
	AcrossFlatsSeen bool
}

// Ring is one sealing ring of a standard.
type Ring struct {
	Name                    string
	Inner, Outer, Thickness units.Length // Inner as made, a little over the nominal size
	Pedigree
}

// Band is how far published torques for plugs of one thread spread. It is weak:
// warn only.
type Band struct {
	Thread    sealing.Thread
	Low, High units.Torque // over all sources
	Pedigree
}

// Container is a usual pack size. It is never a closed list.
type Container struct {
	Name string
	Size units.Volume
	Pedigree
}

// Open reads all tables. It fails only if the embedded data were damaged.
func Open() (*Tables, error) {
	t := &Tables{}
	errs := []error{t.readKeys(), t.readPlugs(), t.readRings(), t.readBands(), t.readContainers()}
	return t, errors.Join(errs...)
}

// known is the tables, or empty ones for nil.
func (t *Tables) known() *Tables {
	if t == nil {
		return &Tables{}
	}
	return t
}

// Keys returns the sizes of keys, spanners and bits.
func (t *Tables) Keys() []Key { return slices.Clone(t.known().keys) }

// Plugs returns the plugs of the standards.
func (t *Tables) Plugs() []Plug { return slices.Clone(t.known().plugs) }

// Rings returns the sealing rings.
func (t *Tables) Rings() []Ring { return slices.Clone(t.known().rings) }

// Bands returns the torque bands per thread.
func (t *Tables) Bands() []Band { return slices.Clone(t.known().bands) }

// Containers returns usual pack sizes.
func (t *Tables) Containers() []Container { return slices.Clone(t.known().containers) }

// Key returns the row for a drive, or false where no table has that size.
func (t *Tables) Key(d sealing.Drive) (Key, bool) {
	for _, k := range t.known().keys {
		if k.Kind == d.Kind && (k.Size == d.Size || d.Kind == sealing.Hexalobular && k.Name == d.String()[len("hexalobular "):]) {
			return k, true
		}
	}
	return Key{}, false
}

// Band returns the torque band of a thread, or false where there is none.
func (t *Tables) Band(thread sealing.Thread) (Band, bool) {
	for _, b := range t.known().bands {
		if b.Thread == thread {
			return b, true
		}
	}
	return Band{}, false
}

func (t *Tables) readKeys() error {
	f := open("drives")
	for _, row := range f.rows {
		kind, ok := keyKind(f.text(row, "kind"))
		if !ok {
			f.fail("kind", "unknown kind "+f.text(row, "kind"))
		}
		t.keys = append(t.keys, Key{
			Kind: kind, Name: f.text(row, "designation"), Size: f.length(row, "size_mm"),
			TestTorque: f.torque(row, "max_or_test_torque_Nm"), Pedigree: f.pedigree(row),
		})
	}
	return f.err
}

func keyKind(s string) (sealing.DriveKind, bool) {
	switch s {
	case "hex_key":
		return sealing.HexSocket, true
	case "af_socket":
		return sealing.HexHead, true
	case "hexalobular":
		return sealing.Hexalobular, true
	case "square_drive":
		return sealing.SquareSocket, true
	}
	return sealing.NoDrive, false
}

func (t *Tables) readPlugs() error {
	f := open("plugs")
	for _, row := range f.rows {
		thread, err := sealing.ParseThread(f.text(row, "thread"))
		if err != nil {
			f.fail("thread", err.Error())
		}
		kind := sealing.HexHead
		if f.text(row, "drive_type") == "hex_socket" {
			kind = sealing.HexSocket
		}
		t.plugs = append(t.plugs, Plug{
			Thread: thread, Standard: f.text(row, "standard"), Drive: kind, Key: f.length(row, "key_mm"),
			AcrossFlats: f.length(row, "af_mm"), Collar: f.length(row, "collar_dia_mm"), Pedigree: f.pedigree(row),
			AcrossFlatsSeen: f.text(row, "af_mark") == "seen",
		})
	}
	return f.err
}

func (t *Tables) readRings() error {
	f := open("sealing_rings")
	for _, row := range f.rows {
		t.rings = append(t.rings, Ring{
			Name: f.text(row, "designation"), Inner: f.length(row, "actual_id_min_mm"), Outer: f.length(row, "od_mm"),
			Thickness: f.length(row, "thickness_mm"), Pedigree: f.pedigree(row),
		})
	}
	return f.err
}

func (t *Tables) readBands() error {
	f := open("torque_bands")
	for _, row := range f.rows {
		thread, err := sealing.ParseThread(f.text(row, "thread"))
		if err != nil {
			f.fail("thread", err.Error())
		}
		t.bands = append(t.bands, Band{Thread: thread, Low: f.torque(row, "union_low_Nm"), High: f.torque(row, "union_high_Nm"), Pedigree: f.pedigree(row)})
	}
	return f.err
}

func (t *Tables) readContainers() error {
	f := open("containers")
	for _, row := range f.rows {
		litres, _ := f.number(row, "exact_L")
		t.containers = append(t.containers, Container{Name: f.text(row, "name"), Size: units.Litre.Of(litres), Pedigree: f.pedigree(row)})
	}
	return f.err
}
