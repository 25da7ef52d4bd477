package decimals

import (
	"math/big"
	"math/rand/v2"
	"testing"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

func randomPrice(r *rand.Rand) decimal.Decimal {
	return decimal.New(r.Int64N(1_000_000), -int32(r.IntN(10)))
}

// Sums of a purchase: money and fluid to the last digit.
func TestPurchasesAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 40))
	volume := volumes()
	for range 1500 {
		o := exchange.Order{Need: units.Millilitre.Of(float64(r.IntN(40000)))}
		for range 1 + r.IntN(5) {
			u := volume.all[r.IntN(len(volume.all))].of
			size := u.Of(float64(1+r.IntN(400)) / 4)
			if size.Compare(units.Millilitre.Of(100)) < 0 {
				size = units.Millilitre.Of(473)
			}
			o.Offers = append(o.Offers, exchange.Offer{Size: size, Price: randomPrice(r), Heel: size.Scale(0.01 * float64(r.IntN(5)))})
		}
		got, err := exchange.Cover(o)
		if err != nil {
			t.Fatalf("%+v: %v", o, err)
		}
		cost, fluid := new(big.Rat), new(big.Int)
		for i, n := range got.Counts {
			count := big.NewInt(int64(n))
			cost.Add(cost, new(big.Rat).Mul(new(big.Rat).SetInt(count), money(o.Offers[i].Price)))
			pourable := new(big.Int).Sub(volume.ticks(t, o.Offers[i].Size), volume.ticks(t, o.Offers[i].Heel))
			fluid.Add(fluid, pourable.Mul(pourable, count))
		}
		if money(got.Cost).Cmp(cost) != 0 {
			t.Errorf("%v: cost %s; want %s", got.Counts, got.Cost, cost.FloatString(9))
		}
		if volume.ticks(t, got.Volume).Cmp(fluid) != 0 {
			t.Errorf("%v: volume %s; want %s ticks", got.Counts, got.Volume, fluid)
		}
		left := new(big.Int).Sub(fluid, volume.ticks(t, o.Need))
		if left.Sign() < 0 || volume.ticks(t, got.Leftover).Cmp(left) != 0 {
			t.Errorf("%v: leftover %s; want %s ticks", got.Counts, got.Leftover, left)
		}
	}
}

// The cost of a plan's row is price times litres, exactly.
func TestPlanCostsExactly(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 60))
	volume := volumes()
	for range 400 {
		u := []units.Unit[units.VolumeDim]{units.Litre, units.USQuart, units.ImperialQuart, units.USFluidOunce}[r.IntN(4)]
		low := u.Of(float64(8+r.IntN(40)) / 4)
		capacity := units.Exactly(low.Scale(3 + 3*r.Float64()))
		price := randomPrice(r)
		p, err := exchange.Plan(exchange.Request{Capacity: capacity, Drain: units.Exactly(low), Target: 0.5, MostCycles: 5, PricePerLitre: price})
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range p.Rows {
			litres := new(big.Rat).Mul(new(big.Rat).SetInt(volume.ticks(t, row.Fluid.High())), volume.tick)
			if want := litres.Mul(litres, money(price)); money(row.Cost).Cmp(want) != 0 {
				t.Errorf("%s at %s: ours %s, want %s", row.Fluid.High(), price, row.Cost, want.FloatString(25))
			}
		}
	}
}
