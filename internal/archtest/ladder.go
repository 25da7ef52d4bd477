package archtest

import (
	"slices"
	"strings"

	"example.com/meniscus/internal/source"
)

const (
	tomlModule    = "github.com/BurntSushi/toml"
	cmpModule     = "github.com/google/go-cmp"
	decimalModule = "github.com/shopspring/decimal"
)

// rungs is the ladder, the package that knows least first. A package imports
// only from rungs below its own in this list; packages on one rung do not know
// each other.
func rungs() [][]string {
	return [][]string{
		{"units"},
		{"units/working"},
		{"units/measure"},
		{"thermal"},
		{"exchange"},
		{"exchange/caution", "exchange/sealing"},
		{"exchange/jobcard"},
		{"exchange/exercise"},
	}
}

func rung(path string) int {
	return slices.IndexFunc(rungs(), func(r []string) bool { return slices.Contains(r, path) })
}

// kernels lists the packages under internal, with who may import each: the
// package itself or a parent of the importer. Test files may import any.
func kernels(path string) (importers []string, known bool) {
	switch path {
	case "internal/elementary", "internal/jsonscan":
		return []string{"units", "thermal", "exchange", "refdata"}, true
	case "internal/elapsed":
		return []string{"thermal", "exchange"}, true
	case "internal/sheet":
		return []string{"refdata"}, true
	case "internal/source":
		return []string{"internal/archtest", "internal/apilist"}, true
	case "internal/published", "internal/brokendisk", "internal/archtest", "internal/apilist", "internal/badinput", "internal/samebits", "internal/allocated", "internal/pinned":
		return nil, true
	}
	return nil, false
}

// Ladder finds imports that point down the ladder or out of their place.
func Ladder(p *source.Package) []Finding {
	f := &finder{p: p}
	if !placed(p.Path) && len(p.Files) > 0 {
		f.at(p.Files[0].Syntax.Name, "package %s is not on the ladder; give it a place in ladder.go", p.Path)
	}
	for _, file := range p.Files {
		for i, imp := range source.Imports(file) {
			if why := refused(p, imp); why != "" {
				f.at(file.Syntax.Imports[i], "import of %s: %s", imp, why)
			}
		}
	}
	for _, file := range p.Tests {
		for i, imp := range source.Imports(file) {
			if why := refusedInTest(p, imp); why != "" {
				f.at(file.Syntax.Imports[i], "import of %s: %s", imp, why)
			}
		}
	}
	return f.sorted()
}

func placed(path string) bool {
	_, kernel := kernels(path)
	return kernel || rung(path) >= 0 || path == "refdata" || path == "refdata/jobfile" || path == "refdata/tables" ||
		strings.HasPrefix(path, "examples/")
}

// refused says why a package may not import another, or "".
func refused(p *source.Package, imp string) string {
	if p.Under("examples") {
		return ""
	}
	if inside, ok := strings.CutPrefix(imp, p.Module+"/"); ok {
		return refusedInside(p, inside)
	}
	if first, _, _ := strings.Cut(imp, "/"); !strings.Contains(first, ".") {
		return "" // the standard library; see Surroundings
	}
	return refusedOutside(p, imp)
}

func refusedInside(p *source.Package, imp string) string {
	if importers, known := kernels(imp); known || strings.HasPrefix(imp, "internal/") {
		if slices.ContainsFunc(importers, p.Under) {
			return ""
		}
		return "only " + strings.Join(append(importers, "tests"), ", ") + " may"
	}
	mine, theirs := rung(p.Path), rung(imp)
	switch p.Path {
	case "refdata", "refdata/tables":
		if p.Path == "refdata" && imp == "refdata/tables" {
			return ""
		}
		mine = rung("exchange/jobcard") // fills the types of everything up to there
	case "refdata/jobfile":
		if imp == "refdata" {
			return ""
		}
		mine = len(rungs())
	}
	if theirs < 0 || mine < 0 || theirs >= mine {
		return "not further down the ladder than " + p.Path
	}
	return ""
}

func refusedOutside(p *source.Package, imp string) string {
	switch {
	case under(imp, decimalModule):
		if p.Library() {
			return ""
		}
		return "decimal is for the library packages"
	case under(imp, tomlModule):
		if p.Path == "internal/sheet" || p.Path == "refdata" {
			return ""
		}
		return "only internal/sheet and refdata know TOML"
	case under(imp, cmpModule):
		return "go-cmp is for tests"
	}
	return "no such dependency; want the standard library, decimal or toml"
}

func refusedInTest(p *source.Package, imp string) string {
	if inside, ok := strings.CutPrefix(imp, p.Module+"/"); ok {
		if strings.HasPrefix(inside, "examples/") && !p.Under("examples") {
			return "examples are programs to copy, nothing to lean on"
		}
		return ""
	}
	if first, _, _ := strings.Cut(imp, "/"); !strings.Contains(first, ".") || imp == p.Module {
		return ""
	}
	if under(imp, decimalModule) || under(imp, tomlModule) || under(imp, cmpModule) {
		return ""
	}
	return "no such dependency; want the standard library, decimal, toml or go-cmp"
}

func under(imp, module string) bool { return imp == module || strings.HasPrefix(imp, module+"/") }
