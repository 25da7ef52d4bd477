package sheet_test

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
)

// The traps of the TOML library that this package is built around, each pinned as it is in v1.6.0. A test that fails here
// after an upgrade is good news, mostly: read what the package does about that trap before dropping anything.
// Not pinned, because it ends the process: about 3 MB of nested "[" overflow the stack, which recover does not catch.

func decode(text string) (map[string]any, error) {
	var tree map[string]any
	_, err := toml.Decode(text, &tree)
	return tree, err
}

type words string

func (w *words) UnmarshalText(text []byte) error { *w = words(text); return nil }

func TestTrapFloatsLoseDigits(t *testing.T) {
	var got struct{ Bare, Quoted words }
	if _, err := toml.Decode("bare = 0.00000012\nquoted = \"0.00000012\"\n", &got); err != nil {
		t.Fatal(err)
	}
	if got.Bare != "0.000000" || got.Quoted != "0.00000012" {
		t.Errorf("bare %q, quoted %q", got.Bare, got.Quoted)
	}
}

// refuser makes the library give away the place of a value: it reports the place of whatever refuses to be decoded.
type refuser struct{}

var errRefused = errors.New("refused")

func (*refuser) UnmarshalTOML(any) error { return errRefused }

// libraryPlace gives the library's idea of where a value stands.
func libraryPlace(meta toml.MetaData, value toml.Primitive) (toml.Position, error) {
	err := meta.PrimitiveDecode(value, new(refuser))
	var parse toml.ParseError
	if !errors.As(err, &parse) {
		return toml.Position{}, fmt.Errorf("no ParseError but %w", err)
	}
	return parse.Position, nil
}

