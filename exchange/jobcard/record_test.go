package jobcard

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
)

var update = flag.Bool("update", false, "write the printed records again")

// untidy is a job with something wrong in every part, none of it refused.
func untidy() (Spec, []Entry) {
	s := ternSpec()
	s.Vehicle, s.Edition = "", "pack 3"
	s.Plugs = append(s.Plugs,
		sealing.Plug{ID: "taper", Role: sealing.Fill, Thread: mustThread("R1/4"), Turns: 2},
		sealing.Plug{ID: "cover", Role: sealing.Check, Thread: mustThread("M8x1.25")})
	s.Plugs[0].Washer, s.Plugs[0].Shoulder, s.Plugs[0].Collar = "ring-18", mm(18), mm(24)
	s.Washers = append(s.Washers, sealing.Washer{ID: "ring-18", Inner: mm(18.2), Outer: mm(23), Thickness: mm(1.5)},
		sealing.Washer{ID: "ring-16b", Inner: mm(16.2), Outer: mm(20), Thickness: mm(2)})
	nm := units.NewtonMetre.Of
	used := NewWasher(at(31), "drain", "ring-16b")
	used.New = false
	watched := Observe(at(50), "check", exchange.PlugStreams)
	watched.Lasting, watched.Amount = Duration(90e9), Amount{Volume: litres(0.1), Temperature: units.Celsius(44), PlusMinus: litres(0.01)}
	return s, []Entry{
		FillPlug(at(0), "fill"),
		DrainOf(at(10), jug(1.2, 18)),
		DrainOf(at(11), Amount{Mass: units.Kilogram.Of(0.1), Scale: "scale-1"}),
		Note(at(12), "dark, no metal"),
		RefillOf(at(20), jug(1.0, 18)),
		RefillOf(at(21), jug(0.5, 18)).Saying("from the open can"),
		Strike(at(22), 6, "poured back"),
		KeptBack(at(23), Amount{Volume: litres(0.05), Temperature: units.Celsius(18)}),
		Spill(at(24), Amount{Volume: litres(0.02), Temperature: units.Celsius(18)}, FromRefill),
		GearRuns(at(30), 3),
		used, TorqueSet(at(32), "drain", nm(30), ""),
		Supply(at(33), litres(1)),
		ReadWindow(at(40), WindowReading{Temperature: units.Celsius(44), PlusMinus: units.CelsiusDegree.Of(1)}),
		watched,
		TopUp(at(55), jug(0.3, 20)),
	}
}

// golden compares with a file, or writes it.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := "testdata/" + name + ".txt"
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s: got\n%s\nwant\n%s", name, got, want)
	}
}

// The printed record of a job well done, of an untidy one, and of one just opened,
// letter by letter: what a customer is handed.
func TestRecords(t *testing.T) {
	spec, entries := untidy()
	golden(t, "record-whole", fill(t, ternSpec(), append(ternEntries(), Close(at(99)))...).Record())
	golden(t, "record-untidy", fill(t, spec, entries...).Record())
	golden(t, "record-opened", fill(t, Spec{Job: "opened", Capacity: volumes(8, 8)}).Record())
}

// What is next, what blocks closing and what to beware of, after every entry of both
// jobs: the words a technician is led by.
func TestStepsWordByWord(t *testing.T) {
	spec, entries := untidy()
	golden(t, "steps-untidy", steps(t, spec, entries))
	golden(t, "steps-whole", steps(t, ternSpec(), append(ternEntries(), Close(at(99)))))
	bare := Spec{Job: "bare", Capacity: volumes(8, 10)} // no sheet, no plugs, no window
	golden(t, "steps-bare", steps(t, bare, []Entry{
		FillPlug(at(0), ""), DrainOf(at(1), plain(2)), RefillOf(at(2), plain(2)), GearRuns(at(3), 1), DrainOf(at(4), plain(2)), RefillOf(at(5), plain(2)), GearRuns(at(6), 1), Close(at(7)),
	}))
}

func steps(t *testing.T, s Spec, entries []Entry) string {
	t.Helper()
	card := fill(t, s)
	var b strings.Builder
	for i := 0; ; i++ {
		next := card.Next()
		fmt.Fprintf(&b, "  next %s: %s", next.Code, next.Text)
		if !next.Volume.IsZero() || next.Plug != "" {
			fmt.Fprintf(&b, " [%s%s]", next.Volume.Text(units.Litre, 3), next.Plug)
		}
		b.WriteByte('\n')
		for _, block := range card.Blocking() {
			fmt.Fprintf(&b, "  open %s: %s\n", block.Code, block.Text)
		}
		for _, c := range card.Cautions() {
			fmt.Fprintf(&b, "  beware %s\n", c.Hazard)
		}
		if i == len(entries) {
			return b.String()
		}
		if err := card.Append(entries[i]); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&b, "%d %s\n", i+1, entries[i].Kind)
	}
}
