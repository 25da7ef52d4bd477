package elementary

import (
	"math"
	"testing"

	"example.com/meniscus/internal/published"
)

// TestPrintedValues compares with tables in print; see testdata/published.
func TestPrintedValues(t *testing.T) {
	for _, row := range outside(t, "values") {
		figure := row.Text("figure")
		slack := 0.5000001
		if row.Text("x") == "1e-20" || row.Text("function") == "NormalQuantile" && len(figure) > 15 {
			slack = 2
		}
		printed(t, row.Text("function")+" "+row.Text("x")+" "+row.Text("y"), printedResult(t, row), figure, slack)
	}
}

func printedResult(t *testing.T, row published.Row) float64 {
	t.Helper()
	x := row.Float("x")
	switch row.Text("function") {
	case "NormalQuantile":
		return NormalQuantile(x)
	case "Erf":
		return Erf(x)
	case "Erfc":
		return Erfc(x)
	case "LogGamma":
		return LogGamma(x)
	case "ChiSquareUpper":
		return ChiSquareQuantile(1-x, row.Float("y"))
	case "StudentUpper":
		return -StudentQuantile(x, row.Float("y"))
	case "LegendreNode":
		nodes, _ := GaussLegendre(int(x))
		return -nodes[row.Int("y")]
	case "LegendreWeight":
		_, weights := GaussLegendre(int(x))
		return weights[row.Int("y")]
	case "HermiteNode": // printed for exp(-x²), ours for exp(-x²/2)/√(2π)
		nodes, _ := GaussHermite(int(x))
		return -nodes[row.Int("y")] / math.Sqrt2
	case "HermiteWeight":
		_, weights := GaussHermite(int(x))
		return weights[row.Int("y")] * math.Sqrt(math.Pi)
	}
	t.Fatalf("no function %q here", row.Text("function"))
	return 0
}
