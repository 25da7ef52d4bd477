package jobcard_test

import (
	"encoding/json"
	"fmt"
	"time"

	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

func clock(minute int) time.Time {
	return time.Date(2026, 11, 2, 8, minute, 0, 0, time.UTC)
}

// l is so many litres at the reference temperature, in no vessel.
func l(x float64) jobcard.Amount {
	return jobcard.Amount{Volume: units.Litre.Of(x), Temperature: units.Celsius(15)}
}

func tenLitres() jobcard.Spec {
	return jobcard.Spec{Job: "demo", Capacity: units.Exactly(units.Litre.Of(10)), OnHand: units.Litre.Of(4)}
}

// open returns a card of a 10 L box with the entries given.
func open(entries ...jobcard.Entry) *jobcard.Card {
	card, err := jobcard.Open(tenLitres())
	if err != nil {
		fmt.Println(err)
	}
	for _, e := range entries {
		if err := card.Append(e); err != nil {
			fmt.Println(err)
		}
	}
	return card
}

// oneCycle drains and refills 2 L and runs the gears.
func oneCycle() []jobcard.Entry {
	return []jobcard.Entry{jobcard.FillPlug(clock(0), ""), jobcard.DrainOf(clock(10), l(2)), jobcard.RefillOf(clock(20), l(2)), jobcard.GearRuns(clock(30), 4)}
}

func ExampleOpen() {
	card, err := jobcard.Open(tenLitres())
	fmt.Println(card.Len(), err)
	_, err = jobcard.Open(jobcard.Spec{Capacity: units.Exactly(units.Litre.Of(-1))})
	fmt.Println(err)
	// Output:
	// 0 <nil>
	// jobcard: job: capacity is -1 L; want a positive volume or range, the high end at most three times the low one and at most 1000 L
}

func ExampleCard_Append() {
	card := open()
	fmt.Println(card.Append(jobcard.DrainOf(clock(0), l(2))))
	// Output: jobcard: entry 1 (drained): the fill plug is not known to open; record it open before the drain plug is touched (a drained box that cannot be filled does not drive away)
}

func ExampleCard_Spec() {
	fmt.Println(open().Spec().Job)
	// Output: demo
}

func ExampleCard_Entries() {
	fmt.Println(open(oneCycle()...).Entries()[1].Kind)
	// Output: drained
}

func ExampleCard_Len() {
	fmt.Println(open(oneCycle()...).Len())
	// Output: 4
}

func ExampleCard_IsStruck() {
	card := open(jobcard.Note(clock(0), "wrong bus"), jobcard.Strike(clock(1), 1, "typed on the wrong card"))
	fmt.Println(card.IsStruck(1), card.IsStruck(2))
	// Output: true false
}

// 2 L out at 60 °C are less fluid than 2 L in at 20 °C.
func ExampleCard_Balance() {
	warm := l(2)
	warm.Temperature = units.Celsius(60)
	card := open(jobcard.FillPlug(clock(0), ""), jobcard.DrainOf(clock(10), warm), jobcard.RefillOf(clock(20), l(2)))
	fmt.Println(card.Balance().Net.Best().Text(units.Millilitre, 0))
	// Output: 67 mL
}

// 1 - 2/10.
func ExampleCard_OldShare() {
	fmt.Println(open(oneCycle()...).OldShare().Estimate)
	// Output: 0.8
}

func ExampleCard_Cycles() {
	fmt.Println(open(oneCycle()...).Cycles())
	// Output: 1
}

func ExampleCard_FluidUsed() {
	fmt.Println(open(oneCycle()...).FluidUsed())
	// Output: 2 L
}

// Of 4 L on hand, labelled at 20 °C, 2 L as at 15 °C are used.
func ExampleCard_FluidLeft() {
	fmt.Println(open(oneCycle()...).FluidLeft().Text(units.Litre, 2))
	// Output: 1.98 L
}

func ExampleCard_Blocking() {
	for _, b := range open(jobcard.FillPlug(clock(0), ""), jobcard.DrainOf(clock(10), l(2))).Blocking() {
		fmt.Println(b.Code, "-", b.Text)
	}
	// Output:
	// not-refilled - the last drain of 2.000 L (2.11 US qt) was not refilled
	// balance - no check plug to prove the level, and the balance is -2000 mL ± 0 mL (k = 2) at 15 °C: shown to be short; 1 reading without a stated doubt taken as exact
}

func ExampleCard_Findings() {
	s := tenLitres()
	s.Runs = 4
	card, _ := jobcard.Open(s)
	for _, e := range oneCycle()[:3] {
		_ = card.Append(e)
	}
	_ = card.Append(jobcard.GearRuns(clock(30), 2))
	fmt.Println(card.Findings()[0].Text)
	// Output: 2 runs through the gears; the sheet asks for 4
}

func ExampleCard_IsClosed() {
	card := open(append(oneCycle(), jobcard.Close(clock(40)))...)
	fmt.Println(card.IsClosed())
	// Output: true
}

func ExampleCard_Level() {
	s := tenLitres()
	s.Window = thermal.Window{Low: units.Celsius(38), High: units.Celsius(48)}
	card, _ := jobcard.Open(s)
	_ = card.Append(jobcard.ReadWindow(clock(0), jobcard.WindowReading{Temperature: units.Celsius(43), PlusMinus: units.CelsiusDegree.Of(1)}))
	fmt.Println(card.Level().Verdict)
	// Output: inside
}

func ExampleCard_Next() {
	fmt.Println(open(jobcard.FillPlug(clock(0), ""), jobcard.DrainOf(clock(10), l(2))).Next().Code)
	// Output: refill
}

func ExampleCard_Cautions() {
	fmt.Println(open().Cautions()[0].Hazard)
	// Output: vehicle falling
}

func ExampleCard_PutBack() {
	mark, _ := open(jobcard.FillPlug(clock(0), ""), jobcard.DrainOf(clock(10), l(2))).PutBack(jobcard.Pour{Temperature: units.Celsius(15)})
	fmt.Println(mark)
	// Output: 2 L
}

func ExampleCard_Advice() {
	rough := l(2)
	rough.PlusMinus = units.Millilitre.Of(100)
	fmt.Println(open(jobcard.FillPlug(clock(0), ""), jobcard.DrainOf(clock(10), rough)).Advice())
	// Output: estimate is 100 % of the doubt: measure what was only estimated
}

func ExampleBalance_Sentence() {
	fmt.Println(open(oneCycle()...).Balance().Sentence())
	// Output: 0 mL ± 0 mL (k = 2) at 15 °C: level not shown to be wrong; 2 readings without a stated doubt taken as exact
}

// 100/√3 = 57.7 mL, rectangular.
func ExampleBalance_Budget() {
	rough := l(2)
	rough.PlusMinus = units.Millilitre.Of(100)
	table, _ := open(jobcard.FillPlug(clock(0), ""), jobcard.DrainOf(clock(10), rough)).Balance().Budget()
	fmt.Printf("%.4f %s\n", table.U, table.Unit)
	// Output: 0.0577 L
}

func ExampleBalance_Contributors() {
	rough := l(2)
	rough.PlusMinus = units.Millilitre.Of(100)
	fmt.Println(open(jobcard.FillPlug(clock(0), ""), jobcard.DrainOf(clock(10), rough)).Balance().Contributors())
	// Output: [{estimate 1}]
}

func ExampleStanding_String() {
	fmt.Println(jobcard.Standing(0))
	// Output: not shown to be wrong
}

func ExampleStanding_MarshalText() {
	text, _ := jobcard.Short.MarshalText()
	fmt.Println(string(text))
	// Output: short
}

func ExampleCard_Record() {
	fmt.Println(open().Record()[:38])
	// Output: RECORD OF A TRANSMISSION FLUID SERVICE
}

func ExampleCard_MarshalJSON() {
	text, _ := json.Marshal(open())
	fmt.Println(string(text))
	// Output: {"schema":1,"spec":{"job":"demo","capacity":"10 L","fluid":{},"onHand":"4 L"},"entries":[]}
}

func ExampleCard_UnmarshalJSON() {
	var card jobcard.Card
	err := json.Unmarshal([]byte(`{"schema":1,"spec":{"job":"demo","capacity":"10 L","fluid":{}},"entries":[]}`), &card)
	fmt.Println(card.Spec().Capacity, err)
	// Output: 10 L <nil>
}

func ExampleDecode() {
	_, err := jobcard.Decode([]byte(`{"schema":2}`))
	fmt.Println(err)
	// Output: jobcard: schema 2; this version reads schema 1
}

func ExampleSpec_Check() {
	s := tenLitres()
	s.Target = 1.5
	fmt.Println(s.Check())
	// Output: jobcard: job: target is 1.5; want the highest old share agreed, above 0 and below 1, or 0 for none
}

func ExampleFluid_Law() {
	law, _ := jobcard.Fluid{Density15: 850}.Law()
	v, _ := law.Convert(units.Litre.Of(1), units.Celsius(40), units.Celsius(15))
	fmt.Println(v.Text(units.Millilitre, 1))
	// Output: 981.4 mL
}

func ExampleAmount_IsZero() {
	fmt.Println(jobcard.Amount{}.IsZero(), l(2).IsZero())
	// Output: true false
}

func ExampleAmount_String() {
	fmt.Println(l(2))
	// Output: 2.000 L (2.11 US qt) at 15.0 °C (59.0 °F)
}
