package archtest

import (
	"bytes"
	"go/ast"

	"example.com/meniscus/internal/source"
)

const (
	mostFileLines     = 300
	mostFunctionLines = 60
)

// longFile and longFunction name what may be longer, each with its reason.
func longFile(name string) bool {
	switch name {
	default:
		return false
	}
}

func longFunction(pkg, fn string) bool {
	switch pkg + "." + fn {
	default:
		return false
	}
}

// Size finds files and functions too long to read in one go. Tests may be long.
func Size(p *source.Package) []Finding {
	f := &finder{p: p}
	for _, file := range p.Files {
		if n := bytes.Count(file.Text, []byte("\n")); n > mostFileLines && !longFile(file.Name) {
			f.findings = append(f.findings, Finding{File: file.Name, What: count(n, "lines in a file", mostFileLines)})
		}
	}
	f.functions(func(fn *ast.FuncDecl) {
		first, last := p.Fset.Position(fn.Pos()).Line, p.Fset.Position(fn.End()).Line
		if n := last - first + 1; n > mostFunctionLines && !longFunction(p.Path, nameOf(fn)) {
			f.at(fn, "%s: %s", nameOf(fn), count(n, "lines in a function", mostFunctionLines))
		}
	})
	return f.sorted()
}
