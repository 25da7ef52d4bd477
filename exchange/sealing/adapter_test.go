package sealing

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// Published worked examples, each with its source in the table. One published
// row moves the setting the wrong way: that one must not be met.
func TestAdapterAgainstPublishedExamples(t *testing.T) {
	checked, wrong := 0, 0
	for _, row := range published.Load(t, "torque_adapter_examples").Rows() {
		if !row.Has("published_setting") {
			continue // computed, no outside value
		}
		got, err := Adapter{
			Wanted: units.NewtonMetre.Of(row.Float("T_wanted")), // the formula has no unit of its own
			Lever:  units.Inch.Of(row.Float("L")), Extension: units.Inch.Of(row.Float("E")),
			AngleDegrees: row.Float("angle_deg"),
		}.Setting()
		if err != nil {
			t.Fatal(err)
		}
		set := got.Set.In(units.NewtonMetre)
		met := math.Abs(set-row.Float("published_setting")) <= row.Float("tolerance")
		switch agrees := row.Bool("agrees"); {
		case agrees && !met:
			t.Errorf("line %d: set %v, published %v (%s)", row.Line(), set, row.Float("published_setting"), row.Source())
		case !agrees && met:
			t.Errorf("line %d: met a published value that is wrong", row.Line())
		case agrees:
			checked++
		default:
			wrong++
		}
	}
	if checked < 8 || wrong < 1 {
		t.Errorf("%d examples checked, %d wrong ones refused; want 8 and 1", checked, wrong)
	}
}

func TestAdapterProperties(t *testing.T) {
	base := Adapter{Wanted: units.NewtonMetre.Of(24), Lever: units.Millimetre.Of(250), Extension: units.Millimetre.Of(60)}
	last := units.Torque{}
	for angle := 0.0; angle <= 180; angle += 7.5 {
		a := base
		a.AngleDegrees = angle
		got, err := a.Setting()
		if err != nil {
			t.Fatal(err)
		}
		if got.Set.Compare(last) <= 0 {
			t.Errorf("at %v° set %v is not above %v: turning the adapter back raises the setting", angle, got.Set, last)
		}
		last = got.Set
		// The moment at the plug, reckoned slowly: force at the grip times its reach.
		reach := 250 + float64(60*math.Cos(angle*math.Pi/180))
		if plug := got.Set.In(units.NewtonMetre) / 250 * reach; math.Abs(plug-24) > 1e-9 {
			t.Errorf("at %v° the plug gets %v N·m", angle, plug)
		}
	}
	none := base
	none.Extension = units.Length{}
	if got, err := none.Setting(); err != nil || got.Set != base.Wanted {
		t.Errorf("without an extension: %v, %v", got.Set, err)
	}
}

func TestAdapterRefuses(t *testing.T) {
	ok := Adapter{Wanted: units.NewtonMetre.Of(24), Lever: units.Millimetre.Of(250), Extension: units.Millimetre.Of(60)}
	for _, tt := range []struct {
		want string
		edit func(*Adapter)
	}{
		{"wanted torque", func(a *Adapter) { a.Wanted = units.Torque{} }},
		{"wanted torque", func(a *Adapter) { a.Wanted = units.NewtonMetre.Of(math.Inf(1)) }},
		{"lever", func(a *Adapter) { a.Lever = units.Length{} }},
		{"extension", func(a *Adapter) { a.Extension = units.Millimetre.Of(-1) }},
		{"angle", func(a *Adapter) { a.AngleDegrees = math.NaN() }},
		{"angle", func(a *Adapter) { a.AngleDegrees = 200 }},
		{"under the hand", func(a *Adapter) { a.Extension, a.AngleDegrees = a.Lever, 180 }},
	} {
		a := ok
		tt.edit(&a)
		if got, err := a.Setting(); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%+v: %v, %v; want %q", a, got, err, tt.want)
		}
	}
}

// 24 × 250/(250 + 60) = 19.35 N·m.
func ExampleAdapter_Setting() {
	got, _ := Adapter{
		Wanted: units.NewtonMetre.Of(24), Lever: units.Millimetre.Of(250), Extension: units.Millimetre.Of(60),
	}.Setting()
	fmt.Println(Both(got.Set))
	fmt.Print(got.Steps.Text())
	// Output:
	// 19.4 N·m (14.3 lbf·ft)
	// wrench setting = T·L/(L + E·cos a) = 24.00 N·m × 250/(250 + 60 × cos 0°) = 19.4 N·m (14.3 lbf·ft)
}

func ExampleBoth() {
	fmt.Println(Both(units.PoundForceFoot.Of(15)))
	// Output: 20.3 N·m (15.0 lbf·ft)
}
