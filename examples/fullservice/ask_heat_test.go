package main

import (
	"strings"
	"testing"
)

// By hand: 58 °C falls towards 18 °C by half every 40 min, so 38 °C comes 10 min after
// the reading at 30 min.
func TestCoolDownByHand(t *testing.T) {
	got := asking(t, `
[ask.cool_down]
plateau_low = "18 °C"
to          = "38 °C"
[ask.cool_down.reading.1]
after       = "0s"
temperature = "58.00 °C"
[ask.cool_down.reading.2]
after       = "10m"
temperature = "51.6359 °C"
[ask.cool_down.reading.3]
after       = "20m"
temperature = "46.2843 °C"
[ask.cool_down.reading.4]
after       = "30m"
temperature = "41.7841 °C"
`)["cool_down"]
	if got.Refused || !strings.HasPrefix(got.Answer, "at 38.0 °C (100.4 °F) in 10 min (") || len(got.Working) != 2 {
		t.Errorf("%+v; by hand 10 min", got)
	}
	got = asking(t, "[ask.cool_down]\nplateau_low = \"18 °C\"\nto = \"38 °C\"\n[ask.cool_down.reading.1]\nafter = \"0s\"\ntemperature = \"58 °C\"\n")["cool_down"]
	if !got.Refused || !strings.Contains(got.Answer, "reading") {
		t.Errorf("one reading: %+v; want it refused", got)
	}
}

// By hand: a painted pan that reads 40 °C at emissivity 0.9 is at 42.0 °C, with
// 0.75/√3 = 0.43 °C of doubt; a sensor of ± 2 °C that says 44 °C is 2/√(0.43² + 1.15²) =
// 1.6 standard uncertainties off, one that says 60 °C far more.
func TestSensorAgainstInfraredByHand(t *testing.T) {
	const pan = `
[ask.infrared]
reading               = "40 °C"
reflected             = "20 °C"
emissivity            = "0.9"
plus_minus            = "0.03"
set                   = "1"
reflection_subtracted = "yes"
sensor_plus_minus     = "2 °C"
`
	got := asking(t, pan+"sensor = \"44 °C\"\n")["infrared"]
	if got.Refused || !strings.Contains(got.Answer, "the surface is at 42.0 °C") || !strings.Contains(got.Answer, "agrees with it (zeta 1.6,") {
		t.Errorf("%+v", got)
	}
	got = asking(t, pan+"sensor = \"60 °C\"\n")["infrared"]
	if got.Refused || !strings.Contains(got.Answer, "does not agree with it: trust neither") {
		t.Errorf("%+v", got)
	}
	if got = asking(t, pan)["infrared"]; got.Refused || strings.Contains(got.Answer, "sensor") {
		t.Errorf("no sensor: %+v", got)
	}
}
