package jobcard

import "fmt"

// Kind is what an entry records. The zero value is no kind and is refused.
type Kind uint8

// The kinds of entry.
const (
	NoKind            Kind = iota
	FillPlugOpened         // the fill plug was proved to open
	Drained                // fluid came out at the drain plug and was measured
	Refilled               // measured fluid was put in
	Mixed                  // the gears were run so that new and held-back fluid mix
	Kept                   // part of a refill stays in the hose or pump, or as film in the jug
	Spilled                // fluid was lost: over the rim, or (from the box) as film in the pan that never reached the jug
	WasherFitted           // a sealing washer went on a plug
	PlugTorqued            // a plug was set with a torque tool, or turned home where it is a taper
	WindowRead             // the fluid's temperature was read against the check window
	CheckPlugObserved      // the check plug was opened and the flow seen
	ToppedUp               // fluid was added at the level check
	Supplied               // more fluid came to the job
	Noted                  // words
	Struck                 // an earlier entry does not count
	Closed                 // the job is done
)

// String returns the kind in words, such as "fill plug opened".
func (k Kind) String() string {
	switch k {
	case FillPlugOpened:
		return "fill plug opened"
	case Drained:
		return "drained"
	case Refilled:
		return "refilled"
	case Mixed:
		return "mixed"
	case Kept:
		return "kept"
	case Spilled:
		return "spilled"
	case WasherFitted:
		return "washer fitted"
	case PlugTorqued:
		return "plug torqued"
	case WindowRead:
		return "window read"
	case CheckPlugObserved:
		return "check plug observed"
	case ToppedUp:
		return "topped up"
	case Supplied:
		return "supplied"
	case Noted:
		return "noted"
	case Struck:
		return "struck"
	case Closed:
		return "closed"
	}
	return ""
}

// MarshalText returns the kind in words; no kind is an error.
func (k Kind) MarshalText() ([]byte, error) {
	if s := k.String(); s != "" {
		return []byte(s), nil
	}
	return nil, fmt.Errorf("jobcard: kind %d: not a kind; want one of the package's constants", k)
}

// UnmarshalText reads what MarshalText wrote.
func (k *Kind) UnmarshalText(b []byte) error {
	if k == nil {
		return errNowhere
	}
	got, err := ParseKind(string(b))
	if err != nil {
		return err
	}
	*k = got
	return nil
}

// ParseKind reads the words String returns.
func ParseKind(s string) (Kind, error) {
	for k := FillPlugOpened; k <= Closed; k++ {
		if k.String() == s {
			return k, nil
		}
	}
	return NoKind, fmt.Errorf("jobcard: kind %.40q: not a kind of entry; want one of: %s", s, kindList())
}

func kindList() string {
	list := ""
	for k := FillPlugOpened; k <= Closed; k++ {
		if list != "" {
			list += ", "
		}
		list += k.String()
	}
	return list
}

// Origin says which fluid a spill was. The zero value is fluid of the box.
type Origin uint8

// The origins.
const (
	FromBox    Origin = iota // came out of the box and into no measure
	FromRefill               // was measured as refill and did not go in
	FromStock                // never measured into anything
)

// String returns "box", "refill" or "stock".
func (o Origin) String() string {
	switch o {
	case FromBox:
		return "box"
	case FromRefill:
		return "refill"
	case FromStock:
		return "stock"
	}
	return ""
}

// MarshalText returns String.
func (o Origin) MarshalText() ([]byte, error) {
	if o > FromStock {
		return nil, fmt.Errorf("jobcard: origin %d: want box, refill or stock", o)
	}
	return []byte(o.String()), nil
}

// UnmarshalText reads what String returns.
func (o *Origin) UnmarshalText(b []byte) error {
	if o == nil {
		return errNowhere
	}
	for origin := FromBox; origin <= FromStock; origin++ {
		if origin.String() == string(b) {
			*o = origin
			return nil
		}
	}
	return fmt.Errorf("jobcard: origin %.40q: want box, refill or stock", b)
}
