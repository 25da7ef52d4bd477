package jobcard

import (
	"strings"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/caution"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// The card leads through a whole job: after each entry of ternEntries, this is next.
func TestNextLeadsThroughTheJob(t *testing.T) {
	want := []string{
		"prove-fill-plug", "drain",
		"refill", "mix", "drain",
		"refill", "mix", "drain",
		"refill", "refill", "refill", // the washer and torque while the fluid is still owed
		"mix", "read-window", "observe",
		"fit-washer", "tighten", "close",
	}
	s := ternSpec()
	s.Plugs[2].Washer, s.Plugs[2].Shoulder, s.Plugs[2].Collar = "ring-10", mm(10), mm(14)
	s.Washers = append(s.Washers, s.Washers[0])
	s.Washers[1].ID, s.Washers[1].Inner, s.Washers[1].Outer = "ring-10", mm(10.2), mm(13.5)
	entries := ternEntries()
	entries = append(entries[:14:14], NewWasher(at(96), "check", "ring-10"), TorqueSet(at(97), "check", units.NewtonMetre.Of(11), ""), TorqueSet(at(98), "fill", units.NewtonMetre.Of(32), ""))
	card := fill(t, s)
	for i, e := range entries {
		if got := card.Next(); i < len(want)-1 && got.Code != want[i] {
			t.Errorf("before entry %d (%s): next is %s (%s), want %s", i+1, e.Kind, got.Code, got.Text, want[i])
		}
		if err := card.Append(e); err != nil {
			t.Fatal(err)
		}
	}
	if got := card.Next().Code; got != "close" {
		t.Errorf("at the end: %s, want close", got)
	}
	if err := card.Append(Close(at(200))); err != nil {
		t.Fatal(err)
	}
	if got := card.Next().Code; got != "done" || card.Append(DrainOf(at(201), plain(1))) == nil {
		t.Errorf("after closing: %s", got)
	}
}

func TestLevelStepsFollowTheFlowAndTheWindow(t *testing.T) {
	base := ternEntries()[:12]
	read := func(c float64) Entry {
		return ReadWindow(at(95), WindowReading{Temperature: units.Celsius(c), Thermometer: "probe-1", EngineIdling: true, Level: true})
	}
	for _, tt := range []struct {
		name         string
		more         []Entry
		next, blocks string
	}{
		{"not read yet", nil, "read-window", "level-not-proved"},
		{"too cold", []Entry{read(25)}, "warm", "level-not-proved"},
		{"too warm", []Entry{read(60)}, "cool", "level-not-proved"},
		{"too near the end", []Entry{read(38.5)}, "read-window", "level-not-proved"},
		{"inside", []Entry{read(43)}, "observe", "level-not-proved"},
		{"nothing flows", []Entry{read(43), Observe(at(96), "check", exchange.PlugDry)}, "top-up", "level-low"},
		{"a stream", []Entry{read(43), Observe(at(96), "check", exchange.PlugStreams)}, "let-run", "level-high"},
		{"a trickle", []Entry{read(43), Observe(at(96), "check", exchange.PlugTrickles)}, "tighten", "not-torqued"},
		{"looked too cold", []Entry{read(25), Observe(at(96), "check", exchange.PlugTrickles)}, "warm", "level-not-proved"},
		{"topped up after the look", []Entry{read(43), Observe(at(96), "check", exchange.PlugTrickles), TopUp(at(97), plain(0.2))}, "observe", "level-not-proved"},
	} {
		card := fill(t, ternSpec(), append(append([]Entry(nil), base...), tt.more...)...)
		codes := ""
		for _, b := range card.Blocking() {
			codes += b.Code + " "
		}
		if got := card.Next(); got.Code != tt.next || !strings.Contains(codes, tt.blocks) {
			t.Errorf("%s: next %s (%s), blocks %s; want %s, %s", tt.name, got.Code, got.Text, codes, tt.next, tt.blocks)
		}
	}
}

func TestCautionsFollowTheNextStep(t *testing.T) {
	ids := func(list []caution.Caution) string {
		s := " "
		for _, c := range list {
			s += c.ID + " "
		}
		return s
	}
	card := fill(t, ternSpec(), FillPlug(at(0), "fill"))
	if got := ids(card.Cautions()); !strings.Contains(got, " hot-fluid ") || !strings.Contains(got, " raised-vehicle ") {
		t.Errorf("before a drain at unknown temperature:%s", got)
	}
	cold := fill(t, ternSpec(), FillPlug(at(0), "fill"), DrainOf(at(1), jug(2.1, 18)))
	if got := ids(cold.Cautions()); strings.Contains(got, " hot-fluid ") || !strings.Contains(got, " wrong-fluid ") {
		t.Errorf("before a refill of a cold box:%s", got)
	}
	level := fill(t, ternSpec(), ternEntries()[:13]...)
	if got := ids(level.Cautions()); !strings.Contains(got, " running-engine ") || !strings.Contains(got, " window-is-not-touch ") {
		t.Errorf("before the check plug:%s", got)
	}
}

func TestABoxWithoutWindowOrCheckPlugClosesByItsBalance(t *testing.T) {
	s := simple(10)
	card := fill(t, s, FillPlug(at(0), ""), DrainOf(at(1), plain(2)), RefillOf(at(2), plain(1.5)), GearRuns(at(3), 1))
	if b := card.Blocking(); len(b) != 1 || b[0].Code != "balance" {
		t.Errorf("half a litre short: %+v", b)
	}
	if err := card.Append(RefillOf(at(4), plain(0.5))); err != nil {
		t.Fatal(err)
	}
	if err := card.Append(GearRuns(at(5), 1)); err != nil {
		t.Fatal(err)
	}
	if b := card.Blocking(); len(b) != 0 {
		t.Errorf("put back: %+v", b)
	}
}

func TestAStruckEntryDoesNotCount(t *testing.T) {
	card := fill(t, simple(10), FillPlug(at(0), ""), DrainOf(at(1), plain(2)), RefillOf(at(2), plain(2)), RefillOf(at(3), plain(0.5)))
	if err := card.Append(Strike(at(4), 4, "written twice")); err != nil {
		t.Fatal(err)
	}
	if !card.Balance().Net.Best().IsZero() || !card.IsStruck(4) || card.Len() != 5 {
		t.Errorf("net %v after the strike", card.Balance().Net.Best())
	}
	if err := card.Append(Strike(at(5), 4, "again")); err == nil {
		t.Error("struck twice")
	}
	if !strings.Contains(card.Record(), "[struck: does not count]") {
		t.Error("the record hides the strike")
	}
}

// After two drains the mixed box meets 68 % old fluid; if the gears never mixed it
// may hold more. A change of class must not stop where a refresh may.
func TestChangeOfClassIsHeldToTheBound(t *testing.T) {
	s := ternSpec()
	s.Target = 0.68
	entries := ternEntries()[:7]
	if got := fill(t, s, entries...).Next(); got.Code == "drain" {
		t.Fatalf("refresh at 68 %%: %s (%s); the mixed share meets it", got.Code, got.Text)
	}
	s.Purpose = exchange.ChangeClass
	card := fill(t, s, entries...)
	if most := card.OldShare().Most; most <= 0.68 {
		t.Fatalf("bound is %g; this test wants it above 0.68", most)
	}
	if got := card.Next(); got.Code != "drain" || !strings.Contains(got.Text, "at most, whatever the gears did") {
		t.Errorf("change of class: %s (%s)", got.Code, got.Text)
	}
	if record := card.Record(); !strings.Contains(record, "at most 68 % old fluid, whatever the gears do: change of fluid class") {
		t.Errorf("the record does not say what was agreed:\n%s", record)
	}
	s.Purpose = 2
	if _, err := Open(s); err == nil || !strings.Contains(err.Error(), "want refresh or change of class") {
		t.Errorf("purpose 2: %v", err)
	}
}

// The mark the jug came to is what to put back only where one reading is all that is owed.
func TestNextRefillNamesTheMarkOnlyWhereItIs(t *testing.T) {
	const mark = "that is the mark it came to"
	s := ternSpec()
	for name, c := range map[string]struct {
		entries []Entry
		same    bool
	}{
		"one reading":  {[]Entry{DrainOf(at(1), jug(2.1, 18))}, true},
		"two readings": {[]Entry{DrainOf(at(1), jug(1.1, 18)), DrainOf(at(2), jug(1, 18))}, false},
		"part is back": {[]Entry{DrainOf(at(1), jug(2.1, 18)), RefillOf(at(2), jug(1, 18))}, false},
		"kept":         {[]Entry{DrainOf(at(1), jug(2.1, 18)), KeptBack(at(2), plain(0.25))}, false},
		"spilled":      {[]Entry{DrainOf(at(1), jug(2.1, 18)), Spill(at(2), plain(0.05), FromBox)}, false},
	} {
		step := fill(t, s, append([]Entry{FillPlug(at(0), "fill")}, c.entries...)...).Next()
		if step.Code != "refill" || strings.Contains(step.Text, mark) != c.same || !strings.Contains(step.Text, "what hose and pump keep goes on top") {
			t.Errorf("%s: %s, %s", name, step.Code, step.Text)
		}
	}
	// 0.3 L over belongs to the refill that meets the target: 1 - 2.1/10.
	for target, last := range map[float64]bool{0.85: true, 0.55: false, 0: true} {
		s.Target = target
		step := fill(t, s, FillPlug(at(0), "fill"), DrainOf(at(1), jug(2.1, 18))).Next()
		if strings.Contains(step.Text, "0.300 L (0.32 US qt) more, which the sheet wants over for the level check") != last {
			t.Errorf("target %v: %s", target, step.Text)
		}
	}
}

// What hose and pump keep stands on top of the mark: at 18 °C into a vessel that is not
// corrected, 2.1 L out and 0.25 L besides are 2.35 L.
func TestPutBackWithWhatTheHoseKeeps(t *testing.T) {
	card := fill(t, ternSpec(), FillPlug(at(0), "fill"), DrainOf(at(1), Amount{Volume: litres(2.1), Temperature: units.Celsius(18)}))
	mark, err := card.PutBack(Pour{Temperature: units.Celsius(18), Besides: litres(0.25)})
	if err != nil || mark.Sub(litres(2.35)).Abs().Compare(units.Millilitre.Of(1e-6)) > 0 {
		t.Errorf("%v, %v", mark, err)
	}
	for _, bad := range []units.Volume{litres(-0.01), litres(9.7), litres(1e300)} {
		if _, err := card.PutBack(Pour{Temperature: units.Celsius(18), Besides: bad}); err == nil || !strings.Contains(err.Error(), "besides; want zero to the box's capacity") {
			t.Errorf("%v besides: %v", bad, err)
		}
	}
}

// A plug tightened to another torque than the sheet's is to be tightened; a reading too
// near an end of the window is to be made again; a box without a check plug still wants
// its temperature read, and one without a window its check plug opened.
func TestNextNamesWhatIsLeft(t *testing.T) {
	nm := units.NewtonMetre.Of
	after := func(s Spec, entries ...Entry) Step {
		return fill(t, s, append(ternEntries()[:8:8], entries...)...).Next()
	}
	shut := []Entry{RefillOf(at(74), jug(2.2, 45)), NewWasher(at(75), "drain", "ring-16"), TorqueSet(at(76), "drain", nm(24), "wrench-50"), GearRuns(at(77), 4)}
	s := ternSpec()
	loose := append([]Entry{}, shut...)
	loose[2] = TorqueSet(at(76), "drain", nm(30), "wrench-50")
	if got := after(s, loose...); got.Code != "tighten" || got.Plug != "drain" || !strings.Contains(got.Text, "24.0 N·m") {
		t.Errorf("tightened to 30 N·m: %+v", got)
	}
	near := ReadWindow(at(80), WindowReading{Temperature: units.Celsius(47.9), Thermometer: "probe-1", EngineIdling: true, Level: true})
	if got := after(s, append(shut, near)...); got.Code != "read-window" || !strings.Contains(got.Text, "too near an end of 38 °C to 48 °C") {
		t.Errorf("near an end: %+v", got)
	}
	bare := ternSpec()
	bare.Plugs = bare.Plugs[:2]
	if got := after(bare, shut...); got.Code != "read-window" || strings.Contains(got.Text, "too near") {
		t.Errorf("no check plug: %+v", got)
	}
	open := ternSpec()
	open.Window = thermal.Window{}
	if got := after(open, shut...); got.Code != "observe" {
		t.Errorf("no window: %+v", got)
	}
}

// Nothing agreed is met, whatever the purpose.
func TestNothingAgreedIsMet(t *testing.T) {
	s := ternSpec()
	s.Target, s.Purpose = 0, exchange.ChangeClass
	if got := fill(t, s, ternEntries()[:4]...).Next(); got.Code != "fit-washer" {
		t.Errorf("%+v", got)
	}
}
