package exchange

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

func TestCoverPublishedHeels(t *testing.T) {
	for _, row := range published.Load(t, "exchange_deadvolume").Rows() {
		sizes, heels := coverInts(t, row.List("sizes_ml")), coverInts(t, row.List("heel_ml"))
		o := Order{
			Need:   units.Millilitre.Of(row.Float("fill_ml") + row.Float("prime_ml")),
			OnHand: Stock{{Volume: units.Millilitre.Of(row.Float("stock_ml")), Count: 1}},
		}
		for i, price := range []int64{900, 3800} { // the prices of the pack rows
			o.Offers = append(o.Offers, Offer{Size: units.Millilitre.Of(float64(sizes[i])), Heel: units.Millilitre.Of(float64(heels[i])), Price: decimal.New(price, -2)})
		}
		p, err := Cover(o)
		if err != nil {
			t.Fatal(err)
		}
		if p.ToBuy != units.Millilitre.Of(row.Float("net_need_ml")) ||
			p.Cost.Cmp(decimal.New(int64(row.Int("cost")), -2)) != 0 ||
			p.Leftover != units.Millilitre.Of(row.Float("leftover_ml")) ||
			p.Containers != row.Int("packs") {
			t.Errorf("line %d: buy %s: %s, left over %s, %d packs", row.Line(), p.ToBuy, p.Cost, p.Leftover, p.Containers)
		}
		want := coverInts(t, row.List("counts"))
		if p.Counts[0] != int(want[0]) || p.Counts[1] != int(want[1]) {
			t.Errorf("line %d: %v, want %v", row.Line(), p.Counts, want)
		}
	}
}

// The two published examples of buying (USACO November 2008, "Buying Hay") and
// of the greedy trap (sizes 1, 3, 4; need 6: greedy takes three).
func TestCoverPublishedExamples(t *testing.T) {
	rows := published.Load(t, "exchange_vectors")
	hay := coverOrder(15, []int64{3, 5}, []int64{2, 3}, []int{0, 0}, units.Litre.Of(1))
	p, err := Cover(hay)
	if want := rows.Find("id", "buy-01").Float("published"); err != nil || coverPrices(t, p.Cost) != int64(want) {
		t.Errorf("hay: %s %v, want %g", p.Cost, err, want)
	}
	coins := coverOrder(11, []int64{1, 2, 5}, []int64{0, 0, 0}, []int{0, 0, 0}, units.Litre.Of(1))
	p, err = Cover(coins)
	if want := rows.Find("id", "buy-02a").Int("published"); err != nil || p.Containers != want || !p.Leftover.IsZero() {
		t.Errorf("fewest containers: %v %v, want %d", p.Counts, err, want)
	}
	p, err = Cover(coverOrder(0, []int64{1}, []int64{0}, []int{0}, units.Litre.Of(1)))
	if err != nil || p.Containers != rows.Find("id", "buy-02c").Int("published") {
		t.Errorf("need 0: %v %v", p.Counts, err)
	}
	p, err = Cover(coverOrder(6, []int64{1, 3, 4}, []int64{0, 0, 0}, []int{0, 0, 0}, units.Litre.Of(1)))
	if err != nil || p.Containers != rows.Find("id", "buy-03").Int("computed") {
		t.Errorf("greedy trap: %v %v", p.Counts, err)
	}
}

// At the limits, not past them.
func TestCoverLimits(t *testing.T) {
	tanker := Offer{Size: units.Litre.Of(30000), Price: decimal.New(1, 9)}
	if p, err := Cover(Order{Need: units.Litre.Of(30000), Offers: []Offer{tanker}}); err != nil || p.Containers != 1 {
		t.Errorf("%v %v", p.Counts, err)
	}
	many := Stock{{Volume: units.Millilitre.Of(1), Count: 1_000_000}}
	if v, err := many.Pourable(); err != nil || v != units.Litre.Of(1000) {
		t.Errorf("%s %v", v, err)
	}
	if _, err := (Stock{{Count: 1_000_001}}).Pourable(); err == nil || !strings.Contains(err.Error(), "count 1000001; want 0 to 1000000") {
		t.Error(err)
	}
	all := make([]Offer, 64)
	for i := range all {
		all[i] = Offer{Size: units.Litre.Of(float64(i + 1)), Price: decimal.New(int64(i+1), 0)}
	}
	if p, err := Cover(Order{Need: units.Litre.Of(64), Offers: all}); err != nil || p.Counts[63] != 1 {
		t.Errorf("%v %v", p.Counts, err)
	}
	// Stock that just suffices is poured whole, one drop more takes another.
	stock := Stock{{Volume: units.Litre.Of(1), Count: 5}}
	for _, c := range []struct {
		litres float64
		count  int
	}{{2, 2}, {2.00000000000001, 3}, {1.99999999999999, 2}} {
		p, err := Cover(Order{Need: units.Litre.Of(c.litres), OnHand: stock})
		if err != nil || p.FromStock[0].Count != c.count || p.StockUsed != p.Need {
			t.Errorf("%g L: %+v %v", c.litres, p.FromStock, err)
		}
	}
}