func placeOf(t *testing.T, text string, path ...string) toml.Position {
	t.Helper()
	var tree map[string]toml.Primitive
	meta, err := toml.Decode(text, &tree)
	for _, name := range path[:len(path)-1] {
		if err == nil {
			value := tree[name]
			tree = nil
			err = meta.PrimitiveDecode(value, &tree)
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	at, err := libraryPlace(meta, tree[path[len(path)-1]])
	if err != nil {
		t.Fatal(err)
	}
	return at
}

func TestTrapHeaderColumn(t *testing.T) {
	if at := placeOf(t, "x = 1\n[plug]\ny = 2\n", "plug"); at.Line != 2 || at.Start != 6 || at.Col == 1 {
		t.Errorf("header at line 2, column 1: %+v", at)
	}
}

func TestTrapByteOrderMarkShiftsOffsets(t *testing.T) {
	plain, marked := placeOf(t, "x = \"1\"\n", "x"), placeOf(t, "\ufeffx = \"1\"\n", "x")
	if plain.Start != marked.Start { // true offset is 3 more
		t.Errorf("without mark %+v, with mark %+v", plain, marked)
	}
}

func TestTrapInlineTablePointsAtKey(t *testing.T) {
	inline, plain := placeOf(t, "t = { v = \"1\" }\n", "t", "v"), placeOf(t, "v = \"1\"\n", "v")
	if inline.Start != len("t = { ") || plain.Start != len("v = \"") {
		t.Errorf("in braces %+v, plain %+v", inline, plain)
	}
}

func TestTrapArrayOfTablesPositions(t *testing.T) {
	text := "[[step]]\nsay = \"a\"\n[[step]]\nsay = \"b\"\n"
	var tree struct{ Step []map[string]toml.Primitive }
	meta, err := toml.Decode(text, &tree)
	if err != nil {
		t.Fatal(err)
	}
	first, err := libraryPlace(meta, tree.Step[0]["say"])
	if err != nil || first.Line != 4 { // truly 2
		t.Errorf("first step at %+v, %v", first, err)
	}
}

func TestTrapSilentMerge(t *testing.T) {
	tree, err := decode("t = { v = \"1\" }\nt.w = \"2\"\n")
	want := map[string]any{"t": map[string]any{"v": "1", "w": "2"}}
	if err != nil || !reflect.DeepEqual(tree, want) {
		t.Errorf("%v, %v", tree, err)
	}
}

// Of two refused values the library names one and stops; which one is chance,
// since it walks a map. Neither unwraps to the caller's own error.
func TestTrapOneErrorOnlyAndWrappedAway(t *testing.T) {
	var got struct{ A, B refuser }
	_, err := toml.Decode("a = 1\nb = 2\n", &got)
	if err == nil || errors.Is(err, errRefused) {
		t.Fatalf("%v", err)
	}
	if strings.Contains(err.Error(), "line 1") == strings.Contains(err.Error(), "line 2") {
		t.Errorf("%v; want one line named, not both or none", err)
	}
}

func TestTrapKeysMatchInAnyCase(t *testing.T) {
	var got struct{ Drain string }
	meta, err := toml.Decode("Drain = \"a\"\ndrain = \"b\"\n", &got)
	if err != nil || got.Drain == "" || len(meta.Undecoded()) != 0 { // which of the two wins is chance
		t.Errorf("%q, %v, undecoded %v", got.Drain, err, meta.Undecoded())
	}
}

func TestTrapTypeMismatchHasNoPlace(t *testing.T) {
	var got struct{ A string }
	_, err := toml.Decode("a = 1\n", &got)
	if err == nil || errors.As(err, new(toml.ParseError)) {
		t.Errorf("%v", err)
	}
}

func TestTrapErrorWithPositionPanics(t *testing.T) {
	_, err := decode("a = \"\\")
	var parse toml.ParseError
	if !errors.As(err, &parse) {
		t.Fatal(err)
	}
	defer func() {
		if recover() == nil {
			t.Error("it no longer panics")
		}
	}()
	_ = parse.ErrorWithPosition()
}

// What the library accepts and a sheet must not hold. Read with this package, each is refused: TestLaxities.
var laxities = map[string]string{
	"multi-line inline table":  "a = {\n  b = \"1\",\n}\n",
	"escape of TOML 1.1":       `a = "\e[0m \x41"`,
	"time without seconds":     "a = 09:30\n",
	"underflow":                "a = 1e-400\n",
	"not a number":             "a = nan\n",
	"offset of a day":          "a = 2024-03-01T09:30:00+24:00\n",
	"twins":                    "a = \"1\"\nA = \"2\"\n",
	"direction override":       "a = \"\u202e1\"\n",
	"zero width space":         "a = \"\u200b1\"\n",
	"byte-order mark":          "\ufeffa = \"1\"\n",
	"UTF-16 mark before UTF-8": "\xff\xfea = \"1\"\n",
	"silent merge":             "t = { v = \"1\" }\nt.w = \"2\"\n",
	"carriage return escaped":  `a = "x\ry"`,
	"nul escaped":              `a = "x\u0000y"`,
	"table inside first":       "[a.b]\n[a]\n",
}

func TestTrapLaxities(t *testing.T) {
	for name, text := range laxities {
		if _, err := decode(text); err != nil {
			t.Errorf("%s: now refused: %v", name, err)
		}
	}
	tree, err := decode("a = 1e-400\nb = nan\n")
	if b, ok := tree["b"].(float64); err != nil || tree["a"] != 0.0 || !ok || !math.IsNaN(b) {
		t.Errorf("%v, %v", tree, err)
	}
}

func TestLaxities(t *testing.T) {
	for name, text := range laxities {
		if err := parse(t, text).Err(); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

// TestTrapCostGrowsFasterThanSize: twice the dotted key takes more than three times the memory.
func TestTrapCostGrowsFasterThanSize(t *testing.T) {
	cost := func(n int) uint64 {
		text := strings.Repeat("a.", n) + "a = 1"
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		if _, err := decode(text); err != nil {
			t.Fatal(err)
		}
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc
	}
	if once, twice := cost(200), cost(400); twice < 3*once {
		t.Errorf("200 names %d bytes, 400 names %d bytes", once, twice)
	}
}
