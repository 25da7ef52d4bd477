package refdata

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"example.com/meniscus/internal/sheet"
)

//go:embed builtin
var builtin embed.FS

// Pack is a loaded pack. It never changes; accessors return copies. The zero
// value is an empty pack, and so is nil.
type Pack struct {
	procedures []*Procedure
	index      map[string]int // of procedures, by id
	fluids     []*FluidClass
	shop       Shop
	hash       string
	warnings   []Finding
}

// BuiltIn returns the demonstration pack: invented gearboxes of the Saltmarsh
// community bus co-operative. None of its figures may be used on a real box.
func BuiltIn() (*Pack, error) { return LoadLayers(BuiltInLayer()) }

// BuiltInLayer returns the demonstration pack as the lowest layer for LoadLayers.
func BuiltInLayer() Layer { return Layer{FS: builtin, Dir: "builtin"} }

// Load reads every .toml file of the folder dir and of its sub-folders, in the
// order of their names. A file that cannot be read, or any fault of any file, is
// an error and there is no pack: never half of one. Links and other things that
// are no plain file are refused. Warnings do not stop it; see Pack.Warnings. Once
// 200 faults are found, the files that are left are counted and not read.
//
// The cost grows with the size of the files, and no file can make it large: one
// has at most 256 KiB, 4096 tables and keys, and 1024 values in lists, for which
// less than 10 MB are allocated. A folder has at most 20 000 files, of 64 MiB
// together.
func Load(fsys fs.FS, dir string) (*Pack, error) { return LoadLayers(Layer{FS: fsys, Dir: dir}) }

// LoadLayers reads up to eight folders, each laid over those before it. A file
// that says overlay_of replaces single values of what lies under it, value and
// source together; see Explain. Errors are those of Load.
func LoadLayers(layers ...Layer) (*Pack, error) {
	b, faults, err := load(layers)
	if err != nil {
		return nil, err
	}
	if faults.Errors() > 0 || faults.More > 0 {
		return nil, faults
	}
	return b.pack, nil
}

// load gives the pack with every fault of every file, or why it cannot be read.
func load(layers []Layer) (*builder, sheet.Faults, error) {
	if len(layers) == 0 || len(layers) > mostLayers {
		return nil, sheet.Faults{}, fmt.Errorf("refdata: %d layers; want 1 to %d", len(layers), mostLayers)
	}
	checks, err := allChecks()
	if err != nil {
		return nil, sheet.Faults{}, fmt.Errorf("refdata: %w", err)
	}
	b := newBuilder(checks)
	b.alone = true
	var all []page
	sum := sha256.New()
	for n, l := range layers {
		list, err := l.pages()
		if err != nil {
			return nil, sheet.Faults{}, err
		}
		if n > 0 {
			fmt.Fprintf(sum, "layer %d\n", n)
		}
		for _, p := range list {
			fmt.Fprintf(sum, "/%s %d\n", p.name, len(p.data))
			sum.Write(p.data)
			p.layer = n
			all = append(all, p)
			b.alone = b.alone && !bytes.Contains(p.data, []byte("overlay_of"))
		}
	}
	for i, p := range all {
		all[i].data = nil // not needed any more
		doc, err := sheet.Parse(p.shown, p.data)
		if err != nil {
			return nil, sheet.Faults{}, fmt.Errorf("refdata: %w", err)
		}
		b.read(p.layer, doc)
		if b.enough(doc) {
			b.unread(all[i+1:])
			break
		}
	}
	faults := b.finish()
	b.pack.hash = hex.EncodeToString(sum.Sum(nil))
	b.pack.warnings = b.findings(faults)
	return b, faults, nil
}

// sort puts procedures and fluids in the order of their ids, so that they are
// listed in order; fluids are found by halving. Of two with one id the one from the layer above, which was
// read later, stays.
func (p *Pack) sort() {
	slices.Reverse(p.procedures)
	slices.SortStableFunc(p.procedures, func(a, b *Procedure) int { return strings.Compare(a.ID, b.ID) })
	p.procedures = slices.CompactFunc(p.procedures, func(a, b *Procedure) bool { return a.ID == b.ID })
	p.index = make(map[string]int, len(p.procedures))
	for i, x := range p.procedures {
		p.index[x.ID] = i
	}
	slices.Reverse(p.fluids)
	slices.SortStableFunc(p.fluids, func(a, b *FluidClass) int { return strings.Compare(a.ID, b.ID) })
	p.fluids = slices.CompactFunc(p.fluids, func(a, b *FluidClass) bool { return a.ID == b.ID })
}

// known is the pack, or an empty one for nil.
func (p *Pack) known() *Pack {
	if p == nil {
		return &Pack{}
	}
	return p
}

// IDs returns the ids of the procedures, sorted.
func (p *Pack) IDs() []string {
	var ids []string
	for _, x := range p.known().procedures {
		ids = append(ids, x.ID)
	}
	return ids
}

// Has reports whether the pack has a procedure with that id. It is the cheap
// lookup: it allocates nothing, and in a pack of 10 000 takes under 100 ns.
func (p *Pack) Has(id string) bool {
	_, ok := p.find(id)
	return ok
}

func (p *Pack) find(id string) (int, bool) {
	i, ok := p.known().index[id]
	return i, ok
}

// Procedure returns a copy of the procedure with that id. The lookup is that of
// Has; the copy, of every plug, washer, note and figure, takes microseconds, so
// that writing to it changes nothing in the pack. Keep it rather than asking again,
// or ask for an [Pack.Outline], a [Pack.Plug] or a [Pack.Washer].
func (p *Pack) Procedure(id string) (Procedure, bool) {
	i, ok := p.find(id)
	if !ok {
		return Procedure{}, false
	}
	return p.procedures[i].clone(), true
}

// Fluid returns a copy of the fluid class with that id.
func (p *Pack) Fluid(id string) (FluidClass, bool) {
	i, ok := slices.BinarySearchFunc(p.known().fluids, id, func(x *FluidClass, id string) int { return strings.Compare(x.ID, id) })
	if !ok {
		return FluidClass{}, false
	}
	return p.fluids[i].clone(), true
}

// Shop returns what the workshop owns.
func (p *Pack) Shop() Shop { return p.known().shop.clone() }

// Hash returns the SHA-256 of the pack's files, names and contents, in hex: the
// same pack everywhere has the same hash.
func (p *Pack) Hash() string { return p.known().hash }

// Edition returns the first twelve digits of Hash, for a record.
func (p *Pack) Edition() string { return p.Hash()[:min(12, len(p.Hash()))] }
