package units

// Dimension is the closed set of kinds of quantity. It tags a Quantity or a
// Unit so that a volume can never be added to a torque.
type Dimension interface {
	VolumeDim | TorqueDim | LengthDim | MassDim | TemperatureDeltaDim | DistanceDim
}

// The tags. They hold nothing; only their type matters. The length of each is
// its number, which the compiler knows: asking for it costs nothing.
type (
	// VolumeDim tags volumes: tick 1e-14 L.
	VolumeDim [1]struct{}
	// TorqueDim tags torques: tick 1e-15 N·m.
	TorqueDim [2]struct{}
	// LengthDim tags lengths of parts: tick 1 nm.
	LengthDim [3]struct{}
	// MassDim tags masses: tick 0.1 ng.
	MassDim [4]struct{}
	// TemperatureDeltaDim tags temperature differences: tick 1/9 nK.
	TemperatureDeltaDim [5]struct{}
	// DistanceDim tags road distances: tick 1 mm.
	DistanceDim [6]struct{}
)

const (
	volumeNumber      = len(VolumeDim{})
	torqueNumber      = len(TorqueDim{})
	lengthNumber      = len(LengthDim{})
	massNumber        = len(MassDim{})
	temperatureNumber = len(TemperatureDeltaDim{})
	distanceNumber    = len(DistanceDim{})
)

// numberOf returns the number of D.
func numberOf[D Dimension]() int {
	var d D
	return len(d)
}

// spec is how a dimension is written.
type spec struct {
	kind     string // singular, without the article
	goName   string // the name of the quantity's type
	example  string // for error messages
	exact    code   // unit of the canonical text
	places   int    // decimals that show one tick of it exactly
	fallback code   // unit of the canonical text where exact has no finite decimal
	more     int    // decimals of fallback
}

func specOf[D Dimension]() spec {
	switch numberOf[D]() {
	case volumeNumber:
		return spec{kind: "volume", goName: "Volume", example: "2.5 L", exact: code(Litre), places: 14}
	case torqueNumber:
		return spec{kind: "torque", goName: "Torque", example: "35 N·m", exact: code(NewtonMetre), places: 15}
	case lengthNumber:
		return spec{kind: "length", goName: "Length", example: "18.2 mm", exact: code(Millimetre), places: 6}
	case massNumber:
		return spec{kind: "mass", goName: "Mass", example: "2150 g", exact: code(Gram), places: 10}
	case temperatureNumber:
		// A ninth of a nanokelvin has no finite decimal in °C, but 2e-10 in °F has.
		return spec{
			kind: "temperature difference", goName: "TemperatureDelta", example: "5 °C",
			exact: code(CelsiusDegree), places: 9, fallback: code(FahrenheitDegree), more: 10,
		}
	}
	return spec{kind: "distance", goName: "Distance", example: "48000 km", exact: code(Kilometre), places: 6}
}

// name is the kind with its article.
func (s spec) name() string { return "a " + s.kind }
