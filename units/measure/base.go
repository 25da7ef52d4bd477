package measure

import "example.com/meniscus/units"

// base is the unit in which the terms of a Measured are held: L, N·m, m, kg, K
// and, for road distances, km.
func base[D units.Dimension]() units.Unit[D] {
	var d D
	var u any
	switch any(d).(type) {
	case units.VolumeDim:
		u = units.Litre
	case units.TorqueDim:
		u = units.NewtonMetre
	case units.LengthDim:
		u = units.Metre
	case units.MassDim:
		u = units.Kilogram
	case units.TemperatureDeltaDim:
		u = units.CelsiusDegree
	case units.DistanceDim:
		u = units.Kilometre
	}
	b, _ := u.(units.Unit[D])
	return b
}
