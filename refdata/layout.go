package refdata

import (
	"strings"

	"example.com/meniscus/exchange/caution"
	"example.com/meniscus/thermal"
)

// The layout of each kind of file, in data: the schema for editors and the
// template are made from it, and a test holds it equal to what the loader asks
// for, key by key.

// form is how the words of a key are written.
type form struct {
	name    string
	example string
	pattern string // ECMA 262; looser than the loader, which has the last word
	words   []string
}

// entry is one key of a section.
type entry struct {
	name string
	form form
	need bool
	bare bool // words that are no figure: no source, no sub-table of its own
	help string
}

// section is one table; a path that ends in .* stands for tables of any name.
type section struct {
	path string
	need bool
	bare bool // holds no figures
	help string
	keys []entry
}

const number = `[0-9][0-9.,½¼¾ /]*([eE][-+]?[0-9]+)?`

func wordsForm() form { return form{name: "words", example: "…", pattern: `\S`} }
func idForm() form    { return idLike("tern-6") }
func idLike(example string) form {
	return form{name: "id", example: example, pattern: `^[a-z0-9-]{1,40}$`}
}
func volumeShape() form { return form{"volume", "2.1 L", `^` + number + ` ?\D.*$`, nil} }
func rangeShape() form  { return form{"volume or range", "9.6..10.4 L", `^` + number + `.*\D$`, nil} }
func pointShape() form {
	return form{"temperature", "41 °C", `^[-−+]?` + number + ` ?(°C|°F|K|.*[CFK])$`, nil}
}
func deltaShape() form {
	return form{"difference of temperatures", "1 °C", `^` + number + ` ?.*[CFK]$`, nil}
}
func torqueShape() form   { return form{"torque", "24 N·m", `^` + number + ` ?\D.*$`, nil} }
func lengthShape() form   { return form{"length", "16.2 mm", `^` + number + ` ?(mm|cm|m|in|").*$`, nil} }
func massShape() form     { return form{"mass", "5 g", `^` + number + ` ?(g|kg|oz|lb).*$`, nil} }
func densityShape() form  { return form{"density", "850 kg/m³", `^` + number + ` ?.*/.*$`, nil} }
func countShape() form    { return form{"count", "4", `^[0-9]{1,7}$`, nil} }
func shareShape() form    { return form{"percentage", "4 %", `^[0-9.]+ ?%$`, nil} }
func priceShape() form    { return form{"price", "9.40", `^[0-9]{1,9}(\.[0-9]{0,4})?$`, nil} }
func turnsShape() form    { return form{"turns", "2.5", `^[0-9.]{1,12}$`, nil} }
func expansionForm() form { return form{"cubic expansion", "0.00076 /K", `^0\.[0-9]+ ?/K$`, nil} }
func threadShape() form {
	return form{"thread", "M16x1.5", `^([MRG] ?[0-9]|[0-9]+/[0-9]+.*NPT)`, nil}
}
func driveShape() form {
	return form{"drive", "hex socket 8 mm", `^(hex socket|hex head|hexalobular|square socket) ?`, nil}
}
func materialShape() form { return form{"material", "aluminium", `^[A-Za-z]`, nil} }

// materials names what a vessel or a case may be made of.
func materials() string {
	all := thermal.Materials()
	names := make([]string, len(all))
	for i, m := range all {
		names[i] = m.String()
	}
	return strings.Join(names, ", ")
}
func yesNo() form                 { return choice("yes", "no") }
func choice(words ...string) form { return form{name: "choice", example: words[0], words: words} }

func cautionForm() form {
	f := form{name: "list of cautions", example: "hot-fluid"}
	for _, c := range caution.All() {
		f.words = append(f.words, c.ID)
	}
	return f
}

func notesForm() form { return form{name: "list", example: "…"} }

// layout gives the sections of a kind of file; the first is the top of the file.
func layout(kind string) []section {
	switch kind {
	case "procedure":
		return append(top(
			entry{"revision", wordsForm(), true, true, "of the sheet as you have it; an overlay names it in based_on"},
			entry{"cautions", cautionForm(), false, true, "cautions to show besides the usual ones"},
			entry{"notes", notesForm(), false, true, "what the sheet says besides, in your own words"},
		), procedureSections()...)
	case "fluid":
		return append(top(
			entry{"revision", wordsForm(), false, true, "of the sheet"},
			entry{"notes", notesForm(), false, true, "what the sheet says besides"},
		), fluidSections()...)
	case "shop":
		return append(top(entry{"revision", wordsForm(), false, true, "of the list"}), shopSections()...)
	}
	return nil
}

func top(more ...entry) []section {
	keys := append([]entry{
		{"id", idForm(), true, true, "short name: a-z, 0-9 and -; never change it"},
		{"title", wordsForm(), true, true, "what people call it"},
	}, more...)
	return []section{{need: true, bare: true, keys: keys}}
}

