package refdata

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

func (r *reader) fluid(root *view) FluidClass {
	f := FluidClass{ID: root.need("id").String(), Title: root.need("title").String()}
	t := root.sub("fluid")
	f.Density15, _ = take(r, t, "density_15", "pack-density", densityForm, positiveDensity)
	f.Expansion, _ = take(r, t, "expansion", "pack-expansion", `write it like "0.00076 /K"`, parseExpansion)
	f.Table = r.densities(root.sub("density"))
	if f.Density15 != 0 && f.Expansion != 0 || f.Density15 != 0 && f.Table != nil || f.Expansion != 0 && f.Table != nil {
		t.warn("pack-two-laws", "more than one of density_15, expansion and a table of densities is stated", "keep the one the sheet trusts most; the others are not used")
	}
	prices := root.sub("price")
	f.Currency = prices.need("currency").String()
	packs := root.sub("pack").subs()
	f.Offers = room[exchange.Offer](len(packs))
	for _, o := range packs {
		f.Offers = append(f.Offers, r.offer(o))
	}
	if len(f.Offers) > 0 && !prices.present() {
		root.sub("pack").fault("pack-no-currency", "prices stand here, and nothing says in what", `write [price] with currency = "…" in this file`)
	}
	for _, v := range root.list("notes") {
		f.Notes = append(f.Notes, v.String())
	}
	f.Figures = slices.Clone(r.figures)
	return f
}

// densities reads a table of densities, [density.cold] and so on.
func (r *reader) densities(v *view) []thermal.DensityPoint {
	before := r.misses
	var points []thermal.DensityPoint
	rows := v.subs()
	points = room[thermal.DensityPoint](len(rows))
	for _, t := range rows {
		at, okAt := mustTake(r, t, "at", "pack-temperature", temperatureForm, units.ParseTemperature)
		density, ok := mustTake(r, t, "density", "pack-density", densityForm, positiveDensity)
		if ok && okAt {
			points = append(points, thermal.DensityPoint{At: at, Density: density})
		}
	}
	if len(points) == 0 || r.misses > before {
		return nil
	}
	if _, err := thermal.Tabulated(points); err != nil {
		v.fault("pack-densities", oneLine(err), "look at the table of the sheet again")
		return nil
	}
	return points
}

func (r *reader) offer(t *view) exchange.Offer {
	o := exchange.Offer{Name: t.need("title").String()}
	o.Size, _ = mustTake(r, t, "size", "pack-volume", volumeForm, positiveVolume)
	o.Price, _ = mustTake(r, t, "price", "pack-price", `write it like "9.40"`, parsePrice)
	o.Most, _ = r.value(t, "most").Count(1, 1_000_000)
	return o
}

func (r *reader) shop(root *view) Shop {
	s := Shop{ID: root.need("id").String(), Title: root.need("title").String()}
	vessels := root.sub("vessel").subs()
	s.Vessels = room[thermal.Vessel](len(vessels))
	for _, t := range vessels {
		s.Vessels = append(s.Vessels, r.vessel(t))
	}
	for _, t := range root.sub("thermometer").subs() {
		th := Thermometer{ID: t.name(), Title: t.str("title").String()}
		th.PlusMinus, _ = mustTake(r, t, "plus_minus", "pack-temperature", `write it like "1 °C"`, positiveDelta)
		th.Step, _ = mustTake(r, t, "step", "pack-temperature", `write it like "0.1 °C"`, positiveDelta)
		s.Thermometers = append(s.Thermometers, th)
	}
	for _, t := range root.sub("scale").subs() {
		w := WeighingScale{ID: t.name(), Title: t.str("title").String()}
		w.PlusMinus, _ = mustTake(r, t, "plus_minus", "pack-mass", `write it like "5 g"`, positiveMass)
		w.Step, _ = mustTake(r, t, "step", "pack-mass", `write it like "1 g"`, positiveMass)
		s.Scales = append(s.Scales, w)
	}
	for _, t := range root.sub("tool").subs() {
		s.Tools = append(s.Tools, r.tool(t))
	}
	s.Figures = slices.Clone(r.figures)
	return s
}

func (r *reader) vessel(t *view) thermal.Vessel {
	before := r.misses
	v := thermal.Vessel{ID: t.name(), Title: t.str("title").String()}
	v.Material, _ = mustTake(r, t, "material", "pack-material", `write it like "polypropylene"`, thermal.ParseMaterial)
	v.Graduation, _ = mustTake(r, t, "graduation", "pack-volume", volumeForm, positiveVolume)
	v.ScaleError, _ = mustTake(r, t, "scale_error", "pack-share", `write it like "1 %"`, parsePercent)
	v.Capacity, _ = mustTake(r, t, "capacity", "pack-volume", volumeForm, positiveVolume)
	if r.misses == before {
		if err := v.Check(); err != nil {
			t.fault("pack-vessel", oneLine(err), "check the vessel's figures")
		}
	}
	return v
}

func (r *reader) tool(t *view) sealing.Tool {
	before := r.misses
	w := sealing.Tool{ID: t.name()}
	w.Low, _ = mustTake(r, t, "low", "pack-torque", torqueForm, positiveTorque)
	w.High, _ = mustTake(r, t, "high", "pack-torque", torqueForm, positiveTorque)
	w.Tolerance, _ = take(r, t, "tolerance", "pack-share", `write it like "4 %"`, parsePercent)
	if r.misses == before {
		if err := w.Check(); err != nil {
			t.fault("pack-tool", oneLine(err), "check the tool's range")
		}
	}
	return w
}

func parsePrice(s string) (decimal.Decimal, error) {
	whole, cents, _ := strings.Cut(s, ".")
	if whole == "" || len(whole) > 9 || len(cents) > 4 || strings.Trim(whole+cents, "0123456789") != "" {
		return decimal.Decimal{}, fmt.Errorf("not a price; want a plain number with at most four decimals")
	}
	n, err := strconv.ParseInt(whole+cents, 10, 64)
	if err != nil { // cannot be: at most 13 digits
		return decimal.Decimal{}, err
	}
	return decimal.New(n, -int32(len(cents))), nil // NewFromString obeys a variable that a host may set
}
