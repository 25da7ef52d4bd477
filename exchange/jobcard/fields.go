package jobcard

import (
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"example.com/meniscus/exchange"
)

// field is one optional part of an entry.
type field uint32

const (
	fAmount field = 1 << iota
	fOldShare
	fOrigin
	fRuns
	fPlug
	fWasher
	fNew
	fTorque
	fTurns
	fTool
	fTemperature
	fThermometer
	fPlusMinus
	fEngineIdling
	fLevel
	fFlow
	fLasting
	fEntry
	fText
)

func (f field) String() string {
	names := [...]string{
		"amount", "oldShare", "origin", "runs", "plug", "washer", "new", "torque", "turns", "tool",
		"temperature", "thermometer", "plusMinus", "engineIdling", "level", "flow", "lasting", "entry", "text",
	}
	var list []string
	for i, name := range names {
		if f&(1<<i) != 0 {
			list = append(list, name)
		}
	}
	return strings.Join(list, ", ")
}

// takes returns the fields a kind must have and those it may have besides.
func (k Kind) takes() (must, may field) {
	switch k {
	case FillPlugOpened:
		return 0, fPlug
	case Drained, Kept, ToppedUp, Supplied:
		return fAmount, 0
	case Refilled:
		return fAmount, fOldShare
	case Mixed:
		return fRuns, 0
	case Spilled:
		return fAmount, fOrigin
	case WasherFitted:
		return fPlug | fWasher, fNew
	case PlugTorqued:
		return fPlug, fTorque | fTurns | fTool
	case WindowRead:
		return fTemperature, fThermometer | fPlusMinus | fEngineIdling | fLevel
	case CheckPlugObserved:
		return fFlow, fPlug | fAmount | fLasting
	case Noted:
		return fText, 0
	case Struck:
		return fEntry | fText, 0
	}
	return 0, 0
}

// given returns the fields of the entry that are not zero.
func (e Entry) given() field {
	var f field
	set := func(bit field, on bool) {
		if on {
			f |= bit
		}
	}
	set(fAmount, !e.Amount.IsZero())
	set(fOldShare, e.OldShare != 0)
	set(fOrigin, e.Origin != FromBox)
	set(fRuns, e.Runs != 0)
	set(fPlug, e.Plug != "")
	set(fWasher, e.Washer != "")
	set(fNew, e.New)
	set(fTorque, !e.Torque.IsZero())
	set(fTurns, e.Turns != 0)
	set(fTool, e.Tool != "")
	set(fTemperature, !e.Temperature.IsZero())
	set(fThermometer, e.Thermometer != "")
	set(fPlusMinus, !e.PlusMinus.IsZero())
	set(fEngineIdling, e.EngineIdling)
	set(fLevel, e.Level)
	set(fFlow, e.Flow != exchange.PlugNotSeen)
	set(fLasting, e.Lasting != 0)
	set(fEntry, e.Entry != 0)
	set(fText, e.Text != "")
	return f
}

// check returns every fault an entry has by itself.
func (e Entry) check() error {
	if e.Kind == NoKind || e.Kind > Closed {
		return fmt.Errorf("kind %d is no kind of entry; want one of: %s", e.Kind, kindList())
	}
	var faults []error
	say := func(format string, args ...any) { faults = append(faults, fmt.Errorf(format, args...)) }
	must, may := e.Kind.takes()
	given := e.given()
	if lack := must &^ given; lack != 0 {
		say("lacks %s; a %s entry needs it", lack, e.Kind)
	}
	if extra := given &^ (must | may | fText); extra != 0 {
		say("has %s; a %s entry takes none", extra, e.Kind)
	}
	e.checkTime(say)
	if given&fAmount != 0 {
		if err := e.Amount.check(); err != nil {
			faults = append(faults, err)
		}
	}
	e.checkNumbers(say)
	for _, s := range [...]string{e.Plug, e.Washer, e.Tool, e.Thermometer, e.Amount.Vessel, e.Amount.Thermometer, e.Amount.Scale} {
		if err := checkText(s, mostID); err != nil {
			say("name %.40q: %w", s, err)
		}
	}
	if err := checkText(e.Text, mostText); err != nil {
		say("text: %w", err)
	}
	return errors.Join(faults...)
}

// checkTime refuses a time that RFC 3339, in which a card is written, cannot hold: it
// knows a zone by whole minutes, less than a day from UTC, and years of four digits.
func (e Entry) checkTime(say func(string, ...any)) {
	if e.At.IsZero() || e.At.Year() < 1 || e.At.Year() > 9999 {
		say("has no time; want when it happened, in the years 1 to 9999")
	}
	if _, offset := e.At.Zone(); offset%60 != 0 || offset <= -24*3600 || offset >= 24*3600 {
		say("time in a zone %s from UTC; want whole minutes, less than 24 h", time.Duration(offset)*time.Second)
	}
}

func (e Entry) checkNumbers(say func(string, ...any)) {
	if !(e.OldShare >= 0 && e.OldShare <= 1) {
		say("old share of the refill is %v; want 0 (new) to 1 (all old)", e.OldShare)
	}
	if e.Runs < 0 || e.Runs > 1000 {
		say("%s through the gears; want 1 to 1000", times(e.Runs, "run"))
	}
	if !e.Torque.Valid() || e.Torque.Sign() < 0 {
		say("torque %s; want a positive torque", e.Torque)
	}
	if !(e.Turns >= 0 && e.Turns <= 20) {
		say("%s; want 0 to 20", pastFinger(e.Turns))
	}
	if !e.Temperature.Valid() {
		say("temperature is out of range; want a temperature above absolute zero")
	}
	if !e.PlusMinus.Valid() || e.PlusMinus.Sign() < 0 {
		say("± %s on a temperature; want zero or more", e.PlusMinus)
	}
	if e.Lasting < 0 || e.Lasting > Duration(24*time.Hour) {
		say("flow watched for %s; want 0 to 24 h", e.Lasting)
	}
	if e.Flow > exchange.PlugStreams || e.Origin > FromStock {
		say("flow %d, origin %d: not one of the package's constants", e.Flow, e.Origin)
	}
	if e.Kind == Noted && strings.TrimSpace(e.Text) == "" {
		say("note without words")
	}
}

const (
	mostID   = 64
	mostText = 1000
)

// checkText refuses what would not survive a file or would mislead a reader.
func checkText(s string, most int) error {
	if len(s) > most {
		return fmt.Errorf("%d bytes; want at most %d", len(s), most)
	}
	if !utf8.ValidString(s) {
		return errors.New("not valid UTF-8; want plain text")
	}
	for _, r := range s {
		if unicode.IsControl(r) && r != '\n' && r != '\t' || unicode.Is(unicode.Bidi_Control, r) || r == unicode.ReplacementChar {
			return fmt.Errorf("character %U; want printable text", r)
		}
	}
	return nil
}

func errDuration(b []byte) error {
	return fmt.Errorf("jobcard: %.40q is not a length of time; want such as 45s or 2m30s", b)
}
