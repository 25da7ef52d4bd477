// Package sheet answers: what does this hand-written file say, word for word, and where does it say it?
//
// A technician copies figures from a maker's sheet into a TOML file. The people who later drain hot fluid by those
// figures need two things from whatever reads the file: nothing is guessed, and a slip is shown at its line and column
// together with every other slip, so that one pass mends them all. Sheet reads such files. It knows no gearbox and no
// unit; it hands out tables and quoted words with their places, and collects what its callers find wrong with them.
//
// # The form
//
// A sheet is TOML 1.0, and less of it than TOML allows:
//
//   - every value is a quoted string, or a flat list of quoted strings; a number stands in quotes with its unit, because
//     "2.10 L" keeps its digits and its unit where a bare 2.10 loses both. Only `format` and `schema` at the top of
//     the file are bare whole numbers;
//   - keys are lower case a-z, 0-9, _ and -, because the TOML library takes `Drain` and `drain` for the same key and lets
//     one win at random;
//   - no dotted keys before an equals sign, no inline tables, no [[…]], no table opened twice: each is a second way of
//     writing the same thing, and each has cost, position or merging traps in the library;
//   - no byte-order mark, no control, invisible or direction-changing character, even written as an escape: what is
//     read is what is seen.
//
// # The order of work
//
// The size is checked before anything is read further. Then a scanner of our own, which visits each byte a bounded
// number of times and never recurses, finds every header, key and value and every departure from the form. Only then
// does the TOML library see the text, with refused statements blanked out, and it decides what each accepted value says.
// Should scanner and library ever differ about an accepted file, that is a fault too, not a silent choice.
//
// # Reading one
//
//	doc, err := sheet.Open(fsys, "tern-6.toml") // too large, not a plain file, cannot be read
//	if err != nil {
//		return nil, err
//	}
//	root := doc.Root()
//	id := root.Need("id")
//	drain := root.Sub("plug").Sub("drain")
//	torque, ok := sheet.Take(drain.Need("torque"), "pack-torque", `write it like "24 N·m"`, units.ParseTorque)
//	...
//	return procedure, doc.Finish() // every fault, sorted; unknown and missing keys among them
//
// A value that was refused is absent without being missing: Need says nothing more about it, so one slip gives one fault.
// A Doc belongs to one goroutine: reading from it marks keys as used.
package sheet
