package jobfile_test

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/refdata/jobfile"
	"example.com/meniscus/units"
)

const head = `format = 1
job = "2026-118"
procedure = "tern-6"
`

func read(text string) (*jobfile.File, error) {
	return jobfile.Read("job.toml", strings.NewReader(text))
}

func TestEveryKindOfEntryIsRead(t *testing.T) {
	f, err := read(head + `
[entry.10]
at = "2026-11-02T08:10:00+01:00"
kind = "fill plug opened"
plug = "fill"
[entry.9]
at = "2026-11-02 06:10"
kind = "noted"
text = "stands first: 9 is before 10"
[entry.20]
at = "2026-11-02 08:20:30"
kind = "refilled"
volume = "2 US qt"
temperature = "68 °F"
vessel = "jug-a"
thermometer = "probe-1"
old_share = "5 %"
[entry.30]
at = "2026-11-02 08:30"
kind = "spilled"
mass = "20 g"
scale = "parcel"
from = "stock"
[entry.40]
at = "2026-11-02 08:40"
kind = "window read"
temperature = "41 °C"
plus_minus = "2 °F"
engine_idling = "yes"
level = "no"
[entry.50]
at = "2026-11-02 08:50"
kind = "check plug observed"
flow = "trickle"
lasting = "1m30s"
[entry.60]
at = "2026-11-02 08:55"
kind = "plug torqued"
plug = "fill"
turns = "2.5"
[entry.70]
at = "2026-11-02 08:56"
kind = "struck"
entry = "3"
text = "typed twice"
[entry.80]
at = "2026-11-02 08:57"
kind = "kept"
volume = "250 mL"
temperature = "20 °C"
plus_minus = "50 mL"
`)
	if err != nil {
		t.Fatal(err)
	}
	got := f.Entries()
	want := []jobcard.Entry{
		jobcard.Note(time.Date(2026, 11, 2, 6, 10, 0, 0, time.UTC), "stands first: 9 is before 10"),
		jobcard.FillPlug(time.Date(2026, 11, 2, 8, 10, 0, 0, time.FixedZone("", 3600)), "fill"),
		{At: time.Date(2026, 11, 2, 8, 20, 30, 0, time.UTC), Kind: jobcard.Refilled, OldShare: 0.05,
			Amount: jobcard.Amount{Volume: units.USQuart.Of(2), Temperature: units.Fahrenheit(68), Vessel: "jug-a", Thermometer: "probe-1"}},
		{At: time.Date(2026, 11, 2, 8, 30, 0, 0, time.UTC), Kind: jobcard.Spilled, Origin: jobcard.FromStock, Amount: jobcard.Amount{Mass: units.Gram.Of(20), Scale: "parcel"}},
		{At: time.Date(2026, 11, 2, 8, 40, 0, 0, time.UTC), Kind: jobcard.WindowRead, Temperature: units.Celsius(41), PlusMinus: units.FahrenheitDegree.Of(2), EngineIdling: true},
		{At: time.Date(2026, 11, 2, 8, 50, 0, 0, time.UTC), Kind: jobcard.CheckPlugObserved, Flow: exchange.PlugTrickles, Lasting: jobcard.Duration(90 * time.Second)},
		{At: time.Date(2026, 11, 2, 8, 55, 0, 0, time.UTC), Kind: jobcard.PlugTorqued, Plug: "fill", Turns: 2.5},
		jobcard.Strike(time.Date(2026, 11, 2, 8, 56, 0, 0, time.UTC), 3, "typed twice"),
		jobcard.KeptBack(time.Date(2026, 11, 2, 8, 57, 0, 0, time.UTC), jobcard.Amount{Volume: units.Millilitre.Of(250), Temperature: units.Celsius(20), PlusMinus: units.Millilitre.Of(50)}),
	}
	if len(got) != len(want) {
		t.Fatalf("%d entries, want %d", len(got), len(want))
	}
	for i := range want {
		if !got[i].At.Equal(want[i].At) {
			t.Errorf("entry %d at %v, want %v", i+1, got[i].At, want[i].At)
		}
		got[i].At = want[i].At
		if got[i] != want[i] {
			t.Errorf("entry %d: %+v\nwant %+v", i+1, got[i], want[i])
		}
	}
}

