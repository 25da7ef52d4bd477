package refdata

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/internal/sheet"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

func (r *reader) fluid(root *sheet.Table) FluidClass {
	f := FluidClass{ID: root.Need("id").String(), Title: root.Need("title").String()}
	t := root.Sub("fluid")
	f.Density15, _ = take(r, t, "density_15", "pack-density", `write it like "850 kg/m³"`, units.ParseDensity)
	f.Expansion, _ = take(r, t, "expansion", "pack-expansion", `write it like "0.00076 /K"`, parseExpansion)
	currency := root.Sub("price").String("currency")
	f.Currency = currency.String()
	for _, o := range root.Sub("pack").Subs() {
		f.Offers = append(f.Offers, r.offer(o))
	}
	f.Figures = r.figures
	return f
}

func (r *reader) offer(t *sheet.Table) exchange.Offer {
	o := exchange.Offer{Name: t.Need("title").String()}
	o.Size, _ = take(r, t, "size", "pack-volume", volumeForm, positiveVolume)
	o.Price, _ = take(r, t, "price", "pack-price", `write it like "9.40"`, parsePrice)
	o.Most, _ = t.String("most").Count(1, 1_000_000)
	return o
}

func (r *reader) shop(root *sheet.Table) Shop {
	s := Shop{ID: root.Need("id").String(), Title: root.Need("title").String()}
	for _, t := range root.Sub("vessel").Subs() {
		s.Vessels = append(s.Vessels, r.vessel(t))
	}
	for _, t := range root.Sub("thermometer").Subs() {
		th := Thermometer{ID: t.Name(), Title: t.String("title").String()}
		th.PlusMinus, _ = take(r, t, "plus_minus", "pack-temperature", `write it like "1 °C"`, units.ParseTemperatureDelta)
		th.Step, _ = take(r, t, "step", "pack-temperature", `write it like "0.1 °C"`, units.ParseTemperatureDelta)
		s.Thermometers = append(s.Thermometers, th)
	}
	for _, t := range root.Sub("scale").Subs() {
		w := WeighingScale{ID: t.Name(), Title: t.String("title").String()}
		w.PlusMinus, _ = take(r, t, "plus_minus", "pack-mass", `write it like "5 g"`, units.ParseMass)
		w.Step, _ = take(r, t, "step", "pack-mass", `write it like "1 g"`, units.ParseMass)
		s.Scales = append(s.Scales, w)
	}
	for _, t := range root.Sub("tool").Subs() {
		s.Tools = append(s.Tools, r.tool(t))
	}
	s.Figures = r.figures
	return s
}

func (r *reader) vessel(t *sheet.Table) thermal.Vessel {
	v := thermal.Vessel{ID: t.Name(), Title: t.String("title").String()}
	v.Material, _ = take(r, t, "material", "pack-material", `write it like "polypropylene"`, thermal.ParseMaterial)
	v.Graduation, _ = take(r, t, "graduation", "pack-volume", volumeForm, positiveVolume)
	v.ScaleError, _ = take(r, t, "scale_error", "pack-share", `write it like "1 %"`, parsePercent)
	v.Capacity, _ = take(r, t, "capacity", "pack-volume", volumeForm, positiveVolume)
	if t.Whole() {
		if err := v.Check(); err != nil {
			t.Fault("pack-vessel", oneLine(err), "check the vessel's figures")
		}
	}
	return v
}

func (r *reader) tool(t *sheet.Table) sealing.Tool {
	w := sealing.Tool{ID: t.Name()}
	w.Low, _ = take(r, t, "low", "pack-torque", torqueForm, positiveTorque)
	w.High, _ = take(r, t, "high", "pack-torque", torqueForm, positiveTorque)
	w.Tolerance, _ = take(r, t, "tolerance", "pack-share", `write it like "4 %"`, parsePercent)
	if t.Whole() {
		if err := w.Check(); err != nil {
			t.Fault("pack-tool", oneLine(err), "check the tool's range")
		}
	}
	return w
}

func parsePrice(s string) (decimal.Decimal, error) {
	whole, cents, _ := strings.Cut(s, ".")
	if whole == "" || len(whole) > 9 || len(cents) > 4 || strings.Trim(whole+cents, "0123456789") != "" {
		return decimal.Decimal{}, fmt.Errorf("not a price; want a plain number with at most four decimals")
	}
	return decimal.NewFromString(s)
}
