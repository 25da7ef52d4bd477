package refdata

import (
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// Outline is what a plan needs of a procedure: its figures without its lists, so
// that a program that asks often pays for no copy. Zero values: not stated.
type Outline struct {
	ID, Title string
	Capacity  units.Range[units.VolumeDim] // whole system at Reference
	Sump      units.Volume                 // what the drain plug can reach
	ColdDrain units.Range[units.VolumeDim] // what one drain usually releases, settled and cold
	Reference units.Temperature            // of the volumes; zero: 15 °C
	CaseMetal thermal.Material
	Fluid     string         // id of a fluid class of the pack
	Overfill  units.Volume   // put in on purpose before the check
	Kept      units.Volume   // stays in the pump or hose once
	MixRuns   int            // through the gears
	Window    thermal.Window // zero: the box has none
}

// Outline returns the outline of the procedure with that id. It copies no list and
// allocates nothing: some tens of nanoseconds in a pack of any size.
func (p *Pack) Outline(id string) (Outline, bool) {
	i, ok := p.find(id)
	if !ok {
		return Outline{}, false
	}
	return p.procedures[i].Outline, true
}

// Plug returns a plug of the procedure with that id, by the plug's own id. Like
// Outline it copies no list.
func (p *Pack) Plug(id, plug string) (sealing.Plug, bool) {
	if i, ok := p.find(id); ok {
		for _, x := range p.procedures[i].Plugs {
			if x.ID == plug {
				return x, true
			}
		}
	}
	return sealing.Plug{}, false
}

// Washer returns a washer of the procedure with that id, by the washer's own id.
// Like Outline it copies no list.
func (p *Pack) Washer(id, washer string) (sealing.Washer, bool) {
	if i, ok := p.find(id); ok {
		for _, x := range p.procedures[i].Washers {
			if x.ID == washer {
				return x, true
			}
		}
	}
	return sealing.Washer{}, false
}
