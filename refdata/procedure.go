package refdata

import (
	"slices"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// Procedure is what the sheet says of one gearbox. Zero values: not stated.
type Procedure struct {
	Outline

	Revision string
	Plugs    []sealing.Plug
	Washers  []sealing.Washer
	Cautions []string // ids of cautions to show besides the usual ones
	Notes    []string
	Figures  []Figure // every figure with its source, in the order of the file
}

// FluidClass is a class of fluid as the sheets name it; never a brand.
type FluidClass struct {
	ID        string
	Title     string
	Density15 units.Density          // at 15 °C; zero: not known
	Expansion float64                // cubic, per kelvin; zero: not stated
	Table     []thermal.DensityPoint // densities at temperatures
	Offers    []exchange.Offer       // containers on sale, prices in Currency
	Currency  string
	Notes     []string
	Figures   []Figure
}

// Thermometer is an instrument of the shop.
type Thermometer struct {
	ID, Title       string
	PlusMinus, Step units.TemperatureDelta
}

// WeighingScale is an instrument of the shop.
type WeighingScale struct {
	ID, Title       string
	PlusMinus, Step units.Mass
}

// Shop is what the workshop owns.
type Shop struct {
	ID, Title    string
	Vessels      []thermal.Vessel
	Thermometers []Thermometer
	Scales       []WeighingScale
	Tools        []sealing.Tool
	Figures      []Figure
}

func (p Procedure) clone() Procedure {
	p.Plugs, p.Washers = slices.Clone(p.Plugs), slices.Clone(p.Washers)
	p.Cautions, p.Notes, p.Figures = slices.Clone(p.Cautions), slices.Clone(p.Notes), cloneFigures(p.Figures)
	return p
}

func (f FluidClass) clone() FluidClass {
	f.Notes = slices.Clone(f.Notes)
	f.Table, f.Offers, f.Figures = slices.Clone(f.Table), slices.Clone(f.Offers), cloneFigures(f.Figures)
	return f
}

func (s Shop) clone() Shop {
	s.Vessels, s.Thermometers = slices.Clone(s.Vessels), slices.Clone(s.Thermometers)
	s.Scales, s.Tools, s.Figures = slices.Clone(s.Scales), slices.Clone(s.Tools), cloneFigures(s.Figures)
	return s
}
