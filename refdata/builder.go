package refdata

import (
	"fmt"

	"example.com/meniscus/internal/sheet"
)

// builder gathers the files of a pack; only when all are read can they be held
// against each other.
type builder struct {
	pack   *Pack
	checks checks
	docs   []*sheet.Doc
	places map[string]sheet.Value // "kind id": where an id was first given
	fluids []sheet.Value          // fluid classes that procedures name
	shop   bool
}

// read adds one file to the pack by its kind.
func (b *builder) read(doc *sheet.Doc) {
	b.docs = append(b.docs, doc)
	root := doc.Root()
	if n, ok := root.Integer("format"); ok && n != 1 {
		root.Fault("pack-format", fmt.Sprintf("format %d is not known", n), "write format = 1")
	}
	r := &reader{doc: doc, checks: b.checks}
	r.readSources(root.Sub("source"))
	kind, ok := root.Need("kind").Choice("procedure", "fluid", "shop")
	if !ok {
		root.Ignore()
		return
	}
	b.once(kind, root.Need("id"))
	switch kind {
	case "procedure":
		b.pack.procedures = append(b.pack.procedures, r.procedure(root))
		if class := r.where(root.Sub("fluid"), "class"); class.OK() {
			b.fluids = append(b.fluids, class)
		}
	case "fluid":
		b.pack.fluids = append(b.pack.fluids, r.fluid(root))
	case "shop":
		shop := r.shop(root)
		if b.shop {
			root.Fault("pack-two-shops", "a second shop in one pack", `keep one file with kind = "shop"`)
			return
		}
		b.pack.shop, b.shop = shop, true
	}
}

// once refuses an id given twice; ids are lower case, so no twins differ by case only.
func (b *builder) once(kind string, id sheet.Value) {
	if !id.OK() {
		return
	}
	if !plainID(id.String()) {
		id.Fault("pack-id", fmt.Sprintf("%s is no id", sheet.Echo(id.String())), "use 1 to 40 of a-z, 0-9 and -, such as tern-6")
		return
	}
	key := kind + " " + id.String()
	if first, ok := b.places[key]; ok {
		id.Fault("pack-id-twice", fmt.Sprintf("%s %s stands in %s as well", kind, id, first.File()), "give each its own id")
		return
	}
	b.places[key] = id
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

// finish holds the files against each other and gives every fault, sorted.
func (b *builder) finish() sheet.Faults {
	for _, class := range b.fluids {
		if _, ok := b.places["fluid "+class.String()]; !ok {
			class.Fault("pack-no-fluid", fmt.Sprintf("no file of the pack describes fluid %s", sheet.Echo(class.String())), `add a file with kind = "fluid" and that id`)
		}
	}
	var faults []sheet.Faults
	for _, doc := range b.docs {
		_ = doc.Finish() // its faults come with those of the other files
		faults = append(faults, doc.Faults())
	}
	return sheet.Join(faults...)
}
