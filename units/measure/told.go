package measure

import (
	"errors"
	"fmt"
)

// mostTold is how many faults of one kind a message spells out: a thousand bad
// readings would make one of megabytes.
const mostTold = 10

// told gathers faults and spells out the first ten.
type told struct {
	faults []error
	more   int
}

// full says that a further fault is only counted, so that nobody words it.
func (t *told) full() bool { return len(t.faults) >= mostTold }

// add takes a fault; nil is none.
func (t *told) add(err error) {
	switch {
	case err == nil:
	case t.full():
		t.more++
	default:
		t.faults = append(t.faults, err)
	}
}

// join is nil where nothing was added.
func (t *told) join() error {
	if t.more > 0 {
		return errors.Join(append(t.faults, fmt.Errorf("and %d more", t.more))...)
	}
	return errors.Join(t.faults...)
}
