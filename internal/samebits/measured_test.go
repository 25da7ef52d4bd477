package samebits

import (
	"context"
	"time"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func quantities(s *sheet) {
	for _, text := range [...]string{"2.1 L", "2 1/8 qt", "4.4 US qt", "5 US fl oz", "1.25 imp gal", "0.000001 mL"} {
		v, err := units.ParseVolume(text)
		s.litres("volume "+text, v, err)
		s.number("volume "+text+", US qt", v.In(units.USQuart), err)
	}
	for _, text := range [...]string{"24 N·m", "18 ft·lb", "96 in·lb"} {
		q, err := units.ParseTorque(text)
		s.number("torque "+text+", N·m", q.In(units.NewtonMetre), err)
		s.number("torque "+text+", lbf·ft", q.In(units.PoundForceFoot), err)
	}
	for _, text := range [...]string{"104 °F", "40 °C", "-40 °F", "98.6 °F"} {
		t, err := units.ParseTemperature(text)
		s.celsius("temperature "+text, t, err)
		s.number("temperature "+text+", °F", t.Fahrenheit(), err)
	}
	third := units.Litre.Of(1).Scale(1.0 / 3)
	s.litres("a third of 1 L, three times", third.Add(third).Add(third), nil)
	s.number("2 L of 3 L", units.Litre.Of(2).Ratio(units.Litre.Of(3)), nil)
}

func readings(s *sheet) {
	v, err := jug("drain-1").Read(units.Litre.Of(2.1))
	s.reading("jug, 2.1 L", v.Reading(), err)
	back, err := jug("refill-1").Read(units.Litre.Of(2.05))
	s.reading("put back less drained, one jug", back.Sub(v).Reading(), err)
	e, err := v.Reading().Expanded(0.95)
	s.number("jug, expanded to 95 %", e.U, err)
	s.number("jug, coverage factor", e.K, err)
	t, err := measure.ContactProbe{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(1)}.Read(units.Celsius(43))
	s.reading("probe, 43 °C", t.Reading(), err)
	box, err := measure.BoxSensor{ID: "sensor", Tolerance: units.CelsiusDegree.Of(2), Placement: units.CelsiusDegree.Of(3)}.Read(units.Celsius(47))
	s.reading("sensor in the box, 47 °C", box.Reading(), err)
	a, err := measure.Agree(t.Reading(), box.Reading())
	s.number("probe and sensor, zeta", a.Zeta, err)
	d, err := measure.Decide(measure.Between(311.15, 321.15), t.Reading(), 0.05)
	s.number("probe within 38 to 48 °C, probability", d.Inside, err)
	m, err := measure.WeightedMean(t.Reading(), box.Reading())
	s.reading("probe and sensor, weighted mean", m, err)
	seen, err := measure.Observed("watch", "", 2.11, 2.08, 2.12, 2.09, 2.1)
	s.reading("five looks", seen, err)
	s.number("five looks, degrees of freedom", seen.DoF(), nil)
}

func jug(entry string) measure.Jug {
	return measure.Jug{ID: "jug-a", Graduation: units.Millilitre.Of(50), ScaleError: 0.02}.For(entry)
}

func oil(s *sheet) thermal.Fluid {
	f, err := thermal.Lubricant(units.Density(850))
	if err != nil {
		s.tb.Fatal(err)
	}
	return f
}

func corrections(s *sheet) {
	fluid, l := oil(s), units.Litre.Of
	for _, celsius := range [...]float64{-20, 0, 15, 20, 45, 80, 130} {
		x, err := fluid.Factor(units.Celsius(celsius))
		s.number("factor to 15 °C at "+units.Celsius(celsius).Text(units.CelsiusScale, 0), x, err)
	}
	v, err := fluid.Convert(l(2.2), units.Celsius(45), units.Celsius(20))
	s.litres("2.2 L of 45 °C at 20 °C", v, err)
	can := thermal.Vessel{ID: "can", Material: thermal.CarbonSteel}
	v, err = fluid.PutBack(thermal.Measurement{Mark: l(2.2), At: units.Celsius(45), Vessel: thermal.Vessel{ID: "jug-a", Material: thermal.Polypropylene}}, can, units.Celsius(20))
	s.litres("mark to put back", v, err)
	m, err := fluid.Mass(l(2.2), units.Celsius(45))
	s.number("mass of 2.2 L at 45 °C, kg", m.In(units.Kilogram), err)
	d, err := thermal.Density15(units.Density(832), units.Celsius(40))
	s.number("832 kg/m³ at 40 °C, at 15 °C", d.KilogramsPerCubicMetre(), err)
	parts, err := thermal.LubricatingCTL(units.Density(850)).Evaluate(units.Fahrenheit(104))
	s.number("CTL at 104 °F", parts.Factor, err)
	w := thermal.Window{Low: units.Celsius(38), High: units.Celsius(48)}
	c, err := w.Closing(fluid, l(10), thermal.Aluminium, units.Celsius(55))
	s.litres("closed at 55 °C, off by", c.Off, err)
	s.litres("what the window is worth", c.Window, err)
	read, err := jug("drain-2").Read(l(2.2))
	if err != nil {
		s.tb.Fatal(err)
	}
	at, err := measure.ContactProbe{ID: "probe-1", Tolerance: units.CelsiusDegree.Of(1)}.For("drain-2").Read(units.Celsius(45))
	if err != nil {
		s.tb.Fatal(err)
	}
	got, err := fluid.ConvertMeasured(read, at, measure.TemperatureExactly(units.Celsius(15)))
	s.reading("2.2 L of 45 °C at 15 °C, measured, L", got.Reading(), err)
}

func simulations(s *sheet) {
	capacity, err := measure.NewCause("capacity", "", measure.Rectangular, 0)
	if err != nil {
		s.tb.Fatal(err)
	}
	box, err := measure.New(10, measure.Term{Cause: capacity, Scale: 0.4})
	if err != nil {
		s.tb.Fatal(err)
	}
	drain, err := jug("drain-1").Read(units.Litre.Of(2.1))
	if err != nil {
		s.tb.Fatal(err)
	}
	o, err := measure.Simulate(context.Background(), measure.Simulation{
		Inputs: []measure.Input{{Name: "C", Of: box}, {Name: "d", Of: drain.Reading()}},
		Model:  func(x []float64) float64 { return 1 - x[1]/x[0] },
		Trials: 50_000, Seed: 2026,
	})
	if err != nil {
		s.tb.Fatal(err)
	}
	s.number("one drain by 50 000 trials, mean", o.Mean(), nil)
	s.number("one drain by 50 000 trials, u", o.U(), nil)
	i, err := o.Interval(0.95)
	s.number("one drain by 50 000 trials, 95 % from", i.Low, err)
	s.number("one drain by 50 000 trials, 95 % to", i.High, err)
	stream := measure.NewStream(2026, 3)
	s.number("stream 2026, block 3: uniform", stream.Uniform(), nil)
	s.number("stream 2026, block 3: normal", stream.Normal(), nil)
	m := measure.Mixture{Low: 9.6, High: 10.4, Given: func(c float64) measure.Component { return measure.Component{Mean: 1 - 2.1/c, SD: 0.004} }}
	q, err := m.Quantile(0.975)
	s.number("one drain over the capacities, 97.5 %", q, err)
}

func warming(s *sheet) {
	trend, err := thermal.Follow(thermal.Course{PlateauLow: units.Celsius(74), PlateauHigh: units.Celsius(90), Scatter: units.CelsiusDegree.Of(0.3)})
	if err != nil {
		s.tb.Fatal(err)
	}
	for i, c := range [...]float64{24, 28.4, 32.5, 36.3} {
		if trend, err = trend.Add(time.Duration(2*i)*time.Minute, units.Celsius(c)); err != nil {
			s.tb.Fatal(err)
		}
	}
	f, err := trend.Forecast(thermal.Window{Low: units.Celsius(38), High: units.Celsius(48)})
	for _, m := range [...]struct {
		name string
		at   thermal.Moment
	}{{"opens", f.Opens}, {"closes", f.Closes}} {
		s.number("window "+m.name+", s", m.at.Best.Seconds(), err)
		s.number("window "+m.name+", earliest, s", m.at.Earliest.Seconds(), err)
		s.number("window "+m.name+", latest, s", m.at.Latest.Seconds(), err)
	}
	e, err := trend.At(10 * time.Minute)
	s.celsius("after ten minutes", e.Best, err)
	surface, err := thermal.Infrared{Reading: units.Celsius(40), Reflected: units.Celsius(20), Emissivity: 0.9, PlusMinus: 0.03, Set: 1, Reflection: thermal.ReflectionSubtracted}.Surface()
	s.celsius("painted pan read as 40 °C by infrared", surface.Temperature, err)
}