func TestCoverStockFirst(t *testing.T) {
	stock := Stock{
		{Name: "sealed", Volume: units.Litre.Of(1), Count: 4},
		{Name: "opened", Volume: units.Litre.Of(0.6), Heel: units.Litre.Of(0.05), Count: 1, Opened: true},
		{Name: "dregs", Volume: units.Litre.Of(0.02), Heel: units.Litre.Of(0.05), Count: 3},
	}
	p, err := Cover(Order{Need: units.Litre.Of(2), OnHand: stock})
	if err != nil {
		t.Fatal(err)
	}
	if len(p.FromStock) != 2 || p.FromStock[0].Held.Name != "opened" || p.FromStock[0].Volume != units.Litre.Of(0.55) ||
		p.FromStock[1].Count != 2 || p.FromStock[1].Volume != units.Litre.Of(1.45) {
		t.Errorf("poured %+v", p.FromStock)
	}
	if p.StockUsed != units.Litre.Of(2) || p.StockLeft != units.Litre.Of(2.55) || !p.ToBuy.IsZero() || p.Containers != 0 {
		t.Errorf("used %s, left %s, to buy %s", p.StockUsed, p.StockLeft, p.ToBuy)
	}
	p, err = Cover(Order{Need: units.Litre.Of(5), OnHand: stock, Offers: []Offer{{Size: units.Litre.Of(1)}}})
	if err != nil || p.StockUsed != units.Litre.Of(4.55) || p.ToBuy != units.Litre.Of(0.45) || p.Containers != 1 || p.Leftover != units.Litre.Of(0.55) {
		t.Errorf("used %s, to buy %s, %d, left over %s, %v", p.StockUsed, p.ToBuy, p.Containers, p.Leftover, err)
	}
}

// A pack on offer counts once: the very same offer twice does not double what
// can be had.
func TestCoverRepeatCountsOnce(t *testing.T) {
	o := Offer{Name: "last one", Size: units.Litre.Of(1), Price: decimal.New(5, 0), Most: 1}
	_, err := Cover(Order{Need: units.Litre.Of(2), Offers: []Offer{o, o}})
	if !errors.Is(err, ErrNotEnough) || !strings.Contains(err.Error(), "the offers pour 1 L") {
		t.Errorf("got %v", err)
	}
	other := o
	other.Name = "another shop's"
	p, err := Cover(Order{Need: units.Litre.Of(2), Offers: []Offer{o, o, other}})
	if err != nil || !slices.Equal(p.Counts, []int{1, 0, 1}) {
		t.Errorf("%v %v", p.Counts, err)
	}
}

