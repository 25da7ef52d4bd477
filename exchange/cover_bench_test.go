package exchange

import (
	"math/rand/v2"
	"testing"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// coverShop offers every container of the table of usual sizes, dearer by
// volume the smaller it is.
func coverShop(tb testing.TB, perLitre func(litres float64) float64) []Offer {
	tb.Helper()
	var offers []Offer
	for _, row := range published.Load(tb, "containers").Rows() {
		l := row.Float("exact_L")
		offers = append(offers, Offer{
			Name: row.Text("name"), Size: units.Litre.Of(l),
			Price: decimal.New(int64(100*l*perLitre(l)), -2),
		})
	}
	return offers
}

func BenchmarkCover(b *testing.B) {
	discount := coverShop(b, func(l float64) float64 { return 7 + 3/(1+l/4) })
	free := coverShop(b, func(float64) float64 { return 0 })
	sold := free[:9] // the tenth is the imperial quart, a size not on sale
	near := coverShop(b, func(l float64) float64 { return 9 })
	r := rand.New(rand.NewPCG(5, 6))
	var odd, steep []Offer
	for range 10 {
		ml := 500 + r.Int64N(30_000)
		odd = append(odd, Offer{Size: units.Millilitre.Of(float64(ml)), Price: decimal.New(ml*9/10+r.Int64N(ml/10), -2)})
		steep = append(steep, Offer{Size: units.Millilitre.Of(float64(ml)), Price: decimal.New(ml/2+r.Int64N(ml), -2)})
	}
	for _, c := range []struct {
		name   string
		need   units.Volume
		offers []Offer
	}{
		{"12 L, containers", units.Litre.Of(12), discount},
		{"1000 L, containers", units.Litre.Of(1000), discount},
		{"1000 L, same price a litre", units.Litre.Of(1000), near},
		{"1000 L, no prices, sizes on sale", units.Litre.Of(1000), sold},
		{"1000 L, no prices, three systems of measure", units.Litre.Of(1000), free},
		{"1000 L, odd sizes, prices within 11 %", units.Litre.Of(1000), odd},
		{"1000 L, odd sizes, prices within 3 times", units.Litre.Of(1000), steep},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Cover(Order{Need: c.need, Offers: c.offers}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// The work of a large order is bounded by what is left out, not by time: count
// the labels made.
func TestCoverLabelsOfLargeOrder(t *testing.T) {
	items, _ := coverItems(coverShop(t, func(l float64) float64 { return 7 + 3/(1+l/4) }))
	useful := coverUseful(items)
	need := coverTicks(units.Litre.Of(1000))
	most, err := coverGreedy(need, useful)
	if err != nil {
		t.Fatal(err)
	}
	var s coverSearch
	s.begin(useful[0])
	s.need, s.limit = need, most
	parts := coverParts(need, useful)
	if !s.find(parts, len(items)) {
		t.Fatal("nothing found")
	}
	wide := coverMostLabels - s.left
	s.limit, s.left = s.leastCost(need)+(most-s.leastCost(need))>>5, coverMostLabels
	s.find(parts, len(items))
	if narrow := coverMostLabels - s.left; narrow > 4000 || wide > 20000 || narrow >= wide {
		t.Errorf("%d labels near the bound, %d up to the greedy cost", narrow, wide)
	}
}
