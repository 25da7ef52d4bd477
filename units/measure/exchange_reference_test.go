package measure_test

import (
	"context"
	"testing"

	"example.com/meniscus/units/measure"
)

// The reference notes (computed): the capacity carries 97.9 % of the variance of the
// old share and each drain 0.4 %; if the drains share one jug error instead, the
// interval is 0.303 to 0.399 and the jug carries 9.5 %.
func TestCapacityDominates(t *testing.T) {
	inputs, model := fiveDrains(t)
	table, err := measure.Propagation{Inputs: inputs, Model: model}.Budget()
	if err != nil {
		t.Fatal(err)
	}
	if table.Rows[0].Quantity != "capacity" {
		t.Fatalf("%s leads", table.Rows[0].Quantity)
	}
	near(t, "capacity", table.Rows[0].Share, 0.979, 0.001)
	near(t, "a drain", table.Rows[1].Share, 0.004, 0.0005)

	jug := uncertain(t, "jug-a/scale", 2.4, 0.05, measure.Normal, 0)
	for i := 1; i < len(inputs); i++ {
		inputs[i].Of = jug
	}
	table, err = measure.Propagation{Inputs: inputs, Model: model}.Budget()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "jug", table.Rows[1].Share, 0.095, 0.002)
	o, err := measure.Simulate(context.Background(), measure.Simulation{Inputs: inputs, Model: model, Trials: 1 << 19, Seed: 1, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	i, err := o.Interval(0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "low", i.Low, 0.303, 0.0006)
	near(t, "high", i.High, 0.399, 0.0006)
}
