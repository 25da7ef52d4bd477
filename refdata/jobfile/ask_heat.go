package jobfile

import (
	"errors"
	"time"

	"example.com/meniscus/internal/sheet"
	"example.com/meniscus/units"
)

// WarmUp is a series of readings on the way to the window.
type WarmUp struct {
	PlateauLow, PlateauHigh units.Temperature
	Offset                  units.TemperatureDelta
	After                   []time.Duration
	Readings                []units.Temperature
}

// Infrared is a reading of a surface.
type Infrared struct {
	Reading, Reflected         units.Temperature
	Emissivity, PlusMinus, Set float64
	Subtracted                 bool // the instrument takes the reflected part off by itself
	// Sensor is what the box's own sensor says, to be held against the surface;
	// zero: not asked. SensorOff is its ±.
	Sensor    units.Temperature
	SensorOff units.TemperatureDelta
}

// CoolDown is a series of readings on the way down to a temperature, such as that
// of the fluid that was drained.
type CoolDown struct {
	WarmUp
	To units.Temperature
}

func readHeat(t *sheet.Table, a *Ask) {
	if w := t.Sub("warm_up"); w.Present() {
		a.WarmUp = readWarmUp(w)
	}
	if c := t.Sub("cool_down"); c.Present() {
		a.CoolDown = readCoolDown(c)
	}
	if i := t.Sub("infrared"); i.Present() {
		a.Infrared = readInfrared(i)
	}
}

func readWarmUp(t *sheet.Table) *WarmUp {
	w := &WarmUp{}
	w.PlateauLow, _ = sheet.Take(t.Need("plateau_low"), "job-temperature", temperatureForm, units.ParseTemperature)
	w.PlateauHigh, _ = sheet.Take(t.String("plateau_high"), "job-temperature", temperatureForm, units.ParseTemperature)
	w.Offset, _ = sheet.Take(t.String("offset"), "job-temperature", `write it like "1 °C"`, units.ParseTemperatureDelta)
	for _, r := range t.Sub("reading").Numbered() {
		after, _ := sheet.Take(r.Need("after"), "job-duration", `write it like "4m30s"`, duration)
		at, _ := sheet.Take(r.Need("temperature"), "job-temperature", temperatureForm, units.ParseTemperature)
		w.After, w.Readings = append(w.After, after), append(w.Readings, at)
	}
	return w
}

func readCoolDown(t *sheet.Table) *CoolDown {
	c := &CoolDown{WarmUp: *readWarmUp(t)}
	c.To, _ = sheet.Take(t.Need("to"), "job-temperature", temperatureForm, units.ParseTemperature)
	return c
}

func readInfrared(t *sheet.Table) *Infrared {
	i := &Infrared{}
	i.Reading, _ = sheet.Take(t.Need("reading"), "job-temperature", temperatureForm, units.ParseTemperature)
	i.Reflected, _ = sheet.Take(t.Need("reflected"), "job-temperature", temperatureForm, units.ParseTemperature)
	i.Emissivity, _ = sheet.Take(t.Need("emissivity"), "job-number", `write it like "0.95"`, number)
	i.PlusMinus, _ = sheet.Take(t.String("plus_minus"), "job-number", `write it like "0.02"`, number)
	i.Set, _ = sheet.Take(t.Need("set"), "job-number", `write it like "0.95"`, number)
	i.Subtracted, _ = t.Need("reflection_subtracted").YesNo()
	i.Sensor, _ = sheet.Take(t.String("sensor"), "job-temperature", temperatureForm, units.ParseTemperature)
	i.SensorOff, _ = sheet.Take(t.String("sensor_plus_minus"), "job-temperature", `write it like "2 °C"`, units.ParseTemperatureDelta)
	return i
}

func duration(s string) (time.Duration, error) {
	d, err := time.ParseDuration(s)
	if err != nil || d < 0 {
		return 0, errors.New("not a length of time")
	}
	return d, nil
}
