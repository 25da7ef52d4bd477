package thermal

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
)

// TestLumpedBooks: a thermocouple of τ 1.116 s put from 20 °C into 200 °C shows
// 197.96 °C after 5 s (Lienhard & Lienhard, example 1.4, seen second-hand); a
// bead of 0.706 mm needs 5.2 s from 25 °C to 199 °C in 200 °C (Incropera,
// example 5.1, from memory).
func TestLumpedBooks(t *testing.T) {
	rows := published.Load(t, "thermal_vectors").Where("quantity", "lumped")
	if len(rows) != 2 {
		t.Fatalf("%d rows", len(rows))
	}
	if !strings.HasPrefix(rows[0].Text("expected"), "197.96 C") || !strings.Contains(rows[1].Text("expected"), "t=5.166 s") {
		t.Fatalf("the rows now say %q and %q", rows[0].Text("expected"), rows[1].Text("expected"))
	}
	l := Lumped{Start: units.Celsius(20), Plateau: units.Celsius(200), Tau: 1116 * time.Millisecond}
	got, err := l.At(5 * time.Second)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "thermocouple", got.Celsius(), 197.96, tolerance(t, rows[0]))

	tau := 8500 * 400 * 0.706e-3 / (6 * 400) // ρ·cp·D/(6h)
	bead := Lumped{Start: units.Celsius(25), Plateau: units.Celsius(200), Tau: time.Duration(tau * 1e9)}
	at, err := bead.Reach(units.Celsius(199))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "bead", at.Seconds(), 5.2, tolerance(t, rows[1]))
	near(t, "bead, more digits", at.Seconds(), 5.166, 5e-4)
}

// TestTimeToTarget: from 75 °F towards 180 °F with τ 25 min, 97 °F comes after
// 5.8782 min and 115 °F after 11.9894 min.
func TestTimeToTarget(t *testing.T) {
	row := published.Load(t, "thermal_vectors").Find("quantity", "time to target")
	if row.Text("expected") != "t97=5.8782;t115=11.9894 min" {
		t.Fatalf("the row now says %q", row.Text("expected"))
	}
	l := Lumped{Start: units.Fahrenheit(75), Plateau: units.Fahrenheit(180), Tau: 25 * time.Minute}
	for target, want := range map[float64]float64{97: 5.8782, 115: 11.9894} {
		got, err := l.Reach(units.Fahrenheit(target))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "minutes", got.Minutes(), want, tolerance(t, row))
	}
}

// TestLumpedProperties: Reach inverts At, and two halves of the time make the
// whole; compared with 200-bit arithmetic.
func TestLumpedProperties(t *testing.T) {
	r := rand01(31)
	for range 500 {
		a, b := math.Round(r.between(-20, 150)), math.Round(r.between(-20, 150))
		if a == b {
			continue
		}
		l := Lumped{Start: units.Celsius(a), Plateau: units.Celsius(b), Tau: time.Duration(r.between(60, 6000)) * time.Second}
		elapsed := time.Duration(r.between(0, 4)*l.Tau.Seconds()) * time.Second
		got, err := l.At(elapsed)
		if err != nil {
			t.Fatal(err)
		}
		want := sub(bigF(b), mul(bigF(b-a), bigExp(div(bigF(-elapsed.Seconds()), bigF(l.Tau.Seconds())))))
		w, _ := want.Float64()
		near(t, "oracle", got.Celsius(), w, 2e-10)
		back, err := l.Reach(got)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "there and back", back.Seconds(), elapsed.Seconds(), 1e-4)
		half, err := l.At(elapsed / 2)
		if err != nil {
			t.Fatal(err)
		}
		rest, err := (Lumped{half, l.Plateau, l.Tau}).At(elapsed / 2)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "in two halves", rest.Celsius(), got.Celsius(), 1e-6)
	}
}

func TestLumpedRefuses(t *testing.T) {
	good := Lumped{units.Celsius(20), units.Celsius(90), time.Minute}
	for name, l := range map[string]Lumped{
		"zero":          {},
		"no start":      {Plateau: good.Plateau, Tau: good.Tau},
		"no tau":        {Start: good.Start, Plateau: good.Plateau},
		"negative tau":  {good.Start, good.Plateau, -1},
		"a year of tau": {good.Start, good.Plateau, 8760 * time.Hour},
		"bad plateau":   {good.Start, units.Celsius(math.NaN()), good.Tau},
	} {
		if _, err := l.At(0); err == nil {
			t.Errorf("%s: At", name)
		}
		if _, err := l.Reach(units.Celsius(50)); err == nil {
			t.Errorf("%s: Reach", name)
		}
	}
	for _, elapsed := range []time.Duration{-1, longestCourse + 1, math.MaxInt64, math.MinInt64} {
		if _, err := good.At(elapsed); err == nil {
			t.Errorf("time %s", elapsed)
		}
	}
	for _, c := range []float64{19.9, 90, 91, -300, math.NaN()} {
		if _, err := good.Reach(units.Celsius(c)); !errors.Is(err, ErrTargetOutside) {
			t.Errorf("%v °C: %v", c, err)
		}
	}
	if at, err := good.Reach(good.Start); err != nil || at != 0 {
		t.Errorf("the start itself: %s, %v", at, err)
	}
	flat := Lumped{good.Start, good.Start, time.Minute}
	if _, err := flat.Reach(good.Start); !errors.Is(err, ErrTargetOutside) {
		t.Errorf("no course at all: %v", err)
	}
	if got, err := flat.At(time.Hour); err != nil || got != good.Start {
		t.Errorf("no course at all: %s, %v", got, err)
	}
	slow := Lumped{units.Celsius(20), units.Celsius(90), longestCourse}
	if _, err := slow.Reach(units.Celsius(89)); err == nil {
		t.Error("reached after thousands of hours")
	}
}
