package archtest

import (
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"math"

	"example.com/meniscus/internal/source"
)

// sameBits lists the functions of math that were measured to give the same
// bits on every processor Go compiles for. Exp, Pow, Log, Sin and their kin do
// not: internal/elementary has them in pure Go, and only it may answer NaN or
// infinity, as they do.
func sameBits(path, name string) bool {
	switch name {
	case "Sqrt", "Floor", "Ceil", "Trunc", "Round", "RoundToEven", "Mod", "Abs", "Frexp", "Ldexp", "Max", "Min",
		"Float64bits", "Float64frombits", "IsNaN", "IsInf", "Copysign", "FMA", "Signbit":
		return true
	case "NaN", "Inf":
		return path == "internal/elementary"
	}
	return false
}

// Maths finds functions of math whose last bit depends on the processor.
func Maths(p *source.Package) []Finding {
	if !pure(p) {
		return nil
	}
	f := &finder{p: p}
	f.each(func(n ast.Node) {
		if id, ok := n.(*ast.Ident); ok {
			if pkg, name := f.function(id); pkg == "math" && !sameBits(p.Path, name) {
				f.at(id, "math.%s is not among the functions that give the same bits everywhere, and a number; use internal/elementary", name)
			}
		}
	})
	return f.sorted()
}

// Fused finds a float product that goes straight into a sum or difference: the
// compiler may round the two operations once instead of twice, and does on some
// processors only. float64(a*b) + c stops it. A product that reaches the sum
// through a variable or an inlined call is found in the compiled code (.ci/nofuse).
func Fused(p *source.Package) []Finding {
	if !pure(p) {
		return nil
	}
	f := &finder{p: p}
	f.each(func(n ast.Node) {
		switch x := n.(type) {
		case *ast.BinaryExpr:
			if x.Op == token.ADD || x.Op == token.SUB {
				f.operand(x.X)
				f.operand(x.Y)
			}
		case *ast.AssignStmt:
			if x.Tok == token.ADD_ASSIGN || x.Tok == token.SUB_ASSIGN {
				f.operand(x.Rhs[0])
			}
		}
	})
	return f.sorted()
}

func (f *finder) operand(e ast.Expr) {
	product, ok := stripped(e).(*ast.BinaryExpr)
	if !ok || !f.float(product) {
		return
	}
	switch {
	case product.Op == token.MUL:
		f.at(product, "product into a sum may be fused; write float64(a*b) + c")
	case product.Op == token.QUO && f.reciprocal(product.Y):
		// The compiler turns x/2 into x*0.5 first.
		f.at(product, "division by a power of two into a sum may be fused; write float64(a/2) + b")
	}
}

// stripped removes what does not stop fusing: parentheses and signs.
func stripped(e ast.Expr) ast.Expr {
	for {
		switch x := e.(type) {
		case *ast.ParenExpr:
			e = x.X
		case *ast.UnaryExpr:
			if x.Op != token.SUB && x.Op != token.ADD {
				return e
			}
			e = x.X
		default:
			return e
		}
	}
}

// float reports whether e is a float worked out when the program runs.
func (f *finder) float(e ast.Expr) bool {
	tv, ok := f.p.Info.Types[e]
	if !ok || tv.Value != nil || tv.Type == nil {
		return false
	}
	return floating(tv.Type)
}

func floating(t types.Type) bool {
	if param, ok := t.(*types.TypeParam); ok {
		union, ok := param.Constraint().Underlying().(*types.Interface)
		for i := 0; ok && i < union.NumEmbeddeds(); i++ {
			if u, ok := union.EmbeddedType(i).(*types.Union); ok && anyFloat(u) {
				return true
			}
		}
		return false
	}
	basic, ok := t.Underlying().(*types.Basic)
	return ok && basic.Info()&(types.IsFloat|types.IsComplex) != 0
}

func anyFloat(u *types.Union) bool {
	for i := range u.Len() {
		if floating(u.Term(i).Type()) {
			return true
		}
	}
	return false
}

// reciprocal reports whether dividing by the constant e is multiplying exactly.
func (f *finder) reciprocal(e ast.Expr) bool {
	tv := f.p.Info.Types[e]
	if tv.Value == nil {
		return false
	}
	v, _ := constant.Float64Val(tv.Value)
	frac, _ := math.Frexp(math.Abs(v))
	return frac == 0.5
}
