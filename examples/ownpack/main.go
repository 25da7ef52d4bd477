// Command ownpack starts a reference-data pack of your own and keeps it honest.
//
//	go run ./examples/ownpack template tern-7 > mypack/tern-7.toml
//	go run ./examples/ownpack -pack mypack -over check
//	go run ./examples/ownpack -pack mypack -over explain tern-7
//	go run ./examples/ownpack -pack mypack -over diff tern-6 tern-7
//
// It has these commands:
//
//	template ID        a procedure to fill in (-kind fluid, -kind shop for the others)
//	check              everything wrong or unusual in the pack, with file, line and column
//	list               the ids of the procedures
//	explain ID         where every figure of a procedure comes from
//	diff ID ID         what differs between two procedures
//	write ID           a procedure as one canonical file, overlays folded in
//	schema             the JSON Schema of a kind of file, for editors (-kind)
//
// Without -pack it works on the built-in demonstration pack; with -over the pack
// lies over the built-in one, so that a file may say overlay_of. Exit code 0:
// fine; 1: check found errors; 2: it could not be done, and stderr says why.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"example.com/meniscus/refdata"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// request is what the command line asks for.
type request struct {
	pack, kind string
	over       bool
	command    string
	ids        []string
}

func run(args []string, stdout, stderr io.Writer) int {
	r, err := parse(args, stderr)
	if err != nil {
		return 2
	}
	out, code, err := r.answer()
	if err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	if _, err := io.WriteString(stdout, out); err != nil {
		fmt.Fprintln(stderr, err)
		return 2
	}
	return code
}

func parse(args []string, stderr io.Writer) (request, error) {
	var r request
	flags := flag.NewFlagSet("ownpack", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.StringVar(&r.pack, "pack", "", "folder of .toml files; the built-in pack where not given")
	flags.BoolVar(&r.over, "over", false, "lay the folder over the built-in pack")
	flags.StringVar(&r.kind, "kind", "procedure", strings.Join(refdata.Kinds(), ", "))
	if err := flags.Parse(args); err != nil {
		return r, err
	}
	r.command, r.ids = flags.Arg(0), flags.Args()[min(1, flags.NArg()):]
	want := map[string]int{"template": 1, "check": 0, "list": 0, "explain": 1, "diff": 2, "write": 1, "schema": 0}
	n, known := want[r.command]
	switch {
	case !known:
		err := fmt.Errorf("ownpack: no command %.40q; want template, check, list, explain, diff, write or schema", r.command)
		fmt.Fprintln(stderr, err)
		return r, err
	case len(r.ids) != n:
		err := fmt.Errorf("ownpack: %s wants %d ids after it, got %d; flags go before the command", r.command, n, len(r.ids))
		fmt.Fprintln(stderr, err)
		return r, err
	}
	return r, nil
}

func (r request) answer() (out string, code int, err error) {
	switch r.command {
	case "template":
		data, err := refdata.Template(r.kind, r.ids[0])
		return string(data), 0, err
	case "schema":
		data, err := refdata.Schema(r.kind)
		return string(data), 0, err
	case "check":
		return r.check()
	}
	pack, err := r.load()
	if err != nil {
		return "", 2, err
	}
	if r.command == "list" {
		return strings.Join(pack.IDs(), "\n") + "\n", 0, nil
	}
	out, err = show(r.command, pack, r.ids)
	return out, 0, err
}

// show answers the commands that are about procedures of a good pack.
func show(command string, pack *refdata.Pack, ids []string) (string, error) {
	var list []refdata.Procedure
	for _, id := range ids {
		p, ok := pack.Procedure(id)
		if !ok {
			return "", fmt.Errorf("ownpack: no procedure %.40q; the pack has %s", id, strings.Join(pack.IDs(), ", "))
		}
		list = append(list, p)
	}
	switch command {
	case "explain":
		return refdata.Explain(list[0]), nil
	case "write":
		data, err := list[0].TOML()
		return string(data), err
	}
	var b strings.Builder
	for _, d := range refdata.Diff(list[0], list[1]) {
		fmt.Fprintln(&b, d)
	}
	return b.String(), nil
}

// layers are the folders to read, the lowest first.
func (r request) layers() ([]refdata.Layer, error) {
	if r.pack == "" {
		return []refdata.Layer{refdata.BuiltInLayer()}, nil
	}
	root, err := os.OpenRoot(r.pack) // nothing outside the folder is opened, whatever links it holds
	if err != nil {
		return nil, fmt.Errorf("ownpack: -pack: %w", err)
	}
	own := refdata.Layer{FS: root.FS(), Name: r.pack}
	if r.over {
		return []refdata.Layer{refdata.BuiltInLayer(), own}, nil
	}
	return []refdata.Layer{own}, nil
}

func (r request) load() (*refdata.Pack, error) {
	layers, err := r.layers()
	if err != nil {
		return nil, err
	}
	return refdata.LoadLayers(layers...)
}

func (r request) check() (string, int, error) {
	layers, err := r.layers()
	if err != nil {
		return "", 2, err
	}
	found, err := refdata.CheckLayers(layers...)
	if err != nil {
		return "", 2, err
	}
	var b strings.Builder
	errors := 0
	for _, f := range found {
		fmt.Fprintln(&b, f)
		if f.Severity == "error" {
			errors++
		}
	}
	fmt.Fprintf(&b, "%d errors, %d warnings\n", errors, len(found)-errors)
	return b.String(), min(errors, 1), nil
}
