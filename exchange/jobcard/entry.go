package jobcard

import (
	"errors"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
)

// Entry is one line of the record. Which fields a kind takes is fixed: a field
// that does not belong to the kind must be left zero. Use the constructors;
// they fill what a kind needs.
type Entry struct {
	At   time.Time `json:"at"` // when it happened, by the caller's clock, in a zone of whole minutes
	Kind Kind      `json:"kind"`

	Amount   Amount  `json:"amount,omitzero"`   // drained, refilled, kept, spilled, topped up, supplied; caught at the check plug
	OldShare float64 `json:"oldShare,omitzero"` // of a refill: 0 for fluid from a new bottle
	Origin   Origin  `json:"origin,omitzero"`   // of a spill
	Runs     int     `json:"runs,omitzero"`     // through the gears

	Plug   string       `json:"plug,omitempty"`
	Washer string       `json:"washer,omitempty"`
	New    bool         `json:"new,omitempty"` // the washer had not been used
	Torque units.Torque `json:"torque,omitzero"`
	Turns  float64      `json:"turns,omitzero"` // of a taper plug, past finger tight
	Tool   string       `json:"tool,omitempty"`

	Temperature  units.Temperature      `json:"temperature,omitzero"` // of the fluid in the box
	Thermometer  string                 `json:"thermometer,omitempty"`
	PlusMinus    units.TemperatureDelta `json:"plusMinus,omitzero"` // where no thermometer is named
	EngineIdling bool                   `json:"engineIdling,omitempty"`
	Level        bool                   `json:"level,omitempty"` // the box stood level

	Flow    exchange.AtPlug `json:"flow,omitzero"`
	Lasting Duration        `json:"lasting,omitzero"` // how long the flow was watched

	Entry int    `json:"entry,omitzero"` // number of the entry that is struck
	Text  string `json:"text,omitempty"` // words; any kind may have some
}

// moves reports whether the entry's amount went into the box or out of it.
func (e Entry) moves() bool {
	switch e.Kind {
	case Drained, Refilled, ToppedUp, Kept, CheckPlugObserved:
		return true
	case Spilled:
		return e.Origin != FromStock
	}
	return false
}

// FillPlug records that the fill plug was proved to open.
func FillPlug(at time.Time, plug string) Entry {
	return Entry{At: at, Kind: FillPlugOpened, Plug: plug}
}

// DrainOf records fluid drained and measured.
func DrainOf(at time.Time, a Amount) Entry { return Entry{At: at, Kind: Drained, Amount: a} }

// RefillOf records new fluid put in.
func RefillOf(at time.Time, a Amount) Entry { return Entry{At: at, Kind: Refilled, Amount: a} }

// GearRuns records runs through the gears.
func GearRuns(at time.Time, runs int) Entry { return Entry{At: at, Kind: Mixed, Runs: runs} }

// KeptBack records what stays in the hose or pump out of the refills.
func KeptBack(at time.Time, a Amount) Entry { return Entry{At: at, Kind: Kept, Amount: a} }

// Spill records fluid lost, and which fluid it was.
func Spill(at time.Time, a Amount, from Origin) Entry {
	return Entry{At: at, Kind: Spilled, Amount: a, Origin: from}
}

// NewWasher records an unused washer fitted on a plug.
func NewWasher(at time.Time, plug, washer string) Entry {
	return Entry{At: at, Kind: WasherFitted, Plug: plug, Washer: washer, New: true}
}

// TorqueSet records a plug set to a torque with a tool; the tool may be "".
func TorqueSet(at time.Time, plug string, torque units.Torque, tool string) Entry {
	return Entry{At: at, Kind: PlugTorqued, Plug: plug, Torque: torque, Tool: tool}
}

// WindowReading is what a temperature reading for the level check consists of.
type WindowReading struct {
	Temperature  units.Temperature
	Thermometer  string                 // id; or state PlusMinus
	PlusMinus    units.TemperatureDelta // limits of the reading where no thermometer is named
	EngineIdling bool
	Level        bool // the box stood level
}

// ReadWindow records a temperature reading for the level check.
func ReadWindow(at time.Time, r WindowReading) Entry {
	return Entry{
		At: at, Kind: WindowRead, Temperature: r.Temperature, Thermometer: r.Thermometer,
		PlusMinus: r.PlusMinus, EngineIdling: r.EngineIdling, Level: r.Level,
	}
}

// Observe records what flowed at the open check plug.
func Observe(at time.Time, plug string, flow exchange.AtPlug) Entry {
	return Entry{At: at, Kind: CheckPlugObserved, Plug: plug, Flow: flow}
}

// TopUp records fluid added at the level check.
func TopUp(at time.Time, a Amount) Entry { return Entry{At: at, Kind: ToppedUp, Amount: a} }

// Supply records more fluid brought to the job.
func Supply(at time.Time, v units.Volume) Entry {
	return Entry{At: at, Kind: Supplied, Amount: Amount{Volume: v, Temperature: units.Celsius(20)}}
}

// Note records words.
func Note(at time.Time, text string) Entry { return Entry{At: at, Kind: Noted, Text: text} }

// Strike records that an earlier entry does not count, and why.
func Strike(at time.Time, entry int, why string) Entry {
	return Entry{At: at, Kind: Struck, Entry: entry, Text: why}
}

// Close records that the job is done. It is refused while anything blocks.
func Close(at time.Time) Entry { return Entry{At: at, Kind: Closed} }

// Saying returns the entry with words added.
func (e Entry) Saying(text string) Entry {
	e.Text = text
	return e
}

// Duration is a length of time that reads and writes as text, such as "45s".
type Duration time.Duration

// MarshalText returns the duration as time.Duration prints it.
func (d Duration) MarshalText() ([]byte, error) { return []byte(time.Duration(d).String()), nil }

var errNowhere = errors.New("jobcard: nowhere to read into; want a pointer that is not nil")

// UnmarshalText reads what time.ParseDuration reads.
func (d *Duration) UnmarshalText(b []byte) error {
	if d == nil {
		return errNowhere
	}
	got, err := time.ParseDuration(string(b))
	if err != nil {
		return errDuration(b)
	}
	*d = Duration(got)
	return nil
}

// String returns the duration as time.Duration prints it.
func (d Duration) String() string { return time.Duration(d).String() }
