package sealing

import (
	"fmt"

	"example.com/meniscus/units"
)

// Verdict says whether a washer fits a plug. The zero value is CannotCheck.
type Verdict uint8

// The verdicts.
const (
	CannotCheck Verdict = iota // a dimension that decides is missing
	Fits
	DoesNotFit
)

// String returns "cannot check", "fits" or "does not fit".
func (v Verdict) String() string {
	switch v {
	case Fits:
		return "fits"
	case DoesNotFit:
		return "does not fit"
	}
	return "cannot check"
}

// MarshalText returns String.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// FitReport is whether a washer fits, and every reason.
type FitReport struct {
	Verdict Verdict
	Reasons []string     // what is wrong, or what is missing; empty where it fits
	Land    units.Length // width of ring pressed between collar and seat; zero where not known
}

// Fit judges a washer on a plug by measured geometry: the ring must pass the
// thread and clear the shoulder, stay under the collar and on the seat, and
// leave a land that is pressed on both sides. The seat is judged where it was
// measured. One fault is enough for DoesNotFit whatever else is missing.
func Fit(p Plug, w Washer) FitReport {
	var bad, missing []string
	if p.Thread.Taper() {
		return FitReport{Verdict: DoesNotFit, Reasons: []string{p.Thread.String() + " seals on its taper and takes no washer"}}
	}
	for _, l := range []namedLength{
		{"the plug's shoulder", p.Shoulder}, {"the plug's collar", p.Collar},
		{"the washer's inner diameter", w.Inner}, {"the washer's outer diameter", w.Outer},
	} {
		if l.size.Sign() <= 0 {
			missing = append(missing, l.name+" was not measured")
		}
	}
	both := func(a, b units.Length) bool { return a.Sign() > 0 && b.Sign() > 0 }
	if d := p.Thread.Diameter(); both(d, w.Inner) && w.Inner.Compare(d) < 0 {
		bad = append(bad, fmt.Sprintf("the ring's hole of %s does not pass the %s thread", w.Inner, p.Thread))
	}
	if both(w.Inner, p.Shoulder) && w.Inner.Compare(p.Shoulder) <= 0 {
		bad = append(bad, fmt.Sprintf("the ring's hole of %s rides on the shoulder of %s", w.Inner, p.Shoulder))
	}
	if both(w.Outer, p.Collar) && w.Outer.Compare(p.Collar) > 0 {
		bad = append(bad, fmt.Sprintf("the ring of %s stands out past the collar of %s", w.Outer, p.Collar))
	}
	if both(w.Outer, p.Seat) && w.Outer.Compare(p.Seat) > 0 {
		bad = append(bad, fmt.Sprintf("the ring of %s overhangs the seat of %s", w.Outer, p.Seat))
	}
	land := land(p, w)
	if land.Sign() < 0 {
		bad = append(bad, "the collar presses on no part of the ring")
	}
	switch {
	case len(bad) > 0:
		return FitReport{Verdict: DoesNotFit, Reasons: bad}
	case len(missing) > 0:
		return FitReport{Verdict: CannotCheck, Reasons: missing}
	}
	return FitReport{Verdict: Fits, Land: land}
}

// land returns half of what the collar covers of the ring, negative where it
// covers nothing, zero where a dimension is missing.
func land(p Plug, w Washer) units.Length {
	if w.Inner.Sign() <= 0 || w.Outer.Sign() <= 0 || p.Collar.Sign() <= 0 {
		return units.Length{}
	}
	outer := w.Outer
	for _, edge := range []units.Length{p.Collar, p.Seat} {
		if edge.Sign() > 0 && edge.Compare(outer) < 0 {
			outer = edge
		}
	}
	return outer.Sub(w.Inner).Scale(0.5)
}
