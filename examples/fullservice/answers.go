package main

import (
	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

// window is the verdict on the last reading, and what closing there is worth.
func (s *service) window() windowResult {
	level := s.card.Level()
	r := windowResult{Verdict: "none", Flow: level.Flow, Proof: level.Proof, Why: level.Why}
	if !level.HasWindow {
		return r
	}
	w := s.proc.Window
	r.Low, r.High = &w.Low, &w.High
	if level.Reading == 0 {
		return r
	}
	r.Verdict, r.Temperature = level.Verdict.String(), &level.Temperature
	if closing, ok := s.closing(level.Temperature); ok {
		r.Closing = &closing.Off
	}
	return r
}

// closing is what closing the check plug at a temperature is worth once the box
// is at mid-window.
func (s *service) closing(at units.Temperature) (thermal.Closing, bool) {
	check, err := s.card.LevelCheck(exchange.CameInUnknown)
	if err != nil {
		return thermal.Closing{}, false
	}
	closing, err := check.Window.Closing(check.Fluid, check.Capacity.Best(), check.Case, at)
	return closing, err == nil
}

// settings finds for every plug its torque, the first tool of the shop that can
// set it, and whether its washer fits.
func (s *service) settings() []setting {
	list := []setting{}
	for _, p := range s.proc.Plugs {
		row := setting{Plug: p.ID, Torque: p.Torque, PoundFeet: p.Torque.In(units.PoundForceFoot), Turns: p.Turns, Washer: p.Washer}
		for _, tool := range s.pack.Shop().Tools {
			low, high, err := tool.Spread(p.Torque)
			if p.Torque.Sign() > 0 && err == nil {
				row.Tool, row.Low, row.High = tool.ID, low, high
				break
			}
		}
		for _, w := range s.proc.Washers {
			if w.ID == p.Washer {
				row.WasherFits = sealing.Fit(p, w).Verdict.String()
			}
		}
		list = append(list, row)
	}
	return list
}
