package refdata

import (
	"strconv"

	"example.com/meniscus/units"
)

// line is one value of a procedure, fluid or shop as the writer puts it down.
type line struct {
	table, key string
	text       string                  // exact; empty: not stated, not written
	same       func(words string) bool // whether other words mean the same value
	bare       bool                    // no figure, needs no source
}

func (l line) path() string { return l.table + "." + l.key }

// of makes a line of a value that has exact words and can be read back.
func of[T comparable](table, key string, value T, text string, parse func(string) (T, error)) line {
	var zero T
	if value == zero {
		text = ""
	}
	return line{table: table, key: key, text: text, same: func(words string) bool {
		other, err := parse(words)
		return err == nil && other == value
	}}
}

func plainWords(table, key, text string) line {
	return line{table: table, key: key, text: text, same: func(words string) bool { return words == text }}
}

func bareWords(table, key, text string) line {
	l := plainWords(table, key, text)
	l.bare = true
	return l
}

// yes is written only where it is so; "no" is kept where a figure says it.
func yes(table, key string, value bool, figures figureIndex) line {
	text := ""
	if value {
		text = "yes"
	} else if _, ok := figures.find(table + "." + key); ok {
		text = "no"
	}
	return plainWords(table, key, text)
}

func volume(table, key string, v units.Volume) line {
	return of(table, key, v, v.String(), notNegative)
}

func length(table, key string, v units.Length) line {
	return of(table, key, v, v.String(), positiveLength)
}

func torque(table, key string, v units.Torque) line {
	return of(table, key, v, v.String(), positiveTorque)
}

func point(table, key string, t units.Temperature) line {
	return of(table, key, t, t.String(), units.ParseTemperature)
}

func span(table, key string, v units.Range[units.VolumeDim]) line {
	return of(table, key, v, v.String(), positiveRange)
}

func count(table, key string, n int) line {
	return of(table, key, n, strconv.Itoa(n), strconv.Atoi)
}

// lines gives every value of the procedure in the order of the layout.
func (p Procedure) lines() []line {
	figures := indexFigures(p.Figures)
	list := []line{
		span("capacity", "total", p.Capacity), span("capacity", "drain", p.ColdDrain), volume("capacity", "sump", p.Sump),
		point("capacity", "at", p.Reference), plainWords("capacity", "case", materialWords(p.CaseMetal)),
		plainWords("fluid", "class", p.Fluid), volume("fluid", "overfill", p.Overfill), volume("fluid", "kept", p.Kept),
		count("mix", "runs", p.MixRuns),
		point("window", "low", p.Window.Low), point("window", "high", p.Window.High),
		yes("window", "engine_idling", p.Window.EngineIdling, figures), yes("window", "level", p.Window.Level, figures),
		bareWords("window", "note", p.Window.Note),
	}
	for _, w := range p.Washers {
		t := "washer." + w.ID
		list = append(list, length(t, "inner", w.Inner), length(t, "outer", w.Outer), length(t, "thickness", w.Thickness),
			plainWords(t, "material", w.Material), yes(t, "reusable", w.Reusable, figures))
	}
	for _, plug := range p.Plugs {
		t := "plug." + plug.ID
		role := plug.Role.String()
		if role == plug.ID {
			role = ""
		}
		turns := ""
		if plug.Turns > 0 && plug.Turns <= units.Huge { // infinity is no number of turns
			turns = strconv.FormatFloat(plug.Turns, 'g', -1, 64)
		}
		list = append(list, bareWords(t, "role", role),
			plainWords(t, "thread", plug.Thread.String()).reads(func(s string) bool { x, err := parseThread(s); return err == nil && x == plug.Thread }),
			plainWords(t, "drive", driveWords(plug.Drive)).reads(func(s string) bool { x, err := parseDrive(s); return err == nil && x == plug.Drive }),
			torque(t, "torque", plug.Torque), torque(t, "plus_minus", plug.Spread),
			plainWords(t, "turns", turns).reads(func(s string) bool { x, err := parseTurns(s); return err == nil && x == plug.Turns }),
			length(t, "shoulder", plug.Shoulder), length(t, "collar", plug.Collar), length(t, "seat", plug.Seat),
			plainWords(t, "washer", plug.Washer))
	}
	return list
}

func (l line) reads(same func(string) bool) line {
	l.same = same
	return l
}

// figureIndex finds figures by their key; of two alike, the first.
type figureIndex struct {
	figures []Figure
	at      map[string]int
}

func indexFigures(figures []Figure) figureIndex {
	x := figureIndex{figures, make(map[string]int, len(figures))}
	for i := range figures {
		if _, known := x.at[figures[i].Key]; !known {
			x.at[figures[i].Key] = i
		}
	}
	return x
}

func (x figureIndex) find(key string) (Figure, bool) {
	i, ok := x.at[key]
	if !ok {
		return Figure{}, false
	}
	return x.figures[i], true
}
