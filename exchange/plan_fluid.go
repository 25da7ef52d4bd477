package exchange

import "example.com/meniscus/units"

// FluidNeed is the fluid to have ready, each allowance by its name. Every volume
// is exact, and Total is their sum.
type FluidNeed struct {
	Refills        units.Volume // what reaches the box
	KeptOnce       units.Volume // stays in the pump, bottle or hose
	KeptEachTime   units.Volume // stays in the pump or line, all refills together
	Film           units.Volume // film in pan, jug and funnel, all swaps together
	FinalAllowance units.Volume // for the level check
	Total          units.Volume
}

// fluid adds up what n cycles take. No cycle takes nothing, not even a primed
// pump; only the level check may still want its allowance.
func (r Request) fluid(n int, end planEnd) FluidNeed {
	f := FluidNeed{FinalAllowance: r.FinalAllowance}
	for k := 1; k <= n; k++ {
		f.Refills = f.Refills.Add(r.drain(k, end))
	}
	if n > 0 {
		f.KeptOnce = r.KeptOnce
	}
	f.KeptEachTime = lossesTimes(r.KeptEachTime, n)
	f.Film = lossesTimes(r.FilmEachTime, n)
	for _, part := range [...]units.Volume{f.Refills, f.KeptOnce, f.KeptEachTime, f.Film, f.FinalAllowance} {
		f.Total = f.Total.Add(part)
	}
	return f
}

// onceAllowances is what a service takes however few its cycles.
func (r Request) onceAllowances() units.Volume { return r.KeptOnce.Add(r.FinalAllowance) }
