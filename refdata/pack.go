package refdata

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"example.com/meniscus/internal/sheet"
	"example.com/meniscus/refdata/tables"
)

//go:embed builtin
var builtin embed.FS

// Limits of a pack, so that a hostile folder cannot be costly.
const mostFiles = 20_000

// Pack is a loaded pack. It never changes; accessors return copies. The zero
// value is an empty pack.
type Pack struct {
	procedures []Procedure
	fluids     []FluidClass
	shop       Shop
	hash       string
	warnings   []Finding
}

// BuiltIn returns the demonstration pack: invented gearboxes of the Saltmarsh
// community bus co-operative. None of its figures may be used on a real box.
func BuiltIn() (*Pack, error) { return Load(builtin, "builtin") }

// Load reads every .toml file of the folder dir and of its sub-folders, in the
// order of their names. A file that cannot be read, or any fault of any file, is
// an error and there is no pack: never half of one. Links and other things that
// are no plain file are refused. Warnings do not stop it; see Pack.Warnings.
func Load(fsys fs.FS, dir string) (*Pack, error) {
	p, faults, err := load(fsys, dir)
	if err != nil {
		return nil, err
	}
	if faults.Errors() > 0 {
		return nil, faults
	}
	return p, nil
}

// load gives the pack with every fault of every file, or why it cannot be read.
func load(fsys fs.FS, dir string) (*Pack, sheet.Faults, error) {
	names, err := files(fsys, dir)
	if err != nil {
		return nil, sheet.Faults{}, err
	}
	all, err := tables.Open()
	if err != nil {
		return nil, sheet.Faults{}, fmt.Errorf("refdata: %w", err)
	}
	b := &builder{pack: &Pack{}, checks: checks{all}, places: map[string]sheet.Value{}}
	sum := sha256.New()
	for _, name := range names {
		data, err := content(fsys, name)
		if err != nil {
			return nil, sheet.Faults{}, err
		}
		fmt.Fprintf(sum, "%s %d\n", strings.TrimPrefix(name, dir), len(data))
		sum.Write(data)
		doc, err := sheet.Parse(name, data)
		if err != nil {
			return nil, sheet.Faults{}, fmt.Errorf("refdata: %w", err)
		}
		b.read(doc)
	}
	faults := b.finish()
	b.pack.hash = hex.EncodeToString(sum.Sum(nil))
	b.pack.warnings = findings(faults)
	return b.pack, faults, nil
}

func content(fsys fs.FS, name string) ([]byte, error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, fmt.Errorf("refdata: %w", err)
	}
	defer f.Close()
	data, err := readUpTo(f, sheet.MaxBytes)
	if err != nil {
		return nil, fmt.Errorf("refdata: %s: %w", name, err)
	}
	return data, nil
}

func files(fsys fs.FS, dir string) ([]string, error) {
	var names []string
	err := fs.WalkDir(fsys, dir, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() || !strings.HasSuffix(path, ".toml"):
			return nil
		case !d.Type().IsRegular():
			return fmt.Errorf("%s is not a plain file; want files, not links", path)
		case len(names) == mostFiles:
			return fmt.Errorf("more than %d files", mostFiles)
		}
		names = append(names, path)
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("refdata: %w", err)
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("refdata: no .toml file in %s; want at least one procedure", dir)
	}
	slices.Sort(names)
	return names, nil
}

// IDs returns the ids of the procedures, sorted.
func (p *Pack) IDs() []string {
	var ids []string
	for _, x := range p.procedures {
		ids = append(ids, x.ID)
	}
	slices.Sort(ids)
	return ids
}

// Procedure returns the procedure with that id.
func (p *Pack) Procedure(id string) (Procedure, bool) {
	for _, x := range p.procedures {
		if x.ID == id {
			return x.clone(), true
		}
	}
	return Procedure{}, false
}

// Fluid returns the fluid class with that id.
func (p *Pack) Fluid(id string) (FluidClass, bool) {
	for _, x := range p.fluids {
		if x.ID == id {
			return x.clone(), true
		}
	}
	return FluidClass{}, false
}

// Shop returns what the workshop owns.
func (p *Pack) Shop() Shop { return p.shop.clone() }

// Hash returns the SHA-256 of the pack's files, names and contents, in hex: the
// same pack everywhere has the same hash.
func (p *Pack) Hash() string { return p.hash }

// Edition returns the first twelve digits of Hash, for a record.
func (p *Pack) Edition() string { return p.hash[:min(12, len(p.hash))] }
