package measure_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units/measure"
)

func TestBudgetSharesAddToOne(t *testing.T) {
	table, err := endGauge(t).Budget()
	if err != nil {
		t.Fatal(err)
	}
	sum, square := 0.0, 0.0
	for _, r := range table.Rows {
		sum += r.Share
		square += r.Contribution * r.Contribution
		near(t, r.Quantity, math.Abs(r.Contribution), math.Abs(r.Sensitivity)*r.U, 1e-12)
	}
	near(t, "shares", sum, 1, 1e-12)
	near(t, "u_c²", math.Sqrt(square), table.U, 1e-12)
	// JCGM 100:2008 Table H.1: the standard gauge leads with 25 nm, then δθ with 16.6 nm.
	if table.Rows[0].Quantity != "l_s" || table.Rows[1].Quantity != "δθ" {
		t.Errorf("largest are %s and %s", table.Rows[0].Quantity, table.Rows[1].Quantity)
	}
	near(t, "δθ", math.Abs(table.Rows[1].Contribution), 16.6, 0.05)
}

// A cause in two inputs has one row, even where it cancelled to nothing.
func TestBudgetSharedCause(t *testing.T) {
	out, in := readJug(t, shopJug("jug-a"), "drain-1", 2.4).Reading(), readJug(t, shopJug("jug-a"), "refill-1", 2.4).Reading()
	p := measure.Propagation{
		Inputs: []measure.Input{{Name: "refill", Of: in}, {Name: "drain", Of: out}},
		Model:  func(x []float64) float64 { return x[0] - x[1] }, Sensitivities: []float64{1, -1},
	}
	table, err := p.Budget()
	if err != nil {
		t.Fatal(err)
	}
	if len(table.Rows) != 3 {
		t.Fatalf("%d rows, want 3: %v", len(table.Rows), table.Rows)
	}
	last := table.Rows[2]
	if last.Cause != "jug-a/scale" || last.Contribution != 0 || last.Share != 0 || !strings.Contains(last.Quantity, "shared: refill, drain") || last.HasEstimate {
		t.Errorf("the shared row is %+v", last)
	}
	if !strings.HasPrefix(table.Rows[0].Quantity, "drain: ") || !table.Rows[0].HasEstimate || table.Rows[0].Estimate != 2.4 {
		t.Errorf("the first row is %+v", table.Rows[0])
	}
}

func TestBudgetAt(t *testing.T) {
	table, err := endGauge(t).Budget()
	if err != nil {
		t.Fatal(err)
	}
	at99, err := table.At(0.99)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "k at 99 %", at99.Expanded.K, 2.92, 0.005) // t_0.99(16), JCGM 100:2008 Table G.2
	near(t, "U at 99 %", at99.Expanded.U, at99.Expanded.K*table.U, 1e-12)
	if at, err := table.AtFactor(1e308); err == nil {
		t.Errorf("1e308 × %v is taken: %+v", table.U, at.Expanded)
	}
	for _, p := range []float64{0, 1, math.NaN()} {
		if _, err := table.At(p); err == nil {
			t.Errorf("At(%v) was taken", p)
		}
	}
	for _, k := range []float64{0, -2, math.NaN(), math.Inf(1)} {
		if _, err := table.AtFactor(k); err == nil {
			t.Errorf("AtFactor(%v) was taken", k)
		}
	}
	if n := len(table.Largest(-1)) + len(table.Largest(99)) - len(table.Rows); n != 0 {
		t.Errorf("Largest is off by %d", n)
	}
}

func TestBudgetOfNothing(t *testing.T) {
	table, err := measure.Budget(measure.Reading{})
	if err != nil || len(table.Rows) != 0 || table.U != 0 {
		t.Errorf("budget of exactly 0: %+v, %v", table, err)
	}
	if _, err := measure.Budget(reading(t, math.MaxFloat64).Times(2)); err == nil {
		t.Error("a reading that is not valid has a budget")
	}
}

func balance() measure.Propagation {
	scale, _ := measure.NewCause("jug-a/scale", "jug A: scale error", measure.Rectangular, 0)
	coefficient, _ := measure.NewCause("fluid/expansion", "fluid: expansion", measure.Normal, 0)
	in, _ := measure.New(2.3, measure.Term{Cause: scale, Scale: 0.0133}, measure.Term{Cause: coefficient, Scale: -0.0004})
	out, _ := measure.New(2.4, measure.Term{Cause: scale, Scale: 0.0139}, measure.Term{Cause: coefficient, Scale: -0.0060})
	line, _ := measure.NewCause("jug-a/reading/drain-1", "jug A: reading the line, drain-1", measure.Rectangular, 0)
	look, _ := measure.New(0, measure.Term{Cause: line, Scale: 0.0144})
	return measure.Propagation{
		Inputs: []measure.Input{{Name: "refill", Of: in}, {Name: "drain", Of: out}, {Name: "line", Of: look}},
		Model:  func(x []float64) float64 { return x[0] - x[1] + x[2] },
	}
}

