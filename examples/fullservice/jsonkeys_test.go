package main

import (
	"encoding/json"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// README says that every key of the JSON is listed by go doc: a key of the
// demonstration, or one that it has no use for, must stand in the package comment,
// and the comment must name none that cannot come. What is under card is described
// by package jobcard.
func TestEveryKeyIsDocumented(t *testing.T) {
	b, err := os.ReadFile("testdata/demo.json")
	if err != nil {
		t.Fatal(err)
	}
	var demo any
	if err := json.Unmarshal(b, &demo); err != nil {
		t.Fatal(err)
	}
	keys := append(keysOf(demo, ""), fieldsOf(reflect.TypeFor[result](), "")...)
	slices.Sort(keys)
	if keys = slices.Compact(keys); len(keys) < 150 {
		t.Fatalf("only %d keys were found", len(keys))
	}
	documented := documentedKeys(t)
	for _, key := range keys {
		if !slices.Contains(documented, key) {
			t.Errorf("key %s is not in the package comment", key)
		}
	}
	for _, key := range documented {
		if !slices.Contains(keys, key) && !slices.Contains(budgetOnly(), key) {
			t.Errorf("the package comment names %s, which is no key", key)
		}
	}
}

// budgetOnly are keys of an uncertainty budget that the demonstration has no use
// for; see package units/measure.
func budgetOnly() []string {
	const b = "balance.budget."
	return []string{b + "coverage", b + "effective_degrees_of_freedom", b + "components[].estimate", b + "components[].degrees_of_freedom"}
}

// documentedKeys reads the tables of the package comment: lines that begin with a
// tab, where "a.b, c" stands for a.b and a.c. A key in a table implies those around it.
func documentedKeys(t *testing.T) []string {
	t.Helper()
	source, err := os.ReadFile("main.go")
	if err != nil {
		t.Fatal(err)
	}
	_, comment, found := strings.Cut(string(source), "# The JSON result")
	comment, _, ended := strings.Cut(comment, "\npackage main")
	if !found || !ended {
		t.Fatal("no JSON result in the package comment")
	}
	var keys []string
	for _, line := range strings.Split(comment, "\n") {
		line, isKey := strings.CutPrefix(line, "//\t")
		if !isKey {
			continue
		}
		names, _, _ := strings.Cut(line, "  ")
		parent := ""
		for _, key := range strings.Split(names, ", ") {
			if i := strings.LastIndex(key, "."); i >= 0 {
				parent = key[:i+1]
			} else {
				key = parent + key
			}
			keys = append(keys, around(key)...)
		}
	}
	return keys
}

// around is a key after all those it stands in: a, a.b and a.b[].c.
func around(key string) []string {
	var keys []string
	for i, r := range key {
		if r == '.' {
			keys = append(keys, strings.TrimSuffix(key[:i], "[]"))
		}
	}
	return append(keys, key)
}

// keysOf lists the paths of all keys, items of a list as name[].
func keysOf(v any, path string) []string {
	var keys []string
	switch v := v.(type) {
	case map[string]any:
		for name, inner := range v {
			key := strings.TrimPrefix(path+"."+name, ".")
			if keys = append(keys, key); key != "card" {
				keys = append(keys, keysOf(inner, key)...)
			}
		}
	case []any:
		for _, item := range v {
			keys = append(keys, keysOf(item, path+"[]")...)
		}
	}
	return keys
}

// fieldsOf is keysOf by the types, for the keys that the demonstration leaves out.
func fieldsOf(t reflect.Type, path string) []string {
	switch t.Kind() {
	case reflect.Pointer:
		return fieldsOf(t.Elem(), path)
	case reflect.Slice:
		return fieldsOf(t.Elem(), path+"[]")
	case reflect.Struct:
	default:
		return nil
	}
	var keys []string
	for i := range t.NumField() {
		name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		if name == "" {
			continue
		}
		key := strings.TrimPrefix(path+"."+name, ".")
		if keys = append(keys, key); key != "card" {
			keys = append(keys, fieldsOf(t.Field(i).Type, key)...)
		}
	}
	return keys
}
