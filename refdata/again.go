package refdata

import (
	"fmt"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/units"
)

// Sheets often print a figure in two units. Written down twice, each guards the
// other against a slip of the unit. Sheets round each figure on its own, so a
// few percent are no slip (our judgement).
const (
	againShare   = 0.04
	againDegrees = 1.0 // °C
)

// torqueAgain holds torque_also against torque.
func torqueAgain(r *reader, v *view, first units.Torque) {
	again, ok := take(r, v, "torque_also", "pack-torque", torqueForm, positiveTorque)
	if !ok || first.Sign() <= 0 || alike(again.Ratio(first)) {
		return
	}
	r.where(v, "torque_also").Fault("pack-torque-disagrees",
		fmt.Sprintf("%s and %s are not the same torque%s", sealing.Both(first), sealing.Both(again),
			slipped(again.Ratio(first), []named{{1.3558, "N·m and lbf·ft"}, {12, "lbf·ft and lbf·in"}, {8.8507, "N·m and lbf·in"}, {10.1972, "N·m and kgf·cm"}, {9.80665, "kgf·m and N·m"}})),
		"look at the sheet again: which number goes with which unit?")
}

// capacityAgain holds total_also against total.
func capacityAgain(r *reader, v *view, first units.Range[units.VolumeDim]) {
	again, ok := take(r, v, "total_also", "pack-range", rangeForm, positiveRange)
	if !ok || first.IsZero() || alike(again.Low().Ratio(first.Low())) && alike(again.High().Ratio(first.High())) {
		return
	}
	r.where(v, "total_also").Fault("pack-volume-disagrees",
		fmt.Sprintf("%s and %s are not the same volume%s", first, again,
			slipped(again.Mid().Ratio(first.Mid()), []named{{1.20095, "US and imperial"}, {1.05669, "L and US qt"}, {1.1365, "L and imp qt"}, {4, "quarts and gallons"}, {2, "pints and quarts"}})),
		"look at the sheet again: which number goes with which unit?")
}

// temperatureAgain holds low_also against low, and high_also against high.
func temperatureAgain(r *reader, v *view, name string, first units.Temperature, stated bool) {
	again, ok := take(r, v, name+"_also", "pack-temperature", temperatureForm, units.ParseTemperature)
	if !ok || !stated {
		return
	}
	if off := again.Sub(first).Abs(); off.Compare(units.CelsiusDegree.Of(againDegrees)) > 0 {
		r.where(v, name+"_also").Fault("pack-temperature-disagrees",
			fmt.Sprintf("%s and %s are not the same temperature", r.where(v, name), r.where(v, name+"_also")),
			"look at the sheet again: which number is °C, which °F?")
	}
}

func alike(ratio float64) bool { return ratio > 1-againShare && ratio < 1/(1-againShare) }

// named is a ratio of two units that get mixed up.
type named struct {
	ratio float64
	units string
}

// slipped names the units that would explain a ratio, either way round.
func slipped(ratio float64, slips []named) string {
	for _, s := range slips {
		if alike(ratio/s.ratio) || alike(ratio*s.ratio) {
			return ": as if " + s.units + " had been mixed up"
		}
	}
	return ""
}
