package badinput

import (
	"encoding/json"
	"maps"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"
)

// numbers no caller means, and those at the edge of what a float can hold.
func numbers() []float64 {
	return []float64{
		math.NaN(), math.Inf(1), math.Inf(-1), math.Copysign(0, -1), 0, -1, -0.5,
		math.SmallestNonzeroFloat64, -math.SmallestNonzeroFloat64, 2.3e-308, 1e-300, 1e-18, 1e-9,
		1e9, 1e15, 1e18, 1e19, 1e300, math.MaxFloat64, -math.MaxFloat64, math.MaxInt64, 1 - 0x1p-53, 1 + 0x1p-52,
	}
}

// counts of a billion and worse.
func counts() []int64 {
	return []int64{0, -1, 1, 1_000_000_000, math.MaxInt32, math.MinInt32, math.MaxInt32 + 1, math.MaxInt64, math.MinInt64}
}

// bigger is how long the long texts are.
const bigger = 1 << 20

// spoil writes good, a text that is accepted, in every bad way there is, and adds
// those that are bad by themselves.
func spoil(good string) []string {
	number, unit, _ := strings.Cut(good, " ")
	texts := []string{
		"", " ", "\x00", "\ufeff", "\u200b",
		"1e1000000000 qt", "1e10000 L", "1e309 L", "1e-400 L", "1e309", "1e-400", "1e1000000000", "-1e1000000000 N·m", "0e1000000000 L",
		"9223372036854775808 L", "-9223372036854775808 mL", "179769313486231570814527423731704356798070 L", "NaN L", "Inf L", "-Inf", "nan", "0x1p9999 L",
		"2,5 qt", "\u22122.5 L", "2.5\u00a0L", "2.5\u2009L", "2.5\u202fL", "2.5\u3000L", "\u200f2.5 L", "\u202e2.5 L\u202c", "\u20662.5 L\u2069",
		"\uff12\uff0e\uff15 L", "\u0662\u066b\u0665 L", "2.5 \u216c", "2.5 \u13de", "2.5 \uff2c", "2.5 \u0269", "\u0421\u0430\u0440 1", "2\u20445 L", "2.5\u0301 L",
		"2.5 \xed\xa0\x80L", "\xff\xfe2.5 L", "2.5 L\xc3", "2.5\x00 L", "\ufeff2.5 L", "2.5\tL", "2.5\nL", "2.5\r\nL", "\x1b[2J2.5 L",
		"1 to 1000000000 qt", "0..1e9 L", "1e-18 L to 1e18 L", "1000000000 to 1 L", "-1 to -2 L", "1/0 L", "1/1000000000000000000000 L", "0/0 L", "1 1/0 L",
		"-2.5 L", "0 L", "-0 L", "-0", "0", "-1", "M1e9x1", "M0x0", "M-16x-1.5", "M16x1000000000",
		"{}", "[]", "null", "true", `"`, `\`, `"\ud800"`, "%s%n%!d(BADINDEX)", "$(echo)", "../../etc", "<script>", "a\nb: c", "'; --",
		good + good, good + "\x00", " " + good + " ", "-" + good, "+" + good, strings.ToUpper(good),
		strings.ReplaceAll(good, ".", ","), strings.ReplaceAll(good, " ", "\u00a0"), "\ufeff" + good, "\u202e" + good, good + "\u202c",
		number + "\u2009" + unit, strings.Repeat("9", 400) + " " + unit, "0." + strings.Repeat("0", 400) + "1 " + unit, number + " " + unit + unit,
	}
	for _, long := range []string{"7", " ", "q", "\xff", "\u202e", "[", "{", "-", "\"", "1 ", "\\u0041", "\n"} {
		texts = append(texts, strings.Repeat(long, bigger/len(long)))
	}
	return append(texts, strings.Repeat("7", bigger)+" "+unit, number+strings.Repeat(" ", bigger)+unit, good+strings.Repeat("q", bigger))
}

// pieces is some of spoil, from place to place others, for a place inside a larger
// document; of the megabytes, which the document's own cap meets first, one in
// every sixth place.
func pieces(good string, place int) []string {
	const one = 4
	var some []string
	for i, s := range spoil(good) {
		if long := len(s) >= bigger/2; long && (place%6 != 0 || i%one != 0) || !long && (i+place)%one != 0 {
			continue
		}
		some = append(some, s)
	}
	return some
}

// jsonOf spoils one place of a JSON document after the other: every value is
// replaced by every bad text, by bad numbers and by things of another kind.
func jsonOf(good []byte) [][]byte {
	var whole any
	if err := json.Unmarshal(good, &whole); err != nil {
		panic(err)
	}
	var documents [][]byte
	keep := func() {
		if text, err := json.Marshal(whole); err == nil {
			documents = append(documents, text)
		}
	}
	place := 0
	everyValue(whole, func(old any, set func(any)) {
		text, isText := old.(string)
		for _, raw := range []string{"null", "{}", "[]", "-1", "1e309", "1e-400", "1e9", "9223372036854775808", "-0", "0.1e-1000000000", `""`, "true"} {
			set(json.RawMessage(raw))
			keep()
		}
		if isText {
			place++
			for _, bad := range pieces(text, place) {
				set(bad)
				keep()
			}
		}
		set(old)
	})
	for cut := range 40 {
		documents = append(documents, good[:len(good)*cut/40])
	}
	return documents
}

// everyValue visits the values in a decoded JSON document.
func everyValue(v any, visit func(old any, set func(any))) {
	switch v := v.(type) {
	case map[string]any:
		for _, k := range slices.Sorted(maps.Keys(v)) {
			old := v[k]
			visit(old, func(x any) { v[k] = x })
			everyValue(old, visit)
		}
	case []any:
		for i, old := range v {
			visit(old, func(x any) { v[i] = x })
			everyValue(old, visit)
		}
	}
}

// sheetsOf spoils one quoted text of a TOML document after the other.
func sheetsOf(good string) []string {
	var documents []string
	parts := strings.Split(good, `"`)
	for i := 1; i < len(parts); i += 2 {
		old := parts[i]
		for _, bad := range pieces(old, i/2) {
			parts[i] = bad
			documents = append(documents, strings.Join(parts, `"`))
		}
		parts[i] = old
	}
	for _, swap := range [][2]string{{"=", "= 1e309 #"}, {"=", "= nan #"}, {"= ", "= 9223372036854775808 #"}, {"\n", "\r"}, {"\n", "\u2028"}, {"[", "[["}, {"\"", "\"\"\""}, {"1", "1000000000"}} {
		documents = append(documents, strings.ReplaceAll(good, swap[0], swap[1]), strings.Replace(good, swap[0], swap[1], 1))
	}
	for cut := range 40 {
		documents = append(documents, good[:len(good)*cut/40])
	}
	return documents
}

func durations() []time.Duration {
	return []time.Duration{0, -1, 1, math.MinInt64, math.MaxInt64, -time.Hour}
}

func moments() []time.Time {
	return []time.Time{{}, time.Unix(1<<62, 0), time.Unix(-1<<62, 0), time.Date(10000, 1, 1, 0, 0, 0, 0, time.UTC),
		time.Date(-1, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(2026, 1, 1, 0, 0, 0, 0, time.FixedZone("", 23*3600+1800+7))}
}

func decimals() []decimal.Decimal {
	return []decimal.Decimal{{}, decimal.New(-1, 0), decimal.New(1, 9), decimal.New(1, 10_000), decimal.New(1, -10_000), decimal.New(math.MaxInt64, 9),
		decimal.New(7, -19), decimal.New(1, math.MaxInt32), decimal.New(1, math.MinInt32), decimal.New(0, math.MinInt32)}
}
