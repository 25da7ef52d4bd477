package archtest

import (
	"go/ast"
	"go/build/constraint"
	"go/types"
	"strings"

	"example.com/meniscus/internal/source"
)

// Surroundings finds whatever would let the machine, the moment or the caller's
// other settings into an answer.
func Surroundings(p *source.Package) []Finding {
	if !pure(p) {
		return nil
	}
	f := &finder{p: p}
	for _, file := range p.Files {
		for i, imp := range source.Imports(file) {
			if forbiddenImport(p, imp) {
				f.at(file.Syntax.Imports[i], "import of %s: answers must not depend on the surroundings", imp)
			}
		}
		for _, group := range file.Syntax.Comments {
			for _, c := range group.List {
				if constraint.IsGoBuild(c.Text) {
					f.at(c, "build constraint: every machine must run the same code")
				}
			}
		}
	}
	f.each(func(n ast.Node) {
		if id, ok := n.(*ast.Ident); ok {
			f.forbiddenName(id)
		}
	})
	return f.sorted()
}

func forbiddenImport(p *source.Package, imp string) bool {
	switch imp {
	case "testing":
		return p.Path != "internal/published" // it hands tables to tests
	case "C", "os", "net", "log", "syscall", "unsafe", "plugin", "expvar", "crypto/rand", "math/cmplx", "runtime/debug":
		return true
	}
	return strings.HasPrefix(imp, "net/") || strings.HasPrefix(imp, "os/")
}

func (f *finder) forbiddenName(id *ast.Ident) {
	obj := f.p.Uses(id)
	if b, ok := obj.(*types.Builtin); ok && (b.Name() == "print" || b.Name() == "println") {
		f.at(id, "%s writes to the process's own output", b.Name())
	}
	pkg, name := f.named(id)
	switch pkg {
	case "time":
		switch name {
		case "Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTicker", "NewTimer", "Local", "LoadLocation":
			f.at(id, "time.%s reads the clock or the machine's zone; take the time from the caller", name)
		}
	case "fmt":
		if strings.HasPrefix(name, "Print") || strings.HasPrefix(name, "Scan") {
			f.at(id, "fmt.%s uses the process's own input or output", name)
		}
	case "math/rand", "math/rand/v2":
		if fn, ok := obj.(*types.Func); ok && fn.Signature().Recv() == nil && !strings.HasPrefix(name, "New") {
			f.at(id, "%s.%s draws from a source nobody seeded; make one with New", pkg, name)
		}
	}
}

// waiting names the functions that may start goroutines, because they wait for
// every one before they return.
func waiting(pkg, fn string) bool {
	return pkg == "units/measure" && (fn == "Simulate" || strings.HasPrefix(fn, "simulate"))
}

// Goroutines finds go statements outside the functions known to wait.
func Goroutines(p *source.Package) []Finding {
	if !pure(p) {
		return nil
	}
	f := &finder{p: p}
	f.functions(func(fn *ast.FuncDecl) {
		if waiting(p.Path, nameOf(fn)) {
			return
		}
		ast.Inspect(fn, func(n ast.Node) bool {
			if g, ok := n.(*ast.GoStmt); ok {
				f.at(g, "%s starts a goroutine; nothing may outlive the call", nameOf(fn))
			}
			return true
		})
	})
	return f.sorted()
}

// Panics finds calls of panic outside functions named Must….
func Panics(p *source.Package) []Finding {
	if !pure(p) {
		return nil
	}
	f := &finder{p: p}
	for _, file := range p.Files {
		for _, d := range file.Syntax.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if ok && strings.HasPrefix(fn.Name.Name, "Must") {
				continue
			}
			ast.Inspect(d, func(n ast.Node) bool {
				if id, ok := n.(*ast.Ident); ok {
					if b, ok := f.p.Uses(id).(*types.Builtin); ok && b.Name() == "panic" {
						f.at(id, "panic outside a function named Must…; return an error")
					}
				}
				return true
			})
		}
	}
	return f.sorted()
}
