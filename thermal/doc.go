// Package thermal answers: what does heat do to a volume, to the vessel it is
// read in, and to the moment the level may be judged?
//
// A warm quart is less fluid than a cold one. Fluid drained at 60 °C and put
// back to the same mark at 20 °C leaves the box 3 % too full, so every volume
// is compared at one reference temperature, 15 °C:
//
//	fluid, err := thermal.Lubricant(850)                       // kg/m³ at 15 °C
//	cold, err := fluid.Convert(drained, units.Celsius(60), units.Celsius(20))
//
// Three laws are offered, in order of preference: a table of densities from
// the maker's sheet ([Tabulated]), the generalised lubricating-oil equation
// from one density ([Lubricant]), and one coefficient ([Exponential], or
// [UnknownDensity] where nothing is known). Each law states the range it holds
// in and how far it may be off; outside the range the answer is an error, not
// a guess. None of the laws knows a particular fluid: they are the average
// behaviour of oils of that density.
//
// The vessel grows as well: a plastic jug at 60 °C holds 1.8 % more than its
// mark says ([Vessel.Contents]). The best advice is older than the arithmetic:
// use the same vessel at the same temperature both times, or weigh ([Fluid.Mass]
// needs no vessel correction, and a mass ledger needs no conversion at all).
//
// The level is right only inside the maker's temperature window. [Window.Judge]
// says inside, below, above or undecided, and [Window.Closing] what closing the
// plug away from the middle of the window costs in fluid. [Trend] says from a
// few readings when the window will open and how long it stays open. [Infrared]
// turns what an infrared thermometer shows into a surface temperature, or
// refuses where it cannot.
//
// Hot fluid burns. The maker's instructions come before anything computed here.
package thermal
