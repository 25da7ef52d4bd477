package jobfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strconv"
	"strings"
	"time"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/internal/sheet"
	"example.com/meniscus/units"
)

// File is a job file as it was read.
type File struct {
	Job       string // the shop's own reference
	Vehicle   string
	Procedure string // id of a procedure of the pack
	Plan      Plan
	Box       Box
	Losses    exchange.Losses // [losses]; zero where not stated
	Ask       Ask

	doc     *sheet.Doc
	entries []line
}

// Plan is what was agreed before work started. Zero values: not stated.
type Plan struct {
	Target     float64          // highest old share, 0 to 1
	Purpose    exchange.Purpose // refresh, or change of class: the target then holds whatever the gears do
	MostCycles int              // most drain-and-fills to plan for
	OnHand     units.Volume     // fluid already in the shop
}

// Box is what is known of this very box; it goes before the procedure's own
// figures. Zero values: not stated.
type Box struct {
	Capacity  units.Range[units.VolumeDim]
	Sump      units.Volume
	Drain     units.Range[units.VolumeDim] // what one drain is expected to release
	Reference units.Temperature
}

// line is one entry and the table it stood in.
type line struct {
	entry jobcard.Entry
	table *sheet.Table
}

// Open reads a job file from a file system. A file over 256 KiB, one that is no
// plain file, and every fault of the text are errors.
func Open(fsys fs.FS, path string) (*File, error) {
	doc, err := sheet.Open(fsys, path)
	if err != nil {
		return nil, err
	}
	return read(doc)
}

// Read reads a job file under the name it is to be called by in messages. It
// reads no more than 256 KiB before it refuses.
func Read(name string, r io.Reader) (*File, error) {
	doc, err := sheet.Read(name, r)
	if err != nil {
		return nil, err
	}
	return read(doc)
}

func read(doc *sheet.Doc) (*File, error) {
	f := &File{doc: doc}
	root := doc.Root()
	if n, ok := root.Integer("format"); ok && n != 1 {
		root.Fault("job-format", fmt.Sprintf("format %d is not known", n), "write format = 1")
	}
	f.Job = root.Need("job").String()
	f.Vehicle = root.String("vehicle").String()
	f.Procedure = root.Need("procedure").String()
	f.plan(root.Sub("plan"))
	f.box(root.Sub("box"))
	f.losses(root.Sub("losses"))
	f.Ask = readAsk(root.Sub("ask"))
	for _, t := range root.Sub("entry").Numbered() {
		f.entries = append(f.entries, readEntry(t))
	}
	if err := doc.Finish(); err != nil {
		return nil, err
	}
	return f, nil
}

func (f *File) plan(t *sheet.Table) {
	f.Plan.Target, _ = sheet.Take(t.String("target"), "job-share", `write it like "55 %"`, share)
	f.Plan.Purpose, _ = sheet.Take(t.String("purpose"), "job-purpose", `write "refresh" or "change of class"`, purpose)
	f.Plan.MostCycles, _ = t.String("most_cycles").Count(1, 100)
	f.Plan.OnHand, _ = sheet.Take(t.String("on_hand"), "job-volume", volumeForm, notNegative)
}

func purpose(text string) (p exchange.Purpose, err error) {
	return p, p.UnmarshalText([]byte(text))
}

func (f *File) box(t *sheet.Table) {
	const do = `write it like "9.6..10.4 L"`
	f.Box.Capacity, _ = sheet.Take(t.String("capacity"), "job-range", do, units.ParseExplicitRange[units.VolumeDim])
	f.Box.Sump, _ = sheet.Take(t.String("sump"), "job-volume", volumeForm, notNegative)
	f.Box.Drain, _ = sheet.Take(t.String("drain"), "job-range", do, units.ParseExplicitRange[units.VolumeDim])
	f.Box.Reference, _ = sheet.Take(t.String("reference"), "job-temperature", temperatureForm, units.ParseTemperature)
}

// losses are fluid that does not go where the jug says.
func (f *File) losses(t *sheet.Table) {
	f.Losses.KeptOnce, _ = sheet.Take(t.String("kept_once"), "job-volume", volumeForm, notNegative)
	f.Losses.KeptEachTime, _ = sheet.Take(t.String("kept_each_time"), "job-volume", volumeForm, notNegative)
	f.Losses.FilmEachTime, _ = sheet.Take(t.String("film_each_time"), "job-volume", volumeForm, notNegative)
	f.Losses.LineReturns, _ = sheet.Take(t.String("line_returns"), "job-volume", volumeForm, notNegative)
}

// known is the file, or one that holds nothing for nil.
func (f *File) known() *File {
	if f == nil {
		return &File{}
	}
	return f
}

// Entries returns the entries in the order of their numbers.
func (f *File) Entries() []jobcard.Entry {
	var out []jobcard.Entry
	for _, l := range f.known().entries {
		out = append(out, l.entry)
	}
	return out
}

// Fault records something the caller found wrong with a key or a table of the
// file's root, such as a procedure the pack does not have; Err then reports it, at
// its place where the file has it.
func (f *File) Fault(key, problem, do string) {
	root, code := f.known().doc.Root(), "job-"+key
	switch root.Kind(key) {
	case sheet.Group:
		root.Sub(key).Fault(code, problem, do)
	case sheet.String:
		root.String(key).Fault(code, problem, do)
	default:
		root.Fault(code, problem, do)
	}
}

// Name returns what the file is called in messages.
func (f *File) Name() string { return f.known().doc.Name() }

// Err returns every fault recorded so far, sorted by place; nil where there is none.
func (f *File) Err() error { return f.known().doc.Err() }

const (
	volumeForm      = `write it like "2.12 L" or "2.2 US qt"`
	temperatureForm = `write it like "18 °C" or "64 °F"`
)

func notNegative(s string) (units.Volume, error) {
	v, err := units.ParseExplicit[units.VolumeDim](s)
	if err == nil && v.Sign() < 0 {
		return v, fmt.Errorf("%s is negative; want zero or more", v)
	}
	return v, err
}

// share reads "45 %". A bare "0.45" is refused, as any measure without its unit is.
func share(s string) (float64, error) {
	text, percent := strings.CutSuffix(s, "%")
	x, err := number(strings.TrimSpace(text))
	switch {
	case err != nil:
		return 0, fmt.Errorf(`%s is not a share; want a share such as "55 %%"`, sheet.Echo(s))
	case !percent:
		return 0, fmt.Errorf(`%s has no unit; want a share such as "55 %%"`, sheet.Echo(s))
	case x > 100:
		return 0, fmt.Errorf("%s is no share; want 0 to 100 %%", sheet.Echo(s))
	}
	return x / 100, nil
}

// number reads a short plain decimal without sign or exponent.
func number(s string) (float64, error) {
	if s == "" || len(s) > 12 || strings.Trim(s, "0123456789.") != "" {
		return 0, errors.New("not a plain number")
	}
	return strconv.ParseFloat(s, 64)
}

// when reads a time of the job; without a zone it is taken as UTC, so that the
// same file gives the same record everywhere.
func when(s string) (time.Time, error) {
	for _, form := range [...]string{time.RFC3339, "2006-01-02 15:04:05", "2006-01-02 15:04"} {
		if t, err := time.Parse(form, s); err == nil {
			return t, nil
		}
	}
	return time.Time{}, errors.New("not a time")
}
