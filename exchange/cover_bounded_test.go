package exchange

import (
	"errors"
	"strconv"
	"testing"

	"example.com/meniscus/internal/allocated"
	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// coverBytes is what one purchase may allocate in all, found or refused.
const coverBytes = 32 << 20

// coverAwkward are purchases made up to take long.
func coverAwkward(t *testing.T) map[string]func() error {
	l := units.Litre.Of
	sixtyFour, free := make([]Offer, coverMostOffers), make([]Offer, coverMostOffers)
	for i := range sixtyFour {
		n := int64(i + 1)
		free[i] = Offer{Size: l(3.7).Scale(float64(n))}
		sixtyFour[i] = Offer{Size: free[i].Size, Price: decimal.New(n*1_000_000_007+n*n%7, -9)}
	}
	var odd, six []Offer
	for i := range 12 {
		odd = append(odd, Offer{Size: l(0.1 + 0.0123456789*float64(i*i+1))})
	}
	for i := range 6 {
		size := l(0.9 + 0.123456789*float64(i*i+1))
		six = append(six, Offer{Size: size, Price: decimal.New(int64(i*i*i+7*i+30)*int64(size.In(units.Litre)*1000), -5)})
	}
	exact := coverShop(t, func(float64) float64 { return 0 })
	for i := range exact {
		exact[i].Price = decimal.New(int64(exact[i].Size.In(units.Litre)*9e9), -9)
	}
	nothing := coverShop(t, func(float64) float64 { return 0 })
	cases := map[string]func() error{}
	add := func(name string, need, money float64, offers []Offer) {
		cases[name+", "+strconv.FormatFloat(need, 'f', -1, 64)+" L"] = func() error {
			_, err := Cover(Order{Need: l(need), Offers: offers})
			return err
		}
		for _, need := range []float64{need, 0} {
			cases[name+", "+strconv.FormatFloat(need, 'f', -1, 64)+" L for money"] = func() error {
				_, err := CoverBudget(Budget{Need: l(need), Money: decimal.NewFromFloat(money), Offers: offers})
				return err
			}
		}
	}
	add("64 sizes", 30_000, 5000, sixtyFour)
	add("64 sizes free", 30_000, 1, free)
	add("12 odd sizes free", 3000, 1, odd)
	add("6 odd sizes", 30_000, 15_000, six)
	add("three systems free", 5000, 1, nothing)
	add("three systems, one price a litre, small", 1000, 8000, exact)
	add("three systems, one price a litre", 5000, 40_000, exact)
	add("three systems, one price a litre, large", 30_000, 240_000, exact)
	return cases
}

// Whatever is asked, the work is bounded: found or refused within so many bytes.
func TestCoverBytesAreBounded(t *testing.T) {
	for name, f := range coverAwkward(t) {
		var err error
		took := allocated.Bytes(func() { err = f() })
		if took > coverBytes {
			t.Errorf("%s: %d bytes, %v; want at most %d", name, took, err, coverBytes)
		}
	}
}

// Sizes of three systems of measure, as a workshop may find them on sale, are
// decided up to 2000 L: with prices, without, and all at one price a litre.
func TestCoverDecidesPracticalOrders(t *testing.T) {
	l := units.Litre.Of
	shops := map[string][]Offer{
		"no prices":     coverShop(t, func(float64) float64 { return 0 }),
		"near one rate": coverShop(t, func(float64) float64 { return 9 }),
		"cheaper large": coverShop(t, func(l float64) float64 { return 7 + 3/(1+l/4) }),
	}
	exact := coverShop(t, func(float64) float64 { return 0 })
	for i := range exact {
		exact[i].Price = decimal.New(int64(exact[i].Size.In(units.Litre)*9e9), -9)
	}
	shops["one rate"] = exact
	for name, offers := range shops {
		for _, need := range []float64{0.3, 5.7, 11, 100, 500, 999.9, 1000, 2000} {
			var order, short, all error
			took := allocated.Bytes(func() {
				_, order = Cover(Order{Need: l(need), Offers: offers})
				_, short = CoverBudget(Budget{Need: l(need), Money: decimal.NewFromFloat(8 * need), Offers: offers})
				if name != "no prices" {
					_, all = CoverBudget(Budget{Money: decimal.NewFromFloat(8 * need), Offers: offers})
				}
			})
			if err := errors.Join(order, short, all); err != nil || took > 8<<20 {
				t.Errorf("%s, %g L: %d bytes, %v", name, need, took, err)
			}
		}
	}
}

// All searches of one purchase share one allowance.
func TestCoverSharesItsAllowance(t *testing.T) {
	exact := coverShop(t, func(float64) float64 { return 9 })
	items, _ := coverItems(exact)
	var s coverSearch
	if _, err := s.solve(coverTicks(units.Litre.Of(500)), items, len(items)); err != nil {
		t.Fatal(err)
	}
	left, steps := s.left, s.steps
	if left >= coverMostLabels || steps >= coverMostPairs {
		t.Errorf("%d labels and %d steps left after a search", left, steps)
	}
	if _, err := s.solve(coverTicks(units.Litre.Of(500)), items, len(items)); err != nil || s.left != 2*left-coverMostLabels || s.steps != 2*steps-coverMostPairs {
		t.Errorf("%d labels and %d steps left after the same again, %v; want %d, %d", s.left, s.steps, err, 2*left-coverMostLabels, 2*steps-coverMostPairs)
	}
}
