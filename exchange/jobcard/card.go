package jobcard

import (
	"fmt"

	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// mostEntries bounds a card, so that a hostile file cannot be costly.
const mostEntries = 1000

// mostStrikes bounds how often a card is reckoned again; a service has a handful.
const mostStrikes = 50

// Card is the record of one job. Make one with Open or Decode; the zero value
// is no card and refuses every entry. A Card is not for use by several
// goroutines at once while entries are added.
type Card struct {
	spec    Spec
	entries []Entry
	volumes []*measure.Volume // of each entry's amount at the reference temperature; nil: it has none
	struck  []bool
	strikes int // entries struck
	state   ledger
	open    bool
}

// Open returns a new card for the job, without entries. Every fault of the spec
// is reported. The spec's lists are copied: the caller may change its own. The Entry
// of a vessel, which names one reading, is dropped.
func Open(s Spec) (*Card, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	s = s.clone()
	for i := range s.Vessels {
		s.Vessels[i] = s.Vessels[i].For("")
	}
	state, err := newLedger(s)
	if err != nil {
		return nil, fmt.Errorf("jobcard: job: %w", err)
	}
	return &Card{spec: s, state: state, open: true}, nil
}

// Append adds an entry, or refuses it with every reason and leaves the card as
// it was. Entries are numbered from 1; a card takes at most 1000, 50 strikes among
// them.
func (c *Card) Append(e Entry) error { return c.add(e, false) }

// add is Append; a strike that another follows is reckoned dry, since the next
// one reckons all of it again.
func (c *Card) add(e Entry, dry bool) error {
	if c == nil || !c.open {
		return fmt.Errorf("jobcard: no card; want one made by Open or Decode")
	}
	n := len(c.entries) + 1
	if n > mostEntries {
		return fmt.Errorf("jobcard: entry %d: the card is full; want at most %d entries", n, mostEntries)
	}
	e.At = e.At.Round(0) // a monotonic reading is not written, and might order entries in another way
	if err := e.check(); err != nil {
		return entryError(n, e, err)
	}
	entry := c.state.line(n, &e)
	next, err := c.state.apply(entry)
	if err != nil {
		return entryError(n, e, err)
	}
	if e.Kind == Struck {
		return c.strike(entry, next, dry)
	}
	c.take(entry, next)
	return nil
}

func (c *Card) take(e line, next ledger) {
	c.entries = append(c.entries, *e.Entry)
	c.volumes = append(c.volumes, e.volume)
	c.struck = append(c.struck, false)
	c.state = next
}

func entryError(n int, e Entry, err error) error {
	return fmt.Errorf("jobcard: entry %d (%s): %w", n, kindName(e.Kind), err)
}

func kindName(k Kind) string {
	if s := k.String(); s != "" {
		return s
	}
	return "no kind"
}

// strike takes an entry out of the reckoning by reckoning again without it.
// All that came after it must still make sense. next is the ledger with the strike
// as one more entry that changes nothing.
func (c *Card) strike(e line, next ledger, dry bool) error {
	n, i := next.n, e.Entry.Entry-1
	switch {
	case i < 0 || i >= n-1:
		return entryError(n, *e.Entry, fmt.Errorf("entry %d is not on the card; want 1 to %d", i+1, n-1))
	case c.struck[i] || c.entries[i].Kind == Struck:
		return entryError(n, *e.Entry, fmt.Errorf("entry %d is struck already or is itself a strike", i+1))
	case c.strikes == mostStrikes:
		return entryError(n, *e.Entry, fmt.Errorf("%d entries are struck already; want at most that many on a card, or a new card", mostStrikes))
	}
	c.struck[i] = true
	again, err := c.replay(dry)
	if err != nil {
		c.struck[i] = false
		return entryError(n, *e.Entry, fmt.Errorf("without entry %d the rest does not stand: %w", i+1, err))
	}
	again.n, again.last = next.n, next.last
	c.strikes++
	c.take(e, again)
	return nil
}

// replay reckons all entries that are not struck, keeping their numbers. Each was
// taken once: its own faults and its amount are not gone into again.
func (c *Card) replay(dry bool) (ledger, error) {
	l, err := startLedger(c.state.job)
	if err != nil {
		return l, err
	}
	l.dry = dry
	for i := range c.entries {
		e := line{Entry: &c.entries[i], volume: c.volumes[i]}
		if c.struck[i] || e.Kind == Struck {
			l.n++
			continue
		}
		if l, err = l.apply(e); err != nil {
			return l, entryError(i+1, *e.Entry, err)
		}
	}
	l.dry = false
	return l, nil
}

// Spec returns what the card was opened with; its lists are the caller's own.
func (c *Card) Spec() Spec {
	if c == nil {
		return Spec{}
	}
	return c.spec.clone()
}

// Entries returns a copy of the entries, struck ones included.
func (c *Card) Entries() []Entry {
	if c == nil {
		return nil
	}
	return append([]Entry(nil), c.entries...)
}

// Len returns how many entries the card has, struck ones included.
func (c *Card) Len() int {
	if c == nil {
		return 0
	}
	return len(c.entries)
}

// IsStruck reports whether entry n, counted from 1, was struck.
func (c *Card) IsStruck(n int) bool {
	return c != nil && n >= 1 && n <= len(c.struck) && c.struck[n-1]
}

// Balance returns what went in less what came out, at the reference
// temperature, with its doubt.
func (c *Card) Balance() Balance {
	if c == nil || !c.open {
		return Balance{}
	}
	return c.state.balance()
}

// OldShare returns the share of old fluid in the box so far.
func (c *Card) OldShare() Share {
	if c == nil || !c.open {
		return Share{}
	}
	return c.state.share()
}

// Cycles returns how many drains have begun a cycle.
func (c *Card) Cycles() int {
	if c == nil {
		return 0
	}
	return c.state.flows.cycles
}

// FluidUsed returns what was taken from the stock, at the reference temperature.
func (c *Card) FluidUsed() units.Volume {
	if c == nil {
		return units.Volume{}
	}
	return c.state.flows.used
}

// FluidLeft returns what is left of the stock, at the reference temperature;
// negative where more was used than was brought. The stock counts as labelled
// at 20 °C.
func (c *Card) FluidLeft() units.Volume {
	if c == nil || !c.open {
		return units.Volume{}
	}
	return c.state.left()
}

// Blocking returns what stands between the job and closing it; nothing once it
// is closed.
func (c *Card) Blocking() []Block {
	if c == nil || !c.open {
		return []Block{{"no-card", "no card; want one made by Open or Decode"}}
	}
	return c.state.blocking()
}

// Findings returns what was unusual about accepted entries, in their order.
func (c *Card) Findings() []Finding {
	if c == nil {
		return nil
	}
	return c.state.findings()
}

// IsClosed reports whether the job was closed.
func (c *Card) IsClosed() bool { return c != nil && c.state.closed }
