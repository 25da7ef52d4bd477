// Package published answers: what does the outside world say, and how do we
// know? It reads the tables of outside values that the tests of every other
// package check the maths against: standards, handbook tables, worked examples.
//
// A table is a CSV file under testdata/published. It opens with lines
// "# key: value" that name the work it came from; each row then carries its own
// source and its own mark, because a figure that was read in print is worth
// more than one that was remembered, and a figure we computed ourselves is no
// outside evidence at all.
//
//	# title: Tightening torques of plugs, stud ends and bolts per thread
//	# edition: works standards and fitting tables
//	# table: one row a thread, part and seal; torques in N m
//	# marks: seen; common practice; from memory
//	# tolerance: published values for one thread differ 2.2 to 3.6 times: warn only
//	# retrieved: day not recorded; carried over November 2026
//	thread,torque_Nm,source,mark
//	M10x1,10,works standard for plug screws,seen
//
// Header keys: title, edition, table, marks, tolerance and retrieved are
// required. "source" and "mark" stand for every row of a table that has no such
// column; "source from" lists the columns that together name the source;
// "pedigree: a b = source column / mark column" gives columns whose figures have
// a source of their own; "note" is free text.
//
// A test opens a table by its name:
//
//	for _, row := range published.Load(t, "exchange_interval").Rows() {
//		want := row.Float("old_lo")
//		...
//	}
package published
