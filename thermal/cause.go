package thermal

import (
	"fmt"

	"example.com/meniscus/units/measure"
)

// Named returns the fluid with an id of the caller's own, such as
// "drum-3", in place of the one made from its figures. Fluids of one id share
// their causes of doubt: what comes out of a box and what goes back in should
// have one id only if they are taken to expand alike. The id is 1 to 118 ASCII
// letters, digits and "-_./:#+".
func (f Fluid) Named(id string) (Fluid, error) {
	if f.law == noLaw {
		return f, errNoLaw("named")
	}
	expansion, err := measure.NewCause(id+"/expansion", id+": coefficient of expansion", measure.Normal, 0)
	if err != nil || id == "" {
		return Fluid{}, fmt.Errorf("thermal: fluid id %q: want 1 to 118 ASCII letters, digits and -_./:#+", clip(id))
	}
	density, err := measure.NewCause(id+"/density", id+": density at 15 °C", measure.Normal, 0)
	if err != nil {
		return Fluid{}, fmt.Errorf("thermal: fluid id %q: %w", clip(id), err)
	}
	f.id, f.expansionCause, f.densityCause = id, expansion, density
	return f, nil
}

// ID returns the id by which the fluid's causes of doubt are known; "" for a
// fluid without a law.
func (f Fluid) ID() string { return f.id }

// Cause returns the doubt of the coefficient of expansion, which every
// correction of this fluid shares; nil for a fluid without a law. Its id is
// ID() + "/expansion".
func (f Fluid) Cause() *measure.Cause { return f.expansionCause }

// DensityCause returns the doubt of the density, which every mass of this fluid
// shares; nil for a fluid without a law. Its id is ID() + "/density".
func (f Fluid) DensityCause() *measure.Cause { return f.densityCause }
