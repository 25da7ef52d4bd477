// Package archtest answers: does the code still keep its promises? Each rule
// looks at one package, or at the whole tree, and names every line that breaks
// it. The rules hold for the packages others import and for the kernels under
// internal; programs under examples and the gates themselves are freer.
//
//	ladder        imports only ever point up the list in DESIGN; few outside modules, each in its place
//	state         no init, no package variable that could change an answer
//	surroundings  no clock, environment, network, process, output, unsafe or build constraint
//	goroutines    no go statement outside a named function that waits for it
//	panics        panic only in a function named Must…
//	maths         from math only what gives the same bits on every machine
//	fused         no float product, open to fusing, straight into a sum
//	order         no result depends on the order of a map
//	docs          every exported name is documented, every package introduced
//	examples      every exported function and method has an Example with output
//	size          files and functions short enough to read in one go
//	embedding     no exported struct embeds what marshals itself: its neighbours would vanish
//	texts         nothing unfinished, no path of one machine, no host of a package registry
//	layout        only the known entries at the top of the tree
//	modfile       the three direct dependencies and no replacement
//
// Each rule is tried on planted faults under testdata/planted, which must turn
// it red, and on clean code, which must not.
package archtest
