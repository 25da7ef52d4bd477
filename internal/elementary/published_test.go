package elementary

import (
	"math"
	"os"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
)

// outside opens a table of outside values under testdata/published.
func outside(t *testing.T, name string) []published.Row {
	t.Helper()
	table, err := published.Open(os.DirFS("."), "testdata/published/"+name+".csv")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := table.Err(); err != nil {
			t.Error(err)
		}
	})
	return table.Rows()
}

// printed checks a result against a figure as it stands in print: it must
// agree to slack units of the last digit printed.
func printed(t *testing.T, what string, got float64, figure string, slack float64) {
	t.Helper()
	want := parse(t, figure)
	mantissa, exponent, _ := strings.Cut(figure, "e")
	_, decimals, _ := strings.Cut(mantissa, ".")
	unit := Pow(10, float64(-len(decimals)))
	if exponent != "" {
		unit *= Pow(10, parse(t, exponent))
	}
	// The last float digits of a long figure are no fault of the print.
	if off := math.Abs(got - want); !(off <= slack*unit+4e-16*math.Abs(want)) {
		t.Errorf("%s: got %.17g, printed %s", what, got, figure)
	}
}
