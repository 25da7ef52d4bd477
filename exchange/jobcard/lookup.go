package jobcard

import (
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

func (s *Spec) reference() units.Temperature {
	if s.Reference.IsZero() {
		return thermal.ReferenceTemperature()
	}
	return s.Reference
}

// plugIndex says where every plug stands in the list: an entry asks several times, and
// a strike asks for all entries again.
type plugIndex struct {
	byID   map[string]int
	byRole [sealing.Check + 1]int // place of the first of that role, counted from 1; 0: none
}

func indexPlugs(plugs []sealing.Plug) plugIndex {
	x := plugIndex{byID: make(map[string]int, len(plugs))}
	for i, p := range plugs {
		x.byID[p.ID] = i
		if x.byRole[p.Role] == 0 { // the spec's Check has refused other roles
			x.byRole[p.Role] = i + 1
		}
	}
	return x
}

// plug returns the place of the plug named.
func (x plugIndex) plug(id string) (int, bool) {
	i, ok := x.byID[id]
	return i, ok
}

// plugFor returns the place of the plug named, or of the first of that role where none is.
func (x plugIndex) plugFor(id string, role sealing.Role) (int, bool) {
	if id != "" {
		return x.plug(id)
	}
	i := x.byRole[role]
	return i - 1, i > 0
}

func (s *Spec) washer(id string) (sealing.Washer, bool) {
	for i := range s.Washers {
		if s.Washers[i].ID == id {
			return s.Washers[i], true
		}
	}
	return sealing.Washer{}, false
}

func (s *Spec) tool(id string) (sealing.Tool, bool) {
	for i := range s.Tools {
		if s.Tools[i].ID == id {
			return s.Tools[i], true
		}
	}
	return sealing.Tool{}, false
}

func (s *Spec) vessel(id string) (thermal.Vessel, bool) {
	for i := range s.Vessels {
		if s.Vessels[i].ID == id {
			return s.Vessels[i], true
		}
	}
	return thermal.Vessel{}, false
}

func (s *Spec) thermometer(id string) (Thermometer, bool) {
	for i := range s.Thermometers {
		if s.Thermometers[i].ID == id {
			return s.Thermometers[i], true
		}
	}
	return Thermometer{}, false
}

func (s *Spec) scale(id string) (Scale, bool) {
	for i := range s.Scales {
		if s.Scales[i].ID == id {
			return s.Scales[i], true
		}
	}
	return Scale{}, false
}
