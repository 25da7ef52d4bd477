package jobcard

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// plain is a volume at the reference temperature in no vessel: no correction.
func plain(x float64) Amount {
	return Amount{Volume: litres(x), Temperature: thermal.ReferenceTemperature()}
}

func TestRefusedEntriesSayWhyAndChangeNothing(t *testing.T) {
	nm := units.NewtonMetre.Of
	started := []Entry{FillPlug(at(0), "fill")}
	drained := append(append([]Entry(nil), started...), DrainOf(at(1), plain(2.1)))
	refilled := append(append([]Entry(nil), drained...), RefillOf(at(2), plain(2.1)))
	for _, tt := range []struct {
		name   string
		before []Entry
		entry  Entry
		want   string
	}{
		{"drain before the fill plug is proved", nil, DrainOf(at(1), plain(2.1)), "fill plug is not known to open"},
		{"refill before the fill plug is proved", nil, RefillOf(at(1), plain(2.1)), "fill plug is not known to open"},
		{"time goes back", drained, RefillOf(at(0), plain(2.1)), "before the entry that went before"},
		{"no time", started, DrainOf(time.Time{}, plain(2.1)), "has no time"},
		{"no kind", started, Entry{At: at(1)}, "no kind of entry"},
		{"unknown kind", started, Entry{At: at(1), Kind: 99}, "no kind of entry"},
		{"nothing measured", started, Entry{At: at(1), Kind: Drained}, "lacks amount"},
		{"a torque on a drain", started, Entry{At: at(1), Kind: Drained, Amount: plain(2), Torque: nm(3)}, "takes none"},
		{"negative volume", started, DrainOf(at(1), plain(-2)), "want a positive volume"},
		{"volume out of range", started, DrainOf(at(1), plain(math.NaN())), "want a positive volume"},
		{"no temperature", started, DrainOf(at(1), Amount{Volume: litres(2)}), "has no temperature"},
		{"volume and mass", started, DrainOf(at(1), Amount{Volume: litres(2), Temperature: units.Celsius(15), Mass: units.Kilogram.Of(2)}), "both a volume and a mass"},
		{"negative mass", started, DrainOf(at(1), Amount{Mass: units.Kilogram.Of(-2)}), "want a positive mass"},
		{"mass with a temperature", started, DrainOf(at(1), Amount{Mass: units.Kilogram.Of(2), Temperature: units.Celsius(15)}), "it needs none"},
		{"unknown vessel", started, DrainOf(at(1), Amount{Volume: litres(2), Temperature: units.Celsius(15), Vessel: "bucket"}), "not one of the job's"},
		{"unknown thermometer", started, DrainOf(at(1), Amount{Volume: litres(2), Temperature: units.Celsius(15), Thermometer: "hand"}), "not one of the job's"},
		{"unknown scale", started, DrainOf(at(1), Amount{Mass: units.Kilogram.Of(2), Scale: "bathroom"}), "not one of the job's"},
		{"over the jug's top mark", started, DrainOf(at(1), jug(3.5, 18)), "top mark"},
		{"fluid colder than the law", started, DrainOf(at(1), Amount{Volume: litres(2), Temperature: units.Celsius(-80)}), "-50"},
		{"more than the box holds", started, DrainOf(at(1), plain(11)), "drain"},
		{"refill past sense", drained, RefillOf(at(2), plain(21)), "above its level"},
		{"a quart typed as a gallon", drained, RefillOf(at(2), Amount{Volume: units.USGallon.Of(2.2), Temperature: units.Celsius(15)}), "above its level"},
		{"old share past one", drained, Entry{At: at(2), Kind: Refilled, Amount: plain(2), OldShare: 1.2}, "want 0 (new) to 1"},
		{"NaN old share", drained, Entry{At: at(2), Kind: Refilled, Amount: plain(2), OldShare: math.NaN()}, "want 0 (new) to 1"},
		{"gears on a drained box", drained, GearRuns(at(2), 4), "short of what was drained"},
		{"no runs", refilled, GearRuns(at(3), 0), "lacks runs"},
		{"spill of more refill than there was", drained, Spill(at(2), plain(1), FromRefill), "only"},
		{"washer on an unknown plug", refilled, NewWasher(at(3), "side", "ring-16"), "not one of the job's"},
		{"unknown washer", refilled, NewWasher(at(3), "drain", "ring-99"), "not one of the job's"},
		{"washer that cannot pass the thread", refilled, NewWasher(at(3), "fill", "ring-16"), "does not fit"},
		{"torque without a washer", refilled, TorqueSet(at(3), "drain", nm(24), ""), "has had no washer since"},
		{"torque of an unknown plug", refilled, TorqueSet(at(3), "side", nm(24), ""), "not one of the job's"},
		{"no torque", refilled, Entry{At: at(3), Kind: PlugTorqued, Plug: "fill"}, "want the torque"},
		{"tool too large", refilled, TorqueSet(at(3), "fill", nm(4), "wrench-50"), "take another tool"},
		{"unknown tool", refilled, TorqueSet(at(3), "fill", nm(32), "spanner"), "not one of the job's"},
		{"reading without a temperature", refilled, ReadWindow(at(3), WindowReading{}), "lacks temperature"},
		{"two kinds of doubt", refilled, ReadWindow(at(3), WindowReading{Temperature: units.Celsius(41), Thermometer: "probe-1", PlusMinus: units.CelsiusDegree.Of(1)}), "whose own limits count"},
		{"no flow named", refilled, Observe(at(3), "check", exchange.PlugNotSeen), "lacks flow"},
		{"observed at the drain plug", refilled, Observe(at(3), "drain", exchange.PlugTrickles), "is the drain plug"},
		{"empty note", refilled, Note(at(3), "  "), "note without words"},
		{"note with a bidi override", refilled, Note(at(3), "abc\u202edef"), "U+202E"},
		{"note too long", refilled, Note(at(3), strings.Repeat("x", 1001)), "at most 1000"},
		{"invalid UTF-8", refilled, Note(at(3), "\xff"), "UTF-8"},
		{"strike of nothing", refilled, Strike(at(3), 9, "slip"), "entry 9 is not on the card"},
		{"strike without a reason", refilled, Strike(at(3), 2, ""), "lacks text"},
		{"strike that leaves nonsense", refilled, Strike(at(3), 1, "slip"), "the rest does not stand"},
		{"close too early", refilled, Close(at(3)), "not ready to close"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			card := fill(t, ternSpec(), tt.before...)
			before, _ := card.MarshalJSON()
			record, balance := card.Record(), card.Balance().Net.Best()
			err := card.Append(tt.entry)
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Fatalf("error %v, want %q in it", err, tt.want)
			}
			if !strings.HasPrefix(err.Error(), "jobcard: entry ") {
				t.Errorf("error %q does not say which entry", err)
			}
			after, _ := card.MarshalJSON()
			if !bytes.Equal(before, after) || card.Record() != record || card.Balance().Net.Best() != balance {
				t.Error("the refused entry changed the card")
			}
		})
	}
}

