package source

import (
	"go/ast"
	"go/token"
	"go/types"
)

// Module is the code under one go.mod, without nested modules and testdata.
type Module struct {
	Root     string // directory on this machine
	Path     string // such as example.com/meniscus
	Packages []*Package
}

// Package is the code of one directory.
type Package struct {
	Module string // the module's path
	Path   string // within the module, such as "units/measure"; "" at the top
	Fset   *token.FileSet
	Files  []*File // what importers get
	Tests  []*File // _test.go, of either package name
	Types  *types.Package
	Info   *types.Info
	Broken error // why the package does not type-check, if it does not
}

// File is one file of a package.
type File struct {
	Name   string // slash-separated, within the module
	Text   []byte
	Syntax *ast.File
}

// Position gives the file and line of a node.
func (p *Package) Position(n ast.Node) (file string, line int) {
	at := p.Fset.Position(n.Pos())
	return at.Filename, at.Line
}

// Uses gives the object an identifier refers to, or nil.
func (p *Package) Uses(id *ast.Ident) types.Object { return p.Info.Uses[id] }

// Library reports whether other projects can import the package.
func (p *Package) Library() bool { return !p.Under("internal") && !p.Under("examples") }

// Under reports whether the package is dir or lies below it.
func (p *Package) Under(dir string) bool {
	return p.Path == dir || len(p.Path) > len(dir) && p.Path[:len(dir)] == dir && p.Path[len(dir)] == '/'
}
