package source

import (
	"bytes"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// Root finds the directory of the go.mod above dir.
func Root(dir string) (string, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", errors.New("source: no go.mod above")
		}
		dir = up
	}
}

// Load reads the whole module at root. A package that does not type-check is
// returned with Broken set, so that the others can still be judged.
func Load(root string) (*Module, error) {
	m := &Module{Root: root}
	modfile, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		return nil, fmt.Errorf("source: %w", err)
	}
	m.Path = modulePath(modfile)
	if m.Path == "" {
		return nil, errors.New("source: go.mod: no module line")
	}
	fset := token.NewFileSet()
	// The walk, not the go command, finds the files: what a test opens itself
	// is known to the test cache, so a new file is never overlooked.
	for _, dir := range goDirs(root) {
		p, err := parseDir(fset, root, dir)
		if err != nil {
			return nil, err
		}
		p.Module = m.Path
		m.Packages = append(m.Packages, p)
	}
	exports, err := exportsOf(root, "./...")
	if err != nil {
		return nil, err
	}
	for _, p := range m.Packages {
		p.check(exports)
	}
	return m, nil
}

func modulePath(modfile []byte) string {
	for line := range strings.Lines(string(modfile)) {
		if name, ok := strings.CutPrefix(line, "module "); ok {
			return strings.TrimSpace(name)
		}
	}
	return ""
}

// goDirs lists the directories that hold Go files, slash-separated, sorted.
func goDirs(root string) []string {
	var dirs []string
	_ = filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return nil
		}
		if d.IsDir() {
			if file != root && skipped(file) {
				return fs.SkipDir
			}
			return nil
		}
		if strings.HasSuffix(file, ".go") {
			if rel, err := filepath.Rel(root, filepath.Dir(file)); err == nil {
				dirs = append(dirs, filepath.ToSlash(rel))
			}
		}
		return nil
	})
	slices.Sort(dirs)
	return slices.Compact(dirs)
}

func skipped(dir string) bool {
	name := filepath.Base(dir)
	if name == "testdata" || strings.HasPrefix(name, ".") || strings.HasPrefix(name, "_") {
		return true
	}
	_, err := os.Stat(filepath.Join(dir, "go.mod"))
	return err == nil
}

func parseDir(fset *token.FileSet, root, dir string) (*Package, error) {
	p := &Package{Path: strings.TrimPrefix(dir, "."), Fset: fset}
	entries, err := os.ReadDir(filepath.Join(root, dir))
	if err != nil {
		return nil, fmt.Errorf("source: %w", err)
	}
	for _, e := range entries {
		if e.IsDir() || !strings.HasSuffix(e.Name(), ".go") {
			continue
		}
		f, err := parseFile(fset, root, path.Join(dir, e.Name()))
		if err != nil {
			return nil, err
		}
		if strings.HasSuffix(e.Name(), "_test.go") {
			p.Tests = append(p.Tests, f)
		} else {
			p.Files = append(p.Files, f)
		}
	}
	return p, nil
}

func parseFile(fset *token.FileSet, root, name string) (*File, error) {
	text, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(name)))
	if err != nil {
		return nil, fmt.Errorf("source: %w", err)
	}
	syntax, err := parser.ParseFile(fset, name, text, parser.ParseComments|parser.SkipObjectResolution)
	if err != nil {
		return nil, fmt.Errorf("source: %w", err)
	}
	return &File{Name: name, Text: text, Syntax: syntax}, nil
}

// LoadDir reads one directory outside the module's build, such as a planted
// fault, as if it stood at path within the module. It may import the standard
// library only; other imports leave it Broken.
func LoadDir(root, dir, module, at string) (*Package, error) {
	fset := token.NewFileSet()
	p, err := parseDir(fset, root, dir)
	if err != nil {
		return nil, err
	}
	p.Module, p.Path = module, at
	var standard []string
	for _, f := range p.Files {
		for _, imp := range Imports(f) {
			if first, _, _ := strings.Cut(imp, "/"); !strings.Contains(first, ".") {
				standard = append(standard, imp)
			}
		}
	}
	exports := map[string]string{}
	if len(standard) > 0 {
		if exports, err = exportsOf(root, standard...); err != nil {
			return nil, err
		}
	}
	p.check(exports)
	return p, nil
}

// Imports lists the import paths of a file in file order.
func Imports(f *File) []string {
	var paths []string
	for _, spec := range f.Syntax.Imports {
		if p, err := strconv.Unquote(spec.Path.Value); err == nil {
			paths = append(paths, p)
		}
	}
	return paths
}

// exportsOf asks the go command where the compiled export data of the packages
// and everything below them lies.
func exportsOf(root string, patterns ...string) (map[string]string, error) {
	args := append([]string{"list", "-e", "-export", "-deps", "-f", "{{if .Export}}{{.ImportPath}}\t{{.Export}}{{end}}"}, patterns...)
	cmd := exec.Command("go", args...)
	cmd.Dir = root
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("source: go list: %w\n%s", err, stderr.String())
	}
	exports := map[string]string{}
	for line := range strings.Lines(string(out)) {
		if name, file, ok := strings.Cut(strings.TrimSpace(line), "\t"); ok {
			exports[name] = file
		}
	}
	return exports, nil
}

func (p *Package) check(exports map[string]string) {
	lookup := func(name string) (io.ReadCloser, error) {
		file, ok := exports[name]
		if !ok {
			return nil, fmt.Errorf("no export data for %s", name)
		}
		return os.Open(file)
	}
	var faults []error
	conf := types.Config{
		Importer: importer.ForCompiler(p.Fset, "gc", lookup),
		Error:    func(err error) { faults = append(faults, err) },
	}
	p.Info = &types.Info{
		Types:      map[ast.Expr]types.TypeAndValue{},
		Defs:       map[*ast.Ident]types.Object{},
		Uses:       map[*ast.Ident]types.Object{},
		Selections: map[*ast.SelectorExpr]*types.Selection{},
	}
	var files []*ast.File
	for _, f := range p.Files {
		files = append(files, f.Syntax)
	}
	p.Types, _ = conf.Check(path.Join(p.Module, p.Path), p.Fset, files, p.Info)
	p.Broken = errors.Join(faults...)
}
