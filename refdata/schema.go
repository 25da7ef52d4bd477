package refdata

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// Kinds returns the kinds of file a pack is made of.
func Kinds() []string { return []string{"procedure", "fluid", "shop"} }

// Schema returns the JSON Schema (draft-07) of one kind of file, for editors
// that check while one types: write `#:schema ./procedure-1.schema.json` on the
// first line. It is looser than Load, which has the last word.
func Schema(kind string) ([]byte, error) {
	if !slices.Contains(Kinds(), kind) {
		return nil, fmt.Errorf("refdata: no kind of file is called %.40q; want one of %s", kind, strings.Join(Kinds(), ", "))
	}
	s := node{
		"$schema":     "http://json-schema.org/draft-07/schema#",
		"title":       fmt.Sprintf("%s, format %d", kind, currentFormat),
		"description": "One file of a reference-data pack. Every number stands in quotes with its unit; every figure has a source.",
	}
	root := table(nil, false)
	props := root["properties"].(node)
	props["format"] = node{"const": currentFormat, "description": "the form of the file"}
	props["kind"] = node{"const": kind, "description": "what the file describes"}
	props["source"] = tablesOf(table(sourceKeys(), true), "where figures come from; its name holds in this file only")
	for _, name := range [...]string{"overlay_of", "based_on"} {
		props[name] = words(wordsForm(), "this file is laid over that id, whose revision was based_on")
	}
	for _, name := range [...]string{"remove", "add"} {
		props[name] = pathLists()
	}
	props["from"], props["trust"] = describe(valueKeys()[0]), describe(valueKeys()[1])
	var needed []string
	for _, sec := range layout(kind) {
		needed = append(needed, put(props, sec)...)
	}
	root["required"] = []string{"format", "kind", "id", "title"}
	root["if"] = node{"required": []string{"overlay_of"}}
	root["else"] = node{"required": slices.Concat([]string{"format", "kind"}, needed)}
	for key, value := range root { // order does not matter: into another map
		s[key] = value
	}
	out, err := json.MarshalIndent(s, "", "  ")
	return append(out, '\n'), err
}

// node is one object of the schema; its keys come out sorted.
type node = map[string]any

// put adds a section to the properties of the file and gives what the file needs.
func put(props node, sec section) (needed []string) {
	if sec.path == "" {
		for _, k := range sec.keys {
			props[k.name] = describe(k)
			if k.need {
				needed = append(needed, k.name)
			}
		}
		return needed
	}
	name, many := strings.CutSuffix(sec.path, ".*")
	t := table(sec.keys, false)
	t["description"] = sec.help
	if !sec.bare {
		inner := t["properties"].(node)
		for _, k := range valueKeys()[:2] {
			inner[k.name] = describe(k)
		}
	}
	if many {
		t = tablesOf(t, sec.help)
	}
	props[name] = t
	if sec.need {
		return []string{name}
	}
	return nil
}

// table is a table of keys; strict asks for those that are needed, which an
// overlay need not repeat.
func table(keys []entry, strict bool) node {
	props := node{}
	var needed []string
	for _, k := range keys {
		props[k.name] = describe(k)
		if k.need {
			needed = append(needed, k.name)
		}
	}
	t := node{"type": "object", "additionalProperties": false, "properties": props}
	if strict && needed != nil {
		t["required"] = needed
	}
	return t
}

// tablesOf is a table of tables with names of the writer's own.
func tablesOf(t node, help string) node {
	return node{
		"type": "object", "description": help,
		"properties":           node{"from": describe(valueKeys()[0]), "trust": describe(valueKeys()[1])},
		"additionalProperties": t, "propertyNames": node{"pattern": `^[a-z0-9_-]{1,64}$`},
	}
}

func pathLists() node {
	return node{"type": "object", "additionalProperties": false, "required": []string{"keys"}, "properties": node{
		"keys": node{"type": "array", "items": node{"type": "string"}, "description": "full paths, such as plug.check"},
		"note": words(wordsForm(), "why"),
	}}
}

// describe is one key: words, a list of words, or a figure, which may have a
// table of its own. if/then, so that one slip gives one message.
func describe(k entry) node {
	if strings.HasPrefix(k.form.name, "list") {
		return node{"type": "array", "maxItems": 64, "items": words(form{pattern: `\S`, words: k.form.words}, k.help), "description": k.help}
	}
	plain := words(k.form, k.help)
	if k.bare {
		return plain
	}
	own := table(valueKeys(), false)
	own["properties"].(node)["value"] = plain
	own["required"] = []string{"value"}
	return node{"description": k.help, "if": node{"type": "object"}, "then": own, "else": plain}
}

func words(f form, help string) node {
	n := node{"type": "string", "description": help}
	switch {
	case f.words != nil:
		n["enum"] = f.words
	case f.pattern != "":
		n["pattern"] = f.pattern
	}
	if f.example != "" && f.example != "…" {
		n["examples"] = []string{f.example}
	}
	return n
}
