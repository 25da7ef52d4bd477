package badinput

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/refdata"
	"example.com/meniscus/refdata/jobfile"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// TestEveryPlaceInAJSONDocument spoils each value of what the library writes, one
// at a time, and reads it back.
func TestEveryPlaceInAJSONDocument(t *testing.T) {
	if raceDetector {
		t.Skip("nothing runs at the same time here, and it takes a minute")
	}
	b, j := newBook(t), newJudge(t)
	j.documents = true
	for _, c := range []struct {
		name string
		good any
		read any
	}{
		{"jobcard.Decode", b.card(), jobcard.Decode},
		{"Reading.UnmarshalJSON", first[measure.Reading](b), func(data []byte) error { return new(measure.Reading).UnmarshalJSON(data) }},
		{"Measured.UnmarshalJSON", first[measure.Volume](b), func(data []byte) error { return new(measure.Volume).UnmarshalJSON(data) }},
		{"Temperature.UnmarshalJSON", first[measure.Temperature](b), func(data []byte) error { return new(measure.Temperature).UnmarshalJSON(data) }},
		{"Cause.UnmarshalJSON", first[*measure.Cause](b), func(data []byte) error { return new(measure.Cause).UnmarshalJSON(data) }},
	} {
		good := must(json.Marshal(c.good))
		f := reflect.ValueOf(c.read)
		if !j.call(c.name, f, []reflect.Value{reflect.ValueOf(good)}) {
			t.Errorf("%s: its own writing is refused", c.name)
		}
		refused, before := 0, j.calls
		for _, bad := range jsonOf(good) {
			if !j.call(c.name, f, []reflect.Value{reflect.ValueOf(bad)}) {
				refused++
			}
		}
		t.Logf("%s: %d of %d documents refused", c.name, refused, j.calls-before)
	}
}

func first[T any](b *book) T { return b.good[reflect.TypeFor[T]()][0].(T) }

// TestEveryPlaceInASheet spoils each quoted text of a job file and of the files of
// the built-in pack, one at a time.
func TestEveryPlaceInASheet(t *testing.T) {
	j := newJudge(t)
	j.documents = true
	job := func(text string) error {
		_, err := jobfile.Read("job.toml", strings.NewReader(text))
		return err
	}
	over := func(file, text string) error {
		_, err := refdata.LoadLayers(refdata.BuiltInLayer(), refdata.Layer{FS: fstest.MapFS{file: {Data: []byte(text)}}})
		return err
	}
	alone := func(text string) error {
		_, err := refdata.Load(fstest.MapFS{"a.toml": {Data: []byte(text)}}, ".")
		return err
	}
	if raceDetector {
		t.Skip("nothing runs at the same time here, and it takes a minute")
	}
	documents := 0
	try := func(name string, f any, args ...string) {
		documents++
		var in []reflect.Value
		for _, a := range args {
			in = append(in, reflect.ValueOf(a))
		}
		j.call(name, reflect.ValueOf(f), in)
	}
	for _, bad := range sheetsOf(sheet) {
		try("jobfile.Read", job, bad)
	}
	layer := refdata.BuiltInLayer()
	for _, file := range []string{"fluid-s2.toml", "shop.toml", "tern-6.toml", "tern-6-coach.toml"} {
		good := string(must(fs.ReadFile(layer.FS, layer.Dir+"/"+file)))
		for i, bad := range sheetsOf(good) {
			try("refdata.Load", alone, bad)
			if i%16 == 0 {
				try("refdata.LoadLayers", over, file, bad)
			}
		}
	}
	if documents < 5_000 {
		t.Errorf("%d documents", documents)
	}
	t.Logf("%d documents", documents)
}

// BenchmarkRefusals shows what the costliest of the catalogue's texts costs the
// parsers that see it first.
func BenchmarkRefusals(b *testing.B) {
	long := strings.Repeat("7", bigger) + " L"
	for name, f := range map[string]func() error{ // the order does not matter: each is measured by itself
		"volume":   func() error { _, err := units.ParseVolume(long); return err },
		"exponent": func() error { _, err := units.ParseVolume("1e1000000000 L"); return err },
		"range":    func() error { _, err := units.ParseRange[units.VolumeDim](long); return err },
		"card":     func() error { _, err := jobcard.Decode([]byte(long)); return err },
		"job file": func() error { _, err := jobfile.Read("job.toml", strings.NewReader(long)); return err },
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if f() == nil {
					b.Fatal("accepted")
				}
			}
		})
	}
}

// TestTheCatalogueIsWhole: what the list of hostile things must have in it.
func TestTheCatalogueIsWhole(t *testing.T) {
	all := strings.Join(spoil("2.5 L"), "\n")
	for _, want := range []string{"1e1000000000", "1e10000 L", "1e309", "1e-400", "2,5", "\u2212", "\u00a0", "\u2009", "\u200f", "\u202e", "\uff12", "\xed\xa0\x80", "\x00", "\ufeff",
		strings.Repeat("7", bigger), strings.Repeat(" ", bigger), strings.Repeat("q", bigger), "1 to 1000000000 qt"} {
		if !strings.Contains(all, want) {
			t.Errorf("no text with %q", clip(fmt.Sprintf("%q", want), 60))
		}
	}
}
