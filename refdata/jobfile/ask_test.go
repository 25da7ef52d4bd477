package jobfile_test

import (
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"example.com/meniscus/exchange"
	"example.com/meniscus/refdata/jobfile"
	"example.com/meniscus/units"
)

func TestEveryQuestionIsRead(t *testing.T) {
	f, err := read(head + `
[ask.level]
came_in = "right"
[ask.interval]
every = "20000 mi"
drains = "2"
leak = "1 L"
[ask.interval.against]
every = "730 days"
drains = "1"
[ask.what_if]
flow = "0.5 L"
minutes = "4"
[ask.bottles]
bottle = "1 US qt"
count = "6"
price = "11.40"
budget = "80"
[ask.flush]
volume = "5 L"
flow = "tanks"
tanks = "3"
[ask.samples.1]
volume = "2 L"
old_share = "90 %"
[ask.markers]
fresh = "0.5"
[ask.markers.2]
reading = "80"
volume = "2 L"
[ask.markers.1]
reading = "100"
volume = "2.1 L"
[ask.warm_up]
plateau_low = "80 °C"
plateau_high = "90 °C"
offset = "1 °C"
[ask.warm_up.reading.1]
after = "4m30s"
temperature = "20 °C"
[ask.cool_down]
plateau_low = "15 °C"
to = "40 °C"
[ask.cool_down.reading.1]
after = "2m"
temperature = "60 °C"
[ask.infrared]
sensor = "41 °C"
sensor_plus_minus = "2 °C"
reading = "40 °C"
reflected = "15 °C"
emissivity = "0.93"
plus_minus = "0.02"
set = "0.95"
reflection_subtracted = "yes"
[ask.tilt]
length = "400 mm"
width = "300 mm"
hole = "-100 mm"
degrees = "-1.5"
[ask.put_back]
temperature = "20 °C"
vessel = "jug-a"
[ask.adapter]
plug = "drain"
lever = "250 mm"
extension = "60 mm"
degrees = "90"
`)
	if err != nil {
		t.Fatal(err)
	}
	a := f.Ask
	for name, ok := range map[string]bool{
		"level":    a.CameIn == exchange.CameInRight,
		"interval": a.Interval.Every == units.Mile.Of(20000) && a.Interval.Drains == 2 && a.Interval.Leak == units.Litre.Of(1) && a.Interval.Against.Time == 730*24*time.Hour && a.Interval.Against.Every.IsZero(),
		"what_if":  *a.WhatIf == jobfile.WhatIf{Flow: units.Litre.Of(0.5), Minutes: 4},
		"bottles":  a.Bottles.Bottle == units.USQuart.Of(1) && a.Bottles.Count == 6 && a.Bottles.Price.Equal(decimal.RequireFromString("11.40")) && a.Bottles.Budget.Equal(decimal.NewFromInt(80)),
		"flush":    *a.Flush == jobfile.Flush{Volume: units.Litre.Of(5), Flow: exchange.FlowTanks, Tanks: 3},
		"samples":  len(a.Samples) == 1 && a.Samples[0] == jobfile.Sample{Volume: units.Litre.Of(2), OldShare: 0.9},
		"markers":  len(a.Markers) == 2 && a.Markers[0] == jobfile.Marker{Reading: 100, Volume: units.Litre.Of(2.1)} && a.Fresh == 0.5,
		"warm_up":  a.WarmUp.PlateauHigh == units.Celsius(90) && a.WarmUp.After[0] == 4*time.Minute+30*time.Second && a.WarmUp.Readings[0] == units.Celsius(20),
		"cool":     a.CoolDown.To == units.Celsius(40) && a.CoolDown.After[0] == 2*time.Minute && a.CoolDown.Readings[0] == units.Celsius(60),
		"infrared": a.Infrared.Sensor == units.Celsius(41) && a.Infrared.SensorOff == units.CelsiusDegree.Of(2) && a.Infrared.Emissivity == 0.93 && a.Infrared.Set == 0.95 && a.Infrared.Subtracted,
		"tilt":     a.Tilt.Hole == units.Millimetre.Of(-100) && a.Tilt.Degrees == -1.5,
		"put_back": *a.PutBack == jobfile.PutBack{Temperature: units.Celsius(20), Vessel: "jug-a"},
		"adapter":  a.Adapter.Plug == "drain" && a.Adapter.Degrees == 90,
	} {
		if !ok {
			t.Errorf("%s was read as %+v", name, a)
		}
	}
	none, err := read(head)
	if err != nil || none.Ask.Interval != nil || none.Ask.Samples != nil || none.Ask.CameIn != exchange.CameInUnknown {
		t.Errorf("nothing asked, but read as %+v, %v", none.Ask, err)
	}
}

func TestQuestionsThatCannotBeReadSayWhy(t *testing.T) {
	for text, want := range map[string]string{
		"[ask.interval]\nevery = \"30000\"\ndrains = \"1\"\n":                                     "ask.interval.every",
		"[ask.interval]\nevery = \"30000 km\"\n":                                                  "drains",
		"[ask.interval]\nevery = \"0 days\"\ndrains = \"1\"\n":                                    "not a number of days",
		"[ask.interval]\nevery = \"36526 days\"\ndrains = \"1\"\n":                                "want 1 to 36525",
		"[ask.what_if]\nminutes = \"4\"\n":                                                        "ask.what_if",
		"[ask.what_if]\nflow = \"1 L\"\n":                                                         "minutes",
		"[ask.cool_down]\nplateau_low = \"15 °C\"\n":                                              "to",
		"[losses]\nfilm_each_time = \"-1 mL\"\n":                                                  "losses.film_each_time",
		"[ask.bottles]\nbottle = \"1 L\"\nprice = \"eleven\"\n":                                   "not a price",
		"[ask.flush]\nvolume = \"5 L\"\nflow = \"swirl\"\n":                                       "no kind of flow",
		"[ask.samples.first]\nvolume = \"2 L\"\nold_share = \"90 %\"\n":                           "ask.samples.first",
		"[ask.level]\ncame_in = \"maybe\"\n":                                                      "not known",
		"[ask.warm_up]\nplateau_low = \"80 °C\"\n[ask.warm_up.reading.1]\nafter = \"-4m\"\n":      "not a length of time",
		"[ask.tilt]\nlength = \"400 mm\"\nwidth = \"300 mm\"\nhole = \"9 mm\"\ndegrees = \"x\"\n": "not a plain number",
		"[ask.tides]\nheight = \"2 m\"\n":                                                         "tides",
	} {
		if _, err := read(head + text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v; want %q", text, err, want)
		}
	}
}

func TestLossesAreRead(t *testing.T) {
	f, err := read(head + "[losses]\nkept_once = \"0.25 L\"\nkept_each_time = \"10 mL\"\nfilm_each_time = \"15 mL\"\nline_returns = \"5 mL\"\n")
	ml := units.Millilitre.Of
	if want := (exchange.Losses{KeptOnce: ml(250), KeptEachTime: ml(10), FilmEachTime: ml(15), LineReturns: ml(5)}); err != nil || f.Losses != want {
		t.Errorf("%+v, %v", f, err)
	}
}

// A share given and 36525 days, the last that is taken.
func TestQuestionsAtTheirEnds(t *testing.T) {
	f, err := read(head + "[ask.what_if]\nshare = \"40 %\"\n[ask.interval]\nevery = \"36525 days\"\ndrains = \"20\"\n")
	if err != nil || *f.Ask.WhatIf != (jobfile.WhatIf{Share: 0.4}) || f.Ask.Interval.Time != 36525*24*time.Hour {
		t.Errorf("%v, %v", f, err)
	}
}
