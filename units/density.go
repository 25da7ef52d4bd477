package units

import (
	"fmt"
	"math"
)

// Density is in kilograms per cubic metre. It is a bare float64 because
// densities come out of models, not off a jug; the zero value is no density.
type Density float64

// PoundsPerUSGallon converts a density in lb/US gal. The factor is exact:
// 0.45359237 kg over 3.785411784 L.
func PoundsPerUSGallon(x float64) Density { return Density(x * 453.59237 / 3.785411784) }

// KilogramsPerLitre converts a density in kg/L.
func KilogramsPerLitre(x float64) Density { return Density(x * 1000) }

// KilogramsPerCubicMetre returns the density in kg/m³.
func (d Density) KilogramsPerCubicMetre() float64 { return float64(d) }

// PoundsPerUSGallon returns the density in lb/US gal.
func (d Density) PoundsPerUSGallon() float64 { return float64(d) * 3.785411784 / 453.59237 }

// Valid reports whether d is finite and above zero.
func (d Density) Valid() bool {
	return d > 0 && float64(d) <= math.MaxFloat64
}

// String returns the density to 0.1 kg/m³, the step petroleum tables print.
func (d Density) String() string {
	if !d.Valid() {
		return outOfRangeText
	}
	return fmt.Sprintf("%.1f kg/m³", float64(d))
}
