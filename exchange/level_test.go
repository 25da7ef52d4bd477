package exchange

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"example.com/meniscus/internal/published"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

func levelOil(t testing.TB, rho15 float64) thermal.Fluid {
	t.Helper()
	f, err := thermal.Lubricant(units.Density(rho15))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// levelVolume is v with a standard uncertainty of its own, both in millilitres.
func levelVolume(t testing.TB, id string, v, u float64) measure.Volume {
	t.Helper()
	m, err := measure.MeasuredFrom[units.VolumeDim](tiltDoubt(t, id, v/1000, u/1000))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func levelAt(t testing.TB, celsius, u float64) measure.Temperature {
	t.Helper()
	c, err := measure.NewCause("probe", "probe", measure.Normal, 0)
	if err != nil {
		t.Fatal(err)
	}
	m, err := measure.NewTemperature(units.Celsius(celsius), measure.Term{Cause: c, Scale: u})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// levelCheck is a box of 10 L at mid-window, which came in right; 35 to 45 °C.
func levelCheck(t testing.TB, net measure.Volume) LevelCheck {
	return LevelCheck{
		Net: net, CameIn: CameInRight, Capacity: measure.MeasuredExactly(units.Litre.Of(10)),
		Fluid: levelOil(t, 850), Case: thermal.Aluminium,
		Window: thermal.Window{Low: units.Celsius(35), High: units.Celsius(45)},
		At:     measure.TemperatureExactly(units.Celsius(40)),
	}
}

// Every row of the computed table: a reading wrong by so many degrees closes
// the plug at another temperature, and is worth just those degrees again.
func TestLevelPublishedSensitivity(t *testing.T) {
	for _, row := range published.Load(t, "level_sensitivity").Rows() {
		c := levelCheck(t, measure.Volume{})
		c.Capacity = measure.MeasuredExactly(units.Litre.Of(row.Float("system_L")))
		c.Fluid, c.Case = levelOil(t, row.Float("rho15")), thermal.Uncorrected
		c.Window = thermal.Window{Low: units.Fahrenheit(97), High: units.Fahrenheit(115)}
		for _, k := range []struct {
			column  string
			degrees float64
			within  float64 // half the last digit, and the bend of the law over that far
		}{
			{"mL_per_degF", 1, 0.0051 + 0.003},
			{"err_mL_for_3.6F(2K)_sensor_error", 3.6, 0.06},
			{"err_mL_for_10F_IR_error", 10, 0.3},
			{"err_mL_for_34F_error(bare-Al IR, eps 0.1)", 34, 3},
		} {
			c.At = measure.TemperatureExactly(units.Fahrenheit(106 + k.degrees))
			e, err := c.Expect()
			if err != nil {
				t.Fatal(err)
			}
			if got := -e.AtLip.Best().In(units.Millilitre); math.Abs(got-row.Float(k.column)) > k.within {
				t.Errorf("line %d: %g mL for %g °F, want %s", row.Line(), got, k.degrees, row.Text(k.column))
			}
			if got := -e.Worth.In(units.FahrenheitDegree); math.Abs(got-k.degrees) > 0.02*k.degrees {
				t.Errorf("line %d: worth %g °F, want %g", row.Line(), got, k.degrees)
			}
		}
	}
}

// The slow way: follow the fluid itself, as a volume at 15 °C, and the space
// under the lip.
func TestLevelSlow(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 42))
	for range 300 {
		net, before := 800*r.Float64()-400, 600*r.Float64()-300
		c := levelCheck(t, levelVolume(t, "net", net, 20))
		c.CameIn, c.CameInBy = CameInOff, levelVolume(t, "before", before, 30)
		c.NetAt = units.Celsius(50 * r.Float64())
		at := 20 + 60*r.Float64()
		c.At = levelAt(t, at, 1)
		degrees := 4*r.Float64() - 2
		c.Tilt = Tilt{Area: tiltExact(t, 0.05), Hole: measure.MeasuredExactly(units.Metre.Of(0.15)), Degrees: tiltDoubt(t, "slope", degrees, 0.2)}
		e, err := c.Expect()
		if err != nil {
			t.Fatal(err)
		}
		factor := func(celsius float64) float64 {
			f, err := c.Fluid.Factor(units.Celsius(celsius))
			if err != nil {
				t.Fatal(err)
			}
			return f
		}
		gamma, _, _ := thermal.Aluminium.Expansion()
		mid := 40.0
		at15 := 10000*factor(mid) + before*factor(mid) + net*factor(c.NetAt.Celsius())
		lip := 10000*(1+gamma*(at-mid)) + 1e6*0.05*0.15*math.Tan(degrees*math.Pi/180)
		runs := (at15/factor(at) - lip) * factor(at) / factor(mid)
		atLip := lip*factor(at)/factor(mid) - 10000
		if math.Abs(e.Runs.Best().In(units.Millilitre)-runs) > 1e-6 || math.Abs(e.AtLip.Best().In(units.Millilitre)-atLip) > 1e-6 {
			t.Fatalf("runs %s, at lip %s; want %g, %g mL", e.Runs.Best(), e.AtLip.Best(), runs, atLip)
		}
		levelCheckDoubt(t, c, e)
	}
}

// levelCheckDoubt holds the standard uncertainty to differences of the whole
// calculation, one input moved at a time.
func levelCheckDoubt(t *testing.T, c LevelCheck, e LevelExpectation) {
	t.Helper()
	squares := 0.0
	move := func(by func(*LevelCheck, float64)) {
		t.Helper()
		var ends [2]float64
		for i, k := range []float64{-0.5, 0.5} {
			moved := c
			by(&moved, k)
			x, err := moved.Expect()
			if err != nil {
				t.Fatal(err)
			}
			ends[i] = x.Runs.Best().In(units.Litre)
		}
		squares += (ends[1] - ends[0]) * (ends[1] - ends[0])
	}
	move(func(c *LevelCheck, k float64) { c.Net = c.Net.Add(levelVolume(t, "k", 20*k, 0)) })
	move(func(c *LevelCheck, k float64) { c.CameInBy = c.CameInBy.Add(levelVolume(t, "k", 30*k, 0)) })
	move(func(c *LevelCheck, k float64) {
		c.At = measure.TemperatureExactly(c.At.Best().Add(units.CelsiusDegree.Of(k)))
	})
	move(func(c *LevelCheck, k float64) { c.Tilt.Degrees = tiltExact(t, c.Tilt.Degrees.Value()+0.2*k) })
	// The fluid's and the case's own coefficients: the terms named by them.
	for _, term := range e.Runs.Reading().Terms() {
		if strings.Contains(term.Cause.ID(), "expansion") {
			squares += term.Scale * term.Scale
		}
	}
	if want := math.Sqrt(squares); !scheduleClose(e.Runs.U().In(units.Litre), want, 2e-3) {
		t.Fatalf("u %s, by differences %g L", e.Runs.U(), want)
	}
}

// Ledger and check measured in one jug: its error counts once, not twice.
func TestLevelSharedJug(t *testing.T) {
	jug := measure.Jug{ID: "jug", ScaleError: 0.02, Graduation: units.Millilitre.Of(1)}
	read := func(entry string, ml float64) measure.Volume {
		v, err := jug.For(entry).Read(units.Millilitre.Of(ml))
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	c := levelCheck(t, read("refill", 2500).Sub(read("drain", 2000)))
	c.NetAt = units.Celsius(40)
	e, err := c.Expect()
	if err != nil {
		t.Fatal(err)
	}
	f, err := e.Observe(Observation{First: PlugStreams, Last: PlugTrickles, Caught: read("check", 500), CaughtKnown: true})
	if err != nil {
		t.Fatal(err)
	}
	if u := f.Difference.U().In(units.Millilitre); u > 1 {
		t.Errorf("difference known to %g mL; the jug's error should cancel", u)
	}
	if f.Against != AgainstAgrees || f.Zeta > 0.5 {
		t.Errorf("%s, zeta %g", f.Against, f.Zeta)
	}
}

func TestLevelObservations(t *testing.T) {
	trickled := Observation{First: PlugStreams, Last: PlugTrickles, Watched: 40 * time.Second, CaughtKnown: true}
	caught := func(ml float64) Observation {
		o := trickled
		o.Caught = levelVolume(t, "caught", ml, 5)
		return o
	}
	for _, c := range []struct {
		name     string
		net      float64 // ± 40 mL, at 40 °C
		in       CameIn
		o        Observation
		against  Against
		standing Standing
		bound    Bound
		word     string
	}{
		{"as expected", 300, CameInRight, caught(280), AgainstAgrees, AtLip, BoundExact, "agree within the doubt"},
		{"less came", 300, CameInRight, caught(60), AgainstLower, AtLip, BoundExact, "came in 240 mL ± 81 mL (k = 2) low"},
		{"more came", 300, CameInRight, caught(600), AgainstHigher, AtLip, BoundExact, "came in 300 mL ± 81 mL (k = 2) high"},
		{"dry against the ledger", 300, CameInRight, Observation{First: PlugDry}, AgainstLower, BelowLip, BoundAtMost, "came in at least 300 mL ± 80 mL (k = 2) low"},
		{"dry as expected", -300, CameInRight, Observation{First: PlugDry}, AgainstAgrees, BelowLip, BoundAtMost, "top up until it trickles"},
		{"dry, undecided", 20, CameInRight, Observation{First: PlugDry, Watched: time.Minute}, AgainstUndecided, BelowLip, BoundAtMost, "does not decide"},
		{"trickle, undecided", 20, CameInRight, Observation{First: PlugTrickles}, AgainstUndecided, AtLip, BoundAtLeast, "for how long is not recorded"},
		{"trickle though missing", -300, CameInRight, Observation{First: PlugTrickles}, AgainstHigher, AtLip, BoundAtLeast, "came in at least 300 mL ± 80 mL (k = 2) high"},
		{"still running", 300, CameInRight, Observation{First: PlugStreams}, AgainstUndecided, AboveLip, BoundAtLeast, "let it run until the stream breaks"},
		{"still running after more", 300, CameInRight, Observation{First: PlugStreams, Caught: levelVolume(t, "caught", 700, 5), CaughtKnown: true}, AgainstHigher, AboveLip, BoundAtLeast, "at least 400 mL"},
		{"drip as it warms", 0, CameInRight, Observation{First: PlugDry, Last: PlugDrips}, AgainstUndecided, AtLip, BoundAtLeast, "no flow, then drip"},
		{"not watched", 300, CameInRight, Observation{}, AgainstUndecided, StandingUnknown, BoundNone, "not proved"},
		{"came in low", 0, CameInUnknown, Observation{First: PlugDry}, AgainstUndecided, BelowLip, BoundAtMost, "came in right to within its doubt, 0 mL ± 80 mL (k = 2), or lower"},
		{"came in low, topped up 400", 400, CameInUnknown, caught(0), AgainstUndecided, AtLip, BoundExact, "came in 400 mL ± 81 mL (k = 2) low"},
		{"came in low or not, trickles", 20, CameInUnknown, Observation{First: PlugTrickles}, AgainstUndecided, AtLip, BoundAtLeast, "-20 mL ± 80 mL (k = 2), or higher"},
		{"high, dry", -400, CameInUnknown, Observation{First: PlugDry}, AgainstUndecided, BelowLip, BoundAtMost, "came in at most 400 mL ± 80 mL (k = 2) high"},
		{"drip as it warms, watched", 0, CameInRight, Observation{First: PlugDry, Last: PlugDrips, Watched: time.Minute}, AgainstUndecided, AtLip, BoundAtLeast, "Seen at the check plug: no flow, then drip, watched for 1 min."},
		{"caught from no flow to drip", 0, CameInRight, Observation{First: PlugDry, Last: PlugDrips, Caught: levelVolume(t, "caught", 20, 1), CaughtKnown: true}, AgainstAgrees, AtLip, BoundExact, "20 mL caught"},
		{"low by its doubt", 80, CameInUnknown, Observation{First: PlugDry}, AgainstUndecided, BelowLip, BoundAtMost, "came in right to within its doubt, -80 mL ± 80 mL (k = 2), or lower"},
		{"came in low, trickles", 400, CameInUnknown, Observation{First: PlugTrickles}, AgainstUndecided, AtLip, BoundAtLeast, "came in at most 400 mL ± 80 mL (k = 2) low"},
	} {
		check := levelCheck(t, levelVolume(t, "net", c.net, 40))
		check.NetAt, check.CameIn = units.Celsius(40), c.in
		e, err := check.Expect()
		if err != nil {
			t.Fatal(err)
		}
		f, err := e.Observe(c.o)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		words := strings.Join(f.Words, "\n")
		if f.Against != c.against || f.Standing != c.standing || f.Bound != c.bound || !strings.Contains(words, c.word) {
			t.Errorf("%s: %s, %s, %s\n%s", c.name, f.Against, f.Standing, f.Bound, words)
		}
		if c.in == CameInUnknown && (e.Decision.Verdict != measure.Undecided || !strings.Contains(e.Words[0], "proves nothing")) {
			t.Errorf("%s: %v %v", c.name, e.Decision, e.Words)
		}
	}
}

// Caught cold or hot, the same fluid is the same fluid.
func TestLevelCaughtAt(t *testing.T) {
	check := levelCheck(t, levelVolume(t, "net", 300, 40))
	check.NetAt, check.At = units.Celsius(40), measure.TemperatureExactly(units.Celsius(60))
	e, err := check.Expect()
	if err != nil {
		t.Fatal(err)
	}
	cold, err := check.Fluid.Convert(units.Millilitre.Of(500), units.Celsius(60), units.Celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	warm, errWarm := e.Observe(Observation{First: PlugStreams, Last: PlugTrickles, CaughtKnown: true, Caught: measure.MeasuredExactly(units.Millilitre.Of(500))})
	cooled, errCold := e.Observe(Observation{First: PlugStreams, Last: PlugTrickles, CaughtKnown: true, Caught: measure.MeasuredExactly(cold), CaughtAt: measure.TemperatureExactly(units.Celsius(20))})
	if errWarm != nil || errCold != nil || math.Abs(warm.Ran.Best().Sub(cooled.Ran.Best()).In(units.Millilitre)) > 1e-9 {
		t.Errorf("%s against %s, %v %v", warm.Ran.Best(), cooled.Ran.Best(), errWarm, errCold)
	}
}

func TestLevelWordsAndSteps(t *testing.T) {
	c := levelCheck(t, levelVolume(t, "net", -20, 40))
	c.At = measure.TemperatureExactly(units.Celsius(45))
	c.Tilt = Tilt{Area: tiltExact(t, 0.06), Hole: measure.MeasuredExactly(units.Metre.Of(0.2)), Degrees: tiltExact(t, 1)}
	e, err := c.Expect()
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(e.Words, "\n")
	for _, want := range []string{
		"should be missing to the lip", "closing temperature -38 mL", "growth of the case +3 mL", "tilt +209 mL", "worth ",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%s\nlacks %q", text, want)
		}
	}
	steps := e.Steps.Text()
	for _, want := range []string{"beyond the right level at mid-window", "A·x·tan t", "off when closed at the lip", "runs out (+)", "closing + case + tilt = -", " mL + ("} {
		if !strings.Contains(steps, want) {
			t.Errorf("%s\nlacks %q", steps, want)
		}
	}
	c.Net, c.Tilt, c.At = levelVolume(t, "net", 0, 40), Tilt{}, measure.TemperatureExactly(units.Celsius(40))
	if e, err = c.Expect(); err != nil || !strings.Contains(e.Words[0], "can each be right") || e.Decision.Verdict != measure.Undecided {
		t.Errorf("%v %v", e.Words, err)
	}
	if !strings.Contains(e.Words[1], "0 mL ± 0 mL (k = 2) off") {
		t.Errorf("%v", e.Words)
	}
}

// Without a window the temperature of the check costs nothing that could be
// counted; the ledger and the tilt still do.
func TestLevelWithoutWindow(t *testing.T) {
	c := levelCheck(t, levelVolume(t, "net", 300, 10))
	c.Window, c.At, c.NetAt = thermal.Window{}, measure.TemperatureExactly(units.Celsius(60)), units.Celsius(60)
	e, err := c.Expect()
	if err != nil || len(e.Parts) != 0 || e.Runs.Best() != units.Millilitre.Of(300) || !strings.Contains(strings.Join(e.Words, "\n"), "No check window is known") {
		t.Errorf("%+v %v", e, err)
	}
	c.Tilt = Tilt{Area: tiltExact(t, 0.06), Hole: measure.MeasuredExactly(units.Metre.Of(0.2)), Degrees: tiltExact(t, 1)}
	if e, err = c.Expect(); err != nil || len(e.Parts) != 1 || math.Round(e.AtLip.Best().In(units.Millilitre)) != 209 || e.Worth.Sign() <= 0 {
		t.Errorf("%+v %v", e, err)
	}
	f, err := e.Observe(Observation{First: PlugTrickles})
	if err != nil || !strings.Contains(strings.Join(f.Words, "\n"), "209 mL ± 0 mL (k = 2) high at the temperature of the check") {
		t.Errorf("%v %v", f.Words, err)
	}
}

func TestLevelRefuses(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*LevelCheck)
		want   string
	}{
		{"window", func(c *LevelCheck) { c.Window.Low = units.Celsius(50) }, "want low below high"},
		{"half a window", func(c *LevelCheck) { c.Window.Low = units.Temperature{} }, "window"},
		{"other half", func(c *LevelCheck) { c.Window.High = units.Temperature{} }, "window"},
		{"case", func(c *LevelCheck) { c.Case = thermal.UnknownMaterial }, "material"},
		{"fluid", func(c *LevelCheck) { c.Fluid = thermal.Fluid{} }, "exchange: level:"},
		{"capacity", func(c *LevelCheck) { c.Capacity = measure.Volume{} }, "capacity 0 L; want more than 0"},
		{"net", func(c *LevelCheck) { c.Net = c.Net.Scale(math.NaN()) }, "level: net:"},
		{"risk", func(c *LevelCheck) { c.Risk = 0.5 }, "risk 0.5; want above 0, below 0.5"},
		{"NaN risk", func(c *LevelCheck) { c.Risk = math.NaN() }, "risk NaN"},
		{"came in", func(c *LevelCheck) { c.CameIn = 7 }, "level before is 7; want 0 to 2"},
		{"amount without off", func(c *LevelCheck) { c.CameInBy = levelVolume(t, "x", 100, 0) }, "level before is right and off by +100 mL; want an amount with CameInOff only"},
		{"temperature", func(c *LevelCheck) { c.At = measure.Temperature{} }, "exchange: level:"},
		{"tilt", func(c *LevelCheck) { c.Tilt.Degrees = tiltExact(t, 3) }, "area 0 m²"},
		{"broken tilt", func(c *LevelCheck) {
			c.Tilt = Tilt{Area: tiltExact(t, 0.12), Degrees: tiltExact(t, 20), Depth: units.Metre.Of(0.05), Extent: units.Metre.Of(0.2)}
		}, "tilt of 20° is past 14°, where the surface meets the floor or the roof"},
	} {
		check := levelCheck(t, levelVolume(t, "net", 100, 10))
		c.change(&check)
		if _, err := check.Expect(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	e, err := levelCheck(t, measure.Volume{}).Expect()
	if err != nil {
		t.Fatal(err)
	}
	some := levelVolume(t, "c", 100, 1)
	for _, c := range []struct {
		o    Observation
		want string
	}{
		{Observation{First: 9}, "seen 9, then 0; want 0 to 4"},
		{Observation{Last: PlugDry}, "first not seen"},
		{Observation{First: PlugDry, Watched: -1}, "watched for -1ns; want 0 or more"},
		{Observation{First: PlugDry, Caught: some, CaughtKnown: true}, "no flow, yet 0.1 L caught"},
		{Observation{First: PlugStreams, Caught: some}, "want CaughtKnown"},
		{Observation{First: PlugStreams, Caught: some.Scale(-1), CaughtKnown: true}, "caught -0.1 L; want 0 L or more"},
		{Observation{CaughtKnown: true}, "caught, yet nothing seen"},
		{Observation{First: PlugStreams, Caught: some.Scale(math.NaN()), CaughtKnown: true}, "caught:"},
		{Observation{First: PlugStreams, Caught: some, CaughtKnown: true, CaughtAt: measure.TemperatureExactly(units.Celsius(900))}, "exchange: observation:"},
	} {
		if _, err := e.Observe(c.o); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.o, err, c.want)
		}
	}
	if _, err := (LevelExpectation{}).Observe(Observation{First: PlugDry}); err == nil || !strings.Contains(err.Error(), "want the result of") {
		t.Errorf("no expectation: %v", err)
	}
}

