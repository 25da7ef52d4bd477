package scientific

import (
	"errors"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// basket is an order in whole millilitres and cents.
type basket struct {
	Need   int64   `json:"need"`
	Sizes  []int64 `json:"sizes"`
	Prices []int64 `json:"prices"`
	Most   []int   `json:"most"`
}

func randomBasket(r *rand.Rand) basket {
	b := basket{Need: 100 + r.Int64N(30000)}
	for range 1 + r.IntN(6) {
		b.Sizes = append(b.Sizes, 250+r.Int64N(5000))
		b.Prices = append(b.Prices, 100+r.Int64N(6000))
		b.Most = append(b.Most, []int{0, 0, 1 + r.IntN(6)}[r.IntN(3)])
	}
	if r.IntN(2) == 0 { // what so many containers hold, to the millilitre, or one more
		b.Need = int64(r.IntN(2))
		for _, size := range b.Sizes {
			b.Need += size * r.Int64N(5)
		}
	}
	return b
}

func (b basket) order() exchange.Order {
	o := exchange.Order{Need: units.Millilitre.Of(float64(b.Need))}
	for i, size := range b.Sizes {
		o.Offers = append(o.Offers, exchange.Offer{
			Size: units.Millilitre.Of(float64(size)), Price: decimal.New(b.Prices[i], -2), Most: b.Most[i],
		})
	}
	return o
}

// The least cost, then least volume, then fewest containers against scipy's
// integer programming, to the cent, the millilitre and the piece.
func TestCoverAgainstMilp(t *testing.T) {
	const cases = 300
	r := rand.New(rand.NewPCG(41, 42))
	all := make([]basket, cases)
	for i := range all {
		all[i] = randomBasket(r)
	}
	met, short := 0, 0
	for i, want := range ask[[][]int64](t, "milp", map[string]any{"cases": all}) {
		got, err := exchange.Cover(all[i].order())
		if want == nil {
			short++
			if !errors.Is(err, exchange.ErrNotEnough) {
				t.Errorf("%+v: ours %v, %v; theirs cannot be covered", all[i], got.Cost, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%+v: %v; theirs %v", all[i], err, want)
			continue
		}
		met++
		if cents := decimal.New(want[0], -2); got.Cost.Cmp(cents) != 0 {
			t.Errorf("%+v: cost %s; theirs %s", all[i], got.Cost, cents)
		}
		if got.Volume != units.Millilitre.Of(float64(want[1])) || int64(got.Containers) != want[2] {
			t.Errorf("%+v: %s in %d; theirs %d mL in %d", all[i], got.Volume, got.Containers, want[1], want[2])
		}
	}
	if met < cases/2 || short == 0 {
		t.Errorf("%d covered, %d not: want both kinds", met, short)
	}
	t.Logf("%d orders covered alike, %d cannot be, by both", met, short)
}

// The most fluid for a sum of money, against integer programming.
func TestBudgetAgainstMilp(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 28))
	all := make([]basket, 200)
	for i := range all {
		all[i] = randomBasket(r)
		all[i].Need = 500 + r.Int64N(20000) // cents
	}
	answers := ask[[][3]int64](t, "budget", map[string]any{"cases": all})
	for i, want := range answers {
		money := decimal.New(all[i].Need, -2)
		got, err := exchange.CoverBudget(exchange.Budget{Money: money, Offers: all[i].order().Offers})
		if err != nil {
			t.Errorf("%+v: %v", all[i], err)
			continue
		}
		if got.Volume != units.Millilitre.Of(float64(want[0])) || got.Cost.Cmp(decimal.New(want[1], -2)) != 0 || int64(got.Containers) != want[2] {
			t.Errorf("%+v: %s for %s in %d; theirs %v", all[i], got.Volume, got.Cost, got.Containers, want)
		}
	}
	t.Logf("%d budgets spent alike", len(answers))
}
