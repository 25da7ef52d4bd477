package elementary

import (
	"crypto/sha256"
	"encoding/binary"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write testdata/digests.txt anew")

// A grain makes arguments out of whole numbers alone, so that every processor
// works on the same ones.
type grain struct{ state uint64 }

func (g *grain) next() uint64 {
	g.state += weyl
	return mix(g.state)
}

// in returns a float of [lo, hi).
func (g *grain) in(lo, hi float64) float64 {
	share := math.Ldexp(float64(int64(g.next()>>11)), -53)
	return lo + float64(share*float64(hi-lo))
}

// any returns any finite positive float, every pattern with the same chance.
func (g *grain) any() float64 { return math.Float64frombits(g.next() % 0x7FF0000000000000) }

// power returns a float of [2^lo, 2^hi), every binary order with the same chance.
func (g *grain) power(lo, hi int) float64 {
	e := lo + int(g.next()%uint64(hi-lo))
	return math.Ldexp(float64(int64(g.next()>>11|1<<52)), e-52)
}

// chance returns a float of (0, 1), half of them in the tails.
func (g *grain) chance() float64 {
	if g.next()&1 == 0 {
		return g.power(-1000, 0)
	}
	return g.in(0x1p-53, 1)
}

// A digest is 20 000 results or more of one function.
type digest struct {
	name string
	one  func(g *grain, out func(float64))
}

func oneArgument(name string, f func(float64) float64, args ...func(g *grain) float64) digest {
	return digest{name, func(g *grain, out func(float64)) {
		for _, a := range args {
			out(f(a(g)))
		}
	}}
}

func between(lo, hi float64) func(*grain) float64 {
	return func(g *grain) float64 { return g.in(lo, hi) }
}

func signed(lo, hi int) func(*grain) float64 {
	return func(g *grain) float64 {
		if g.next()&1 == 0 {
			return -g.power(lo, hi)
		}
		return g.power(lo, hi)
	}
}

func digests() []digest {
	positive := (*grain).any
	degrees := func(g *grain) float64 {
		switch g.next() % 4 {
		case 0:
			return float64(1 + g.next()%30)
		case 1:
			return g.power(-3, 30)
		}
		return g.in(0.5, 200)
	}
	return []digest{
		oneArgument("Exp", Exp, between(-746, 710), between(-2, 2), signed(-60, 9)),
		oneArgument("Expm1", Expm1, between(-40, 710), between(-2, 2), signed(-1022, 9)),
		oneArgument("Log", Log, positive, between(0.5, 2), between(0, 100)),
		oneArgument("Log1p", Log1p, positive, between(-1, 1), signed(-1022, 0)),
		oneArgument("Sin", Sin, between(-TrigRange, TrigRange), between(-7, 7), signed(-1022, 2)),
		oneArgument("Cos", Cos, between(-TrigRange, TrigRange), between(-7, 7), signed(-60, 2)),
		oneArgument("Tan", Tan, between(-TrigRange, TrigRange), between(-7, 7), signed(-1022, 2)),
		oneArgument("Erf", Erf, between(-7, 7), signed(-1022, 3)),
		oneArgument("Erfc", Erfc, between(-7, 28), signed(-60, 3)),
		oneArgument("NormalPDF", NormalPDF, between(-40, 40), between(-5, 5)),
		oneArgument("NormalCDF", NormalCDF, between(-39, 10), between(-5, 5)),
		oneArgument("NormalQuantile", NormalQuantile, (*grain).chance, between(0, 1)),
		oneArgument("LogGamma", LogGamma, positive, between(0, 12), between(0, 200)),
		{"Pow", func(g *grain, out func(float64)) {
			out(Pow(g.in(0, 10), g.in(-20, 20)))
			out(Pow(g.any(), g.in(-2, 2)))
			out(Pow(1+g.in(-0.001, 0.001), g.in(-1e5, 1e5)))
		}},
		{"IntPow", func(g *grain, out func(float64)) { out(IntPow(g.in(-3, 3), int(g.next()%200)-100)) }},
		{"RegularizedGammaP", func(g *grain, out func(float64)) {
			a := g.power(-6, 20)
			out(RegularizedGammaP(a, float64(a*g.in(0, 3))))
			out(RegularizedGammaP(a, a+float64(math.Sqrt(a)*g.in(-6, 6))))
		}},
		{"RegularizedGammaQ", func(g *grain, out func(float64)) {
			a := g.power(-6, 20)
			out(RegularizedGammaQ(a, float64(a*g.in(0, 3))))
			out(RegularizedGammaQ(a, a+float64(math.Sqrt(a)*g.in(-6, 6))))
		}},
		{"RegularizedBeta", func(g *grain, out func(float64)) {
			a, b := g.power(-4, 12), g.power(-4, 12)
			out(RegularizedBeta(a, b, g.in(0, 1)))
			out(RegularizedBeta(a, b, float64(a/(a+b)*g.in(0.5, 1))))
		}},
		{"StudentPDF", func(g *grain, out func(float64)) { out(StudentPDF(g.in(-40, 40), degrees(g))) }},
		{"StudentCDF", func(g *grain, out func(float64)) { out(StudentCDF(g.in(-40, 10), degrees(g))) }},
		{"StudentQuantile", func(g *grain, out func(float64)) { out(StudentQuantile(g.chance(), degrees(g))) }},
		{"ChiSquareQuantile", func(g *grain, out func(float64)) { out(ChiSquareQuantile(g.chance(), degrees(g))) }},
		{"GaussLegendre", ruleDigest(GaussLegendre)},
		{"GaussHermite", ruleDigest(GaussHermite)},
		{"Sum", func(g *grain, out func(float64)) {
			x := make([]float64, g.next()%20)
			for i := range x {
				x[i] = signed(-40, 40)(g)
			}
			out(Sum(x))
		}},
		{"NewStream", func(g *grain, out func(float64)) {
			s := NewStream(g.next(), g.next()%1000)
			out(float64(int64(s.hi >> 11)))
			out(float64(int64(s.lo >> 11)))
		}},
		{"Uint64", streamDigest(func(s *Stream) float64 { return float64(int64(s.Uint64() >> 11)) })},
		{"Below", streamDigest(func(s *Stream) float64 { return float64(int64(s.Below(1 << 52 / 3))) })},
		{"Float64", streamDigest((*Stream).Float64)},
		{"Normal", streamDigest((*Stream).Normal)},
		{"FillNormal", streamDigest(func(s *Stream) float64 {
			var z [3]float64
			s.FillNormal(z[:])
			return z[2]
		})},
	}
}

// ruleDigest gives all nodes and weights of a rule, small orders and a few large.
func ruleDigest(rule func(int) ([]float64, []float64)) func(*grain, func(float64)) {
	n := 0
	return func(_ *grain, out func(float64)) {
		n++
		order := n
		if n > 100 {
			order = 1 + n*17%RuleMax
		}
		nodes, weights := rule(order)
		for i := range nodes {
			out(nodes[i])
			out(weights[i])
		}
	}
}

func streamDigest(draw func(*Stream) float64) func(*grain, func(float64)) {
	return func(g *grain, out func(float64)) {
		s := NewStream(g.next(), g.next()%1000)
		for range 500 {
			out(draw(s))
		}
	}
}

const resultsEach = 20000

// line returns the digest as it stands in the file: name, number of results,
// and a SHA-256 over their bits, big-endian, any NaN as one pattern.
func (d digest) line() string {
	g, h, n := &grain{state: 20261125}, sha256.New(), 0
	for n < resultsEach {
		d.one(g, func(x float64) {
			bits := math.Float64bits(x)
			if x != x {
				bits = 0x7FF8000000000000
			}
			h.Write(binary.BigEndian.AppendUint64(nil, bits))
			n++
		})
	}
	return fmt.Sprintf("%s %d %x", d.name, n, h.Sum(nil))
}

const digestFile = "testdata/digests.txt"

// TestSameBitsEverywhere is to be run on every architecture. A digest that
// changes is a change of results: give the reason in the change log.
func TestSameBitsEverywhere(t *testing.T) {
	const header = "# SHA-256 over the bits of results, per function; see digest_test.go. Written by: go test -run SameBits -update\n"
	var lines []string
	for _, d := range digests() {
		lines = append(lines, d.line())
	}
	text := header + strings.Join(lines, "\n") + "\n"
	if *update {
		if err := os.WriteFile(digestFile, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	stored, err := os.ReadFile(digestFile)
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Split(string(stored), "\n")
	for _, line := range lines {
		if !slices.Contains(want, line) {
			t.Errorf("other bits than stored: %s", line)
		}
	}
	if len(want) != len(lines)+2 {
		t.Errorf("%s has %d lines, want %d", digestFile, len(want), len(lines)+2)
	}
}

// TestEveryFunctionHasADigest reads the sources for exported functions and
// methods.
func TestEveryFunctionHasADigest(t *testing.T) {
	named := map[string]bool{}
	for _, d := range digests() {
		named[d.name] = true
	}
	files, found := sources(t), 0
	text, err := os.ReadFile("rand.go")
	if err != nil {
		t.Fatal(err)
	}
	files["rand.go"] = string(text)
	for name, text := range files {
		file, err := parser.ParseFile(token.NewFileSet(), name, text, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Name.IsExported() {
				found++
				if !named[f.Name.Name] {
					t.Errorf("%s: %s has no digest", name, f.Name.Name)
				}
			}
		}
	}
	if found != len(named) {
		t.Errorf("%d exported functions, %d digests", found, len(named))
	}
}
