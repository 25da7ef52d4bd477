package jobfile

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"example.com/meniscus/exchange"
	"example.com/meniscus/internal/sheet"
	"example.com/meniscus/units"
)

// Ask is what else the job file wants to know. A nil part was not asked.
type Ask struct {
	Interval *Interval // [ask.interval]
	WhatIf   *WhatIf   // [ask.what_if]
	Bottles  *Bottles  // [ask.bottles]
	Flush    *Flush    // [ask.flush]
	Samples  []Sample  // [ask.samples.N]
	Markers  []Marker  // [ask.markers.N]
	Fresh    float64   // what new fluid reads on the markers' scale
	WarmUp   *WarmUp   // [ask.warm_up]
	CoolDown *CoolDown // [ask.cool_down]
	Infrared *Infrared // [ask.infrared]
	Tilt     *Tilt     // [ask.tilt]
	Adapter  *Adapter  // [ask.adapter]
	PutBack  *PutBack  // [ask.put_back]
	CameIn   exchange.CameIn
}

// Interval is a schedule to judge by the age of the fluid, kept by distance or
// by time.
type Interval struct {
	Every   units.Distance
	Time    time.Duration // instead of Every
	Drains  int
	Leak    units.Volume // lost and topped up little by little, over Every or Time
	Against *Interval    // another schedule to set beside it
}

// WhatIf is an assumed share of the difference between sump and fluid held back
// that each run of the gears closes, given or worked out from a flow.
type WhatIf struct {
	Share   float64      // 0 to 1
	Flow    units.Volume // each way, a minute; zero: Share was given
	Minutes float64      // of each run
}

// Bottles is a supply to make the best of.
type Bottles struct {
	Bottle units.Volume
	Count  int
	Price  decimal.Decimal
	Budget decimal.Decimal
}

// Flush is a through-flow after the planned drains.
type Flush struct {
	Volume units.Volume
	Flow   exchange.Flow
	Tanks  int
}

// Sample is one drain whose fluid was compared with old and new.
type Sample struct {
	Volume   units.Volume
	OldShare float64
}

// Marker is one reading of a marker in a drained sample.
type Marker struct {
	Reading float64
	Volume  units.Volume
}

// Tilt is a vehicle that does not stand level; the surface is taken as a
// rectangle.
type Tilt struct {
	Length, Width, Hole units.Length
	Degrees             float64
}

// Adapter is a wrench lengthened at its head.
type Adapter struct {
	Plug             string
	Lever, Extension units.Length
	Degrees          float64
}

// PutBack asks for the mark to fill to.
type PutBack struct {
	Temperature units.Temperature
	Vessel      string
}

const (
	lengthForm = `write it like "250 mm"`
	numberForm = `write it like "1.5"`
)

func readAsk(t *sheet.Table) Ask {
	var a Ask
	if i := t.Sub("interval"); i.Present() {
		a.Interval = readInterval(i)
		if other := i.Sub("against"); other.Present() {
			a.Interval.Against = readInterval(other)
		}
	}
	if w := t.Sub("what_if"); w.Present() {
		a.WhatIf = readWhatIf(w)
	}
	if b := t.Sub("bottles"); b.Present() {
		a.Bottles = readBottles(b)
	}
	if f := t.Sub("flush"); f.Present() {
		a.Flush = readFlush(f)
	}
	for _, s := range t.Sub("samples").Numbered() {
		volume, _ := sheet.Take(s.Need("volume"), "job-volume", volumeForm, positive)
		old, _ := sheet.Take(s.Need("old_share"), "job-share", `write it like "80 %"`, share)
		a.Samples = append(a.Samples, Sample{volume, old})
	}
	readMarkers(t.Sub("markers"), &a)
	readHeat(t, &a)
	readShop(t, &a)
	a.CameIn, _ = sheet.Take(t.Sub("level").String("came_in"), "job-came-in", `write "unknown" or "right"`, cameIn)
	return a
}

func readInterval(t *sheet.Table) *Interval {
	i := &Interval{}
	every, _ := sheet.Take(t.Need("every"), "job-interval", `write it like "30000 km", "20000 mi" or "730 days"`, readEvery)
	i.Every, i.Time = every.distance, every.time
	i.Drains, _ = t.Need("drains").Count(1, 20)
	i.Leak, _ = sheet.Take(t.String("leak"), "job-volume", volumeForm, notNegative)
	return i
}

type every struct {
	distance units.Distance
	time     time.Duration
}

// readEvery reads a distance, or a whole number of days up to a century.
func readEvery(s string) (every, error) {
	text, inDays := strings.CutSuffix(s, " days")
	if !inDays {
		d, err := units.ParseDistance(s)
		return every{distance: d}, err
	}
	n, err := strconv.ParseUint(text, 10, 32)
	if err != nil || n == 0 || n > 36525 {
		return every{}, errors.New("not a number of days; want 1 to 36525")
	}
	return every{time: time.Duration(n) * 24 * time.Hour}, nil
}