func TestFaultsSayWhereWhatAndWhatToDo(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"no job", "format = 1\nprocedure = \"a\"\n", "job"},
		{"another format", strings.Replace(head, "1", "2", 1), "write format = 1"},
		{"unknown table", head + "[plann]\ntarget = \"50 %\"\n", "did you mean plan"},
		{"entries for entry", head + "[entries.10]\nkind = \"noted\"\n", "entries: an unknown table\n    did you mean entry?"},
		{"entries after entry", head + "[entry.1]\nat = \"2026-11-02 08:10\"\nkind = \"noted\"\ntext = \"a\"\n[entries.10]\nkind = \"noted\"\n", "did you mean entry?"},
		{"losses of film", head + "[losses]\nfilm_each = \"1 mL\"\n", "losses.film_each: an unknown key\n    did you mean film_each_time?"},
		{"a word for another", head + "[plan]\nmax_cycles = \"4\"\n", "plan.max_cycles: an unknown key\n    did you mean most_cycles?"},
		{"words run together", head + "[plan]\nonhand = \"4 L\"\n", "did you mean on_hand?"},
		{"a nested table", head + "[ask.warmup]\noffset = \"1 °C\"\n", "did you mean warm_up?"},
		{"a table in a nested one", head + "[ask.warm_up]\nplateau_low = \"80 °C\"\n[ask.warm_up.readings.1]\nafter = \"4m\"\n", "did you mean reading?"},
		{"a key of a nested table", head + "[ask.warm_up]\nplateau = \"80 °C\"\n", "did you mean plateau_low?"},
		{"a kind half written", head + "[entry.1]\nat = \"2026-11-02 08:10\"\nkind = \"drain\"\n", "did you mean drained?"},
		{"a kind cut short", head + "[entry.1]\nat = \"2026-11-02 08:10\"\nkind = \"plug opened\"\n", "did you mean fill plug opened?"},
		{"share over one", head + "[plan]\ntarget = \"140 %\"\n", "job.toml:5:10: plan.target"},
		{"share over one as it was written", head + "[plan]\ntarget = \"155 %\"\n", "\"155 %\" is no share; want 0 to 100 %"},
		{"share without a unit", head + "[plan]\ntarget = \"0.55\"\n", "\"0.55\" has no unit; want a share such as \"55 %\""},
		{"nothing without a unit", head + "[plan]\ntarget = \"0\"\n", "want a share such as \"55 %\""},
		{"a long share", head + "[plan]\ntarget = \"" + strings.Repeat("9", 60) + " %\"\n", "\"" + strings.Repeat("9", 40) + "\"… is not a share"},
		{"share with a sign", head + "[plan]\ntarget = \"-5 %\"\n", "write it like \"55 %\""},
		{"share that is two numbers", head + "[plan]\ntarget = \"1.2.3\"\n", "not a share"},
		{"a purpose that is none", head + "[plan]\npurpose = \"flush\"\n", "want refresh or change of class"},
		{"cycles with a unit", head + "[plan]\nmost_cycles = \"4 cycles\"\n", "plan.most_cycles"},
		{"negative stock", head + "[plan]\non_hand = \"-1 L\"\n", "is negative"},
		{"range upside down", head + "[box]\ncapacity = \"12..9 L\"\n", "box.capacity"},
		{"entry that is no number", head + "[entry.first]\nat = \"2026-11-02 08:10\"\nkind = \"noted\"\n", "entry.first"},
		{"no kind", head + "[entry.1]\nat = \"2026-11-02 08:10\"\n", "kind"},
		{"unknown kind", head + "[entry.1]\nat = \"2026-11-02 08:10\"\nkind = \"drain\"\n", "fill plug opened, drained"},
		{"no time", head + "[entry.1]\nkind = \"noted\"\ntext = \"x\"\n", "at"},
		{"a bare date", head + "[entry.1]\nat = 2026-11-02\nkind = \"noted\"\n", "entry.1.at"},
		{"a time that is none", head + "[entry.1]\nat = \"yesterday\"\nkind = \"noted\"\n", "not a time"},
		{"unknown origin", head + "[entry.1]\nat = \"2026-11-02 08:10\"\nkind = \"spilled\"\nfrom = \"sink\"\n", "box, refill or stock"},
		{"a duration that is none", head + "[entry.1]\nat = \"2026-11-02 08:10\"\nkind = \"check plug observed\"\nlasting = \"long\"\n", "not a length of time"},
		{"turns past sense", head + "[entry.1]\nat = \"2026-11-02 08:10\"\nkind = \"plug torqued\"\nturns = \"99\"\n", "not a number of turns"},
	} {
		if _, err := read(tt.text); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v; want %q", tt.name, err, tt.want)
		}
	}
}

