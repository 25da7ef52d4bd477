package elementary

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"strings"
	"testing"
)

// TestEveryProductIsRounded reads the source. A product that stands bare may be
// fused with an addition, here or in a caller that the function is inlined
// into, so each one must be the whole argument of float64(...). Products of
// integers live in rand.go alone.
func TestEveryProductIsRounded(t *testing.T) {
	files := sources(t)
	seen := 0
	for name, text := range files {
		bare, all := bareProducts(t, name, text)
		seen += all
		for _, b := range bare {
			t.Error(b)
		}
	}
	if seen < 100 {
		t.Errorf("saw only %d products: is this test looking at the sources?", seen)
	}
}

// TestBareProductIsSeen makes sure that the test above can fail.
func TestBareProductIsSeen(t *testing.T) {
	const planted = "package p\nfunc f(a, b, c float64) float64 { a *= b; return a*b + float64(a*b) - float64(c*(a*b)) }\n"
	if bare, all := bareProducts(t, "planted.go", planted); len(bare) != 3 || all != 5 {
		t.Errorf("found %d bare products of %d, want 3 of 5", len(bare), all)
	}
}

func sources(t *testing.T) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	for _, e := range entries {
		name := e.Name()
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") || name == "rand.go" {
			continue
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = string(text)
	}
	return files
}

func bareProducts(t *testing.T, name, text string) (bare []string, all int) {
	t.Helper()
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, name, text, 0)
	if err != nil {
		t.Fatal(err)
	}
	rounded := map[ast.Expr]bool{}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			if f, ok := n.Fun.(*ast.Ident); ok && f.Name == "float64" && len(n.Args) == 1 {
				rounded[n.Args[0]] = true
			}
		case *ast.AssignStmt:
			if n.Tok == token.MUL_ASSIGN {
				all++
				bare = append(bare, set.Position(n.Pos()).String()+": write x = float64(x * y)")
			}
		case *ast.BinaryExpr:
			if n.Op != token.MUL || constant(n.X) && constant(n.Y) {
				break
			}
			all++
			if !rounded[n] {
				bare = append(bare, set.Position(n.Pos()).String()+": product not rounded by float64(...)")
			}
		}
		return true
	})
	return bare, all
}

func constant(e ast.Expr) bool {
	_, ok := e.(*ast.BasicLit)
	return ok
}
