package refdata

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/meniscus/internal/sheet"
)

// place is where an id holds: in one layer, for one kind of file.
type place struct {
	layer    int
	kind, id string
}

// builder gathers the files of a pack; only when all are read can they be laid
// over and held against each other.
type builder struct {
	pack    *Pack
	checks  checks
	docs    []*sheet.Doc
	all     []*file
	files   map[place]*file
	fluids  map[string]bool // described so far
	alone   bool            // no file is laid over another
	figures []Figure        // room for those of one file, used again for the next
	quiet   bool            // one file by itself: what other files should hold is not asked
	errors  int             // of the files read so far, as far as they are known
	partial bool            // some files were not read
	remarks []sheet.Faults  // of files that are not told of one by one
	ids     []string        // of the fluids, sorted, once all are read
	unknown int             // fluids that no file describes
}

func newBuilder(c checks) *builder {
	return &builder{pack: &Pack{}, checks: c, files: map[place]*file{}, fluids: map[string]bool{}}
}

// read adds one file to the pack: its kind, its id, what it is laid over.
func (b *builder) read(layer int, doc *sheet.Doc) {
	b.docs = append(b.docs, doc)
	root := doc.Root()
	if doc.Refused() && len(root.Names()) == 0 {
		return // not a text at all; what is missing is not the point
	}
	f := &file{doc: doc, layer: layer, name: doc.Name()}
	known := f.readFormat(root)
	if !known {
		root.Ignore()
		return
	}
	f.readSources(root.Sub("source"))
	kind, ok := root.Need("kind").Choice("procedure", "fluid", "shop")
	if !ok {
		root.Ignore()
		return
	}
	f.kind, f.id = kind, root.Need("id")
	f.readOverlay(root)
	if kind == "fluid" && f.id.OK() {
		b.fluids[f.id.String()] = true
	}
	b.all = append(b.all, f)
	b.once(f)
	b.forget(f)
}

// enough reports whether so much is at fault, this file included, that nobody would
// read of more.
func (b *builder) enough(doc *sheet.Doc) bool {
	if doc.Refused() {
		b.errors += doc.Faults().Errors()
	}
	return b.errors >= mostErrors
}

// unread tells how many files nobody looked at. What they would have held cannot be
// missed elsewhere.
func (b *builder) unread(rest []page) {
	if len(rest) == 0 {
		return
	}
	b.partial = true
	for _, f := range b.all {
		if !f.built { // it, too, may lie over what was not read
			f.doc.Root().Ignore()
			f.built, f.closed = true, true
		}
	}
	b.remarks = append(b.remarks, remark(rest[0].shown, "pack-not-read",
		fmt.Sprintf("this file and those after it, %d in all, were not read: so much is at fault before", len(rest))))
}

// remark is a fault about files that are not told of one by one.
func remark(name, code, problem string) sheet.Faults {
	doc, _ := sheet.Parse(name, nil)
	doc.Add(sheet.Fault{Code: code, Problem: problem, Do: "put those told here right, then try again"})
	return doc.Faults()
}

// forget builds at once a file that nothing can be laid over, and lets go of it
// if nothing is wrong with it: the trees of ten thousand files are costly to keep.
func (b *builder) forget(f *file) {
	if !b.alone || f.kind == "shop" { // a second shop is a fault, and nobody has thousands
		return
	}
	b.build(f)
	if f.class.OK() { // its fluid may come yet
		return
	}
	f.close()
	if n := len(b.docs) - 1; len(f.doc.Faults().All) == 0 {
		b.docs, b.all = b.docs[:n], b.all[:len(b.all)-1]
		*f = file{name: f.name} // what a second file of that id wants to know
	}
}

// close looks for what nobody asked for, once everything is read.
func (f *file) close() {
	if !f.closed && !f.doc.Refused() {
		f.unused()
	}
	f.closed = true
	f.doc.Close()
}