func ExampleBudget() {
	r, _ := measure.Propagate(balance())
	table, _ := measure.Budget(r)
	for _, row := range table.Rows {
		fmt.Printf("%-34s %5.1f %%\n", row.Quantity, 100*row.Share)
	}
	// Output:
	// jug A: reading the line, drain-1    86.7 %
	// fluid: expansion                    13.1 %
	// jug A: scale error                   0.2 %
}

func ExamplePropagation_Budget() {
	table, _ := balance().Budget()
	for _, row := range table.Rows {
		fmt.Println(row.Quantity)
	}
	// Output:
	// line
	// fluid: expansion (shared: refill, drain)
	// jug A: scale error (shared: refill, drain)
}

func ExampleTable_Text() {
	table, _ := balance().Budget()
	table.Quantity, table.Unit = "balance", "L"
	fmt.Print(table.Text())
	// Output:
	// quantity                                    estimate        u  distribution  sensitivity  contribution   share
	// line                                           0.000    0.014  rectangular             1         0.014  86.7 %
	// fluid: expansion (shared: refill, drain)               0.0056  normal                  1        0.0056  13.1 %
	// jug A: scale error (shared: refill, drain)            0.00060  rectangular            -1      -0.00060   0.2 %
	// balance = -0.100 L, u_c = 0.015 L, ν_eff = ∞, k = 1.96 (95 %), U = 0.030 L
}

func ExampleTable_Markdown() {
	table, _ := balance().Budget()
	table.Quantity, table.Unit = "balance", "L"
	fmt.Print(table.Markdown())
	// Output:
	// | quantity | estimate | u | distribution | sensitivity | contribution | share |
	// | :-- | --: | --: | :-- | --: | --: | --: |
	// | line | 0.000 | 0.014 | rectangular | 1 | 0.014 | 86.7 % |
	// | fluid: expansion (shared: refill, drain) |  | 0.0056 | normal | 1 | 0.0056 | 13.1 % |
	// | jug A: scale error (shared: refill, drain) |  | 0.00060 | rectangular | -1 | -0.00060 | 0.2 % |
	//
	// balance = -0.100 L, u_c = 0.015 L, ν_eff = ∞, k = 1.96 (95 %), U = 0.030 L
}

func ExampleTable_MarshalJSON() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	r, _ := measure.New(2, measure.Term{Cause: a, Scale: 0.5})
	table, _ := measure.Budget(r)
	table, _ = table.AtFactor(2)
	data, _ := json.Marshal(table)
	fmt.Println(string(data))
	// Output: {"schema":1,"value":2,"standard_uncertainty":0.5,"coverage_factor":2,"expanded_uncertainty":1,"components":[{"quantity":"a","cause":"a","standard_uncertainty":0.5,"distribution":"normal","sensitivity":1,"contribution":0.5,"share":1}]}
}

func ExampleTable_At() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	r, _ := measure.New(2, measure.Term{Cause: a, Scale: 0.5})
	table, _ := measure.Budget(r)
	table, _ = table.At(0.99)
	fmt.Printf("k = %.3f\n", table.Expanded.K)
	// Output: k = 2.576
}

func ExampleTable_AtFactor() {
	a, _ := measure.NewCause("a", "", measure.Normal, 0)
	r, _ := measure.New(2, measure.Term{Cause: a, Scale: 0.5})
	table, _ := measure.Budget(r)
	table, _ = table.AtFactor(2)
	fmt.Println(table.Expanded.U)
	// Output: 1
}

func ExampleTable_Largest() {
	table, _ := balance().Budget()
	for _, row := range table.Largest(1) {
		fmt.Printf("%s is %.0f %% of the doubt\n", row.Quantity, 100*row.Share)
	}
	// Output: line is 87 % of the doubt
}

// A table filled by hand may hold anything; print has words for it.
func TestATableByHandPrintsNoNaN(t *testing.T) {
	nan := math.NaN()
	text := measure.Table{Rows: []measure.Row{{Quantity: "a", DoF: nan, Sensitivity: nan, Share: math.Inf(1), Contribution: nan, U: nan}}, Expanded: measure.Expanded{DoF: nan, K: nan, Coverage: nan, U: nan}}.Text()
	if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || strings.Count(text, "not valid") < 8 {
		t.Error(text)
	}
}
