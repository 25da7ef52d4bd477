package measure_test

import (
	"fmt"
	"log"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// Put back what came out: 2.40 L drained hot, 2.30 L refilled. In the same jug
// its scale error is in both readings and cancels; at the same temperature the
// error of the fluid's expansion coefficient cancels too. Nothing is configured:
// the causes have names, and equal names cancel.
func Example_whatCancels() {
	expansion, err := measure.NewCause("fluid/expansion", "expansion coefficient", measure.Normal, 0)
	if err != nil {
		log.Fatal(err)
	}
	// The volume at 15 °C, by V15 = V·(1 - α·(t - 15 °C)), α = 7.6e-4 /K ± 5 %.
	const alpha, doubt = 7.6e-4, 0.05
	reduced := func(v measure.Volume, celsius float64) measure.Reading {
		rise := celsius - 15
		r := v.Reading().Times(1 - alpha*rise)
		e, err := measure.New(0, measure.Term{Cause: expansion, Scale: -alpha * doubt * rise * v.Reading().Value()})
		if err != nil {
			log.Fatal(err)
		}
		return r.Plus(e)
	}
	balance := func(jug string, celsius float64) {
		read := func(id, entry string, litres float64) measure.Volume {
			v, err := measure.Jug{ID: id, Graduation: units.Litre.Of(0.05), ScaleError: 0.01}.For(entry).Read(units.Litre.Of(litres))
			if err != nil {
				log.Fatal(err)
			}
			return v
		}
		b := reduced(read(jug, "refill-1", 2.3), celsius).Minus(reduced(read("jug-a", "drain-1", 2.4), 80))
		fmt.Printf("refill in %s at %v °C: u = %.1f mL\n", jug, celsius, b.U()*1000)
		for _, t := range b.Terms() {
			fmt.Printf("  %-22s %5.1f mL\n", t.Cause.ID(), t.Scale*1000)
		}
	}
	balance("jug-a", 80) // same jug, same temperature
	balance("jug-a", 20) // same jug
	balance("jug-b", 20) // nothing in common
	// Output:
	// refill in jug-a at 80 °C: u = 19.4 mL
	//   fluid/expansion          0.2 mL
	//   jug-a/reading/drain-1  -13.7 mL
	//   jug-a/reading/refill-1  13.7 mL
	//   jug-a/scale             -0.5 mL
	// refill in jug-a at 20 °C: u = 20.6 mL
	//   fluid/expansion          5.5 mL
	//   jug-a/reading/drain-1  -13.7 mL
	//   jug-a/reading/refill-1  14.4 mL
	//   jug-a/scale              0.1 mL
	// refill in jug-b at 20 °C: u = 27.8 mL
	//   fluid/expansion          5.5 mL
	//   jug-a/reading/drain-1  -13.7 mL
	//   jug-a/scale            -13.2 mL
	//   jug-b/reading/refill-1  14.4 mL
	//   jug-b/scale             13.2 mL
}
