package exchange

import (
	"errors"
	"fmt"

	"example.com/meniscus/units"
)

// Held is containers on hand, all alike. A Count of 0 is none.
type Held struct {
	Name   string       // at most 200 bytes
	Volume units.Volume // what is in each, by measure or by label; at most 30 000 L
	Heel   units.Volume // what stays on the bottom of each and cannot be poured
	Count  int
	Opened bool // used before what is still sealed
}

// Stock is the fluid on hand, at most 1000 lines. The zero value is none.
type Stock []Held

// Poured is one line of what is taken from stock.
type Poured struct {
	Held   Held
	Count  int          // containers opened or finished
	Volume units.Volume // poured from them together; the last may keep a rest
}

// Pourable returns how much fluid can be poured from the stock, exactly: what
// is in each container less its heel. Counts below 0, volumes below 0 or past
// 30 000 L in all, and more than 1000 lines are an error that names the first ten
// faults.
func (s Stock) Pourable() (units.Volume, error) {
	if err := s.check(); err != nil {
		return units.Volume{}, err
	}
	return s.total(), nil
}

func (s Stock) total() units.Volume {
	sum := units.Volume{}
	for _, h := range s {
		sum = sum.Add(h.each().Scale(float64(h.Count)))
	}
	return sum
}

// each is what one container gives: an opened bottle may hold less than its heel.
func (h Held) each() units.Volume {
	if h.Volume.Compare(h.Heel) <= 0 {
		return units.Volume{}
	}
	return h.Volume.Sub(h.Heel)
}

func (s Stock) check() error {
	if len(s) > coverMostStock {
		return fmt.Errorf("exchange: stock of %d lines; want at most %d", len(s), coverMostStock)
	}
	var faults coverFaults
	for i, h := range s {
		where := coverWhere("stock", i, h.Name)
		faults.add(coverCheckName(where, h.Name))
		faults.add(coverCheckVolume(where+": volume", h.Volume, false))
		faults.add(coverCheckVolume(where+": heel", h.Heel, false))
		if h.Count < 0 || h.Count > coverMostHeld {
			faults.add(fmt.Errorf("exchange: %s: count %d; want 0 to %d", where, h.Count, coverMostHeld))
		}
	}
	if err := errors.Join(faults...); err != nil {
		return err
	}
	return coverCheckVolume("stock in all", s.total(), false)
}

// pour takes the need from stock, opened containers first.
func (s Stock) pour(need units.Volume) (lines []Poured, used, left units.Volume) {
	for _, opened := range [...]bool{true, false} {
		for _, h := range s {
			if h.Opened != opened {
				continue
			}
			rest := need.Sub(used)
			n := h.enough(rest)
			if n == 0 {
				continue
			}
			v := h.each().Scale(float64(n))
			if v.Compare(rest) > 0 {
				v = rest
			}
			lines = append(lines, Poured{Held: h, Count: n, Volume: v})
			used = used.Add(v)
		}
	}
	return lines, used, s.total().Sub(used)
}

// enough is the fewest of h that pour the volume, or all of them.
func (h Held) enough(v units.Volume) int {
	each := h.each()
	if each.IsZero() || v.Sign() <= 0 {
		return 0
	}
	e := coverTicks(each)
	n := (coverTicks(v) + e - 1) / e
	return int(min(n, uint64(h.Count)))
}
