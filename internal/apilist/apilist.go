package apilist

import (
	"fmt"
	"go/ast"
	"go/types"
	"slices"
	"strings"

	"example.com/meniscus/internal/source"
)

// Lines lists the exported names of the module's library packages.
func Lines(m *source.Module) []string {
	var lines []string
	for _, p := range m.Packages {
		if !p.Library() || len(p.Files) == 0 || p.Types == nil {
			continue
		}
		l := lister{pkg: p}
		scope := p.Types.Scope()
		for _, name := range scope.Names() {
			if ast.IsExported(name) {
				l.object(scope.Lookup(name))
			}
		}
		lines = append(lines, l.lines...)
	}
	slices.Sort(lines)
	return lines
}

type lister struct {
	pkg   *source.Package
	lines []string
}

func (l *lister) add(format string, args ...any) {
	l.lines = append(l.lines, l.pkg.Path+": "+fmt.Sprintf(format, args...))
}

// short writes types of this module by their place in it, such as units.Volume.
func (l *lister) short(p *types.Package) string {
	if p == l.pkg.Types {
		return ""
	}
	return strings.TrimPrefix(p.Path(), l.pkg.Module+"/")
}

func (l *lister) text(t types.Type) string { return types.TypeString(t, l.short) }

func (l *lister) object(obj types.Object) {
	switch x := obj.(type) {
	case *types.Const:
		l.add("const %s %s = %s", x.Name(), l.text(x.Type()), x.Val().ExactString())
	case *types.Var:
		l.add("var %s %s", x.Name(), l.text(x.Type()))
	case *types.Func:
		l.add("func %s%s", x.Name(), l.signature(x))
	case *types.TypeName:
		l.typeName(x)
	}
}

func (l *lister) signature(f *types.Func) string {
	return strings.TrimPrefix(l.text(f.Type()), "func")
}

func (l *lister) typeName(name *types.TypeName) {
	if name.IsAlias() {
		l.add("type %s = %s", name.Name(), l.text(types.Unalias(name.Type())))
		return
	}
	named, ok := name.Type().(*types.Named)
	if !ok {
		return
	}
	l.add("type %s%s %s", name.Name(), l.parameters(named), l.shape(named))
	if s, ok := named.Underlying().(*types.Struct); ok {
		l.fields(name.Name(), s)
	}
	if i, ok := named.Underlying().(*types.Interface); ok {
		l.interfaceMethods(name.Name(), i)
		return
	}
	l.methods(named)
}

func (l *lister) parameters(named *types.Named) string {
	list := named.TypeParams()
	if list.Len() == 0 {
		return ""
	}
	var parts []string
	for p := range list.TypeParams() {
		parts = append(parts, p.Obj().Name()+" "+l.text(p.Constraint()))
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

// shape names what a type is made of. Hidden fields matter to importers in one
// way only: whether values can be compared with ==.
func (l *lister) shape(named *types.Named) string {
	switch u := named.Underlying().(type) {
	case *types.Struct:
		if types.Comparable(named) {
			return "struct, comparable"
		}
		return "struct"
	case *types.Interface:
		return "interface"
	default:
		return l.text(u)
	}
}

func (l *lister) fields(owner string, s *types.Struct) {
	for i := range s.NumFields() {
		f := s.Field(i)
		if !f.Exported() {
			continue
		}
		tag := ""
		if s.Tag(i) != "" {
			tag = " `" + s.Tag(i) + "`"
		}
		embedded := ""
		if f.Embedded() {
			embedded = "embedded "
		}
		l.add("type %s field %s%s %s%s", owner, embedded, f.Name(), l.text(f.Type()), tag)
	}
}

func (l *lister) interfaceMethods(owner string, i *types.Interface) {
	hidden := false
	for m := range i.Methods() {
		if m.Exported() {
			l.add("type %s method %s%s", owner, m.Name(), l.signature(m))
		} else {
			hidden = true
		}
	}
	if hidden {
		l.add("type %s closed: it has a method nobody else can write", owner)
	}
	for t := range i.EmbeddedTypes() {
		l.add("type %s admits %s", owner, l.text(t))
	}
}

// methods lists the method set of a pointer, promoted methods included, and
// says which of them need one.
func (l *lister) methods(named *types.Named) {
	value := types.NewMethodSet(named)
	for sel := range types.NewMethodSet(types.NewPointer(named)).Methods() {
		f, ok := sel.Obj().(*types.Func)
		if !ok || !f.Exported() {
			continue
		}
		receiver := named.Obj().Name()
		if value.Lookup(f.Pkg(), f.Name()) == nil {
			receiver = "*" + receiver
		}
		l.add("func (%s) %s%s", receiver, f.Name(), l.signature(f))
	}
}