func TestLevelNames(t *testing.T) {
	type named interface{ MarshalText() ([]byte, error) }
	for want, v := range map[string]named{
		"unknown": CameInUnknown, "right": CameInRight, "off": CameInOff,
		"not seen": PlugNotSeen, "no flow": PlugDry, "drip": PlugDrips, "trickle": PlugTrickles, "stream": PlugStreams,
		"undecided": AgainstUndecided, "agrees": AgainstAgrees, "lower": AgainstLower, "higher": AgainstHigher,
		"below the lip": BelowLip, "at the lip": AtLip, "above the lip": AboveLip,
		"not known": BoundNone, "measured": BoundExact, "at least": BoundAtLeast, "at most": BoundAtMost,
	} {
		if text, err := v.MarshalText(); err != nil || string(text) != want {
			t.Errorf("%v is %q, want %q", v, text, want)
		}
	}
	for _, v := range []named{CameIn(9), AtPlug(9), Against(9), Standing(9), Bound(9)} {
		if _, err := v.MarshalText(); err == nil || !strings.Contains(err.Error(), "want 0 to") {
			t.Errorf("%T 9: %v", v, err)
		}
	}
	for p := PlugNotSeen; p <= PlugStreams; p++ {
		var back AtPlug
		if err := back.UnmarshalText([]byte(p.String())); err != nil || back != p {
			t.Errorf("%s read as %s, %v", p, back, err)
		}
	}
	p := PlugDrips
	if err := p.UnmarshalText([]byte("gush")); err == nil || p != PlugDrips {
		t.Errorf("%s %v", p, err)
	}
}
