package thermal

import "math"

// Emissivity is what an instrument's manual gives for a kind of surface.
type Emissivity struct {
	Surface   string
	Low, High float64 // as printed; equal where one figure was given
	Band      string  // what it was measured over
	Source    string
	Mark      string // how we know it: "seen" or "from memory"
}

// Middle returns the middle of the range and half its width, which is at least
// 0.02: a figure without a range is not exact. A range that does not lie within
// 0 to 1 gives 0 and 0, which [Infrared] refuses.
func (e Emissivity) Middle() (emissivity, plusMinus float64) {
	if !(e.Low >= 0 && e.Low <= e.High && e.High <= 1) {
		return 0, 0
	}
	return (e.Low + e.High) / 2, math.Max((e.High-e.Low)/2, leastEmissivityGap)
}

// Usable reports whether the whole range is one the correction accepts.
func (e Emissivity) Usable() bool { return e.Low >= leastEmissivity && e.High <= 1 }

// Emissivities returns the table of surfaces, a copy. The spread is the lesson:
// two manuals differ by a factor of eight on the same sheet of steel, so tape
// or paint on the spot beats any table.
func Emissivities() []Emissivity {
	const (
		thermometer = "manual of an infrared thermometer, MI3, p. 116"
		sensor      = "manual of an infrared sensor, TIF352"
		camera      = "manual of a thermal camera, T559880, table 35.1"
		simulator   = "manual of an infrared thermometer, OS533, app. C"
		handbook    = "thermography handbook"

		band, warm, total = "8-14 µm", "8-14 µm, 70 °C", "total"
		seen, memory      = "seen", "from memory"
	)
	return []Emissivity{
		{"aluminium, unoxidised", 0.02, 0.1, band, thermometer, seen},
		{"aluminium, oxidised", 0.2, 0.4, band, thermometer, seen},
		{"aluminium, roughened", 0.1, 0.3, band, thermometer, seen},
		{"aluminium sheet", 0.03, 0.06, warm, sensor, seen},
		{"aluminium, cast, sandblasted", 0.46, 0.46, warm, sensor, seen},
		{"aluminium, anodised light grey dull", 0.95, 0.97, warm, sensor, seen},
		{"paint or lacquer on aluminium", 0.92, 0.94, warm, sensor + "; " + camera, seen},
		{"steel, cold rolled", 0.7, 0.9, band, thermometer, seen},
		{"steel, cold rolled", 0.09, 0.09, warm, sensor, seen},
		{"steel, ground sheet", 0.4, 0.6, band, thermometer, seen},
		{"iron, oxidised", 0.5, 0.9, band, thermometer, seen},
		{"cast iron, oxidised", 0.6, 0.95, band, thermometer, seen},
		{"galvanised, heavily oxidised", 0.85, 0.85, "long wave, 70 °C", camera, seen},
		{"black matt lacquer", 0.96, 0.98, total, camera, seen},
		{"flat black spray", 0.96, 0.96, "long wave", camera, seen},
		{"masking tape", 0.95, 0.95, "8-14 µm, below 260 °C", simulator, seen},
		{"oil film 0.025 mm on metal", 0.27, 0.27, "total, 20 °C", handbook, memory},
		{"oil film 0.05 mm on metal", 0.46, 0.46, "total, 20 °C", handbook, memory},
		{"oil film 0.125 mm on metal", 0.72, 0.72, "total, 20 °C", handbook, memory},
		{"oil, thick", 0.82, 0.82, "total, 20 °C", handbook, memory},
	}
}
