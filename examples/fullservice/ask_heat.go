package main

import (
	"fmt"
	"time"

	"example.com/meniscus/refdata/jobfile"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

func (s *service) warmUp() (string, working.Steps, error) {
	trend, now, err := follow(*s.file.Ask.WarmUp)
	if err != nil {
		return "", nil, err
	}
	got, err := trend.Forecast(s.proc.Window)
	if err != nil {
		return "", nil, err
	}
	return fmt.Sprintf("the window opens in %s and closes in %s, counted from the last reading", got.Opens.After(now), got.Closes.After(now)), got.Steps(), nil
}

func (s *service) coolDown() (string, working.Steps, error) {
	c := s.file.Ask.CoolDown
	trend, now, err := follow(c.WarmUp)
	if err != nil {
		return "", nil, err
	}
	got, err := trend.Reach(c.To)
	if err != nil {
		return "", nil, err
	}
	steps, err := trend.ReachSteps(c.To)
	return fmt.Sprintf("at %s in %s, counted from the last reading", bothScales(c.To), got.After(now)), steps, err
}

// follow takes in the readings of a course; the last one is at the time returned.
func follow(w jobfile.WarmUp) (trend thermal.Trend, now time.Duration, err error) {
	trend, err = thermal.Follow(thermal.Course{PlateauLow: w.PlateauLow, PlateauHigh: w.PlateauHigh, Offset: w.Offset})
	if err != nil {
		return trend, 0, err
	}
	for i, after := range w.After {
		if trend, err = trend.Add(after, w.Readings[i]); err != nil {
			return trend, 0, err
		}
		now = after
	}
	return trend, now, nil
}

func (s *service) infrared() (string, working.Steps, error) {
	i := s.file.Ask.Infrared
	reflection := thermal.ReflectionKept
	if i.Subtracted {
		reflection = thermal.ReflectionSubtracted
	}
	gun := thermal.Infrared{
		Reading: i.Reading, Reflected: i.Reflected, Emissivity: i.Emissivity, PlusMinus: i.PlusMinus, Set: i.Set, Reflection: reflection,
	}
	got, err := gun.Surface()
	if err != nil {
		return "", nil, err
	}
	text := fmt.Sprintf("the surface is at %s (%s) ± %s for the emissivity ± %s for the band the thermometer sees; the fluid behind it is not the skin",
		got.Temperature.Text(units.CelsiusScale, 1), got.Temperature.Text(units.FahrenheitScale, 1), got.EmissivityOff.Text(units.CelsiusDegree, 1), got.FormOff.Text(units.CelsiusDegree, 1))
	if i.Sensor.IsZero() {
		return text, got.Steps(), nil
	}
	held, err := sensorAgainst(gun, i)
	return text + "; " + held, got.Steps(), err
}

// sensorAgainst holds the box's own sensor against the surface. Two that disagree
// are not averaged.
func sensorAgainst(gun thermal.Infrared, i *jobfile.Infrared) (string, error) {
	surface, err := gun.SurfaceMeasured("surface", measure.TemperatureExactly(i.Reading), measure.TemperatureExactly(i.Reflected))
	if err != nil {
		return "", err
	}
	sensor, err := measure.BoxSensor{ID: "box-sensor", Tolerance: i.SensorOff}.Read(i.Sensor)
	if err != nil {
		return "", err
	}
	a, err := measure.Agree(sensor.Reading(), surface.Reading())
	if err != nil {
		return "", err
	}
	verdict := "agrees with it"
	if !a.Compatible {
		verdict = "does not agree with it: trust neither until a third thermometer has been read"
	}
	return fmt.Sprintf("the box's sensor, at %s, %s (zeta %.1f, at most 2 agrees)", bothScales(i.Sensor), verdict, a.Zeta), nil
}
