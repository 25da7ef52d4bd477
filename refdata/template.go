package refdata

import (
	"fmt"
	"slices"
	"strings"

	"example.com/meniscus/internal/sheet"
)

// blank stands in a template where the sheet's own words go. Load refuses it, so
// that a template nobody filled in is never worked by.
const blank = "?"

// filled passes a value on, unless nobody has filled it in yet.
func filled(v sheet.Value) sheet.Value {
	if v.String() != blank {
		return v
	}
	v.Fault("pack-blank", "is not filled in yet", "write what the sheet says; drop the line, or its table, where it says nothing")
	return sheet.Value{}
}

// Template returns a file of the kind to fill in, with a comment beside every
// key. What has to be there stands as "?", which Load refuses until it is
// replaced; the rest is commented out, with an example. The id is 1 to 40 of a-z,
// 0-9 and -.
func Template(kind, id string) ([]byte, error) {
	if !slices.Contains(Kinds(), kind) {
		return nil, fmt.Errorf("refdata: no kind of file is called %s; want one of %s", sheet.Echo(kind), strings.Join(Kinds(), ", "))
	}
	if !plainID(id) {
		return nil, fmt.Errorf("refdata: %s is no id; want 1 to 40 of a-z, 0-9 and -, such as tern-6", sheet.Echo(id))
	}
	var b strings.Builder
	fmt.Fprintf(&b, `#:schema ./%s-%d.schema.json
# Replace every "?" by what the sheet says, in quotes, with its unit. Take the #
# away from a line that you need; drop the tables that you do not.

format = %d
kind   = %q
id     = %q
`, kind, currentFormat, currentFormat, kind, id)
	sections := layout(kind)
	for _, k := range sections[0].keys[1:] {
		templateKey(&b, k, "")
	}
	b.WriteString("\n[source.sheet]  # one such table for every paper or measurement the figures come from\n")
	for _, k := range sourceKeys() {
		templateKey(&b, k, "")
	}
	for _, sec := range sections[1:] {
		for _, name := range templateNames(sec.path) {
			templateSection(&b, sec, name)
		}
	}
	return []byte(b.String()), nil
}

// templateNames gives tables of any name the names that most files use.
func templateNames(path string) []string {
	switch path {
	case "plug.*":
		return []string{"plug.fill", "plug.drain", "plug.check"}
	case "washer.*":
		return []string{"washer.ring-16"}
	case "density.*":
		return []string{"density.cold", "density.hot"}
	case "pack.*":
		return []string{"pack.can"}
	case "vessel.*":
		return []string{"vessel.jug"}
	case "thermometer.*":
		return []string{"thermometer.probe"}
	case "scale.*":
		return []string{"scale.flat"}
	case "tool.*":
		return []string{"tool.wrench"}
	}
	return []string{path}
}

func templateSection(b *strings.Builder, sec section, name string) {
	off := ""
	if strings.HasPrefix(name, "density.") || strings.HasPrefix(name, "washer.") {
		off = "# "
	}
	fmt.Fprintf(b, "\n%s[%s]  # %s\n", off, name, sec.help)
	if !sec.bare {
		fmt.Fprintf(b, "%sfrom = \"sheet p.1\"  # %s\n", off, valueKeys()[0].help)
	}
	for _, k := range sec.keys {
		templateKey(b, k, off)
	}
}

func templateKey(b *strings.Builder, k entry, off string) {
	example := k.form.example
	if example == "…" || example == "" {
		example = "in your own words"
	}
	text := quote(example)
	if strings.HasPrefix(k.form.name, "list") {
		text = "[" + text + "]"
	}
	help := k.help
	if k.form.name == "choice" {
		help += " (" + strings.Join(k.form.words, ", ") + ")"
	}
	if !k.need {
		fmt.Fprintf(b, "# %s = %s  # %s\n", k.name, text, help)
		return
	}
	if k.form.example != "…" {
		help = "such as " + text + ": " + help
	}
	fmt.Fprintf(b, "%s%s = %q  # %s\n", off, k.name, blank, help)
}
