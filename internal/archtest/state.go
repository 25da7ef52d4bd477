package archtest

import (
	"go/ast"
	"go/token"
	"strings"

	"example.com/meniscus/internal/source"
)

// State finds init functions and package variables. A variable is allowed when
// nothing can be done with it: an error made by errors.New, embedded data, or
// a blank that only makes the compiler check an interface.
func State(p *source.Package) []Finding {
	f := &finder{p: p}
	if p.Under("examples") {
		return nil
	}
	f.functions(func(fn *ast.FuncDecl) {
		if fn.Recv == nil && fn.Name.Name == "init" {
			f.at(fn, "init runs before anyone asked; make it a function somebody calls")
		}
	})
	for _, file := range p.Files {
		for _, d := range file.Syntax.Decls {
			decl, ok := d.(*ast.GenDecl)
			if !ok || decl.Tok != token.VAR {
				continue
			}
			for _, s := range decl.Specs {
				if spec, ok := s.(*ast.ValueSpec); ok {
					f.variable(decl, spec)
				}
			}
		}
	}
	return f.sorted()
}

func (f *finder) variable(decl *ast.GenDecl, spec *ast.ValueSpec) {
	if embeds(decl.Doc) || embeds(spec.Doc) {
		return
	}
	for i, name := range spec.Names {
		if name.Name == "_" {
			continue
		}
		if i < len(spec.Values) && strings.HasPrefix(strings.ToLower(name.Name), "err") && f.sentinel(spec.Values[i]) {
			continue
		}
		f.at(name, "package variable %s could be changed; want a const, a function or a switch", name.Name)
	}
}

func (f *finder) sentinel(value ast.Expr) bool {
	call, ok := value.(*ast.CallExpr)
	if !ok {
		return false
	}
	sel, ok := call.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	pkg, name := f.function(sel.Sel)
	return pkg == "errors" && name == "New"
}

func embeds(doc *ast.CommentGroup) bool {
	if doc == nil {
		return false
	}
	for _, c := range doc.List {
		if strings.HasPrefix(c.Text, "//go:embed ") {
			return true
		}
	}
	return false
}
