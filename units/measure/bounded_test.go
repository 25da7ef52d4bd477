package measure_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/internal/allocated"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// A reading has at most 4096 causes, however it came about, so that a budget or a
// record of it stays cheap and what is written down can be read back.
func TestReadingsAreBounded(t *testing.T) {
	full, one := severalTerms(t, 1, 4096, "full/"), uncertain(t, "one", 1, 0.1, measure.Normal, 0)
	var table measure.Table
	var err error
	if used := allocated.Bytes(func() { table, err = measure.Budget(full) }); err != nil || len(table.Rows) != 4096 || used > 4<<20 {
		t.Errorf("budget of 4096 causes: %d rows, %d bytes, %v", len(table.Rows), used, err)
	}
	text, err := full.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	var again measure.Reading
	if err := again.UnmarshalJSON(text); err != nil || again.U() != full.U() {
		t.Errorf("4096 causes read back: %v", err)
	}
	if _, err := measure.New(1, make([]measure.Term, 4097)...); err == nil || !strings.Contains(err.Error(), "4097 terms; want at most 4096") {
		t.Errorf("4097 terms: %v", err)
	}
	if r := full.Plus(one); r.Valid() || !errors.Is(r.Err(), units.ErrOutOfRange) || !strings.Contains(r.Err().Error(), "more than 4096 causes") {
		t.Errorf("4097 causes: %v", r.Err())
	}
	if r := full.Plus(full); !r.Valid() || len(r.Terms()) != 4096 {
		t.Errorf("the same 4096 causes twice: %v", r.Err())
	}
	if _, err := measure.Combine(1, measure.Part{Of: full, Sensitivity: 1}, measure.Part{Of: one, Sensitivity: 1}); err == nil || !strings.Contains(err.Error(), "more than 4096 causes") {
		t.Errorf("4097 causes combined: %v", err)
	}
}

// However many inputs are wrong, the message stays short.
func TestManyFaultsAreCounted(t *testing.T) {
	bad := reading(t, math.MaxFloat64).Times(2)
	parts, inputs := make([]measure.Part, 1000), make([]measure.Input, 1001)
	for i := range parts {
		parts[i] = measure.Part{Of: bad, Sensitivity: math.NaN()}
		inputs[i] = measure.Input{Name: fmt.Sprint("input-", i+1), Of: bad}
	}
	_, terms := measure.New(1, make([]measure.Term, 4096)...)
	_, combined := measure.Combine(1, parts...)
	sum := func([]float64) float64 { return 0 }
	_, propagated := measure.Propagate(measure.Propagation{Inputs: inputs[:1000], Model: sum})
	_, simulated := measure.Simulate(context.Background(), measure.Simulation{Inputs: inputs[:1000], Model: sum, Trials: 10})
	for name, c := range map[string]struct {
		err  error
		more string
	}{
		"terms": {terms, "and 4086 more"}, "parts": {combined, "and 1990 more"}, "inputs": {propagated, "and 990 more"}, "simulated": {simulated, "and 990 more"},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.more) || len(c.err.Error()) > 2500 {
			t.Errorf("%s: %.2500v", name, c.err)
		}
	}
	if _, err := measure.Propagate(measure.Propagation{Inputs: inputs, Model: sum}); err == nil || !strings.Contains(err.Error(), "1001 inputs; want at most 1000") || len(err.Error()) > 200 {
		t.Errorf("1001 inputs: %.200v", err)
	}
}

// A formula of inputs with more terms than anybody has is refused; one cause shared by
// a thousand inputs has a row that can be read.
func TestFormulasAreBounded(t *testing.T) {
	full, one := severalTerms(t, 1, 4000, "full/"), uncertain(t, "one", 1, 0.1, measure.Normal, 0)
	inputs, parts := make([]measure.Input, 26), make([]measure.Part, 26)
	for i := range inputs {
		inputs[i], parts[i] = measure.Input{Of: full}, measure.Part{Of: full, Sensitivity: 1}
	}
	sum := func(x []float64) float64 { return x[0] }
	_, combined := measure.Combine(1, parts...)
	_, propagated := measure.Propagate(measure.Propagation{Inputs: inputs, Model: sum})
	_, simulated := measure.Simulate(context.Background(), measure.Simulation{Inputs: inputs, Model: sum, Trials: 10})
	for name, err := range map[string]error{"combine": combined, "propagate": propagated, "simulate": simulated} {
		if err == nil || !strings.Contains(err.Error(), "104000 terms together; want at most 100000") {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := measure.Combine(1, parts[:25]...); err != nil {
		t.Errorf("100000 terms: %v", err)
	}
	sharing := make([]measure.Input, 1000)
	for i := range sharing {
		sharing[i] = measure.Input{Of: one}
	}
	table, err := measure.Propagation{Inputs: sharing, Model: sum}.Budget()
	if err != nil || len(table.Rows) != 1 || !strings.HasSuffix(table.Rows[0].Quantity, "input 20, and 980 more)") {
		t.Errorf("%v, %v", table.Rows, err)
	}
}
