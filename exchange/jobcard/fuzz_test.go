package jobcard

import (
	"bytes"
	"math"
	"testing"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
)

// FuzzDecode: no input may panic, and what is accepted writes and reads back
// the same.
func FuzzDecode(f *testing.F) {
	card, err := Open(ternSpec())
	if err != nil {
		f.Fatal(err)
	}
	for _, e := range ternEntries() {
		if err := card.Append(e); err != nil {
			f.Fatal(err)
		}
	}
	good, err := card.MarshalJSON()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good)
	f.Add([]byte(`{"schema":1,"spec":{"job":"a","capacity":"9 L","fluid":{}},"entries":[]}`))
	f.Add([]byte(`{"schema":1}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<16 {
			return
		}
		card, err := Decode(data)
		if err != nil {
			return
		}
		first, err := card.MarshalJSON()
		if err != nil {
			t.Fatalf("accepted but not written: %v", err)
		}
		back, err := Decode(first)
		if err != nil {
			t.Fatalf("own writing refused: %v", err)
		}
		second, _ := back.MarshalJSON()
		if !bytes.Equal(first, second) {
			t.Fatalf("not the same bytes:\n%s\n%s", first, second)
		}
		sane(t, back)
	})
}

// FuzzAppend drives a card with any sequence of entries: a refused one leaves
// the bytes as they were, the balance equals the sum of what was accepted, and
// shares stay shares.
func FuzzAppend(f *testing.F) {
	f.Add([]byte{1, 0, 2, 21, 3, 21, 4, 4, 9, 43, 10, 3, 15, 0})
	f.Add([]byte{1, 0, 2, 21, 3, 20, 5, 2, 6, 1, 11, 2, 14, 3, 2, 30, 3, 255})
	f.Fuzz(func(t *testing.T, script []byte) {
		if len(script) > 80 {
			return
		}
		card, err := Open(ternSpec())
		if err != nil {
			t.Fatal(err)
		}
		for i := 0; i+1 < len(script); i += 2 {
			before, _ := card.MarshalJSON()
			e := scripted(i, script[i], script[i+1])
			if script[i] >= 17 { // the same kinds again, in zones of which some cannot be written
				e.At = e.At.In(time.FixedZone("odd", 60*(int(script[i])-128)+int(script[i+1]/64)))
			}
			err := card.Append(e)
			after, _ := card.MarshalJSON()
			if err != nil && !bytes.Equal(before, after) {
				t.Fatalf("refused (%v) but changed the card", err)
			}
			sane(t, card)
		}
		if got, want := card.Balance().Net.Best(), slowNet(t, card); got.Sub(want).Abs().Compare(units.Millilitre.Of(1e-5)) > 0 {
			t.Fatalf("net %v, slow sum %v of\n%s", got, want, card.Record())
		}
		writesAndReads(t, card)
	})
}

// slowNet converts every volume that stands on its own and adds them up: what was
// put in, less what came out, was kept, or was spilled from the box or a refill.
func slowNet(t *testing.T, c *Card) units.Volume {
	t.Helper()
	spec := c.Spec()
	law, err := spec.Fluid.Law()
	if err != nil {
		t.Fatal(err)
	}
	vessel, _ := spec.vessel("jug-a")
	var net units.Volume
	for i, e := range c.Entries() {
		if c.IsStruck(i+1) || e.Amount.IsZero() || e.Kind == Supplied || e.Kind == Spilled && e.Origin == FromStock {
			continue // a supply and a spill on the bench never were in the box
		}
		v, err := vessel.Contents(e.Amount.Volume, e.Amount.Temperature)
		if err != nil {
			t.Fatal(err)
		}
		if v, err = law.Convert(v, e.Amount.Temperature, spec.reference()); err != nil {
			t.Fatal(err)
		}
		if e.Kind == Refilled || e.Kind == ToppedUp {
			net = net.Add(v)
		} else {
			net = net.Sub(v)
		}
	}
	return net
}

// scripted turns two bytes into an entry, often a sensible one.
func scripted(i int, kind, x byte) Entry {
	when := at(i)
	amount := jug(float64(x)/100, float64(10+int(x)%60))
	switch Kind(kind % 17) {
	case FillPlugOpened:
		return FillPlug(when, "fill")
	case Drained:
		return DrainOf(when, amount)
	case Refilled:
		e := RefillOf(when, amount)
		e.OldShare = float64(x%4) / 3
		return e
	case Mixed:
		return GearRuns(when, int(x))
	case Kept:
		return KeptBack(when, amount)
	case Spilled:
		return Spill(when, amount, Origin(x%4))
	case WasherFitted:
		return NewWasher(when, []string{"drain", "fill", "side"}[int(x)%3], "ring-16")
	case PlugTorqued:
		return TorqueSet(when, []string{"drain", "fill", "check"}[int(x)%3], units.NewtonMetre.Of(float64(x)), "wrench-50")
	case WindowRead:
		return ReadWindow(when, WindowReading{Temperature: units.Celsius(float64(x)), Thermometer: "probe-1", EngineIdling: x%2 == 0, Level: true})
	case CheckPlugObserved:
		e := Observe(when, "check", exchange.AtPlug(x%5))
		if x%3 == 0 {
			e.Amount = amount
		}
		return e
	case ToppedUp:
		return TopUp(when, amount)
	case Supplied:
		return Supply(when, litres(float64(x)/10))
	case Noted:
		return Note(when, "note")
	case Struck:
		return Strike(when, int(x), "slip")
	case Closed:
		return Close(when)
	}
	return Entry{At: when.Add(-time.Hour), Kind: Kind(kind)}
}

// sane holds what must be true of every card.
func sane(t *testing.T, c *Card) {
	t.Helper()
	s := c.OldShare()
	for _, x := range []float64{s.Estimate, s.Low, s.High, s.Most} {
		if !(x >= 0 && x <= 1) {
			t.Fatalf("old share %+v", s)
		}
	}
	if s.Low > s.Estimate+1e-9 || s.Estimate > s.High+1e-9 || s.High > s.Most {
		t.Fatalf("old share out of order: %+v", s)
	}
	b := c.Balance()
	sum := b.In.Best().Sub(b.Out.Best())
	if diff := b.Net.Best().Sub(sum).Abs().In(units.Millilitre); diff > 1e-6 || math.IsNaN(diff) {
		t.Fatalf("net %v is not in %v less out %v", b.Net.Best(), b.In.Best(), b.Out.Best())
	}
	if c.Next().Text == "" {
		t.Fatal("nothing to say")
	}
}
