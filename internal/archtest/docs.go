package archtest

import (
	"go/ast"
	"go/doc"
	"go/token"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/meniscus/internal/source"
)

// Docs finds exported names without a comment and packages without an
// introduction.
func Docs(p *source.Package) []Finding {
	f := &finder{p: p}
	if len(p.Files) == 0 {
		return nil
	}
	introduced := false
	for _, file := range p.Files {
		introduced = introduced || file.Syntax.Doc.Text() != ""
	}
	if !introduced {
		f.at(p.Files[0].Syntax.Name, "package %s has no comment to introduce it", p.Path)
	}
	if p.Under("examples") {
		return f.sorted()
	}
	f.functions(func(fn *ast.FuncDecl) {
		if public(fn) && fn.Doc.Text() == "" {
			f.at(fn.Name, "%s has no comment", nameOf(fn))
		}
	})
	for _, file := range p.Files {
		for _, d := range file.Syntax.Decls {
			if decl, ok := d.(*ast.GenDecl); ok && decl.Tok != token.IMPORT {
				f.declaration(decl)
			}
		}
	}
	return f.sorted()
}

// declaration: a comment on a const or var group speaks for its members, one on
// a group of types does not.
func (f *finder) declaration(decl *ast.GenDecl) {
	for _, s := range decl.Specs {
		switch spec := s.(type) {
		case *ast.TypeSpec:
			alone := !decl.Lparen.IsValid() && decl.Doc.Text() != ""
			if spec.Name.IsExported() && !alone && spec.Doc.Text() == "" && spec.Comment.Text() == "" {
				f.at(spec.Name, "%s has no comment", spec.Name.Name)
			}
		case *ast.ValueSpec:
			for _, name := range spec.Names {
				if name.IsExported() && decl.Doc.Text() == "" && spec.Doc.Text() == "" && spec.Comment.Text() == "" {
					f.at(name, "%s has no comment", name.Name)
				}
			}
		}
	}
}

// public reports whether importers can call the function.
func public(fn *ast.FuncDecl) bool {
	r := receiver(fn)
	return fn.Name.IsExported() && (fn.Recv == nil || ast.IsExported(r))
}

// Examples finds exported functions and methods of library packages that no
// Example shows. An Example counts only with an output to check.
func Examples(p *source.Package) []Finding {
	if !p.Library() {
		return nil
	}
	f := &finder{p: p}
	shown := shownIn(p)
	f.functions(func(fn *ast.FuncDecl) {
		if !public(fn) {
			return
		}
		want := strings.ReplaceAll(nameOf(fn), ".", "_")
		if !shows(shown, want) {
			f.at(fn.Name, "%s has no Example%s with an output", nameOf(fn), want)
		}
	})
	return f.sorted()
}

func shownIn(p *source.Package) []string {
	var files []*ast.File
	for _, file := range p.Tests {
		files = append(files, file.Syntax)
	}
	var names []string
	for _, e := range doc.Examples(files...) {
		if e.Output != "" || e.EmptyOutput {
			names = append(names, e.Name)
		}
	}
	return names
}

// shows follows the rule of go vet: a suffix after an underscore starts with a
// lower-case letter.
func shows(names []string, want string) bool {
	for _, name := range names {
		suffix, ok := strings.CutPrefix(name, want)
		if !ok {
			continue
		}
		if suffix == "" {
			return true
		}
		if rest, ok := strings.CutPrefix(suffix, "_"); ok {
			if r, _ := utf8.DecodeRuneInString(rest); unicode.IsLower(r) {
				return true
			}
		}
	}
	return false
}
