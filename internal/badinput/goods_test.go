package badinput

import (
	"bytes"
	"context"
	"database/sql/driver"
	"encoding/json"
	"io"
	"io/fs"
	"os"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/refdata"
	"example.com/meniscus/refdata/jobfile"
	"example.com/meniscus/refdata/tables"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
	"github.com/shopspring/decimal"
)

// book holds, for each type an argument can have, ordinary values, of which the
// k-th argument of that type takes the k-th, and hostile ones.
type book struct {
	good, bad map[reflect.Type][]any
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func put[T any](b *book, good []T, bad ...T) {
	t := reflect.TypeFor[T]()
	for _, v := range good {
		b.good[t] = append(b.good[t], v)
	}
	for _, v := range bad {
		b.bad[t] = append(b.bad[t], v)
	}
}

func each[A, B any](from []A, f func(A) B) []B {
	var to []B
	for _, a := range from {
		to = append(to, f(a))
	}
	return to
}

// newBook fills it. Structs of exported fields need no entry where a value of
// ordinary fields is an ordinary value.
func newBook(t testing.TB) *book {
	t.Helper()
	b := &book{map[reflect.Type][]any{}, map[reflect.Type][]any{}}
	b.plain()
	b.quantities()
	b.measured()
	b.physics()
	b.services()
	b.cards()
	b.packs()
	return b
}

func (b *book) plain() {
	put(b, []float64{0.5, 0.9}, numbers()...)
	put(b, []int{2}, each(counts(), func(n int64) int { return int(n) })...)
	put(b, []int64{2}, counts()...)
	put(b, []uint64{2}, 0, 1<<63, 1<<64-1)
	put(b, []uint8{1}, 0, 3, 9, 127, 255)
	put(b, []bool{true}, false)
	put(b, []string{"tern-6", "bus 7"}, spoil("2.5 L")...)
	put(b, [][]byte{[]byte("2.5 L")}, append(each(spoil("2.5 L"), func(s string) []byte { return []byte(s) }), nil)...)
	put(b, []time.Duration{5 * time.Minute, 10 * time.Minute}, durations()...)
	put(b, []time.Time{time.Date(2026, 11, 2, 8, 10, 0, 0, time.UTC)}, moments()...)
	put(b, []decimal.Decimal{decimal.New(950, -2)}, decimals()...)
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	put[context.Context](b, []context.Context{context.Background()}, nil, cancelled)
	put[io.Reader](b, []io.Reader{bytes.NewReader(nil)}, nil)
	put[fs.FS](b, []fs.FS{refdata.BuiltInLayer().FS}, nil, fstest.MapFS{}, os.DirFS("testdata/none"))
	put[driver.Value](b, []driver.Value{"2.5 L"}, nil, int64(1), 2.5, true, []byte("2.5 L"), []byte(nil), time.Time{}, struct{}{})
	b.good[reflect.TypeFor[any]()], b.bad[reflect.TypeFor[any]()] = b.good[reflect.TypeFor[driver.Value]()], b.bad[reflect.TypeFor[driver.Value]()]
	for _, s := range spoil("2.5 L") {
		b.bad[reflect.TypeFor[any]()] = append(b.bad[reflect.TypeFor[any]()], s, []byte(s))
	}
}

func quantity[D units.Dimension](b *book, u units.Unit[D], good ...float64) {
	goods := each(good, u.Of)
	put(b, goods, each(numbers(), u.Of)...)
	put(b, each(goods, units.Exactly[D]), units.Range[D]{}, units.Exactly(u.Of(numbers()[0])), must(units.NewRange(u.Of(-1), u.Of(1))), must(units.NewRange(u.Of(0), u.Of(1e-9))))
	put(b, []units.Unit[D]{u}, 0, 1, 127, 255)
	c := cause("q")
	m := each(goods, func(q units.Quantity[D]) measure.Measured[D] {
		return must(measure.NewMeasured(q, measure.Term{Cause: c, Scale: q.In(u) * 1e-5}))
	})
	huge, _ := measure.NewMeasured(goods[0], measure.Term{Cause: c, Scale: 1e300})
	put(b, m, append(each(each(numbers(), u.Of), measure.MeasuredExactly[D]), measure.Measured[D]{}, huge, m[0].Scale(1e300).Scale(1e300))...)
	put(b, []*units.Quantity[D]{new(units.Quantity[D])}, nil)
	put(b, []*units.Range[D]{new(units.Range[D])}, nil)
	put(b, []*measure.Measured[D]{new(measure.Measured[D])}, nil)
}

func cause(id string) *measure.Cause { return must(measure.NewCause(id, id, measure.Normal, 20)) }

func (b *book) quantities() {
	quantity(b, units.Litre, 10, 2)
	quantity(b, units.NewtonMetre, 24, 30)
	quantity(b, units.Millimetre, 300, 100)
	quantity(b, units.Kilogram, 2, 1)
	quantity(b, units.CelsiusDegree, 1, 2)
	quantity(b, units.Kilometre, 40_000, 20_000)
	put(b, []units.Temperature{units.Celsius(40), units.Celsius(20), units.Celsius(60)}, append(each(numbers(), units.Celsius), units.Temperature{}, units.Celsius(-50), units.Celsius(200))...)
	put(b, []units.Density{850}, each(numbers(), func(x float64) units.Density { return units.Density(x) })...)
	put(b, []*units.Temperature{new(units.Temperature)}, nil)
	put(b, []*units.Density{new(units.Density)}, nil)
	put(b, []*units.ParseError{{Input: "2 qq", Token: "qq", Reason: "unknown", Accepted: "L"}}, &units.ParseError{})
}

func (b *book) measured() {
	c := cause("a")
	r := must(measure.New(10, measure.Term{Cause: c, Scale: 0.1}))
	put(b, []*measure.Cause{c}, nil, &measure.Cause{})
	put(b, []measure.Cause{*c}, measure.Cause{})
	put(b, []measure.Reading{r, must(measure.New(10.1, measure.Term{Cause: cause("b"), Scale: 0.2}))},
		append(each(numbers(), func(x float64) measure.Reading { e, _ := measure.Exact(x); return e }), measure.Reading{}, r.Times(1e300), r.Times(1e300).Times(1e300), r.Times(0))...)
	put(b, []*measure.Reading{new(measure.Reading)}, nil)
	put(b, []*measure.Temperature{new(measure.Temperature)}, nil)
	hot := must(measure.NewTemperature(units.Celsius(40), measure.Term{Cause: cause("t"), Scale: 0.5}))
	put(b, []measure.Temperature{hot}, append(each(numbers(), func(x float64) measure.Temperature { return measure.TemperatureExactly(units.Celsius(x)) }), measure.Temperature{})...)
	curve := must(measure.NewCurve(r, measure.Normal))
	put(b, []measure.Curve{curve}, measure.Curve{})
	put[measure.Distribution](b, []measure.Distribution{curve}, nil, (*measure.Outcome)(nil), measure.Mixture{}, measure.Curve{})
	given := func(x float64) measure.Component { return measure.Component{Mean: x, SD: 1} }
	put(b, []measure.Mixture{{Low: 1, High: 2, Given: given}}, measure.Mixture{})
	put(b, []func(float64) measure.Component{given}, nil, func(float64) measure.Component { return measure.Component{Mean: numbers()[0]} },
		func(float64) measure.Component { return measure.Component{SD: -1} }, func(float64) measure.Component { panic(callersPanic) })
	model := func(x []float64) float64 { return x[0] }
	put(b, []func([]float64) float64{model}, nil, func([]float64) float64 { return numbers()[0] }, func([]float64) float64 { panic(callersPanic) })
	put(b, []func(int, int){func(int, int) {}}, nil)
	draw := func(s *measure.Stream) float64 { return s.Normal() }
	put(b, []func(*measure.Stream) float64{draw}, nil, func(*measure.Stream) float64 { return numbers()[1] }, func(*measure.Stream) float64 { panic(callersPanic) })
	put(b, []*measure.Stream{measure.NewStream(1, 2)}, nil, &measure.Stream{})
	inputs := []measure.Input{{Name: "x", Of: r}}
	put(b, []measure.Simulation{{Inputs: inputs, Model: model, Trials: 2000, Workers: 2}}, measure.Simulation{})
	put(b, []measure.Propagation{{Inputs: inputs, Model: model, Sensitivities: []float64{1}}}, measure.Propagation{})
	put(b, []*measure.Outcome{must(measure.Simulate(context.Background(), b.good[reflect.TypeFor[measure.Simulation]()][0].(measure.Simulation)))}, nil, &measure.Outcome{})
	put(b, []measure.Table{must(measure.Budget(r))}, measure.Table{})
	put(b, []measure.Record{must(r.Record())}, measure.Record{})
	put(b, []measure.Shape{measure.Normal}, measure.Student, 4, 255)
	put(b, []*measure.Shape{new(measure.Shape)}, nil)
	put(b, []*measure.Verdict{new(measure.Verdict)}, nil)
	put(b, []measure.Limits{measure.Between(9, 11)}, measure.Limits{}, measure.AtLeast(numbers()[0]), measure.Between(2, 1))
	put(b, []measure.Jug{{ID: "jug-a", Graduation: units.Millilitre.Of(50), ScaleError: 0.02, Capacity: units.Litre.Of(20)}})
	put(b, []measure.Cylinder{{ID: "cyl-a", Class: 1, Graduation: units.Millilitre.Of(10), Capacity: units.Litre.Of(20), Tolerance: units.Millilitre.Of(10)}})
	put(b, []measure.Scale{{ID: "scale-1", Resolution: units.Gram.Of(1), Tolerance: units.Gram.Of(5), Capacity: units.Kilogram.Of(30)}})
	put(b, []measure.TorqueTool{{ID: "wrench-50", Error: 0.04, Largest: units.NewtonMetre.Of(50), Resolution: units.NewtonMetre.Of(0.1)}})
	put(b, []measure.ContactProbe{{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(1), Resolution: units.CelsiusDegree.Of(0.1)}})
	put(b, []measure.BoxSensor{{ID: "box-1", Tolerance: units.CelsiusDegree.Of(2), Resolution: units.CelsiusDegree.Of(1), Placement: units.CelsiusDegree.Of(2)}})
	put(b, []measure.Infrared{{ID: "gun-1", Tolerance: units.CelsiusDegree.Of(2), Share: 0.02}})
	put(b, []working.Steps{working.Steps{}.Add("a", "b", "c", "d")}, nil)
	put(b, []*working.Builder{new(working.Builder)}, nil)
}

func (b *book) physics() {
	oil := must(thermal.Lubricant(850))
	put(b, []thermal.Fluid{oil}, thermal.Fluid{}, thermal.UnknownDensity())
	put(b, []thermal.Material{thermal.Aluminium}, 0, thermal.UnknownMaterial, 200, 255)
	put(b, []*thermal.Material{new(thermal.Material)}, nil)
	window := thermal.Window{Low: units.Celsius(38), High: units.Celsius(48)}
	put(b, []thermal.Window{window}, thermal.Window{}, thermal.Window{Low: window.High, High: window.Low})
	put(b, []thermal.Course{{PlateauLow: units.Celsius(80), PlateauHigh: units.Celsius(85)}}, thermal.Course{})
	trend := must(thermal.Follow(thermal.Course{PlateauLow: units.Celsius(80), PlateauHigh: units.Celsius(85)}))
	for i := range 4 {
		trend = must(trend.Add(time.Duration(i)*time.Minute, units.Celsius(20+5*float64(i))))
	}
	put(b, []thermal.Trend{trend}, thermal.Trend{})
	put(b, []thermal.Lumped{{Start: units.Celsius(20), Plateau: units.Celsius(80), Tau: 20 * time.Minute}}, thermal.Lumped{})
	put(b, []thermal.Infrared{{Reading: units.Celsius(40), Reflected: units.Celsius(20), Emissivity: 0.9, PlusMinus: 0.02, Set: 0.95, Reflection: thermal.ReflectionSubtracted}}, thermal.Infrared{})
	put(b, []thermal.Vessel{{ID: "jug-a", Material: thermal.Polypropylene, Graduation: units.Millilitre.Of(50), ScaleError: 0.02, Capacity: units.Litre.Of(20)}}, thermal.Vessel{})
	put(b, []thermal.Measurement{{Mark: units.Litre.Of(2), At: units.Celsius(40), Vessel: thermal.Vessel{ID: "jug-a", Material: thermal.Polypropylene, Capacity: units.Litre.Of(20)}}})
	put(b, []thermal.CTL2004{thermal.LubricatingCTL(850)}, thermal.CTL2004{})
	put(b, []thermal.Doubt{{Density: 0.001, Expansion: 0.02}})
	put(b, [][]thermal.DensityPoint{{{At: units.Celsius(15), Density: 850}, {At: units.Celsius(40), Density: 834}, {At: units.Celsius(100), Density: 797}}}, nil)
	put(b, []thermal.Closing{must(window.Closing(oil, units.Litre.Of(10), thermal.Aluminium, units.Celsius(45)))}, thermal.Closing{})
	put(b, []thermal.Forecast{must(trend.Forecast(window))}, thermal.Forecast{})
}

func (b *book) services() {
	litre := units.Litre.Of
	put(b, []exchange.System{{Capacity: litre(10), Sump: litre(5), Mixing: 0.9}}, exchange.System{})
	put(b, [][]units.Volume{{litre(2), litre(2)}}, nil)
	put(b, [][]units.Range[units.VolumeDim]{{units.Exactly(litre(2)), units.Exactly(litre(2))}}, nil)
	put(b, []exchange.State{must(exchange.Start(exchange.System{Capacity: litre(10), Sump: litre(5), Mixing: 0.9}))}, exchange.State{})
	put(b, []exchange.Arrival{{System: exchange.System{Capacity: litre(10), Sump: litre(5), Mixing: 1}, Contents: litre(9.5), OldShare: 1}})
	put(b, []exchange.Losses{{KeptOnce: litre(0.3), KeptEachTime: litre(0.1)}})
	put(b, []exchange.Request{{Capacity: must(units.NewRange(litre(8), litre(10))), Drain: units.Exactly(litre(2)), Sump: litre(5), Target: 0.5, KeptOnce: litre(0.3), WhatIfMixing: []float64{0.9}}}, exchange.Request{})
	put(b, []exchange.Supply{{Bottle: litre(1), Bottles: 12, BottlePrice: decimal.New(9, 0)}}, exchange.Supply{})
	offers := []exchange.Offer{{Name: "can", Size: litre(4), Price: decimal.New(40, 0)}, {Name: "bottle", Size: litre(1), Price: decimal.New(12, 0)}}
	put(b, []exchange.Stock{{{Name: "left", Volume: litre(0.5), Opened: true, Count: 1}}}, nil)
	put(b, []exchange.Order{{Need: litre(10), Offers: offers}}, exchange.Order{})
	put(b, []exchange.Budget{{Need: litre(10), Offers: offers, Money: decimal.New(80, 0)}}, exchange.Budget{})
	markers := exchange.Markers{Readings: []float64{100, 80.2, 63.9, 51.3, 41}, Drains: []units.Volume{litre(2), litre(2), litre(2), litre(2), litre(2)}}
	put(b, []exchange.Markers{markers}, exchange.Markers{})
	schedule := exchange.Schedule{Services: []exchange.Service{{After: 2, Drains: []float64{0.2, 0.2}}, {After: 3, Drains: []float64{0.2}}}}
	put(b, []exchange.Schedule{schedule}, exchange.Schedule{})
	put(b, []exchange.DistanceRound{{Capacity: litre(10), Unit: units.Kilometre, Services: []exchange.DistanceService{{After: units.Kilometre.Of(40_000), Drains: []units.Volume{litre(2)}}}}}, exchange.DistanceRound{})
	put(b, []exchange.TimeRound{{Capacity: litre(10), Services: []exchange.TimeService{{After: 8760 * time.Hour, Drains: []units.Volume{litre(2)}}}}}, exchange.TimeRound{})
	put(b, []exchange.ScheduleComparison{must(exchange.CompareSchedules(schedule, schedule))}, exchange.ScheduleComparison{})
	put(b, []exchange.CapacityEstimate{must(exchange.EstimateCapacity(markers))}, exchange.CapacityEstimate{})
	put(b, []*exchange.UnsettledError{{Reason: "x"}})
	volume := func(id string, x float64) measure.Volume {
		return must(measure.NewMeasured(litre(x), measure.Term{Cause: cause(id), Scale: x * 1e-5}))
	}
	check := exchange.LevelCheck{Net: volume("net", 0.1), CameIn: exchange.CameInRight, Capacity: volume("capacity", 10), Fluid: must(thermal.Lubricant(850)), Case: thermal.Aluminium,
		Window: thermal.Window{Low: units.Celsius(35), High: units.Celsius(45)}, At: measure.TemperatureExactly(units.Celsius(40))}
	put(b, []exchange.LevelCheck{check}, exchange.LevelCheck{})
	put(b, []exchange.LevelExpectation{must(check.Expect())}, exchange.LevelExpectation{})
	put(b, []exchange.Observation{{First: exchange.PlugTrickles, Last: exchange.PlugDrips, Watched: time.Minute}}, exchange.Observation{})
	put(b, []exchange.MeasuredService{{Capacity: must(units.NewRange(litre(9), litre(11))), Drains: []measure.Volume{volume("d1", 2), volume("d2", 2)}}}, exchange.MeasuredService{})
	put(b, []exchange.MixingRun{{Flow: litre(10), Held: litre(5), Sump: litre(5), Minutes: 1}})
	put(b, []exchange.ThroughFlow{{Capacity: litre(10), Volume: litre(12), Flow: exchange.FlowTanks, Tanks: 3}}, exchange.ThroughFlow{})
	put(b, [][]exchange.Stage{{{Drain: litre(2)}, {Flush: litre(5), Flow: exchange.FlowTanks, Tanks: 2}}}, nil)
	put(b, [][]exchange.Pass{{{Drain: litre(2), Sump: litre(5)}}}, nil)
	put(b, [][]exchange.DrainedSample{{{Volume: litre(2), OldShare: 0.9}, {Volume: litre(2), OldShare: 0.7}}}, nil)
	put(b, [][]exchange.MeasuredSample{{{Volume: volume("s1", 2), OldShare: must(measure.Exact(0.9))}, {Volume: volume("s2", 2), OldShare: must(measure.Exact(0.7))}}}, nil)
	angle := must(measure.Exact(1))
	put(b, []exchange.Tilt{{Area: must(measure.Exact(0.06)), Hole: measure.MeasuredExactly(units.Metre.Of(0.2)), Degrees: angle}}, exchange.Tilt{})
	put(b, []exchange.RectangularPan{{Length: units.Metre.Of(0.4), Width: units.Metre.Of(0.25), Lip: units.Metre.Of(0.05), Hole: units.Metre.Of(0.1)}}, exchange.RectangularPan{})
	put(b, []*exchange.AtPlug{new(exchange.AtPlug)}, nil)
	put(b, []exchange.AtPlug{exchange.PlugTrickles}, 0, 9, 255)
	put(b, []exchange.Proposal{must(exchange.Plan(b.good[reflect.TypeFor[exchange.Request]()][0].(exchange.Request)))}, exchange.Proposal{})
	thread := must(sealing.ParseThread("M16x1.5"))
	put(b, []sealing.Thread{thread}, sealing.Thread{})
	put(b, []sealing.Drive{must(sealing.ParseDrive("hex socket 8 mm"))}, sealing.Drive{}, sealing.Drive{Kind: 255, Number: -1})
	plug := sealing.Plug{ID: "drain", Role: sealing.Drain, Thread: thread, Torque: units.NewtonMetre.Of(24), Shoulder: units.Millimetre.Of(16), Collar: units.Millimetre.Of(21), Washer: "ring-16"}
	put(b, []sealing.Plug{plug}, sealing.Plug{})
	put(b, []sealing.Washer{{ID: "ring-16", Inner: units.Millimetre.Of(16.2), Outer: units.Millimetre.Of(20), Thickness: units.Millimetre.Of(1.5)}}, sealing.Washer{})
	put(b, []sealing.Tool{{ID: "wrench-50", Low: units.NewtonMetre.Of(5), High: units.NewtonMetre.Of(50)}}, sealing.Tool{})
	put(b, []sealing.Adapter{{Wanted: units.NewtonMetre.Of(24), Lever: units.Millimetre.Of(300), Extension: units.Millimetre.Of(50)}}, sealing.Adapter{})
	put(b, []*sealing.Drive{new(sealing.Drive)}, nil)
	put(b, []*sealing.Role{new(sealing.Role)}, nil)
	put(b, []*sealing.Thread{new(sealing.Thread)}, nil)
}

// spec is the job most of the tests start from.
func (b *book) spec() jobcard.Spec {
	plug := b.good[reflect.TypeFor[sealing.Plug]()][0].(sealing.Plug)
	fill, check := plug, plug
	fill.ID, fill.Role, fill.Washer = "fill", sealing.Fill, ""
	check.ID, check.Role, check.Washer = "check", sealing.Check, ""
	return jobcard.Spec{
		Job: "2026-118", Vehicle: "bus 7", Procedure: "tern-6", Capacity: must(units.NewRange(units.Litre.Of(9.6), units.Litre.Of(10.4))), Sump: units.Litre.Of(4.2),
		UsualDrain: must(units.NewRange(units.Litre.Of(1.9), units.Litre.Of(2.3))), Fluid: jobcard.Fluid{Class: "S-2", Density15: 850},
		Window: thermal.Window{Low: units.Celsius(38), High: units.Celsius(48), EngineIdling: true, Level: true}, Target: 0.55, OnHand: units.Litre.Of(8), Runs: 4,
		Overfill: units.Litre.Of(0.3), CaseMetal: thermal.Aluminium, Plugs: []sealing.Plug{fill, plug, check},
		Washers:      []sealing.Washer{b.good[reflect.TypeFor[sealing.Washer]()][0].(sealing.Washer)},
		Tools:        []sealing.Tool{b.good[reflect.TypeFor[sealing.Tool]()][0].(sealing.Tool)},
		Vessels:      []thermal.Vessel{b.good[reflect.TypeFor[thermal.Vessel]()][0].(thermal.Vessel)},
		Thermometers: []jobcard.Thermometer{{ID: "probe-1", PlusMinus: units.CelsiusDegree.Of(1), Step: units.CelsiusDegree.Of(0.1)}},
		Scales:       []jobcard.Scale{{ID: "scale-1", PlusMinus: units.Gram.Of(5), Step: units.Gram.Of(1)}},
	}
}

// entries is half a job.
func entries() []jobcard.Entry {
	at := func(minute int) time.Time { return time.Date(2026, 11, 2, 8, minute, 0, 0, time.UTC) }
	amount := jobcard.Amount{Volume: units.Litre.Of(2.1), Temperature: units.Celsius(18), Vessel: "jug-a", Thermometer: "probe-1"}
	return []jobcard.Entry{jobcard.FillPlug(at(0), "fill"), jobcard.DrainOf(at(1), amount), jobcard.RefillOf(at(2), amount), jobcard.GearRuns(at(3), 4),
		jobcard.ReadWindow(at(4), jobcard.WindowReading{Temperature: units.Celsius(43), Thermometer: "probe-1", EngineIdling: true, Level: true}),
		jobcard.Observe(at(5), "check", exchange.PlugTrickles), jobcard.Note(at(6), "as usual")}
}

func (b *book) card() *jobcard.Card {
	c := must(jobcard.Open(b.spec()))
	for _, e := range entries() {
		must(0, c.Append(e))
	}
	return c
}

func (b *book) cards() {
	put(b, []jobcard.Spec{b.spec()}, jobcard.Spec{})
	put(b, []*jobcard.Card{b.card()}, nil, &jobcard.Card{})
	put(b, []jobcard.Amount{{Volume: units.Litre.Of(2.1), Temperature: units.Celsius(18), Vessel: "jug-a", Thermometer: "probe-1"}}, jobcard.Amount{})
	drain := entries()[1]
	drain.At = time.Date(2026, 11, 2, 9, 0, 0, 0, time.UTC)
	put(b, []jobcard.Entry{drain}, jobcard.Entry{}, jobcard.Entry{Kind: 255})
	put(b, []jobcard.Balance{b.card().Balance()}, jobcard.Balance{})
	put(b, []jobcard.Fluid{{Class: "S-2", Density15: 850}}, jobcard.Fluid{})
	put(b, []jobcard.Pour{{Vessel: "jug-a", Temperature: units.Celsius(30)}}, jobcard.Pour{})
	put(b, []*jobcard.Duration{new(jobcard.Duration)}, nil)
	put(b, []*jobcard.Kind{new(jobcard.Kind)}, nil)
	put(b, []*jobcard.Origin{new(jobcard.Origin)}, nil)
}

// sheet is a job file with every kind of question.
const sheet = `format = 1
job = "2026-118"
procedure = "tern-6"
vehicle = "bus 7"
[plan]
on_hand = "8 L"
target = "55 %"
[entry.1]
at = "2026-11-02 08:10"
kind = "drained"
volume = "2 L"
temperature = "15 °C"
[entry.2]
at = "2026-11-02 08:20"
kind = "mixed"
runs = "4"
`

func jobFile() *jobfile.File { return must(jobfile.Read("job.toml", strings.NewReader(sheet))) }

func (b *book) packs() {
	pack := must(refdata.BuiltIn())
	put(b, []*refdata.Pack{pack}, nil, &refdata.Pack{})
	procedure, _ := pack.Procedure("tern-6")
	other, _ := pack.Procedure("plover-5")
	put(b, []refdata.Procedure{procedure, other}, refdata.Procedure{})
	put(b, [][]refdata.Figure{procedure.Figures}, nil)
	put(b, []refdata.Layer{refdata.BuiltInLayer()}, refdata.Layer{})
	put(b, []*jobfile.File{jobFile()}, nil, &jobfile.File{})
	put(b, []*tables.Tables{must(tables.Open())}, nil, &tables.Tables{})
}

// again is a reader that starts anew after its end.
type again struct {
	text string
	at   int
}

func (a *again) Read(p []byte) (int, error) {
	if a.at == len(a.text) {
		a.at = 0
		return 0, io.EOF
	}
	n := copy(p, a.text[a.at:])
	a.at += n
	return n, nil
}

// own are the arguments of those that accept no ordinary ones, receiver first.
func (b *book) own() map[string][]any {
	volume, hot, r := first[measure.Volume](b), first[measure.Temperature](b), first[measure.Reading](b)
	weighed := must(jobcard.Open(b.spec()))
	amount := jobcard.Amount{Mass: units.Kilogram.Of(1.8), Scale: "scale-1"}
	at := entries()[0].At
	for i, e := range []jobcard.Entry{entries()[0], jobcard.DrainOf(at, amount), jobcard.RefillOf(at, amount)} {
		e.At = at.Add(time.Duration(i) * time.Minute)
		must(0, weighed.Append(e))
	}
	list := map[string][]any{
		"exchange/jobcard.Decode":                 {must(json.Marshal(b.card()))},
		"exchange/jobcard.Card.UnmarshalJSON":     {new(jobcard.Card), must(json.Marshal(b.card()))},
		"exchange/jobcard.Card.Weighed":           {weighed, "scale-1"},
		"refdata.LoadLayers":                      {[]refdata.Layer{refdata.BuiltInLayer()}},
		"refdata/jobfile.Open":                    {fstest.MapFS{"job.toml": {Data: []byte(sheet)}}, "job.toml"},
		"refdata/jobfile.Read":                    {"job.toml", &again{text: sheet}},
		"units/measure.Decide":                    {measure.Between(9, 11), r, 0.05},
		"units/measure.DecideOn":                  {measure.Between(9, 11), first[measure.Curve](b), 0.05},
		"units/measure.FromHalfWidth":             {measure.Rectangular, 0.5},
		"units/measure.MeasuredFromRecord":        {must(volume.Record())},
		"units/measure.TemperatureFromRecord":     {must(hot.Record())},
		"units/measure.Cause.UnmarshalJSON":       {new(measure.Cause), must(json.Marshal(cause("a")))},
		"units/measure.Reading.UnmarshalJSON":     {new(measure.Reading), must(json.Marshal(r))},
		"units/measure.Temperature.UnmarshalJSON": {new(measure.Temperature), must(json.Marshal(hot))},
	}
	decodes[units.VolumeDim](b, list)
	decodes[units.TorqueDim](b, list)
	decodes[units.LengthDim](b, list)
	decodes[units.MassDim](b, list)
	decodes[units.TemperatureDeltaDim](b, list)
	decodes[units.DistanceDim](b, list)
	return list
}

func decodes[D units.Dimension](b *book, list map[string][]any) {
	m := first[measure.Measured[D]](b)
	list["units/measure."+reflect.TypeOf(m).Name()+".UnmarshalJSON"] = []any{new(measure.Measured[D]), must(json.Marshal(m))}
}
