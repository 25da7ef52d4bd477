package exchange

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"github.com/shopspring/decimal"
)

// edgeFunctions are the exported functions and methods of these files.
func edgeFunctions() map[string]any {
	return map[string]any{
		"Remaining": Remaining, "RemainingSteps": RemainingSteps, "SamplesReading": SamplesReading, "RemainingRange": RemainingRange, "Bounds": Bounds, "Start": Start, "StartFrom": StartFrom,
		"Cycles": Cycles, "CyclesRange": CyclesRange, "RealCycles": RealCycles, "DrainFor": DrainFor, "CapacityFor": CapacityFor,
		"Plan": Plan, "BestUse": BestUse, "LongRunFactor": LongRunFactor, "WhatIf": WhatIf, "Combine": Combine, "FromSamples": FromSamples,
		"System.Check": System.Check, "System.Held": System.Held, "Share.String": Share.String,
		"State.Drain": State.Drain, "State.Refill": State.Refill, "State.Mix": State.Mix, "State.Settle": State.Settle, "State.Swap": State.Swap,
		"State.OldShare": State.OldShare, "State.Contents": State.Contents, "State.System": State.System, "State.DrainShare": State.DrainShare,
		"State.HeldShare": State.HeldShare, "State.SumpContents": State.SumpContents,
		"Losses.Check": Losses.Check, "Losses.EachTime": Losses.EachTime, "Losses.Shortfall": Losses.Shortfall, "Losses.Acting": Losses.Acting,
		"MixingRun.Share": MixingRun.Share, "MixingRun.Steps": MixingRun.Steps, "Losses.Steps": Losses.Steps, "CyclesSteps": CyclesSteps, "BoundsSteps": BoundsSteps, "ThroughFlow.Flush": ThroughFlow.Flush, "ThroughFlow.VolumeTo": ThroughFlow.VolumeTo, "ThroughFlow.VolumeToSteps": ThroughFlow.VolumeToSteps, "DrainForSteps": DrainForSteps, "CapacityForSteps": CapacityForSteps,
		"Caveat.String": Caveat.String, "Caveat.Sentence": Caveat.Sentence, "Caveat.MarshalText": Caveat.MarshalText,
		"Outcome.String": Outcome.String, "Purpose.String": Purpose.String, "Purpose.MarshalText": Purpose.MarshalText, "Outcome.MarshalText": Outcome.MarshalText, "Flow.String": Flow.String,
		"Proposal.Advice": Proposal.Advice, "IntervalMethod.String": IntervalMethod.String,
		"MeasuredService.Interval": MeasuredService.Interval, "MeasuredService.Chance": MeasuredService.Chance,
		"MeasuredService.Budget": MeasuredService.Budget, "MeasuredService.Reading": MeasuredService.Reading,
	}
}

// edges draws values, wild ones with the given probability.
type edges struct {
	*rand.Rand
	wild float64
}

func (e edges) tame() bool { return e.Float64() >= e.wild }

// edgeValue makes a value of a type out of the awkward and the usual.
func edgeValue(rng edges, t reflect.Type) reflect.Value {
	v := reflect.New(t).Elem()
	switch x := v.Addr().Interface().(type) {
	case *units.Volume:
		*x = edgeVolume(rng)
	case *units.Range[units.VolumeDim]:
		*x = edgeRange(rng)
	case *decimal.Decimal:
		*x = edgeDecimal(rng)
	case *measure.Volume:
		*x = edgeMeasured(rng)
	case *measure.Reading:
		*x = edgeMeasured(rng).Reading().Times(edgePick(rng, 0.1, 0.2, 1))
	case *State:
		*x = edgeState(rng)
	default:
		edgeKind(rng, v)
	}
	return v
}

func edgeKind(rng edges, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		if rng.tame() {
			v.SetFloat(edgePick(rng, 0.5, 0.25, 0.9, 0.95))
			return
		}
		v.SetFloat(edgePick(rng, 0.5, 0.25, 0.9, 1, 0, -1, 2, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, 5e-324, 1e-300, 1-1e-16))
	case reflect.Int:
		if rng.tame() {
			v.SetInt(edgePick[int64](rng, 0, 1, 3))
			return
		}
		v.SetInt(edgePick[int64](rng, 1, 3, 12, 0, -1, 100, 101, 10_000, 10_001, math.MaxInt32, math.MinInt32))
	case reflect.Uint8:
		if rng.tame() {
			v.SetUint(edgePick[uint64](rng, 0, 1, 2, 3))
			return
		}
		v.SetUint(edgePick[uint64](rng, 0, 1, 2, 3, 4, 9, 255))
	case reflect.Uint64:
		v.SetUint(rng.Uint64())
	case reflect.Bool:
		v.SetBool(rng.IntN(2) == 0)
	case reflect.Slice:
		n := edgePick(rng, 0, 1, 2, 3, 5)
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			v.Index(i).Set(edgeValue(rng, v.Type().Elem()))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				v.Field(i).Set(edgeValue(rng, f.Type))
				if rng.tame() && v.Type() == reflect.TypeFor[Request]() {
					edgeTame(rng, f.Name, v.Field(i))
				}
				if f.Name == "Trials" { // a million trials prove nothing here
					v.Field(i).SetInt(edgePick[int64](rng, 1000, 1000, 1000, -1, 10))
				}
			}
		}
	}
}

