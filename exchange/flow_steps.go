package exchange

import (
	"strconv"

	"example.com/meniscus/units/working"
)

// VolumeToSteps returns the working of [ThroughFlow.VolumeTo]: how many capacities
// have to pass, and the volume. Shares and capacities are printed to four decimals,
// volumes to a millilitre. Faults as there.
func (f ThroughFlow) VolumeToSteps(target float64) (working.Steps, error) {
	v, err := f.VolumeTo(target)
	if err != nil {
		return nil, err
	}
	formula, with := "θ = ln(1/target)", "ln(1/"+shareText(target)+")"
	switch f.Flow {
	case FlowPlug:
		formula, with = "θ = 1 - target", "1 - "+shareText(target)
	case FlowTanks:
		formula, with = "θ from P(X <= N) - θ·P(X <= N-1) = target, X Poisson of mean N·θ", "N = "+strconv.Itoa(f.Tanks)+", target "+shareText(target)
	case FlowUnknown:
		with += ", as if mixed: the larger"
	}
	theta := shareText(v.Ratio(f.Capacity))
	s := working.Steps{}.Add("capacities to pass", formula, with, theta)
	return s.Add("volume to pass", "θ·C", theta+" × "+stepLitres(f.Capacity), stepLitres(v)), nil
}
