package exchange_test

import (
	"fmt"

	"example.com/meniscus/exchange"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// saltmarshCheck is a 10 L box that came in right. The fluid expands by exactly
// 0.001 per kelvin, the case not at all.
func saltmarshCheck(at float64) exchange.LevelCheck {
	fluid, err := thermal.Exponential(0.001, 0)
	if err != nil {
		fmt.Println(err)
	}
	return exchange.LevelCheck{
		Net:      measure.MeasuredExactly(units.Millilitre.Of(200)),
		NetAt:    units.Celsius(40),
		CameIn:   exchange.CameInRight,
		Capacity: measure.MeasuredExactly(units.Litre.Of(10)),
		Fluid:    fluid,
		Case:     thermal.Uncorrected,
		Window:   thermal.Window{Low: units.Celsius(35), High: units.Celsius(45)},
		At:       measure.TemperatureExactly(units.Celsius(at)),
	}
}

// 5 K above mid-window 10 L stand about 50 mL higher: closed then, the box is
// 50 mL low once it is back at mid-window, and of the 200 mL too much in the
// ledger 250 mL run out.
func ExampleLevelCheck_Expect() {
	e, err := saltmarshCheck(45).Expect()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("runs out", e.Runs.Best().Text(units.Millilitre, 0))
	for _, p := range e.Parts {
		fmt.Println(p.Name, p.Volume.Best().Text(units.Millilitre, 0), "worth", p.Worth.Abs().Text(units.FahrenheitDegree, 0))
	}
	// Output:
	// runs out 250 mL
	// closing temperature -50 mL worth 9 °F
}

// At mid-window 200 mL should run. Nothing does: by the ledger the box came in
// at least 200 mL low.
func ExampleLevelExpectation_Observe() {
	e, err := saltmarshCheck(40).Expect()
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := e.Observe(exchange.Observation{First: exchange.PlugDry})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range f.Words {
		fmt.Println(w)
	}
	// Output:
	// Seen at the check plug: no flow, for how long is not recorded.
	// The level is lower than the ledger says: the box came in low, or fluid went that is not in the ledger.
	// If the ledger is right, the box came in at least 200 mL ± 0 mL (k = 2) low.
	// The level is below the lip by an amount nobody measured: top up until it trickles, and record how much.
}

// 0.06 m² × 0.2 m × tan 1° = 0.012 × 0.017455 m³ = 209 mL.
func ExampleTilt_Effect() {
	area, err := measure.Exact(0.06)
	if err != nil {
		fmt.Println(err)
	}
	angle, err := measure.Exact(1)
	if err != nil {
		fmt.Println(err)
	}
	e, err := exchange.Tilt{Area: area, Hole: measure.MeasuredExactly(units.Metre.Of(0.2)), Degrees: angle}.Effect()
	fmt.Println(e.Left.Best().Text(units.Millilitre, 0), "validity", e.Validity, err)
	// Output: 209 mL validity unknown <nil>
}

func ExampleTilt_IsZero() {
	fmt.Println(exchange.Tilt{}.IsZero())
	// Output: true
}

// tan 45° = 1: fluid 0.1 m deep at a hole in the middle of a pan 0.2 m long just
// covers the floor, and half a box of 0.2 × 0.1 × 0.2 m is 2 L.
func ExampleRectangularPan_Retained() {
	pan := exchange.RectangularPan{Length: units.Metre.Of(0.2), Width: units.Metre.Of(0.1), Lip: units.Metre.Of(0.1)}
	v, err := pan.Retained(45)
	fmt.Println(v.Text(units.Litre, 3), err)
	// Output: 2.000 L <nil>
}

// 0.4 m × 0.25 m is 0.1 m².
func ExampleRectangularPan_Tilt() {
	angle, err := measure.Exact(2)
	if err != nil {
		fmt.Println(err)
	}
	pan := exchange.RectangularPan{Length: units.Metre.Of(0.4), Width: units.Metre.Of(0.25), Lip: units.Metre.Of(0.05), Hole: units.Metre.Of(0.1)}
	tilt, err := pan.Tilt(angle)
	fmt.Println(tilt.Area.Value(), "m²", tilt.Extent, err)
	// Output: 0.1 m² 200 mm <nil>
}

func ExampleValidity_String() {
	fmt.Println(exchange.ValidityBroken)
	// Output: broken
}

func ExampleValidity_MarshalText() {
	text, err := exchange.ValidityHolds.MarshalText()
	fmt.Println(string(text), err)
	// Output: holds <nil>
}

func ExampleCameIn_String() {
	fmt.Println(exchange.CameInUnknown)
	// Output: unknown
}

func ExampleCameIn_MarshalText() {
	text, err := exchange.CameInRight.MarshalText()
	fmt.Println(string(text), err)
	// Output: right <nil>
}

func ExampleAtPlug_String() {
	fmt.Println(exchange.PlugDry, exchange.PlugDrips, exchange.PlugTrickles, exchange.PlugStreams)
	// Output: no flow drip trickle stream
}

func ExampleAtPlug_MarshalText() {
	text, err := exchange.PlugTrickles.MarshalText()
	fmt.Println(string(text), err)
	// Output: trickle <nil>
}

func ExampleAtPlug_UnmarshalText() {
	var seen exchange.AtPlug
	err := seen.UnmarshalText([]byte("stream"))
	fmt.Println(seen == exchange.PlugStreams, err)
	// Output: true <nil>
}

func ExampleAgainst_String() {
	fmt.Println(exchange.AgainstLower)
	// Output: lower
}

func ExampleAgainst_MarshalText() {
	text, err := exchange.AgainstAgrees.MarshalText()
	fmt.Println(string(text), err)
	// Output: agrees <nil>
}

func ExampleStanding_String() {
	fmt.Println(exchange.AtLip)
	// Output: at the lip
}

func ExampleStanding_MarshalText() {
	text, err := exchange.BelowLip.MarshalText()
	fmt.Println(string(text), err)
	// Output: below the lip <nil>
}

func ExampleBound_String() {
	fmt.Println(exchange.BoundAtLeast)
	// Output: at least
}

func ExampleBound_MarshalText() {
	text, err := exchange.BoundExact.MarshalText()
	fmt.Println(string(text), err)
	// Output: measured <nil>
}