func TestCoverRefuses(t *testing.T) {
	good := Offer{Name: "litre", Size: units.Litre.Of(1), Price: decimal.New(9, 0)}
	with := func(change func(*Offer)) Order {
		o := good
		change(&o)
		return Order{Need: units.Litre.Of(1), Offers: []Offer{good, o}}
	}
	long := strings.Repeat("é", 100)
	for _, c := range []struct {
		name  string
		order Order
		want  string
	}{
		{"negative need", Order{Need: units.Litre.Of(-1)}, "need is -1 L; want 0 to 30000 L"},
		{"need out of range", Order{Need: units.Litre.Of(1e9)}, "need is out of range; want 0 to"},
		{"need too large", Order{Need: units.Litre.Of(30001)}, "need is 30001 L; want 0 to"},
		{"no size", with(func(o *Offer) { o.Size = units.Volume{} }), "offer 2 (litre): size is 0 L; want above 0"},
		{"heel of all", with(func(o *Offer) { o.Heel = o.Size }), "heel 1 L leaves nothing of 1 L to pour"},
		{"negative heel", with(func(o *Offer) { o.Heel = units.Litre.Of(-1) }), "heel is -1 L"},
		{"negative price", with(func(o *Offer) { o.Price = decimal.New(-5, -1) }), "price -0.50 is negative; want 0 to"},
		{"price too fine", with(func(o *Offer) { o.Price = decimal.New(1, -10) }), "more than 9 decimals"},
		{"price too large", with(func(o *Offer) { o.Price = decimal.New(2, 9) }), "too large"},
		{"price huge", with(func(o *Offer) { o.Price = decimal.New(1, 10000) }), "too many digits"},
		{"price tiny", with(func(o *Offer) { o.Price = decimal.New(1, -10000) }), "too many digits"},
		{"negative most", with(func(o *Offer) { o.Most = -1 }), "most -1; want 0 (no limit) or more"},
		{"too many offers", Order{Offers: make([]Offer, 65)}, "65 offers; want at most 64"},
		{"long name", with(func(o *Offer) { o.Name, o.Most = long, -1 }), "offer 2 (" + strings.Repeat("é", 20) + "…): most"},
		{"negative count", Order{OnHand: Stock{{Count: -1}}}, "stock 1: count -1; want 0 to"},
		{"stock in all", Order{OnHand: Stock{{Volume: units.Litre.Of(20000), Count: 2}}}, "stock in all is 40000 L"},
		{"nothing on offer", Order{Need: units.Litre.Of(1)}, "not enough on offer"},
		{"a sea of drops", Order{Need: units.Litre.Of(1), Offers: []Offer{{Size: units.Litre.Of(1e-14)}}}, "want larger ones"},
		{"total past 18 digits", Order{Need: units.Litre.Of(9), Offers: []Offer{
			{Size: units.Litre.Of(1), Price: coverMoney("999999999.999999999"), Most: 1},
			{Size: units.Litre.Of(1), Price: coverMoney("999999999.999999998")},
		}}, "want prices with fewer digits"},
	} {
		_, err := Cover(c.order)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	// All faults at once.
	_, err := Cover(Order{Need: units.Litre.Of(-1), Offers: []Offer{{}}, OnHand: Stock{{Count: -1}}})
	for _, want := range []string{"need", "offer 1", "stock 1"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v lacks %q", err, want)
		}
	}
	if _, err := (Stock{{Count: -1}}).Pourable(); err == nil {
		t.Error("a negative count was accepted")
	}
}

// Trailing zeros and exponents do not change a price, and a refused purchase is
// bounded in time: random sizes in ticks with no two sums alike.
func TestCoverPricesAndBounds(t *testing.T) {
	offers := []Offer{{Size: units.Litre.Of(1), Price: coverMoney("9.500000000000000000")}, {Size: units.Litre.Of(5), Price: coverMoney("4e1")}}
	p, err := Cover(Order{Need: units.Litre.Of(6), Offers: offers})
	if err != nil || p.Cost.StringFixed(2) != "49.50" {
		t.Errorf("%s %v", p.Cost, err)
	}
	var odd []Offer
	for i := range 12 {
		odd = append(odd, Offer{Size: units.Litre.Of(0.1 + 0.0123456789*float64(i*i+1))})
	}
	if _, err := Cover(Order{Need: units.Litre.Of(3000), Offers: odd}); !errors.Is(err, ErrTooManyCombinations) {
		t.Errorf("got %v", err)
	}
	_, err = CoverBudget(Budget{Money: decimal.New(1, 0), Need: units.Litre.Of(3000), Offers: odd})
	if !errors.Is(err, ErrTooManyCombinations) {
		t.Errorf("got %v", err)
	}
}

func TestCoverWorking(t *testing.T) {
	p, err := Cover(Order{
		Need:   units.Litre.Of(6),
		Offers: []Offer{{Name: "5 L", Size: units.Litre.Of(5), Price: decimal.New(40, 0)}},
		OnHand: Stock{{Name: "opened", Volume: units.Litre.Of(1.5), Count: 1}},
	})
	if err != nil {
		t.Fatal(err)
	}
	const want = `from stock: 1 × opened = 1500.0 mL
to buy = need - from stock = 6000.0 mL - 1500.0 mL = 4500.0 mL
cost of 5 L = count × price = 1 × 40.00 = 40.00
fluid from 5 L = count × (size - heel) = 1 × (5000.0 mL - 0.0 mL) = 5000.0 mL
cost = sum of the lines = 40.00
left over = fluid bought - to buy = 5000.0 mL - 4500.0 mL = 500.0 mL
`
	if got := p.Steps.Text(); got != want {
		t.Errorf("got\n%s", got)
	}
}
