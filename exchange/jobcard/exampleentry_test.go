package jobcard_test

import (
	"fmt"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/units"
)

func ExampleFillPlug() {
	fmt.Println(jobcard.FillPlug(clock(0), "fill").Summary())
	// Output: fill plug opened: fill
}

func ExampleDrainOf() {
	fmt.Println(jobcard.DrainOf(clock(0), l(2)).Summary())
	// Output: drained 2.000 L (2.11 US qt) at 15.0 °C (59.0 °F)
}

func ExampleRefillOf() {
	fmt.Println(jobcard.RefillOf(clock(0), jobcard.Amount{Mass: units.Kilogram.Of(1.7), Scale: "parcel"}).Summary())
	// Output: refilled 1.700 kg (3.75 lb) on parcel
}

func ExampleGearRuns() {
	fmt.Println(jobcard.GearRuns(clock(0), 4).Summary())
	// Output: mixed, 4 runs through the gears
}

func ExampleKeptBack() {
	fmt.Println(jobcard.KeptBack(clock(0), l(0.25)).Summary())
	// Output: kept 0.250 L (0.26 US qt) at 15.0 °C (59.0 °F)
}

func ExampleSpill() {
	fmt.Println(jobcard.Spill(clock(0), l(0.05), jobcard.FromRefill).Summary())
	// Output: spilled 0.050 L (0.05 US qt) at 15.0 °C (59.0 °F) of the refill
}

func ExampleNewWasher() {
	fmt.Println(jobcard.NewWasher(clock(0), "drain", "ring-16").Summary())
	// Output: washer fitted: new ring-16 on plug drain
}

func ExampleTorqueSet() {
	fmt.Println(jobcard.TorqueSet(clock(0), "drain", units.NewtonMetre.Of(24), "wrench-50").Summary())
	// Output: plug torqued: drain to 24.0 N·m (17.7 lbf·ft) with wrench-50
}

func ExampleReadWindow() {
	fmt.Println(jobcard.ReadWindow(clock(0), jobcard.WindowReading{Temperature: units.Fahrenheit(106), Thermometer: "probe-1", Level: true}).Summary())
	// Output: window read 41.1 °C (106.0 °F) by probe-1, box level
}

func ExampleObserve() {
	fmt.Println(jobcard.Observe(clock(0), "check", exchange.PlugTrickles).Summary())
	// Output: check plug observed: trickle
}

func ExampleTopUp() {
	fmt.Println(jobcard.TopUp(clock(0), l(0.1)).Kind)
	// Output: topped up
}

func ExampleSupply() {
	fmt.Println(jobcard.Supply(clock(0), units.Litre.Of(4)).Summary())
	// Output: supplied 4.000 L (4.23 US qt) at 20.0 °C (68.0 °F)
}

func ExampleNote() {
	fmt.Println(jobcard.Note(clock(0), "exhaust shield loose").Summary())
	// Output: noted: exhaust shield loose
}

func ExampleStrike() {
	fmt.Println(jobcard.Strike(clock(0), 3, "typed twice").Summary())
	// Output: struck: entry 3 does not count: typed twice
}

func ExampleClose() {
	fmt.Println(jobcard.Close(clock(0)).Summary())
	// Output: closed
}

func ExampleEntry_Saying() {
	fmt.Println(jobcard.GearRuns(clock(0), 4).Saying("slow into reverse").Summary())
	// Output: mixed, 4 runs through the gears - slow into reverse
}

func ExampleEntry_Summary() {
	fmt.Println(jobcard.Entry{}.Summary())
	// Output: no kind
}

func ExampleDuration_MarshalText() {
	text, _ := jobcard.Duration(45e9).MarshalText()
	fmt.Println(string(text))
	// Output: 45s
}

func ExampleDuration_UnmarshalText() {
	var d jobcard.Duration
	fmt.Println(d.UnmarshalText([]byte("soon")))
	// Output: jobcard: "soon" is not a length of time; want such as 45s or 2m30s
}

func ExampleDuration_String() {
	fmt.Println(jobcard.Duration(90e9))
	// Output: 1m30s
}

func ExampleKind_String() {
	fmt.Println(jobcard.FillPlugOpened)
	// Output: fill plug opened
}

func ExampleKind_MarshalText() {
	_, err := jobcard.NoKind.MarshalText()
	fmt.Println(err)
	// Output: jobcard: kind 0: not a kind; want one of the package's constants
}

func ExampleKind_UnmarshalText() {
	var k jobcard.Kind
	fmt.Println(k.UnmarshalText([]byte("mixed")), k)
	// Output: <nil> mixed
}

func ExampleParseKind() {
	k, err := jobcard.ParseKind("topped up")
	fmt.Println(k == jobcard.ToppedUp, err)
	// Output: true <nil>
}

func ExampleOrigin_String() {
	fmt.Println(jobcard.FromStock)
	// Output: stock
}

func ExampleOrigin_MarshalText() {
	text, _ := jobcard.FromBox.MarshalText()
	fmt.Println(string(text))
	// Output: box
}

func ExampleOrigin_UnmarshalText() {
	var o jobcard.Origin
	fmt.Println(o.UnmarshalText([]byte("refill")), o)
	// Output: <nil> refill
}
