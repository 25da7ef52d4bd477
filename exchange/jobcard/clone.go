package jobcard

import "slices"

// clone copies the lists, so that neither side can change the other's.
func (s Spec) clone() Spec {
	s.Fluid.Table = slices.Clone(s.Fluid.Table)
	s.Plugs = slices.Clone(s.Plugs)
	s.Washers = slices.Clone(s.Washers)
	s.Tools = slices.Clone(s.Tools)
	s.Vessels = slices.Clone(s.Vessels)
	s.Thermometers = slices.Clone(s.Thermometers)
	s.Scales = slices.Clone(s.Scales)
	return s
}