func TestOpenRefusesWhatIsNoFile(t *testing.T) {
	fsys := fstest.MapFS{"folder/job.toml": {Data: []byte(head)}, "link.toml": {Data: []byte("job.toml"), Mode: fs.ModeSymlink}}
	for _, path := range []string{"folder", "none.toml", "../job.toml", "link.toml"} {
		if _, err := jobfile.Open(fsys, path); err == nil {
			t.Errorf("%s opened", path)
		}
	}
	if _, err := jobfile.Open(fsys, "none.toml"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("%v is no fs.ErrNotExist", err)
	}
}

// A reader that never ends must not be read to its end.
type endless struct{ read int }

func (e *endless) Read(p []byte) (int, error) {
	e.read += len(p)
	for i := range p {
		p[i] = '\n'
	}
	return len(p), nil
}

func TestAnEndlessFileIsRefusedAtTheCap(t *testing.T) {
	e := &endless{}
	if _, err := jobfile.Read("job.toml", e); err == nil || e.read > 1<<20 {
		t.Errorf("%v after %d bytes", err, e.read)
	}
}

func FuzzRead(f *testing.F) {
	f.Add(head)
	f.Add(head + "[entry.1]\nat = \"2026-11-02 08:10\"\nkind = \"drained\"\nvolume = \"2 L\"\ntemperature = \"15 °C\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		file, err := read(text)
		if err != nil {
			return
		}
		card, err := jobcard.Open(jobcard.Spec{Job: "fuzz", Capacity: units.Exactly(units.Litre.Of(10))})
		if err != nil {
			t.Fatal(err)
		}
		_ = file.Fill(card)
		if card.Len() > len(file.Entries()) {
			t.Fatal("more entries on the card than in the file")
		}
	})
}

func example() *jobfile.File {
	f, err := read(head + "[entry.1]\nat = \"2026-11-02 08:10\"\nkind = \"mixed\"\nruns = \"4\"\n")
	if err != nil {
		fmt.Println(err)
	}
	return f
}

func ExampleRead() {
	_, err := jobfile.Read("job.toml", strings.NewReader("format = 1\njob = \"a\"\nprocedure = \"tern-6\"\n[plan]\non_hand = \"3 qt\"\n"))
	fmt.Println(err)
	// Output:
	// job.toml:5:11: plan.on_hand: "3 qt": "qt" may be US or imperial: write US qt or imp qt; want a number with mL, L, in³, US fl oz, US pt, US qt, US gal, imp fl oz, imp pt, imp qt or imp gal
	//     write it like "2.12 L" or "2.2 US qt"
}

func ExampleOpen() {
	f, err := jobfile.Open(fstest.MapFS{"job.toml": {Data: []byte(head)}}, "job.toml")
	fmt.Println(f.Job, f.Procedure, err)
	// Output: 2026-118 tern-6 <nil>
}

func ExampleFile_Entries() {
	fmt.Println(example().Entries()[0].Summary())
	// Output: mixed, 4 runs through the gears
}

func ExampleFile_Fill() {
	card, _ := jobcard.Open(jobcard.Spec{Job: "a", Capacity: units.Exactly(units.Litre.Of(10))})
	fmt.Println(example().Fill(card), card.Len())
	// Output: <nil> 1
}

func ExampleFile_Fault() {
	f := example()
	f.Fault("procedure", "the pack has no tern-6", "name one of the pack's")
	fmt.Println(f.Err())
	// Output:
	// job.toml:3:13: procedure: the pack has no tern-6
	//     name one of the pack's
}

func ExampleFile_Err() {
	fmt.Println(example().Err())
	// Output: <nil>
}

func ExampleFile_Name() {
	fmt.Println(example().Name())
	// Output: job.toml
}
