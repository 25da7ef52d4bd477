package archtest

import (
	"fmt"
	"go/ast"
	"go/types"

	"example.com/meniscus/internal/source"
)

// Embedding finds exported structs that embed a type which marshals itself: the
// method is promoted, and JSON then writes that one field and drops the rest.
func Embedding(p *source.Package) []Finding {
	if !p.Library() {
		return nil
	}
	f := &finder{p: p}
	f.each(func(n ast.Node) {
		spec, ok := n.(*ast.TypeSpec)
		if !ok || !spec.Name.IsExported() {
			return
		}
		fields, ok := spec.Type.(*ast.StructType)
		if !ok {
			return
		}
		for _, field := range fields.Fields.List {
			if len(field.Names) > 0 {
				continue
			}
			if method := f.marshals(field.Type); method != "" {
				f.at(field, "%s embeds a type with %s; give the field a name", spec.Name.Name, method)
			}
		}
	})
	return f.sorted()
}

func (f *finder) marshals(e ast.Expr) string {
	tv, ok := f.p.Info.Types[e]
	if !ok || tv.Type == nil {
		return ""
	}
	for _, name := range []string{"MarshalText", "MarshalJSON", "AppendText", "UnmarshalText", "UnmarshalJSON"} {
		obj, _, _ := types.LookupFieldOrMethod(tv.Type, true, f.p.Types, name)
		if _, ok := obj.(*types.Func); ok {
			return name
		}
	}
	return ""
}

func count(n int, what string, most int) string {
	return fmt.Sprintf("%d %s; want at most %d", n, what, most)
}
