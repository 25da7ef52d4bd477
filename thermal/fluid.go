package thermal

import (
	"errors"
	"fmt"
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// ErrOutsideLaw is wrapped by every refusal to use a law outside the range it
// is known to hold in.
var ErrOutsideLaw = errors.New("outside the range of the law")

// The generalised lubricating-oil equation:
//
//	F(t) = exp[-α·Δt·(1 + 0.8·α·Δt)],  α = K1/ρ15,  Δt = t - 15 °C
//
// Source: ASTM D1250 / API MPMS Ch. 11.1, metric form of 1980; constants and
// limits seen second-hand. It is not claimed to reproduce a printed table for
// lubricating oils: no printed row was seen. It agrees within 6.1e-6 with the
// 2004 form (see [CTL2004]) over 820 to 890 kg/m³ and 0 to 110 °C, and within
// 8.8e-6 over the whole of its range (computed).
const (
	lubricantK1          = 0.6278 // kg/m³ per K; published metric constant, seen second-hand
	lubricantCurvature   = 0.8    // dimensionless; seen second-hand
	lubricantLeast       = 800.9  // kg/m³, included; limit of the lubricating group, seen second-hand
	lubricantMost        = 1163.5 // kg/m³, excluded; same
	lubricantLow         = -50.0  // °C, included; seen second-hand
	lubricantHigh        = 150.0  // °C, included; seen second-hand
	lubricantCoefficient = 0.06   // relative standard uncertainty of α; our judgement: oils scatter -6 % to +2 % about the equation
)

// One coefficient: F(t) = exp(-c·Δt).
const (
	unknownPerKelvin    = 7.6e-4 // /K; the equation above near 830 kg/m³, computed; handbooks give 7.0e-4 (seen)
	unknownCoefficient  = 0.12   // relative standard uncertainty; our judgement, for an unknown synthetic
	exponentialLow      = -20.0  // °C; our judgement: beyond, one coefficient is off by more than its doubt
	exponentialHigh     = 120.0  // °C; same
	exponentialMost     = 2e-3   // /K; our judgement: twice the largest coefficient of an oil seen, 9.5e-4
	mostRelativeDoubt   = 0.5    // our judgement: a coefficient known no better is not known
	densityDoubt        = 0.005  // relative standard uncertainty of a density off a data sheet; our judgement
	tabulatedDoubt      = 0.03   // relative standard uncertainty of a table's expansion; our judgement
	referenceCelsius    = 15.0   // °C; reference of the metric petroleum tables, seen second-hand
	vesselReferenceTemp = 20.0   // °C; reference of volumetric ware, ISO 4787, from memory
)

// ReferenceTemperature returns 15 °C, at which volumes of fluid are compared.
func ReferenceTemperature() units.Temperature { return units.Celsius(referenceCelsius) }

type law uint8

const (
	noLaw law = iota
	lubricant
	exponential
	tabulated
)

// Fluid is what is known of how a fluid expands. It is an immutable value;
// copies are the same fluid. The zero value has no law, and every use of it is
// an error.
type Fluid struct {
	law       law
	id        string
	density15 float64 // kg/m³; 0: not known
	perKelvin float64 // coefficient at 15 °C
	doubt     Doubt
	table     *table

	expansionCause, densityCause *measure.Cause
}

// Doubt is how well a fluid's figures are known: relative standard
// uncertainties, 0.06 for 6 %. Zero means known exactly.
type Doubt struct {
	Expansion float64 // of the coefficient of expansion
	Density   float64 // of the density at 15 °C
}

// Lubricant returns a fluid that follows the generalised lubricating-oil
// equation. The density is the one at 15 °C, 800.9 kg/m³ up to but not
// including 1163.5 kg/m³; the law holds from -50 to 150 °C. The coefficient's
// standard uncertainty is taken as 6 %, the density's as 0.5 % (our judgement;
// see [Fluid.WithDoubt]). Have the density at another temperature? [Density15].
//
// Source: ASTM D1250 / API MPMS Ch. 11.1, metric form of 1980, seen second-hand.
func Lubricant(density15 units.Density) (Fluid, error) {
	rho := float64(density15)
	if !(rho >= lubricantLeast && rho < lubricantMost) {
		return Fluid{}, fmt.Errorf("thermal: lubricant: density %s at 15 °C: %w; want 800.9 kg/m³ to below 1163.5 kg/m³, or a coefficient (Exponential) or a table (Tabulated)", density15, ErrOutsideLaw)
	}
	return Fluid{
		law: lubricant, density15: rho, perKelvin: lubricantK1 / rho,
		doubt: Doubt{Expansion: lubricantCoefficient, Density: densityDoubt},
	}.Named("lubricant-" + short(rho))
}

// UnknownDensity returns a fluid of which nothing is known but that it is an
// oil: V = V15·exp(7.6e-4/K · Δt), from -20 to 120 °C, the coefficient's
// standard uncertainty 12 % (our judgement). It stays within 4.2e-4 of the full
// equation for 850 kg/m³ between 0 and 70 °C (computed). It has no density, so
// it converts volumes but never a mass.
func UnknownDensity() Fluid {
	f, _ := Fluid{ // the name is a good one, so Named cannot fail
		law: exponential, perKelvin: unknownPerKelvin,
		doubt: Doubt{Expansion: unknownCoefficient, Density: densityDoubt},
	}.Named("unknown-density")
	return f
}

// Exponential returns a fluid with one coefficient of cubic expansion:
// V = V15·exp(c·Δt), from -20 to 120 °C. perKelvin is above 0 and at most
// 2e-3 (per kelvin, not per °F); relativeU is its relative standard
// uncertainty, 0 to 0.5. It has no density until [Fluid.WithDensity] gives one.
func Exponential(perKelvin, relativeU float64) (Fluid, error) {
	var faults []error
	if !(perKelvin > 0 && perKelvin <= exponentialMost) {
		faults = append(faults, fmt.Errorf("thermal: exponential: coefficient %v per kelvin; want above 0, at most 0.002", perKelvin))
	}
	if !isDoubt(relativeU) {
		faults = append(faults, fmt.Errorf("thermal: exponential: relative uncertainty %v; want 0 to 0.5", relativeU))
	}
	if faults != nil {
		return Fluid{}, errors.Join(faults...)
	}
	return Fluid{
		law: exponential, perKelvin: perKelvin,
		doubt: Doubt{Expansion: relativeU, Density: densityDoubt},
	}.Named("exponential-" + short(perKelvin))
}

// WithDensity returns the fluid with its density at 15 °C given, for a law that
// does not know one. It is refused for a fluid that has a density already, and
// for a density outside 500 to 2000 kg/m³.
func (f Fluid) WithDensity(density15 units.Density) (Fluid, error) {
	switch {
	case f.law == noLaw:
		return f, errNoLaw("with density")
	case f.law != exponential || f.density15 != 0:
		return f, fmt.Errorf("thermal: with density: the fluid has one already; make a new fluid instead")
	case !plausible(float64(density15)):
		return f, fmt.Errorf("thermal: with density: %s; want 500 to 2000 kg/m³", density15)
	}
	f.density15 = float64(density15)
	return f, nil
}

// WithDoubt returns the fluid with other uncertainties than the law's own
// judgement. Each is 0 to 0.5.
func (f Fluid) WithDoubt(d Doubt) (Fluid, error) {
	if f.law == noLaw {
		return f, errNoLaw("with doubt")
	}
	if !isDoubt(d.Expansion) || !isDoubt(d.Density) {
		return f, fmt.Errorf("thermal: with doubt: expansion %v, density %v; want relative standard uncertainties, 0 to 0.5", d.Expansion, d.Density)
	}
	f.doubt = d
	return f, nil
}

// Doubt returns the relative standard uncertainties of the fluid's figures.
func (f Fluid) Doubt() Doubt { return f.doubt }

// Limits returns the coldest and the warmest temperature the law holds at, both
// included. For a fluid without a law both are absolute zero.
func (f Fluid) Limits() (low, high units.Temperature) {
	switch f.law {
	case lubricant:
		return units.Celsius(lubricantLow), units.Celsius(lubricantHigh)
	case exponential:
		return units.Celsius(exponentialLow), units.Celsius(exponentialHigh)
	case tabulated:
		return f.table.limits()
	}
	return units.Temperature{}, units.Temperature{}
}

// Describe returns one line for a report: the law, its figures, its range and
// its doubt.
func (f Fluid) Describe() string {
	if f.law == noLaw {
		return f.lawName()
	}
	low, high := f.Limits()
	return fmt.Sprintf("%s, %s to %s, coefficient ±%s %% (standard uncertainty)",
		f.describeLaw(), low, high, percent(f.doubt.Expansion))
}

func (f Fluid) describeLaw() string {
	s := f.lawName()
	if f.law != tabulated && f.density15 != 0 {
		s += fmt.Sprintf(", %s kg/m³ at 15 °C", short(f.density15))
	}
	return s
}

func (f Fluid) lawName() string {
	switch f.law {
	case lubricant:
		return "generalised lubricating-oil equation"
	case exponential:
		return fmt.Sprintf("one coefficient, %s per kelvin", short(f.perKelvin))
	case tabulated:
		return fmt.Sprintf("table of %d densities", len(f.table.points))
	}
	return "no law of expansion"
}

// plausible keeps a density in lb/US gal or kg/L from passing as kg/m³.
func plausible(rho float64) bool { return rho >= 500 && rho <= 2000 }

func isDoubt(u float64) bool { return u >= 0 && u <= mostRelativeDoubt }

func errNoLaw(where string) error {
	return fmt.Errorf("thermal: %s: the fluid has no law of expansion (zero Fluid); want one from Lubricant, UnknownDensity, Exponential or Tabulated", where)
}

// percent prints a share such as 0.06 as "6".
func percent(share float64) string { return strconv.FormatFloat(share*100, 'g', 4, 64) }

// short prints a figure as it was given.
func short(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// plain prints a figure as it was given, without a power of ten.
func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
