package units

// Dimension is the closed set of kinds of quantity. It tags a Quantity or a
// Unit so that a volume can never be added to a torque.
type Dimension interface {
	comparable
	spec() spec
}

// spec is what the arithmetic must know of a dimension.
type spec struct {
	name     string // as an error message calls it, with its article
	kind     string // singular, without the article
	exact    code   // unit of the canonical text
	places   int    // decimals that show one tick of it exactly
	fallback code   // unit of the canonical text where exact has no finite decimal
	more     int    // decimals of fallback
}

// The tags. They hold nothing; only their type matters.
type (
	// VolumeDim tags volumes: tick 1e-14 L.
	VolumeDim struct{}
	// TorqueDim tags torques: tick 1e-15 N·m.
	TorqueDim struct{}
	// LengthDim tags lengths of parts: tick 1 nm.
	LengthDim struct{}
	// MassDim tags masses: tick 0.1 ng.
	MassDim struct{}
	// TemperatureDeltaDim tags temperature differences: tick 1/9 nK.
	TemperatureDeltaDim struct{}
	// DistanceDim tags road distances: tick 1 mm.
	DistanceDim struct{}
)

func (VolumeDim) spec() spec {
	return spec{name: "a volume", kind: "volume", exact: code(Litre), places: 14}
}

func (TorqueDim) spec() spec {
	return spec{name: "a torque", kind: "torque", exact: code(NewtonMetre), places: 15}
}

func (LengthDim) spec() spec {
	return spec{name: "a length", kind: "length", exact: code(Millimetre), places: 6}
}

func (MassDim) spec() spec {
	return spec{name: "a mass", kind: "mass", exact: code(Gram), places: 10}
}

// A ninth of a nanokelvin has no finite decimal in °C, but 2e-10 in °F has.
func (TemperatureDeltaDim) spec() spec {
	return spec{
		name: "a temperature difference", kind: "temperature difference",
		exact: code(CelsiusDegree), places: 9, fallback: code(FahrenheitDegree), more: 10,
	}
}

func (DistanceDim) spec() spec {
	return spec{name: "a distance", kind: "distance", exact: code(Kilometre), places: 6}
}

func specOf[D Dimension]() spec {
	var d D
	return d.spec()
}
