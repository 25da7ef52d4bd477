// path: exchange

// Package embedding swallows neighbours.
package embedding

import (
	"encoding/json"
	"net/netip"
	"time"
)

type Quantity struct{ ticks int64 }

func (q Quantity) MarshalText() ([]byte, error) { return nil, nil }

func (q *Quantity) UnmarshalText([]byte) error { return nil }

type onlyReads struct{}

func (*onlyReads) UnmarshalJSON([]byte) error { return nil }

type plain struct{ A int }

type Entry struct {
	Quantity // want
	Note     string
}

type Stamped struct {
	time.Time       // want
	*netip.Addr     // want
	json.RawMessage // want
	onlyReads       // want
	Note            string
}

type Fine struct {
	plain
	Amount Quantity
	At     time.Time
}

type hidden struct{ Quantity }