// edgeTame gives the fields that seldom fit by chance a fitting value.
func edgeTame(rng edges, name string, f reflect.Value) {
	switch name {
	case "Capacity":
		f.Set(reflect.ValueOf(units.Exactly(units.Litre.Of(edgePick(rng, 8.0, 12)))))
	case "Drain", "FirstDrain":
		f.Set(reflect.ValueOf(units.Exactly(units.Litre.Of(edgePick(rng, 2, 2.5)))))
	case "Sump":
		f.Set(reflect.ValueOf(units.Litre.Of(5)))
	}
}

func edgePick[T any](rng edges, from ...T) T { return from[rng.IntN(len(from))] }

func edgeVolume(rng edges) units.Volume {
	if rng.tame() {
		return units.Litre.Of(edgePick(rng, 0, 0.2, 2, 2.5, 5, 12))
	}
	x := edgePick(rng, 2.5, 2, 3, 5, 12, 14, 0.3, 0, 0, 0.001, 1e-14, -1, 499, 500, 501, 92_000, -92_000, math.NaN())
	return units.Litre.Of(x)
}

func edgeRange(rng edges) units.Range[units.VolumeDim] {
	a, b := edgeVolume(rng), edgeVolume(rng)
	if r, err := units.NewRange(a, b); err == nil {
		return r
	}
	return units.Exactly(a)
}

func edgeDecimal(rng edges) decimal.Decimal {
	if rng.tame() {
		return edgePick(rng, decimal.Decimal{}, decimal.New(1250, -2))
	}
	return edgePick(rng, decimal.Decimal{}, decimal.New(1250, -2), decimal.New(-1, 0), decimal.New(1, 9999), decimal.New(1, -9999),
		decimal.New(math.MaxInt64, 9), decimal.New(math.MaxInt64, -9), decimal.New(1, -9), decimal.New(0, 30))
}

func edgeMeasured(rng edges) measure.Volume {
	v := edgeVolume(rng)
	if rng.IntN(3) == 0 {
		return measure.MeasuredExactly(v)
	}
	c, err := measure.NewCause(edgePick(rng, "a", "b", "c"), "", edgePick(rng, measure.Normal, measure.Normal, measure.Rectangular, measure.Student), 3)
	if err != nil {
		return measure.Volume{}
	}
	m, err := measure.NewMeasured(v, measure.Term{Cause: c, Scale: edgePick(rng, 0.05, 0.001, 0, -0.1, 1e-12, 1e-300, 50, 1e300)})
	if err != nil {
		return measure.Volume{}
	}
	return m
}

func edgeState(rng edges) State {
	st, err := Start(edgeValue(rng, reflect.TypeFor[System]()).Interface().(System))
	if err != nil {
		return State{}
	}
	for range rng.IntN(4) {
		st, _ = st.Drain(edgeVolume(rng))
		st, _ = st.Refill(edgeVolume(rng), 0.25)
		st, _ = st.Settle(edgeVolume(rng))
		st, _ = st.Mix(0.5)
	}
	return st
}

// No exported function panics on any value, no NaN or infinity comes out, and
// every range of shares lies between 0 and 1 the right way round.
func TestNothingPanics(t *testing.T) {
	for name, f := range edgeFunctions() {
		rng := edges{rand.New(rand.NewPCG(29, uint64(len(name)))), 0}
		fn := reflect.ValueOf(f)
		rounds := 1500
		if name == "MeasuredService.Interval" {
			rounds = 500 // some of them simulate
		}
		good := 0
		for range rounds {
			rng.wild = edgePick(rng, 0, 0, 0.02, 0.1, 0.5, 1)
			args := make([]reflect.Value, fn.Type().NumIn())
			for i := range args {
				args[i] = edgeValue(rng, fn.Type().In(i))
			}
			if edgeCall(t, name, fn, args) {
				good++
			}
		}
		if good == 0 {
			t.Errorf("%s: no input was good; the test says nothing", name)
		}
	}
}

// edgeCall reports whether the call succeeded.
func edgeCall(t *testing.T, name string, fn reflect.Value, args []reflect.Value) (good bool) {
	t.Helper()
	defer func() {
		if p := recover(); p != nil {
			t.Fatalf("%s panics on %+v: %v", name, args, p)
		}
	}()
	out := fn.Call(args)
	last := out[len(out)-1]
	good = !last.Type().Implements(reflect.TypeFor[error]()) || last.IsNil()
	for _, v := range out {
		if where := edgeNotFinite(v, ""); where != "" {
			t.Fatalf("%s gives %s on %+v", name, where, args)
		}
	}
	return good
}

// edgeNotFinite finds a NaN or an infinity anywhere in a result.
func edgeNotFinite(v reflect.Value, path string) string {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Sprintf("%s = %v", path, x)
		}
	case reflect.Slice:
		for i := range v.Len() {
			if s := edgeNotFinite(v.Index(i), fmt.Sprintf("%s[%d]", path, i)); s != "" {
				return s
			}
		}
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[Share]() {
			if low, high := v.Field(0).Float(), v.Field(1).Float(); !(low >= 0 && low <= high && high <= 1) {
				return fmt.Sprintf("%s = the share %v to %v", path, low, high)
			}
		}
		for i := range v.NumField() {
			if s := edgeNotFinite(v.Field(i), path+"."+v.Type().Field(i).Name); s != "" {
				return s
			}
		}
	}
	return ""
}
