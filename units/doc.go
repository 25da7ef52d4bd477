// Package units answers: what is a number in a workshop record?
//
// A volume, torque, length, mass or temperature here is exact, knows what it
// is, and never mixes with another kind. Make one from a number and a unit, or
// from what a person wrote; read it back in any unit; print it:
//
//	drained := units.USQuart.Of(2.5)
//	drained, err := units.ParseVolume("2 1/2 qt")
//	x := drained.In(units.Millilitre)           // 2365.882365
//	s := drained.Text(units.Litre, 2)           // "2.37 L"
//
// # Exact
//
// A quantity is a whole number of ticks, a tick being so small (1e-14 L, 1e-15
// N·m) that what people write is whole: quarts, millilitres and cubic inches,
// °C and °F. Sums are exact, and equal amounts are == whatever unit each was
// made in. What is not whole, such as a pound force foot, is rounded once, and
// reads back as what was put in. Volume, Torque, Length, Mass, TemperatureDelta
// and Distance are quantities. Temperature is a point: two of them have a
// difference and a mean, but no sum. Range holds a low and a high end. Density
// is a plain number, because it comes out of a model.
//
// # Out of range
//
// Nothing wraps or panics. What is too large, not finite or below absolute zero
// becomes the out-of-range value: it stays so through all arithmetic, prints as
// "out of range", answers false to Valid, and no encoder writes it. TryOf and
// the parsers give an error instead.
//
// # In files
//
// All types write themselves as text with the unit, "2.365882365 L", in JSON
// and XML, databases, flags and logs, and read back exactly. A number without
// its unit is refused, and so is null. Leave out an unset value with omitzero;
// omitempty has no effect. Store quantities as named fields: by a rule of Go, a
// struct that embeds one writes the quantity alone and loses its other fields.
//
// # US and imperial
//
// Text printed here always names the system, "US qt" or "imp qt". A bare "qt",
// "pt", "gal" or "fl oz" that a person typed is a US one; files that others will
// read go through ParseExplicit, which refuses it.
package units
