package exchange

import (
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

func (p *Purchase) steps() working.Steps {
	var s working.Builder
	for _, l := range p.FromStock {
		s.Add("from stock: "+strconv.Itoa(l.Count)+" × "+l.Held.Name, "", "", coverText(l.Volume))
	}
	if len(p.FromStock) > 0 {
		s.Add("to buy", "need - from stock", coverText(p.Need)+" - "+coverText(p.StockUsed), coverText(p.ToBuy))
	}
	for _, l := range p.Lines {
		count := strconv.Itoa(l.Count)
		s.Add("cost of "+l.Offer.Name, "count × price", count+" × "+l.Offer.Price.StringFixed(2), l.Cost.StringFixed(2))
		s.Add("fluid from "+l.Offer.Name, "count × (size - heel)",
			count+" × ("+coverText(l.Offer.Size)+" - "+coverText(l.Offer.Heel)+")",
			coverText(l.Offer.pourable().Scale(float64(l.Count))))
	}
	s.Add("cost", "sum of the lines", "", p.Cost.StringFixed(2))
	s.Add("left over", "fluid bought - to buy", coverText(p.Volume)+" - "+coverText(p.ToBuy), coverText(p.Leftover))
	return s.Steps()
}

// coverText shows millilitres: containers differ by less than a litre shows.
func coverText(v units.Volume) string { return v.Text(units.Millilitre, 1) }
