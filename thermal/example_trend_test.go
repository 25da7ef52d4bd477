package thermal_test

import (
	"errors"
	"fmt"
	"log"
	"time"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// warmUp is the idling box of the co-operative's invented tern-6: a reading
// every two minutes, the box known to settle at 165 to 195 °F.
func warmUp() thermal.Trend {
	trend, err := thermal.Follow(thermal.Course{
		PlateauLow: units.Fahrenheit(165), PlateauHigh: units.Fahrenheit(195),
		Scatter: units.FahrenheitDegree.Of(0.5),
	})
	if err != nil {
		log.Fatal(err)
	}
	for i, f := range []float64{75, 83.1, 90.5, 97.4} {
		if trend, err = trend.Add(time.Duration(2*i)*time.Minute, units.Fahrenheit(f)); err != nil {
			log.Fatal(err)
		}
	}
	return trend
}

func ExampleFollow() {
	_, err := thermal.Follow(thermal.Course{})
	fmt.Println(err)
	// Output: thermal: trend: plateau -273.15 °C to -273.15 °C; want a temperature, or a low and a high one
}

func ExampleTrend_Add() {
	trend, err := warmUp().Add(6*time.Minute, units.Fahrenheit(98))
	fmt.Println(trend.Readings(), errors.Is(err, thermal.ErrTimeOrder))
	// Output: 4 true
}

func ExampleTrend_Readings() {
	fmt.Println(warmUp().Readings())
	// Output: 4
}

// coolDown halves 40 K every 40 min: 58, 51.6, 46.3, 41.8 °C every ten minutes.
func coolDown() thermal.Trend {
	trend, err := thermal.Follow(thermal.Course{PlateauLow: units.Celsius(18), Scatter: units.CelsiusDegree.Of(0.1)})
	if err != nil {
		log.Fatal(err)
	}
	for i, c := range []float64{58, 51.6, 46.3, 41.8} {
		if trend, err = trend.Add(time.Duration(10*i)*time.Minute, units.Celsius(c)); err != nil {
			log.Fatal(err)
		}
	}
	return trend
}

// Fluid drained at 40 °C; the fresh fluid stands at 58 °C in the sun and cools
// in a room at 18 °C. When can it be measured like for like?
func ExampleTrend_Reach() {
	// 20 of 40 K are left after one half-life, about 40 min.
	m, err := coolDown().Reach(units.Celsius(38))
	fmt.Println(m, err)
	// Output: 40 min 2 s (39 min 32 s to 40 min 34 s) <nil>
}

func ExampleTrend_ReachSteps() {
	s, err := coolDown().ReachSteps(units.Celsius(38))
	fmt.Print(s.Text(), err)
	// Output:
	// course = T(t) = Tinf - (Tinf - T0)·exp(-t/τ) = fitted to 4 readings, Tinf = 18.0 °C (64.4 °F) given, scatter 0.10 °C = T0 = 58.0 °C (136.4 °F), τ = 57 min 48 s (56 min 51 s to 58 min 46 s)
	// reaches target at 38.0 °C (100.4 °F) = τ·ln[(Tinf - T0)/(Tinf - T)] = 57.796 min × ln(-39.98 °C/-20.00 °C) = 40 min 2 s (39 min 32 s to 40 min 34 s)
	// <nil>
}

func ExampleTrend_At() {
	e, err := warmUp().At(10 * time.Minute)
	fmt.Println(e.Low.Text(units.FahrenheitScale, 1), e.Best.Text(units.FahrenheitScale, 1), e.High.Text(units.FahrenheitScale, 1), err)
	// Output: 107.8 °F 109.6 °F 111.3 °F <nil>
}

func ExampleTrend_Fit() {
	fit, err := warmUp().Fit()
	fmt.Println(fit.Start.Text(units.FahrenheitScale, 1), fit.Tau.Round(time.Minute), err)
	// Output: 75.0 °F 25m0s <nil>
}

func ExampleTrend_Forecast() {
	f, err := warmUp().Forecast(thermal.Window{Low: units.Fahrenheit(100), High: units.Fahrenheit(115)})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("opens", f.Opens)
	fmt.Println("closes", f.Closes)
	now := 6 * time.Minute
	fmt.Println("wait", f.Opens.After(now))
	// Output:
	// opens 6 min 48 s (6 min 31 s to 7 min 9 s)
	// closes 12 min (11 min 14 s to 12 min 59 s)
	// wait 48 s (31 s to 1 min 9 s)
}

func ExampleForecast_Steps() {
	f, err := warmUp().Forecast(thermal.Window{Low: units.Fahrenheit(100), High: units.Fahrenheit(115)})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(f.Steps()[1:].Text())
	// Output:
	// window opens at 37.8 °C (100.0 °F) = τ·ln[(Tinf - T0)/(Tinf - T)] = 25.021 min × ln(58.33 °C/44.44 °C) = 6 min 48 s (6 min 31 s to 7 min 9 s)
	// window closes at 46.1 °C (115.0 °F) = τ·ln[(Tinf - T0)/(Tinf - T)] = 25.021 min × ln(58.33 °C/36.11 °C) = 12 min (11 min 14 s to 12 min 59 s)
}

func ExampleMoment_After() {
	m := thermal.Moment{Earliest: 4 * time.Minute, Best: 6 * time.Minute, Latest: thermal.Never}
	fmt.Println(m.After(5 * time.Minute))
	// Output: 1 min (0 s to never)
}

func ExampleMoment_String() {
	fmt.Println(thermal.Moment{Earliest: 4 * time.Minute, Best: 6 * time.Minute, Latest: 9 * time.Minute})
	// Output: 6 min (4 min to 9 min)
}

func ExampleLumped_At() {
	l := thermal.Lumped{Start: units.Celsius(20), Plateau: units.Celsius(80), Tau: 10 * time.Minute}
	// 80 - 60·exp(-1) = 57.93.
	t, err := l.At(10 * time.Minute)
	fmt.Println(t.Text(units.CelsiusScale, 2), err)
	// Output: 57.93 °C <nil>
}

func ExampleLumped_Reach() {
	l := thermal.Lumped{Start: units.Celsius(20), Plateau: units.Celsius(80), Tau: 10 * time.Minute}
	// Half-way: 10 min × ln 2 = 6.93 min.
	at, err := l.Reach(units.Celsius(50))
	fmt.Println(at.Round(time.Second), err)
	// Output: 6m56s <nil>
}
