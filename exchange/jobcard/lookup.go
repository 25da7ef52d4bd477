package jobcard

import (
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

func (s Spec) reference() units.Temperature {
	if s.Reference.IsZero() {
		return thermal.ReferenceTemperature()
	}
	return s.Reference
}

func (s Spec) plug(id string) (sealing.Plug, bool) {
	for _, p := range s.Plugs {
		if p.ID == id {
			return p, true
		}
	}
	return sealing.Plug{}, false
}

// plugFor returns the plug named, or the first of that role where none is.
func (s Spec) plugFor(id string, role sealing.Role) (sealing.Plug, bool) {
	if id != "" {
		return s.plug(id)
	}
	for _, p := range s.Plugs {
		if p.Role == role {
			return p, true
		}
	}
	return sealing.Plug{}, false
}

func (s Spec) washer(id string) (sealing.Washer, bool) {
	for _, w := range s.Washers {
		if w.ID == id {
			return w, true
		}
	}
	return sealing.Washer{}, false
}

func (s Spec) tool(id string) (sealing.Tool, bool) {
	for _, t := range s.Tools {
		if t.ID == id {
			return t, true
		}
	}
	return sealing.Tool{}, false
}

func (s Spec) vessel(id string) (thermal.Vessel, bool) {
	for _, v := range s.Vessels {
		if v.ID == id {
			return v, true
		}
	}
	return thermal.Vessel{}, false
}

func (s Spec) thermometer(id string) (Thermometer, bool) {
	for _, t := range s.Thermometers {
		if t.ID == id {
			return t, true
		}
	}
	return Thermometer{}, false
}

func (s Spec) scale(id string) (Scale, bool) {
	for _, w := range s.Scales {
		if w.ID == id {
			return w, true
		}
	}
	return Scale{}, false
}