func readWhatIf(t *sheet.Table) *WhatIf {
	w := &WhatIf{}
	if flow := t.String("flow"); flow.OK() {
		w.Flow, _ = sheet.Take(flow, "job-volume", `write the flow in a minute, like "0.8 L"`, positive)
		w.Minutes, _ = sheet.Take(t.Need("minutes"), "job-number", numberForm, number)
		return w
	}
	w.Share, _ = sheet.Take(t.Need("share"), "job-share", `write it like "40 %", or give flow and minutes`, share)
	return w
}

func readBottles(t *sheet.Table) *Bottles {
	b := &Bottles{}
	b.Bottle, _ = sheet.Take(t.Need("bottle"), "job-volume", volumeForm, positive)
	b.Count, _ = t.String("count").Count(1, 1000)
	b.Price, _ = sheet.Take(t.String("price"), "job-price", `write it like "11.40"`, price)
	b.Budget, _ = sheet.Take(t.String("budget"), "job-price", `write it like "80.00"`, price)
	return b
}

func readFlush(t *sheet.Table) *Flush {
	f := &Flush{}
	f.Volume, _ = sheet.Take(t.Need("volume"), "job-volume", volumeForm, positive)
	f.Flow, _ = sheet.Take(t.String("flow"), "job-flow", `write "unknown", "mixed", "plug" or "tanks"`, throughFlow)
	f.Tanks, _ = t.String("tanks").Count(1, 10_000)
	return f
}

func readMarkers(t *sheet.Table, a *Ask) {
	a.Fresh, _ = sheet.Take(t.String("fresh"), "job-number", numberForm, number)
	for _, m := range t.Numbered() {
		reading, _ := sheet.Take(m.Need("reading"), "job-number", numberForm, number)
		volume, _ := sheet.Take(m.Need("volume"), "job-volume", volumeForm, positive)
		a.Markers = append(a.Markers, Marker{reading, volume})
	}
}

func readShop(t *sheet.Table, a *Ask) {
	if tilt := t.Sub("tilt"); tilt.Present() {
		a.Tilt = &Tilt{}
		a.Tilt.Length, _ = sheet.Take(tilt.Need("length"), "job-length", lengthForm, units.ParseLength)
		a.Tilt.Width, _ = sheet.Take(tilt.Need("width"), "job-length", lengthForm, units.ParseLength)
		a.Tilt.Hole, _ = sheet.Take(tilt.Need("hole"), "job-length", lengthForm, units.ParseLength)
		a.Tilt.Degrees, _ = sheet.Take(tilt.Need("degrees"), "job-number", numberForm, signedNumber)
	}
	if p := t.Sub("put_back"); p.Present() {
		a.PutBack = &PutBack{Vessel: p.String("vessel").String()}
		a.PutBack.Temperature, _ = sheet.Take(p.Need("temperature"), "job-temperature", temperatureForm, units.ParseTemperature)
	}
	if w := t.Sub("adapter"); w.Present() {
		a.Adapter = &Adapter{Plug: w.Need("plug").String()}
		a.Adapter.Lever, _ = sheet.Take(w.Need("lever"), "job-length", lengthForm, units.ParseLength)
		a.Adapter.Extension, _ = sheet.Take(w.Need("extension"), "job-length", lengthForm, units.ParseLength)
		a.Adapter.Degrees, _ = sheet.Take(w.String("degrees"), "job-number", numberForm, number)
	}
}

func price(s string) (decimal.Decimal, error) {
	if _, err := number(s); err != nil {
		return decimal.Decimal{}, errors.New("not a price; want a plain number")
	}
	return decimal.NewFromString(s)
}

func signedNumber(s string) (float64, error) {
	if len(s) > 1 && s[0] == '-' {
		x, err := number(s[1:])
		return -x, err
	}
	return number(s)
}

func throughFlow(s string) (exchange.Flow, error) {
	for _, f := range [...]exchange.Flow{exchange.FlowUnknown, exchange.FlowMixed, exchange.FlowPlug, exchange.FlowTanks} {
		if f.String() == s {
			return f, nil
		}
	}
	return exchange.FlowUnknown, fmt.Errorf("%.20q is no kind of flow", s)
}

func cameIn(s string) (exchange.CameIn, error) {
	for _, c := range [...]exchange.CameIn{exchange.CameInUnknown, exchange.CameInRight} {
		if c.String() == s {
			return c, nil
		}
	}
	return exchange.CameInUnknown, fmt.Errorf("%.20q is not known", s)
}