func procedureSections() []section {
	return []section{
		{"capacity", true, false, "how much the box holds", []entry{
			{"total", rangeShape(), true, false, "the whole system; a range where the sheet is not sure"},
			{"total_also", rangeShape(), false, false, "the same in the sheet's other unit: each guards the other"},
			{"drain", rangeShape(), false, false, "what one drain releases, settled and cold"},
			{"sump", volumeShape(), false, false, "what the drain plug can reach"},
			{"at", pointShape(), false, false, "temperature the volumes hold at; 15 °C where not stated"},
			{"case", materialShape(), false, false, "metal of the case: one of " + materials()},
		}},
		{"fluid", true, false, "what goes in", []entry{
			{"class", idLike("s-2"), true, false, "id of a fluid file of the pack"},
			{"overfill", volumeShape(), false, false, "put in on purpose before the check"},
			{"kept", volumeShape(), false, false, "stays in the pump and its hose, once"},
		}},
		{"mix", false, false, "between drains", []entry{
			{"runs", countShape(), false, false, "times through the gears"},
		}},
		{"window", false, false, "temperature for the level check; leave the table out where the box has none", []entry{
			{"low", pointShape(), true, false, "lowest"},
			{"low_also", pointShape(), false, false, "the same on the sheet's other scale"},
			{"high", pointShape(), true, false, "highest"},
			{"high_also", pointShape(), false, false, "the same on the sheet's other scale"},
			{"engine_idling", yesNo(), false, false, "whether the engine idles meanwhile"},
			{"level", yesNo(), false, false, "whether the vehicle stands level"},
			{"note", wordsForm(), false, true, "anything else about the check"},
		}},
		{"washer.*", false, false, "a sealing ring, as the caliper has it", []entry{
			{"inner", lengthShape(), false, false, "inner diameter"},
			{"outer", lengthShape(), false, false, "outer diameter"},
			{"thickness", lengthShape(), false, false, "thickness"},
			{"material", wordsForm(), false, false, "such as copper"},
			{"reusable", yesNo(), false, false, "whether it may be used twice"},
		}},
		{"plug.*", false, false, "a plug: call it drain, fill or check, or give its role", []entry{
			{"role", choice("drain", "fill", "check"), false, true, "what it is for, where its name does not say"},
			{"thread", threadShape(), true, false, "as the sheet prints it, with the pitch"},
			{"drive", driveShape(), false, false, "what turns it"},
			{"torque", torqueShape(), false, false, "to set it to"},
			{"torque_also", torqueShape(), false, false, "the same in the sheet's other unit: each guards the other"},
			{"plus_minus", torqueShape(), false, false, "allowed either way"},
			{"turns", turnsShape(), false, false, "past finger tight, for a taper plug"},
			{"shoulder", lengthShape(), false, false, "diameter under the head that the washer must pass"},
			{"collar", lengthShape(), false, false, "diameter of the head that presses the washer"},
			{"seat", lengthShape(), false, false, "diameter of the spot face on the case"},
			{"washer", idLike("ring-16"), false, false, "name of its [washer.…]"},
		}},
	}
}

func fluidSections() []section {
	return []section{
		{"fluid", false, false, "what heat does to it: one of the two, or [density.…]; leave all out where nobody knows", []entry{
			{"density_15", densityShape(), false, false, "density at 15 °C"},
			{"expansion", expansionForm(), false, false, "cubic expansion"},
		}},
		{"density.*", false, false, "one row of a table of densities; two rows or more", []entry{
			{"at", pointShape(), true, false, "temperature"},
			{"density", densityShape(), true, false, "density there"},
		}},
		{"price", false, true, "what the prices are in", []entry{
			{"currency", wordsForm(), true, true, "of the prices"},
		}},
		{"pack.*", false, false, "a container on sale", []entry{
			{"title", wordsForm(), true, true, "such as 4 L can"},
			{"size", volumeShape(), true, false, "contents"},
			{"price", priceShape(), true, false, "plain number"},
			{"most", countShape(), false, false, "how many there are; no limit where not stated"},
		}},
	}
}

func shopSections() []section {
	title := entry{"title", wordsForm(), false, true, "what people call it"}
	accuracy := func(f form) []entry {
		return []entry{title, {"plus_minus", f, true, false, "how far off it may be"}, {"step", f, true, false, "smallest step shown"}}
	}
	return []section{
		{"vessel.*", false, false, "a measuring vessel", []entry{
			title,
			{"material", materialShape(), true, false, "what it is made of: one of " + materials()},
			{"graduation", volumeShape(), true, false, "between two marks"},
			{"scale_error", shareShape(), true, false, "how far off its marks may be"},
			{"capacity", volumeShape(), true, false, "to its top mark"},
		}},
		{"thermometer.*", false, false, "a thermometer", accuracy(deltaShape())},
		{"scale.*", false, false, "a weighing scale", accuracy(massShape())},
		{"tool.*", false, false, "a torque wrench or driver", []entry{
			{"low", torqueShape(), true, false, "smallest setting"},
			{"high", torqueShape(), true, false, "largest setting"},
			{"tolerance", shareShape(), false, false, "of its setting; that of ISO 6789 where not stated"},
		}},
	}
}

// valueKeys are those of a figure that has a table of its own.
func valueKeys() []entry {
	return []entry{
		{"from", wordsForm(), false, true, "name of a [source.…], then the place in it: sheet p.2"},
		{"trust", choice("high", "medium", "low"), false, true, "where it differs from what its kind of source earns"},
		{"note", wordsForm(), false, true, "why, or how it was found"},
		{"was", wordsForm(), false, true, "in an overlay: what the base says; a guard against a base that moved"},
	}
}

func sourceKeys() []entry {
	return []entry{
		{"title", wordsForm(), true, true, "of the paper, or what was done"},
		{"kind", choice(sourceKinds()...), true, true, "what sort of source it is"},
		{"date", wordsForm(), false, true, "as printed"},
		{"note", wordsForm(), false, true, "needed for what rests on practice or memory"},
	}
}