// once refuses an id given twice; ids are lower case, so no twins differ by case
// only. A layer above may use it again, if it says that it means the same thing.
func (b *builder) once(f *file) {
	if !f.id.OK() {
		return
	}
	id := f.id.String()
	if !plainID(id) {
		f.id.Fault("pack-id", fmt.Sprintf("%s is no id", sheet.Echo(id)), "use 1 to 40 of a-z, 0-9 and -, such as tern-6")
		return
	}
	for n := f.layer; n >= 0; n-- {
		first, taken := b.files[place{n, f.kind, id}]
		switch {
		case !taken:
			continue
		case n == f.layer:
			f.id.Fault("pack-id-twice", fmt.Sprintf("%s %s stands in %s as well", f.kind, id, first.name), "give each its own id")
			return
		case !f.over.OK():
			f.id.Fault("pack-id-twice", fmt.Sprintf("%s %s stands in %s, in a layer below", f.kind, id, first.name), fmt.Sprintf("to lay this file over that one, write overlay_of = %q; else choose another id", id))
		}
		break
	}
	b.files[place{f.layer, f.kind, id}] = f
}

func plainID(s string) bool {
	for i := range len(s) {
		c := s[i]
		if !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-') {
			return false
		}
	}
	return s != "" && len(s) <= 40
}

// finish reads every file in its chain, holds the files against each other and
// gives every fault, sorted.
func (b *builder) finish() sheet.Faults {
	b.oneShop()
	for _, f := range b.all {
		if !f.built {
			b.build(f)
		}
	}
	b.pack.sort()
	for _, f := range b.all {
		if !b.partial && f.class.OK() && !b.fluids[f.class.String()] {
			b.noFluid(f.class)
		}
	}
	for _, f := range b.all {
		f.close()
	}
	joined := sheet.Join(b.faults()...)
	joined.All = slices.Compact(joined.All) // a base is read again under each overlay
	return joined
}

// faults gives those of each file, up to that which brings the errors to mostErrors;
// of the files after it only how many are at fault.
func (b *builder) faults() []sheet.Faults {
	list := b.remarks
	errors, hidden, first := 0, 0, ""
	for _, doc := range b.docs {
		doc.Close()
		if doc.Refused() && errors >= mostErrors {
			if hidden++; hidden == 1 {
				first = doc.Name()
			}
			continue
		}
		found := doc.Faults()
		errors += found.Errors()
		list = append(list, found)
	}
	if hidden > 0 {
		list = append(list, remark(first, "pack-not-told", fmt.Sprintf("this file and others, %d in all, are at fault as well", hidden)))
	}
	return list
}

// described wants a fluid file of the class; where not all files are read yet,
// that is asked again when they are.
func (b *builder) described(f *file, class sheet.Value) {
	switch {
	case !class.OK() || b.quiet || b.fluids[class.String()]:
	case b.alone:
		f.class = class
	default:
		b.noFluid(class)
	}
}

func (b *builder) noFluid(class sheet.Value) {
	const fewFluids = 8 // that a message may list
	if b.ids == nil {
		b.ids = slices.Sorted(maps.Keys(b.fluids))
	}
	do := `add a file with kind = "fluid" and that id`
	if n := len(b.ids); n > 0 && n <= fewFluids {
		do += ", or write one the pack has: " + strings.Join(b.ids, ", ")
	}
	if b.unknown++; b.unknown <= mostErrors { // more are not told: no need to look for what was meant
		do = class.Respelt(do, b.ids...)
	}
	class.Fault("pack-no-fluid", fmt.Sprintf("no file of the pack describes fluid %s", sheet.Echo(class.String())), do)
}

// oneShop refuses two workshops in one layer.
func (b *builder) oneShop() {
	var first *file
	for _, f := range b.all {
		if f.kind != "shop" {
			continue
		}
		if first != nil && first.layer == f.layer && first.id.String() != f.id.String() {
			f.id.Fault("pack-two-shops", fmt.Sprintf("%s describes a workshop as well", first.id.File()), `keep one file with kind = "shop"`)
		}
		first = f
	}
}

// build reads what a file and those under it say together.
func (b *builder) build(f *file) {
	f.built = true
	chain, whole := b.chainOf(f)
	if !whole { // what is missing may stand in the base
		f.doc.Root().Ignore()
		return
	}
	v := open(chain)
	r := &reader{checks: b.checks, figures: b.figures[:0]}
	if len(chain) > 1 {
		lists(chain)
		basedOn(chain)
	}
	v.str("revision") // a known key of every kind
	switch f.kind {
	case "procedure":
		p := r.procedure(v)
		b.described(f, r.where(v.sub("fluid"), "class"))
		b.pack.procedures = append(b.pack.procedures, &p)
	case "fluid":
		fluid := r.fluid(v)
		b.pack.fluids = append(b.pack.fluids, &fluid)
	case "shop":
		b.pack.shop = r.shop(v)
	}
	b.figures = r.figures
}
