package archtest

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/types"
	"slices"
	"strings"

	"example.com/meniscus/internal/source"
)

// Finding is one line that breaks a rule.
type Finding struct {
	File string
	Line int // 0 when the whole file or package is meant
	What string
}

// String gives "file:line: what", which editors can follow.
func (f Finding) String() string {
	if f.Line == 0 {
		return fmt.Sprintf("%s: %s", f.File, f.What)
	}
	return fmt.Sprintf("%s:%d: %s", f.File, f.Line, f.What)
}

// Rule judges one package.
type Rule struct {
	Name  string
	Check func(*source.Package) []Finding
}

// Rules lists the rules that judge one package at a time.
func Rules() []Rule {
	return []Rule{
		{"ladder", Ladder},
		{"state", State},
		{"surroundings", Surroundings},
		{"goroutines", Goroutines},
		{"panics", Panics},
		{"maths", Maths},
		{"fused", Fused},
		{"order", Order},
		{"docs", Docs},
		{"examples", Examples},
		{"size", Size},
		{"embedding", Embedding},
	}
}

// gate reports whether the package judges the tree rather than being part of
// it: a gate may run the go command and read the disk.
func gate(p *source.Package) bool {
	return p.Under("internal/archtest") || p.Under("internal/apilist") || p.Under("internal/source")
}

// pure reports whether the package must give the same answers on every machine.
func pure(p *source.Package) bool { return !gate(p) && !p.Under("examples") }

// finder gathers findings of one package.
type finder struct {
	p        *source.Package
	findings []Finding
}

func (f *finder) at(n ast.Node, format string, args ...any) {
	file, line := f.p.Position(n)
	f.findings = append(f.findings, Finding{file, line, fmt.Sprintf(format, args...)})
}

// sorted gives the findings in file order, each once.
func (f *finder) sorted() []Finding {
	slices.SortFunc(f.findings, func(a, b Finding) int {
		return cmp.Or(strings.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), strings.Compare(a.What, b.What))
	})
	return slices.Compact(f.findings)
}

// each calls visit for every node of the files that importers get.
func (f *finder) each(visit func(ast.Node)) {
	for _, file := range f.p.Files {
		ast.Inspect(file.Syntax, func(n ast.Node) bool {
			if n != nil {
				visit(n)
			}
			return true
		})
	}
}

// functions calls visit for every declared function that importers get.
func (f *finder) functions(visit func(*ast.FuncDecl)) {
	for _, file := range f.p.Files {
		for _, d := range file.Syntax.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok {
				visit(fn)
			}
		}
	}
}

// named gives the package path and name of what an identifier refers to, or
// blanks for a local name.
func (f *finder) named(id *ast.Ident) (pkg, name string) {
	obj := f.p.Uses(id)
	if obj == nil || obj.Pkg() == nil {
		return "", ""
	}
	return obj.Pkg().Path(), obj.Name()
}

// function is named, but only for functions and methods.
func (f *finder) function(id *ast.Ident) (pkg, name string) {
	if _, ok := f.p.Uses(id).(*types.Func); !ok {
		return "", ""
	}
	return f.named(id)
}

// receiver gives the name of the type a method belongs to, "" for a function.
func receiver(fn *ast.FuncDecl) string {
	if fn.Recv == nil || len(fn.Recv.List) == 0 {
		return ""
	}
	t := fn.Recv.List[0].Type
	for {
		switch x := t.(type) {
		case *ast.StarExpr:
			t = x.X
		case *ast.ParenExpr:
			t = x.X
		case *ast.IndexExpr:
			t = x.X
		case *ast.IndexListExpr:
			t = x.X
		case *ast.Ident:
			return x.Name
		default:
			return ""
		}
	}
}

// nameOf gives "Func" or "Type.Method".
func nameOf(fn *ast.FuncDecl) string {
	if r := receiver(fn); r != "" {
		return r + "." + fn.Name.Name
	}
	return fn.Name.Name
}
