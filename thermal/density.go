package thermal

import (
	"fmt"
	"math"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
)

// Density returns the fluid's density at t, in kg/m³: ρ15·Factor(t), or the
// table's own. It is an error for a fluid whose density is not known.
func (f Fluid) Density(t units.Temperature) (units.Density, error) {
	e, err := f.at(t)
	if err != nil {
		return 0, fmt.Errorf("thermal: density: %w", err)
	}
	if f.law == tabulated {
		rho, _ := f.table.density(t)
		return units.Density(rho), nil
	}
	if f.density15 == 0 {
		return 0, fmt.Errorf("thermal: density: not known for this fluid (%s); give it with WithDensity, or use Lubricant or Tabulated", f.lawName())
	}
	return units.Density(f.density15 * elementary.Exp(e.ln)), nil
}

// Mass returns the mass of the volume v at temperature t, rounded once to a
// tick. Errors as Density's, and a volume or a mass out of range.
func (f Fluid) Mass(v units.Volume, t units.Temperature) (units.Mass, error) {
	rho, err := f.Density(t)
	if err != nil {
		return units.Mass{}, fmt.Errorf("thermal: mass: %w", err)
	}
	if !v.Valid() {
		return units.Mass{}, fmt.Errorf("thermal: mass: volume %w; want a valid one", units.ErrOutOfRange)
	}
	// kg/m³ is g/L.
	m, err := units.Gram.TryOf(v.In(units.Litre) * float64(rho))
	if err != nil {
		return units.Mass{}, fmt.Errorf("thermal: mass: %w", err)
	}
	return m, nil
}

// Volume returns the volume the mass m takes up at temperature t, rounded once
// to a tick. Errors as Density's, and a mass or a volume out of range.
func (f Fluid) Volume(m units.Mass, t units.Temperature) (units.Volume, error) {
	rho, err := f.Density(t)
	if err != nil {
		return units.Volume{}, fmt.Errorf("thermal: volume: %w", err)
	}
	if !m.Valid() {
		return units.Volume{}, fmt.Errorf("thermal: volume: mass %w; want a valid one", units.ErrOutOfRange)
	}
	v, err := units.Litre.TryOf(m.In(units.Gram) / float64(rho))
	if err != nil {
		return units.Volume{}, fmt.Errorf("thermal: volume: %w", err)
	}
	return v, nil
}

// Density15 returns the density at 15 °C of an oil whose density was observed
// at another temperature, by the generalised lubricating-oil equation:
// ρ15 = observed/F(at, ρ15), solved to the last bits of a float64. It is for
// a density printed at, say, 20 °C, or weighed in a warm flask; no correction
// for the glass of a hydrometer is made. The temperature is -50 to 150 °C, the
// result 800.9 up to below 1163.5 kg/m³; outside, the error wraps [ErrOutsideLaw].
func Density15(observed units.Density, at units.Temperature) (units.Density, error) {
	if !plausible(float64(observed)) {
		return 0, fmt.Errorf("thermal: density at 15 °C: observed %s; want 500 to 2000 kg/m³", observed)
	}
	trial := Fluid{law: lubricant, density15: float64(observed)}
	if err := trial.check(at); err != nil {
		return 0, fmt.Errorf("thermal: density at 15 °C: %w", err)
	}
	rho := float64(observed)
	// Each step shrinks the error at least sixfold: |d ln F/d ln ρ| is below 0.16.
	for range 40 {
		trial.perKelvin = lubricantK1 / rho
		e, err := trial.at(at)
		if err != nil {
			return 0, fmt.Errorf("thermal: density at 15 °C: %w", err)
		}
		next := float64(observed) / elementary.Exp(e.ln)
		moved := math.Abs(next - rho)
		rho = next
		if moved <= 1e-15*rho {
			break
		}
	}
	if !(rho >= lubricantLeast && rho < lubricantMost) {
		return 0, fmt.Errorf("thermal: density at 15 °C: %s observed at %s gives %s: %w; want 800.9 kg/m³ to below 1163.5 kg/m³", observed, at, units.Density(rho), ErrOutsideLaw)
	}
	return units.Density(rho), nil
}
