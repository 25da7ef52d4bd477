package decimals

import (
	"encoding/json"
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

func TestQuantities(t *testing.T) {
	t.Run("volume", func(t *testing.T) { quantities(t, volumes()) })
	t.Run("torque", func(t *testing.T) { quantities(t, torques()) })
	t.Run("length", func(t *testing.T) { quantities(t, lengths()) })
	t.Run("mass", func(t *testing.T) { quantities(t, masses()) })
	t.Run("step", func(t *testing.T) { quantities(t, steps()) })
	t.Run("distance", func(t *testing.T) { quantities(t, distances()) })
}

const cases = 4000

func quantities[D units.Dimension](t *testing.T, d dimension[D]) {
	r := rand.New(rand.NewPCG(63, 14))
	for range cases {
		u := d.all[r.IntN(len(d.all))]
		parsed(t, r, d, u)
		made(t, r, d, u)
		q := random(r, d)
		printed(t, r, d, u, q)
		reckoned(t, r, d, q)
		encoded(t, q)
	}
	t.Logf("%d of each kind, all exact", cases)
}

// written is a text for a number and the number itself.
func written(r *rand.Rand) (string, *big.Rat) {
	digits := func(most int) string {
		n := 1 + r.IntN(most)
		s := ""
		for range n {
			s += strconv.Itoa(r.IntN(10))
		}
		return s
	}
	must := func(s string) *big.Rat {
		s = "0" + s
		for len(s) > 1 && s[0] == '0' && s[1] >= '0' && s[1] <= '9' {
			s = s[1:] // or it would be octal
		}
		x, ok := new(big.Rat).SetString(s)
		if !ok {
			panic(s)
		}
		return x
	}
	switch r.IntN(7) {
	case 0:
		s := digits(18)
		return s, must(s)
	case 1:
		s := digits(6) + "." + digits(18)
		return s, must(s)
	case 2:
		s := "." + digits(18)
		return s, must("0" + s)
	case 3:
		s := fmt.Sprintf("%s.%se%d", digits(3), digits(9), r.IntN(37)-18)
		return s, must(s)
	case 4:
		num, den := digits(5), strconv.Itoa(1+r.IntN(999))
		return num + "/" + den, must(num + "/" + den)
	case 5:
		whole, den := digits(3), 2+r.IntN(98)
		part := fmt.Sprintf("%d/%d", 1+r.IntN(den-1), den)
		x := must(whole)
		return whole + " " + part, x.Add(x, must(part))
	}
	vulgar := [][2]string{{"½", "1/2"}, {"¼", "1/4"}, {"¾", "3/4"}, {"⅓", "1/3"}, {"⅔", "2/3"}, {"⅛", "1/8"}, {"⅜", "3/8"}, {"⅝", "5/8"}, {"⅞", "7/8"}}
	v, whole := vulgar[r.IntN(len(vulgar))], digits(3)
	x := must(whole)
	return whole + v[0], x.Add(x, must(v[1]))
}

// parsed holds the reader of numbers against a rational number rounded once.
func parsed[D units.Dimension](t *testing.T, r *rand.Rand, d dimension[D], u unit[D]) {
	t.Helper()
	text, x := written(r)
	if r.IntN(3) == 0 {
		text = []string{"-", "\u2212"}[r.IntN(2)] + text
		x.Neg(x)
	}
	want := d.limited(x.Mul(x, u.per))
	q, err := units.ParseExplicit[D](text + " " + u.of.String())
	if (err == nil) != (want != nil) || !same(d.ticks(t, q), want) && err == nil {
		t.Errorf("%s %s: ours %s, %v; want %v ticks", text, u.of, q, err, want)
	}
}

// made holds Of against the shortest decimal of a float, rounded once.
func made[D units.Dimension](t *testing.T, r *rand.Rand, d dimension[D], u unit[D]) {
	t.Helper()
	x := math.Float64frombits(r.Uint64())
	switch r.IntN(3) {
	case 0:
		x = math.Round(r.Float64()*1e7) / math.Pow10(r.IntN(12))
	case 1:
		x = math.Ldexp(r.Float64()-0.5, r.IntN(70)-45)
	}
	if math.IsNaN(x) || math.IsInf(x, 0) {
		if u.of.Of(x).Valid() {
			t.Errorf("%v %s is valid", x, u.of)
		}
		return
	}
	exact := number(t, strconv.FormatFloat(x, 'e', -1, 64))
	if want := d.limited(exact.Mul(exact, u.per)); !same(d.ticks(t, u.of.Of(x)), want) {
		t.Errorf("%v %s: ours %s; want %v ticks", x, u.of, u.of.Of(x), want)
	}
}

// printed holds Text and Decimal against the exact amount rounded once.
func printed[D units.Dimension](t *testing.T, r *rand.Rand, d dimension[D], u unit[D], q units.Quantity[D]) {
	t.Helper()
	places, how := r.IntN(16), units.Rounding(r.IntN(6))
	if r.IntN(3) == 0 { // next to a tie, or on it
		tie := u.of.Of((float64(r.IntN(1000)) + 0.5) / math.Pow10(places%6))
		if tie.Valid() {
			q, places = tie, places%6
		}
	}
	step := new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
	amount := new(big.Rat).SetInt(d.ticks(t, q))
	amount.Quo(amount.Mul(amount, d.tick), u.per)
	text, name, _ := strings.Cut(q.Text(u.of, places), " ")
	if want := round(amount, step, units.HalfEven).FloatString(places); text != unsigned(want) || name != u.of.String() {
		t.Errorf("%s in %s with %d places: ours %s %s, want %s", q, u.of, places, text, name, want)
	}
	got, err := q.Decimal(u.of, places, how)
	if want := round(amount, step, how); err != nil || money(got).Cmp(want) != 0 {
		t.Errorf("%s in %s with %d places, %s: ours %s, %v; want %s", q, u.of, places, how, got, err, want.FloatString(places))
	}
}

// unsigned drops the sign of a zero.
func unsigned(s string) string {
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

// reckoned holds sums, means, scaling, ratios and comparison.
func reckoned[D units.Dimension](t *testing.T, r *rand.Rand, d dimension[D], q units.Quantity[D]) {
	t.Helper()
	p := random(r, d)
	a, b := d.ticks(t, q), d.ticks(t, p)
	hold := func(what string, got units.Quantity[D], want *big.Rat) {
		t.Helper()
		if limit := d.limited(want.Mul(want, d.tick)); !same(d.ticks(t, got), limit) {
			t.Errorf("%s of %s and %s: ours %s, want %v ticks", what, q, p, got, limit)
		}
	}
	sum := new(big.Int).Add(a, b)
	hold("sum", q.Add(p), new(big.Rat).SetInt(sum))
	hold("Sum", units.Sum(q, p), new(big.Rat).SetInt(sum))
	hold("difference", q.Sub(p), new(big.Rat).SetInt(new(big.Int).Sub(a, b)))
	mean, err := units.Mean(q, p, p)
	if err != nil {
		t.Error(err)
	}
	hold("mean", mean, new(big.Rat).SetFrac(new(big.Int).Add(sum, b), big.NewInt(3)))
	f := math.Round(r.NormFloat64()*1e6) / math.Pow10(r.IntN(9))
	factor := number(t, strconv.FormatFloat(f, 'f', -1, 64))
	hold(fmt.Sprint("product with ", f), q.Scale(f), factor.Mul(factor, new(big.Rat).SetInt(a)))
	if b.Sign() != 0 {
		want, _ := new(big.Rat).SetFrac(a, b).Float64()
		if got := q.Ratio(p); got != want {
			t.Errorf("%s over %s: ours %v, want %v", q, p, got, want)
		}
	}
	if q.Compare(p) != a.Cmp(b) || q.Sign() != a.Sign() {
		t.Errorf("%s beside %s: compares %d, sign %d", q, p, q.Compare(p), q.Sign())
	}
}

func encoded[D units.Dimension](t *testing.T, q units.Quantity[D]) {
	t.Helper()
	text, err := json.Marshal(q)
	var back units.Quantity[D]
	if err == nil {
		err = json.Unmarshal(text, &back)
	}
	if err != nil || back != q {
		t.Errorf("%s through JSON %s: %s, %v", q, text, back, err)
	}
}
