package jobfile

import (
	"errors"
	"fmt"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/internal/sheet"
	"example.com/meniscus/units"
)

// readEntry reads one [entry.N]. Which keys a kind takes is the card's
// business: it refuses what does not belong, at the same line.
func readEntry(t *sheet.Table) line {
	var e jobcard.Entry
	e.At, _ = sheet.Take(t.Need("at"), "job-time", `write it like "2026-11-02 08:10" or "2026-11-02T08:10:00Z"`, when)
	kind := t.Need("kind")
	e.Kind, _ = sheet.Take(kind, "job-kind", kind.Hint("write one of the kinds", kinds()...), jobcard.ParseKind)
	readAmount(t, &e)
	readParts(t, &e)
	readLevel(t, &e)
	e.Text = t.Text("text").String()
	e.Entry, _ = t.String("entry").Count(1, 2000)
	return line{entry: e, table: t}
}

// kinds are the words of all kinds of entry.
func kinds() []string {
	var words []string
	for k := jobcard.FillPlugOpened; k <= jobcard.Closed; k++ {
		words = append(words, k.String())
	}
	return words
}

func readAmount(t *sheet.Table, e *jobcard.Entry) {
	a := &e.Amount
	a.Volume, _ = sheet.Take(t.String("volume"), "job-volume", volumeForm, positive)
	a.Mass, _ = sheet.Take(t.String("mass"), "job-mass", `write it like "1.78 kg"`, units.ParseMass)
	a.Vessel = t.String("vessel").String()
	a.Scale = t.String("scale").String()
	e.OldShare, _ = sheet.Take(t.String("old_share"), "job-share", `write it like "0 %"`, share)
	e.Origin, _ = sheet.Take(t.String("from"), "job-origin", `write "box", "refill" or "stock"`, origin)
	e.Runs, _ = t.String("runs").Count(1, 1000)
	if e.Kind == jobcard.WindowRead {
		return // its temperature is the box's, not an amount's
	}
	a.Temperature, _ = sheet.Take(t.String("temperature"), "job-temperature", temperatureForm, units.ParseTemperature)
	a.Thermometer = t.String("thermometer").String()
	a.PlusMinus, _ = sheet.Take(t.String("plus_minus"), "job-volume", `write it like "50 mL"`, notNegative)
}

func readParts(t *sheet.Table, e *jobcard.Entry) {
	e.Plug = t.String("plug").String()
	e.Washer = t.String("washer").String()
	e.New, _ = t.String("new").YesNo()
	e.Torque, _ = sheet.Take(t.String("torque"), "job-torque", `write it like "24 N·m" or "18 lbf·ft"`, units.ParseTorque)
	e.Turns, _ = sheet.Take(t.String("turns"), "job-turns", `write it like "2.5"`, turns)
	e.Tool = t.String("tool").String()
}

func readLevel(t *sheet.Table, e *jobcard.Entry) {
	e.EngineIdling, _ = t.String("engine_idling").YesNo()
	e.Level, _ = t.String("level").YesNo()
	e.Flow, _ = sheet.Take(t.String("flow"), "job-flow", `write "no flow", "drip", "trickle" or "stream"`, flow)
	e.Lasting, _ = sheet.Take(t.String("lasting"), "job-duration", `write it like "45s" or "2m30s"`, lasting)
	if e.Kind != jobcard.WindowRead {
		return
	}
	e.Temperature, _ = sheet.Take(t.String("temperature"), "job-temperature", temperatureForm, units.ParseTemperature)
	e.Thermometer = t.String("thermometer").String()
	e.PlusMinus, _ = sheet.Take(t.String("plus_minus"), "job-temperature", `write it like "1 °C" or "2 °F"`, units.ParseTemperatureDelta)
}

func positive(s string) (units.Volume, error) {
	v, err := units.ParseExplicit[units.VolumeDim](s)
	if err == nil && v.Sign() <= 0 {
		return v, fmt.Errorf("%s is not a measured volume; want more than zero", v)
	}
	return v, err
}

func origin(s string) (o jobcard.Origin, err error) { err = o.UnmarshalText([]byte(s)); return o, err }

func flow(s string) (f exchange.AtPlug, err error) { err = f.UnmarshalText([]byte(s)); return f, err }

func lasting(s string) (jobcard.Duration, error) {
	d, err := time.ParseDuration(s)
	if err != nil {
		return 0, errors.New("not a length of time")
	}
	return jobcard.Duration(d), nil
}

// turns reads a plain number of turns such as "2.5".
func turns(s string) (float64, error) {
	x, err := number(s)
	if err != nil || x <= 0 || x > 20 {
		return 0, errors.New("not a number of turns; want above 0 and at most 20")
	}
	return x, nil
}
