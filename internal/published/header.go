package published

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// header holds the "# key: value" lines a table opens with.
type header struct {
	lines     []headerLine
	pedigrees []pedigree
	marks     []Mark
}

type headerLine struct{ key, value string }

// pedigree gives columns whose figures have a source and a mark of their own.
type pedigree struct {
	columns      []string
	source, mark string
}

func requiredKeys() []string {
	return []string{"title", "edition", "table", "marks", "tolerance", "retrieved"}
}

func optionalKeys() []string {
	return []string{"source", "source from", "mark", "pedigree", "note"}
}

// one gives the value of a key that occurs at most once.
func (h *header) one(key string) string {
	for _, l := range h.lines {
		if l.key == key {
			return l.value
		}
	}
	return ""
}

func (h *header) pedigreeOf(column string) (pedigree, bool) {
	for _, p := range h.pedigrees {
		if slices.Contains(p.columns, column) {
			return p, true
		}
	}
	return pedigree{}, false
}

// parseHeader takes the header lines without their line ends.
func parseHeader(lines []string) (header, error) {
	var h header
	var faults []error
	for i, line := range lines {
		if err := h.add(line); err != nil {
			faults = append(faults, fmt.Errorf("line %d: %w", i+1, err))
		}
	}
	for _, key := range requiredKeys() {
		if h.one(key) == "" {
			faults = append(faults, fmt.Errorf("no header line \"# %s: …\"", key))
		}
	}
	if all := h.one("marks"); all != "" {
		marks, err := parseMarks(all, "; ")
		if err != nil {
			faults = append(faults, fmt.Errorf("marks: %w", err))
		}
		h.marks = marks
	}
	return h, errors.Join(faults...)
}

func (h *header) add(line string) error {
	key, value, ok := strings.Cut(strings.TrimPrefix(line, "# "), ": ")
	if !strings.HasPrefix(line, "# ") || !ok || strings.TrimSpace(value) == "" {
		return fmt.Errorf("%q is not \"# key: value\"", clip(line))
	}
	if !slices.Contains(requiredKeys(), key) && !slices.Contains(optionalKeys(), key) {
		return fmt.Errorf("header key %q is not known; want %s, %s", clip(key),
			strings.Join(requiredKeys(), ", "), strings.Join(optionalKeys(), ", "))
	}
	if key == "pedigree" {
		return h.addPedigree(value)
	}
	if h.one(key) != "" {
		return fmt.Errorf("header key %q stands twice", key)
	}
	h.lines = append(h.lines, headerLine{key, value})
	return nil
}

func (h *header) addPedigree(value string) error {
	columns, columnsOK, rest := cutOK(value, " = ")
	source, sourceOK, mark := cutOK(rest, " / ")
	if !columnsOK || !sourceOK {
		return fmt.Errorf("pedigree %q; want \"columns = source column / mark column\"", clip(value))
	}
	h.pedigrees = append(h.pedigrees, pedigree{strings.Fields(columns), source, mark})
	return nil
}

func cutOK(s, sep string) (before string, ok bool, after string) {
	before, after, ok = strings.Cut(s, sep)
	return before, ok && before != "" && after != "", after
}
