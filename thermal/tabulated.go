package thermal

import (
	"errors"
	"fmt"
	"math"
	"sort"
	"strconv"

	"example.com/meniscus/internal/elementary"
	"example.com/meniscus/units"
)

// DensityPoint is one row of a maker's density table.
type DensityPoint struct {
	At      units.Temperature `json:"at"`
	Density units.Density     `json:"density"`
}

const mostPoints = 1000

// Tabulated returns a fluid that follows a table of densities: at least two
// rows, at most 1000, temperatures rising, densities falling and within 500 to
// 2000 kg/m³. Between rows the density runs straight (for oils the density
// bends less with temperature than its logarithm); beyond the ends the law does
// not hold. A [Fluid.Factor] to 15 °C needs 15 °C inside the table. The
// standard uncertainty of the expansion is taken as 3 %, of the density as
// 0.5 % (our judgement; see [Fluid.WithDoubt]). The first ten faults are told, and how
// many more there are.
func Tabulated(points []DensityPoint) (Fluid, error) {
	if len(points) < 2 || len(points) > mostPoints {
		return Fluid{}, fmt.Errorf("thermal: density table: %d rows; want 2 to %d", len(points), mostPoints)
	}
	if err := checkPoints(points); err != nil {
		return Fluid{}, err
	}
	t := newTable(points)
	f := Fluid{law: tabulated, table: t, doubt: Doubt{Expansion: tabulatedDoubt, Density: densityDoubt}}
	if f.check(ReferenceTemperature()) == nil {
		f.density15, _ = t.density(ReferenceTemperature())
	}
	return f.Named("table-" + t.digest())
}

// mostTold is how many faults of a table are spelt out.
const mostTold = 10

func checkPoints(points []DensityPoint) error {
	var faults []error
	more := 0
	for i, p := range points {
		for _, err := range [...]error{checkPoint(p), checkOrder(points, i)} {
			switch {
			case err == nil:
			case len(faults) == mostTold:
				more++
			default:
				faults = append(faults, fmt.Errorf("thermal: density table: row %d: %w", i+1, err))
			}
		}
	}
	if more > 0 {
		faults = append(faults, fmt.Errorf("and %d more", more))
	}
	return errors.Join(faults...)
}

func checkPoint(p DensityPoint) error {
	switch {
	case !p.At.Valid() || p.At.IsZero():
		return fmt.Errorf("temperature missing or out of range; want a temperature")
	case !plausible(float64(p.Density)):
		return fmt.Errorf("density %s; want 500 to 2000 kg/m³", p.Density)
	}
	return nil
}

func checkOrder(points []DensityPoint, i int) error {
	if i == 0 {
		return nil
	}
	before, p := points[i-1], points[i]
	if p.At.Compare(before.At) <= 0 {
		return fmt.Errorf("%s after %s; want rising temperatures", p.At, before.At)
	}
	if !(p.Density < before.Density) {
		return fmt.Errorf("%s after %s; want falling densities", p.Density, before.Density)
	}
	return nil
}

// table is never changed once made, so that copies of a Fluid may share it.
type table struct {
	points []DensityPoint
	kelvin []float64 // of each row, from the first row
	base   float64   // density that ln F counts from
}

func newTable(points []DensityPoint) *table {
	t := &table{points: append([]DensityPoint(nil), points...)}
	for _, p := range t.points {
		t.kelvin = append(t.kelvin, p.At.Sub(t.points[0].At).In(units.CelsiusDegree))
	}
	t.base = float64(t.points[0].Density)
	if low, high := t.limits(); low.Compare(ReferenceTemperature()) <= 0 && high.Compare(ReferenceTemperature()) >= 0 {
		t.base, _ = t.density(ReferenceTemperature())
	}
	return t
}

func (t *table) limits() (low, high units.Temperature) {
	return t.points[0].At, t.points[len(t.points)-1].At
}

// density interpolates, and gives the slope in kg/m³ per kelvin. The caller has
// checked that at lies inside.
func (t *table) density(at units.Temperature) (rho, slope float64) {
	x := at.Sub(t.points[0].At).In(units.CelsiusDegree)
	i := sort.Search(len(t.kelvin)-1, func(i int) bool { return t.kelvin[i+1] >= x })
	i = min(i, len(t.kelvin)-2)
	low, high := float64(t.points[i].Density), float64(t.points[i+1].Density)
	slope = (high - low) / (t.kelvin[i+1] - t.kelvin[i])
	if x == t.kelvin[i+1] {
		return high, slope // a row of the table is answered as it was given
	}
	return low + float64(slope*(x-t.kelvin[i])), slope
}

func (t *table) at(at units.Temperature) expansion {
	rho, slope := t.density(at)
	ln := elementary.Log(rho / t.base)
	return expansion{ln: ln, perKelvin: slope / rho, coefficient: ln}
}

// digest names the table by what is in it, so that the same table loaded twice
// is the same fluid (64-bit FNV-1a).
func (t *table) digest() string {
	h := uint64(14695981039346656037)
	mix := func(x float64) {
		for b := math.Float64bits(x); b != 0; b >>= 8 {
			h = (h ^ b&0xff) * 1099511628211
		}
		h = (h ^ 0x100) * 1099511628211
	}
	for _, p := range t.points {
		mix(p.At.Kelvin())
		mix(float64(p.Density))
	}
	return strconv.FormatUint(h, 16)
}
