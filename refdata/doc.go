// Package refdata answers: what does the maker's sheet say, who says so, and
// can it be right? It loads a pack: a folder of TOML files a technician writes
// by hand, one procedure a file, with the source of every figure beside it.
//
// A pack is data, not authority. A built-in pack of invented gearboxes (the
// workshop of the Saltmarsh community bus co-operative) shows the form; real
// work needs the maker's own figures, copied with their source.
//
// Every fault of every file is reported at once, each with file, line and
// column, what is wrong in shop words, and one thing to do.
package refdata
