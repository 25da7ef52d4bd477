package exchange

import (
	"errors"
	"strings"
	"testing"

	"example.com/meniscus/internal/allocated"
	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// The longest workings cost what their lines cost, not the square of it.
func TestLongWorkingsAreLinear(t *testing.T) {
	l := units.Litre.Of
	sys := System{Capacity: l(10), Sump: l(5), Mixing: 0.7}
	passes := make([]Pass, traceMostPasses)
	samples := make([]DrainedSample, traceMostPasses)
	for i := range passes {
		passes[i] = Pass{Drain: l(0.01)}
		samples[i] = DrainedSample{Volume: l(0.001), OldShare: 0.5}
	}
	stock := make(Stock, coverMostStock)
	for i := range stock {
		stock[i] = Held{Volume: l(0.1), Count: 1}
	}
	for name, f := range map[string]func() error{
		"remaining steps": func() error { _, err := RemainingSteps(sys, dilutionRepeat(l(0.01), traceMostPasses)); return err },
		"what if":         func() error { _, err := WhatIf(sys, passes); return err },
		"samples":         func() error { _, err := FromSamples(units.Exactly(l(10)), samples); return err },
		"stock": func() error {
			_, err := Cover(Order{Need: l(1000), OnHand: stock, Offers: []Offer{{Size: l(1), Price: decimal.New(1, 0)}}})
			return err
		},
	} {
		var err error
		if took := allocated.Bytes(func() { err = f() }); err != nil || took > 8<<20 {
			t.Errorf("%s: %d bytes, %v; want at most 8 MiB", name, took, err)
		}
	}
}

// A list past its limit is refused before any of it is worked, and a long bad list
// within the limit tells ten faults.
func TestLongListsAreRefusedAtOnce(t *testing.T) {
	l := units.Litre.Of
	long := dilutionRepeat(l(0.0001), 2_000_000)
	ranges := make([]units.Range[units.VolumeDim], 1_000_000)
	sys := System{Capacity: l(10), Sump: l(5), Mixing: 0.7}
	offer := []Offer{{Size: l(1)}}
	for name, c := range map[string]struct {
		f    func() error
		want string
	}{
		"remaining":       {func() error { _, err := Remaining(sys, long); return err }, "2000000 drains; want at most 10000"},
		"one past":        {func() error { _, err := Remaining(sys, long[:10_001]); return err }, "10001 drains; want at most 10000"},
		"bounds":          {func() error { _, err := Bounds(l(10), l(5), long); return err }, "want at most 10000"},
		"range":           {func() error { _, err := RemainingRange(units.Exactly(l(10)), ranges); return err }, "1000000 drains; want at most 10000"},
		"stock":           {func() error { _, err := Cover(Order{OnHand: make(Stock, 20_000), Offers: offer}); return err }, "stock of 20000 lines; want at most 1000"},
		"stock one past":  {func() error { _, err := make(Stock, 1001).Pourable(); return err }, "stock of 1001 lines; want at most 1000"},
		"stock to budget": {func() error { _, err := CoverBudget(Budget{OnHand: make(Stock, 20_000), Offers: offer}); return err }, "stock of 20000 lines"},
		"distance round": {func() error {
			_, err := DistanceRound{Capacity: l(10), Services: []DistanceService{{Drains: long}}}.Schedule()
			return err
		}, "service 1: 2000000 drains; want at most 100"},
		"time round": {func() error {
			_, err := TimeRound{Capacity: l(10), Services: []TimeService{{}, {Drains: long}}}.Schedule()
			return err
		}, "service 2: 2000000 drains; want at most 100"},
		"services": {func() error {
			_, err := TimeRound{Capacity: l(10), Services: make([]TimeService, 1001)}.Schedule()
			return err
		}, "1001 services; want 1 to 1000"},
		"measured samples": {func() error {
			_, err := SamplesReading(units.Exactly(l(10)), make([]MeasuredSample, 1001))
			return err
		}, "1001 samples; want 1 to 1000"},
	} {
		var err error
		if took := allocated.Bytes(func() { err = c.f() }); err == nil || !strings.Contains(err.Error(), c.want) || took > 1<<20 {
			t.Errorf("%s: %d bytes, %v; want %q", name, took, err, c.want)
		}
	}
	most := dilutionRepeat(l(0.0001), 10_000)
	_, one := Remaining(sys, most)
	_, two := RemainingRange(units.Exactly(l(10)), ranges[:10_000])
	_, three := make(Stock, 1000).Pourable()
	if err := errors.Join(one, two, three); err != nil {
		t.Error(err)
	}
}

func TestBadListsTellTenFaults(t *testing.T) {
	l := units.Litre.Of
	stock, offers := make(Stock, coverMostStock), make([]Offer, coverMostOffers)
	for i := range stock {
		stock[i] = Held{Volume: l(-1), Heel: l(-1), Count: -1}
	}
	services := make([]Service, scheduleMostServices)
	for i := range services {
		services[i] = Service{After: -1, Drains: []float64{2, 2, 2}}
	}
	_, pourable := stock.Pourable()
	_, cover := Cover(Order{Offers: offers})
	for name, err := range map[string]error{"stock": pourable, "offers": cover, "schedule": Schedule{Services: services}.Check()} {
		if err == nil || strings.Count(err.Error(), "\n") != 9 {
			t.Errorf("%s: %.2000v; want ten faults", name, err)
		}
	}
}

// Names go into messages and workings: a megabyte of name is no name.
func TestLongNamesAreRefused(t *testing.T) {
	l := units.Litre.Of
	order := func(offer, held int) error {
		_, err := Cover(Order{Need: l(2), Offers: []Offer{{Name: strings.Repeat("n", offer), Size: l(1)}}, OnHand: Stock{{Name: strings.Repeat("n", held), Volume: l(1), Count: 1}}})
		return err
	}
	if err := order(coverMostName, coverMostName); err != nil {
		t.Error(err)
	}
	for want, err := range map[string]error{
		"name of 201 bytes; want at most 200":     order(201, 0),
		"name of 1048576 bytes; want at most 200": order(0, 1<<20),
	} {
		if err == nil || !strings.Contains(err.Error(), want) || len(err.Error()) > 200 {
			t.Errorf("%.300v; want %q", err, want)
		}
	}
}
