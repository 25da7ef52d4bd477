package archtest

import (
	"go/ast"
	"go/types"
	"strings"

	"example.com/meniscus/internal/source"
)

const orderExcuse = "// order does not matter: "

// Order finds walks over a map: Go shuffles them on purpose. A walk whose order
// cannot reach the result says so, with the reason, on its line or the one above.
func Order(p *source.Package) []Finding {
	f := &finder{p: p}
	for _, file := range p.Files {
		excused := excuses(p, file)
		report := func(n ast.Node, format string, args ...any) {
			if _, line := p.Position(n); !excused[line] {
				f.at(n, format, args...)
			}
		}
		calmed := f.sortedCalls(file.Syntax)
		ast.Inspect(file.Syntax, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.RangeStmt:
				if f.isMap(x.X) {
					report(x, "range over a map; sort the keys, or say \"%sreason\"", orderExcuse)
				}
			case *ast.CallExpr:
				if name := f.mapWalk(x); name != "" && !calmed[x] {
					report(x, "%s walks a map; put it into slices.Sorted, or say \"%sreason\"", name, orderExcuse)
				}
			}
			return true
		})
	}
	return f.sorted()
}

// excuses gives the lines a reason covers.
func excuses(p *source.Package, file *source.File) map[int]bool {
	lines := map[int]bool{}
	for _, group := range file.Syntax.Comments {
		for _, c := range group.List {
			if reason, ok := strings.CutPrefix(c.Text, orderExcuse); ok && strings.TrimSpace(reason) != "" {
				_, line := p.Position(c)
				lines[line], lines[line+1] = true, true
			}
		}
	}
	return lines
}

func (f *finder) isMap(e ast.Expr) bool {
	tv, ok := f.p.Info.Types[e]
	if !ok || tv.Type == nil {
		return false
	}
	_, ok = tv.Type.Underlying().(*types.Map)
	return ok
}

// mapWalk names the library function that hands out a map's entries unsorted.
func (f *finder) mapWalk(call *ast.CallExpr) string {
	pkg, name := f.called(call)
	switch {
	case pkg == "maps" && (name == "Keys" || name == "Values" || name == "All"),
		pkg == "reflect" && (name == "MapKeys" || name == "MapRange"),
		pkg == "sync" && name == "Range":
		return pkg + "." + name
	}
	return ""
}

// sortedCalls gives the calls that stand as the argument of a sort.
func (f *finder) sortedCalls(file *ast.File) map[*ast.CallExpr]bool {
	calmed := map[*ast.CallExpr]bool{}
	ast.Inspect(file, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok || len(call.Args) == 0 {
			return true
		}
		pkg, name := f.called(call)
		if inner, ok := call.Args[0].(*ast.CallExpr); ok && pkg == "slices" && strings.HasPrefix(name, "Sorted") {
			calmed[inner] = true
		}
		return true
	})
	return calmed
}

func (f *finder) called(call *ast.CallExpr) (pkg, name string) {
	fun := call.Fun
	if index, ok := fun.(*ast.IndexExpr); ok {
		fun = index.X
	}
	sel, ok := fun.(*ast.SelectorExpr)
	if !ok {
		return "", ""
	}
	return f.function(sel.Sel)
}