func TestSpecFaultsAreAllReported(t *testing.T) {
	s := ternSpec()
	s.Target = 1.5
	s.Sump = litres(20)
	s.Window.Low, s.Window.High = s.Window.High, s.Window.Low
	s.Plugs[1].Washer = "ring-99"
	s.Vessels = append(s.Vessels, s.Vessels[0])
	s.Job = "a\x00b"
	_, err := Open(s)
	if err == nil {
		t.Fatal("opened")
	}
	for _, want := range []string{"target", "sump", "window", "ring-99", "stands twice", "U+0000"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q is missing from: %v", want, err)
		}
	}
	if _, err := Open(Spec{}); err == nil || !strings.Contains(err.Error(), "capacity") {
		t.Errorf("an empty spec opened: %v", err)
	}
}

func TestFindingsPointOutTheUnusual(t *testing.T) {
	nm := units.NewtonMetre.Of
	entries := []Entry{
		FillPlug(at(0), "fill"), DrainOf(at(1), plain(2.1)), RefillOf(at(2), plain(2.1)),
		DrainOf(at(3), plain(2.0)), RefillOf(at(4), plain(2.0)), GearRuns(at(5), 2),
		NewWasher(at(6), "drain", "ring-16"), TorqueSet(at(7), "drain", nm(33), ""),
		ReadWindow(at(8), WindowReading{Temperature: units.Celsius(43)}), Observe(at(9), "check", exchange.PlugTrickles),
	}
	s := ternSpec()
	s.OnHand = litres(3)
	card := fill(t, s, entries...)
	codes := ""
	for _, f := range card.Findings() {
		codes += f.Code + " "
	}
	for _, want := range []string{"not-mixed", "few-runs", "torque-differs", "not-idling", "not-level", "stock-short"} {
		if !strings.Contains(codes, want) {
			t.Errorf("finding %q is missing from %s", want, codes)
		}
	}
	if card.OldShare().Estimate > 0.65 {
		t.Error("two cycles should have left about 0.64")
	}
}

func TestUnusualDrainIsPointedOut(t *testing.T) {
	card := fill(t, ternSpec(), FillPlug(at(0), ""), DrainOf(at(1), plain(1.2)), RefillOf(at(2), plain(1.2)))
	if got := card.Findings(); len(got) != 1 || got[0].Code != "drain-unusual" || got[0].Entry != 3 {
		t.Errorf("findings %+v, want drain-unusual found when the refill began", got)
	}
}
