package measure

import "fmt"

// Verdict is where a measured value lies against limits, as far as its doubt
// allows saying. The zero value is Undecided: silence is never approval.
type Verdict uint8

// The verdicts.
const (
	// Undecided means the doubt is too large for any of the others at the stated risk.
	Undecided Verdict = iota
	// Inside means shown to lie between the limits.
	Inside
	// Below means shown to lie under the low limit.
	Below
	// Above means shown to lie over the high limit.
	Above
)

// String returns "undecided", "inside", "below" or "above"; "?" for none of them.
func (v Verdict) String() string {
	switch v {
	case Undecided:
		return "undecided"
	case Inside:
		return "inside"
	case Below:
		return "below"
	case Above:
		return "above"
	}
	return "?"
}

// ParseVerdict reads a word that String writes.
func ParseVerdict(word string) (Verdict, error) {
	for v := Undecided; v <= Above; v++ {
		if v.String() == word {
			return v, nil
		}
	}
	return Undecided, fmt.Errorf("measure: %s is not a verdict; want undecided, inside, below or above", quote(word))
}

// MarshalText writes the word.
func (v Verdict) MarshalText() ([]byte, error) {
	if v > Above {
		return nil, fmt.Errorf("measure: verdict %d is not one of the verdicts; want 0 to %d", uint8(v), uint8(Above))
	}
	return []byte(v.String()), nil
}

// UnmarshalText reads a word that MarshalText writes.
func (v *Verdict) UnmarshalText(text []byte) error {
	if v == nil {
		return errNowhere
	}
	p, err := ParseVerdict(string(text))
	if err == nil {
		*v = p
	}
	return err
}
