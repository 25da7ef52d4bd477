package exchange_test

import (
	"fmt"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

// Eleven quarts: two five-quart jugs hold ten, and one quart more is cheaper
// than a third jug.
func ExampleCover() {
	p, err := exchange.Cover(exchange.Order{
		Need: units.USQuart.Of(11),
		Offers: []exchange.Offer{
			{Name: "quart", Size: units.USQuart.Of(1), Price: decimal.New(900, -2)},
			{Name: "jug", Size: units.USQuart.Of(5), Price: decimal.New(3800, -2)},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range p.Lines {
		fmt.Println(l.Count, l.Offer.Name, l.Cost.StringFixed(2))
	}
	fmt.Println(p.Cost.StringFixed(2), "left over", p.Leftover.Text(units.USQuart, 1))
	// Output:
	// 1 quart 9.00
	// 2 jug 76.00
	// 85.00 left over 0.0 US qt
}

// 0.9 L can be poured out of a bottle that holds 1 L and keeps 0.1 L; three of
// those and an opened half litre that keeps as much give 3.1 L.
func ExampleStock_Pourable() {
	shelf := exchange.Stock{
		{Name: "bottle", Volume: units.Litre.Of(1), Heel: units.Litre.Of(0.1), Count: 3},
		{Name: "opened bottle", Volume: units.Litre.Of(0.5), Heel: units.Litre.Of(0.1), Count: 1, Opened: true},
	}
	v, err := shelf.Pourable()
	fmt.Println(v, err)
	// Output: 3.1 L <nil>
}

// Twenty buys two litres at 9.50; the 5 L can costs 40.
func ExampleCoverBudget() {
	p, err := exchange.CoverBudget(exchange.Budget{
		Money: decimal.New(20, 0),
		Need:  units.Litre.Of(5),
		Offers: []exchange.Offer{
			{Name: "litre", Size: units.Litre.Of(1), Price: decimal.New(950, -2)},
			{Name: "can", Size: units.Litre.Of(5), Price: decimal.New(40, 0)},
		},
	})
	fmt.Println(p.Volume, p.Cost.StringFixed(2), "short by", p.Short, err)
	// Output: 2 L 19.00 short by 3 L <nil>
}
