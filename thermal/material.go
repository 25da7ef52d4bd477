package thermal

import (
	"fmt"
	"strings"

	"example.com/meniscus/units"
)

// VesselReference returns 20 °C, at which the marks of a vessel are taken to be
// true (ISO 4787, from memory).
func VesselReference() units.Temperature { return units.Celsius(vesselReferenceTemp) }

// Material is what a vessel or a gearbox case is made of. The zero value is
// unknown, and using it is an error: a plastic jug left uncorrected at 60 °C is
// 1.8 % wrong. To leave the vessel out on purpose, say Uncorrected.
type Material uint8

// The materials.
const (
	UnknownMaterial   Material = iota
	Uncorrected                // no correction, by choice
	BorosilicateGlass          // borosilicate 3.3 laboratory glass
	SodaLimeGlass              // ordinary glass
	Polypropylene              // PP: most translucent jugs
	Polymethylpentene          // PMP: clear laboratory plastic
	HDPE                       // high-density polyethylene: milk-white cans
	LDPE                       // low-density polyethylene: squeeze bottles
	CarbonSteel
	StainlessSteel
	Aluminium
	materialEnd
)

// growth is one row of the material table.
type growth struct {
	name      string
	gamma     float64 // cubic expansion per kelvin
	u         float64 // its standard uncertainty per kelvin
	low, high float64 // °C the figure is used between: our judgement, plastics soften above
	source    string
}

// growthOf is the material table. A published range of width w is taken as
// rectangular, u = w/√12 (JCGM 100:2008 4.3.8); where one figure stands alone
// its u is our judgement. Figures for the linear coefficient are tripled.
func growthOf(m Material) growth {
	switch m {
	case Uncorrected:
		return growth{"uncorrected", 0, 0, -50, 200, "no correction, by choice"}
	case BorosilicateGlass:
		return growth{"borosilicate glass", 9.9e-6, 5e-7, -50, 150,
			"3 × 3.3e-6, Callister App. B.6 (seen); 9.9e-6, laboratory constants file (seen); u our judgement"}
	case SodaLimeGlass:
		return growth{"soda-lime glass", 2.7e-5, 1e-6, -50, 150,
			"3 × 9.0e-6, Callister App. B.6 (seen); 2.6e-5, laboratory constants file (seen); u our judgement"}
	case Polypropylene:
		return growth{"polypropylene", 4.45e-4, 8.7e-5, -20, 100,
			"laboratory constants file (seen); range 2.4e-4 to 5.4e-4, matmake.com and Callister App. B.6 (seen)"}
	case Polymethylpentene:
		return growth{"polymethylpentene", 3.51e-4, 7e-5, -20, 120,
			"laboratory constants file and 3 × 117e-6, matmake.com (seen); u our judgement, as polypropylene's"}
	case HDPE:
		return growth{"HDPE", 4.5e-4, 8.7e-5, -20, 100,
			"3 × 150e-6; range 3.0e-4 to 6.0e-4, Callister App. B.6 and matmake.com (seen)"}
	case LDPE:
		return growth{"LDPE", 8.7e-4, 1.9e-4, -20, 80,
			"3 × 290e-6; range 5.4e-4 to 1.2e-3, Callister App. B.6 (seen)"}
	case CarbonSteel:
		return growth{"carbon steel", 3.5e-5, 1e-6, -50, 200,
			"3 × 11.7e-6 (from memory); 3 × 11e-6 (seen); u our judgement"}
	case StainlessSteel:
		return growth{"stainless steel", 5.2e-5, 2.6e-6, -50, 200, "3 × 17.3e-6 for type 304 (from memory); u our judgement"}
	case Aluminium:
		return growth{"aluminium", 6.9e-5, 2e-6, -50, 200, "3 × 23e-6 (from memory); 3 × 22e-6 (seen); u our judgement"}
	}
	return growth{}
}

// Materials lists every material but the unknown one, in a fixed order.
func Materials() []Material {
	var all []Material
	for m := Uncorrected; m < materialEnd; m++ {
		all = append(all, m)
	}
	return all
}

// Expansion returns the coefficient of cubic expansion and its standard
// uncertainty, both per kelvin, and where they come from. For UnknownMaterial
// all are zero: ask Check first.
func (m Material) Expansion() (gamma, u float64, source string) {
	g := growthOf(m)
	return g.gamma, g.u, g.source
}

// Check refuses a material that is not one of the list.
func (m Material) Check() error {
	if m == UnknownMaterial || m >= materialEnd {
		return fmt.Errorf("thermal: material not known; want one of %s", materialNames())
	}
	return nil
}

// String returns the material's name, such as "soda-lime glass"; "unknown"
// for the zero value.
func (m Material) String() string {
	if m.Check() != nil {
		return "unknown"
	}
	return growthOf(m).name
}

// id is the name without blanks, for the id of a cause.
func (m Material) id() string { return strings.ReplaceAll(m.String(), " ", "-") }

// ParseMaterial reads a name as String prints it.
func ParseMaterial(s string) (Material, error) {
	for _, m := range Materials() {
		if s == growthOf(m).name {
			return m, nil
		}
	}
	return UnknownMaterial, fmt.Errorf("thermal: material %q; want one of %s", clip(s), materialNames())
}

func materialNames() string {
	names := make([]string, 0, int(materialEnd))
	for _, m := range Materials() {
		names = append(names, growthOf(m).name)
	}
	return strings.Join(names, ", ")
}

// factor is V(t)/V(20 °C) = 1 + γ(t - 20 °C).
//
// Source: form of ISO 4787 and ASTM E542, from memory.
func (m Material) factor(t units.Temperature) (float64, error) {
	if err := m.Check(); err != nil {
		return 0, err
	}
	g := growthOf(m)
	low, high := units.Celsius(g.low), units.Celsius(g.high)
	if !t.Valid() || t.Compare(low) < 0 || t.Compare(high) > 0 {
		return 0, fmt.Errorf("thermal: %s is %w (expansion of %s); want %s to %s", t, ErrOutsideLaw, g.name, low, high)
	}
	dt := t.Sub(VesselReference()).In(units.CelsiusDegree)
	return 1 + float64(g.gamma*dt), nil
}

// clip keeps hostile input out of an error message.
func clip(s string) string {
	const most = 40
	if len(s) <= most {
		return s
	}
	return s[:most] + "…"
}
