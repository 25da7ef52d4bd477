// Package refdata answers: what does the maker's sheet say, who says so, and
// can it be right? It loads a pack: a folder of TOML files a technician writes
// by hand, one procedure a file, with the source of every figure beside it.
//
// A pack is data, not authority. A built-in pack of invented gearboxes (the
// workshop of the Saltmarsh community bus co-operative) shows the form; real
// work needs the maker's own figures, copied with their source.
//
// # A file
//
//	format   = 1
//	kind     = "procedure"      # or fluid, or shop
//	id       = "tern-7"
//	title    = "Tern seven-speed (invented)"
//	revision = "2026-11-02"
//
//	[source.sheet]
//	title = "Saltmarsh workshop sheet 12, issue 3"
//	kind  = "manual"            # manual, standard, measured, calculated, practice, memory
//
//	[capacity]
//	from  = "sheet p.2"         # stands for every figure of this table
//	total = "9.6..10.4 L"
//	[capacity.drain]            # a figure that differs has a table of its own
//	value = "2.1 L"
//	from  = "sheet p.3"
//	trust = "low"
//	note  = "printed by hand"
//
//	[fluid]
//	from  = "sheet p.2"
//	class = "s-2"
//
//	[plug.drain]
//	from        = "sheet p.4"
//	thread      = "M16x1.5"
//	drive       = "hex socket 8 mm"
//	torque      = "24 N·m"
//	torque_also = "18 lbf·ft"   # printed twice: each guards the other
//
// Every number stands in quotes with its unit. Where a table has no from, that of
// a table around it holds ([plug] above [plug.drain]). Template writes such a
// file to fill in; Schema helps an editor to check it while one types.
//
// # Layers
//
// LoadLayers lays folders over one another: the built-in pack, the shop's, that
// of a job. A file with overlay_of and based_on (the base's revision) replaces
// single figures, value and source together; was = "…" beside a value guards it
// against a base that moved. What the base has not got is listed in [add], what
// is to go in [remove]: keys = ["plug.check"]. Explain says of every figure where
// it comes from and what it shadows.
//
// # Findings
//
// Every fault of every file is reported at once, each with file, line and column,
// what is wrong in shop words, and one thing to do. Only strong tables and plain
// geometry refuse a file; weak ones warn, and name themselves and their mark. A
// dimension nobody measured gives "cannot check", never "fits". A pack is either
// whole or not there at all.
package refdata
