package working

// Builder gathers a long working line by line, each at the same cost however
// many there are: [Steps.Add] copies what is there already, so that a thousand
// of them copy half a million lines. The zero value is ready to use.
//
// A Builder may be copied; the copy and the original then go on apart. It is
// not for several goroutines at once.
type Builder struct {
	lines Steps
	// self tells a copy from its original, whose spare room it must not write to.
	self *Builder
}

// Add puts one step more at the end.
func (b *Builder) Add(quantity, formula, substitution, result string) {
	if b == nil {
		return
	}
	if b.self != b {
		b.self, b.lines = b, b.lines[:len(b.lines):len(b.lines)]
	}
	b.lines = append(b.lines, Line{quantity, formula, substitution, result})
}

// Steps returns the working so far. Later steps of the builder are not in it, and
// nothing added to it shows in the builder.
func (b *Builder) Steps() Steps {
	if b == nil {
		return nil
	}
	return b.lines[:len(b.lines):len(b.lines)]
}
