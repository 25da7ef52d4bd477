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

func (s *Spec) plug(id string) (sealing.Plug, bool) {
	for i := range s.Plugs {
		if s.Plugs[i].ID == id {
			return s.Plugs[i], true
		}
	}
	return sealing.Plug{}, false
}

// plugFor returns the plug named, or the first of that role where none is.
func (s *Spec) plugFor(id string, role sealing.Role) (sealing.Plug, bool) {
	if id != "" {
		return s.plug(id)
	}
	for i := range s.Plugs {
		if s.Plugs[i].Role == role {
			return s.Plugs[i], true
		}
	}
	return sealing.Plug{}, false
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
