package archtest

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"os/exec"
	"slices"
	"strings"
)

// topLevel lists what may stand at the top of the tree beside dotfiles.
func topLevel() []string {
	return []string{
		"exchange", "thermal", "units", "refdata", "examples", "internal",
		"README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "go.mod", "go.sum",
	}
}

// Layout finds strangers at the top of the tree.
func Layout(tree fs.FS) ([]Finding, error) {
	entries, err := fs.ReadDir(tree, ".")
	if err != nil {
		return nil, fmt.Errorf("archtest: %w", err)
	}
	ignored, err := ignoredNames(tree)
	if err != nil {
		return nil, err
	}
	var findings []Finding
	for _, e := range entries {
		name := e.Name()
		if !strings.HasPrefix(name, ".") && !slices.Contains(topLevel(), name) && !matchesAny(name, ignored) {
			findings = append(findings, Finding{File: name, What: "no place for it at the top; want " + strings.Join(topLevel(), ", ")})
		}
	}
	return findings, nil
}

// modfile is what "go mod edit -json" prints, as far as the rule needs it.
type modfile struct {
	Require []struct {
		Path     string
		Indirect bool
	}
	Exclude, Replace, Retract, Tool []json.RawMessage
}

// Modfile finds direct dependencies that are not the three, and anything that
// would make the module mean something else for us than for who imports it.
func Modfile(file string) ([]Finding, error) {
	out, err := exec.Command("go", "mod", "edit", "-json", file).Output()
	if err != nil {
		return nil, fmt.Errorf("archtest: go mod edit: %w", err)
	}
	var mod modfile
	if err := json.Unmarshal(out, &mod); err != nil {
		return nil, fmt.Errorf("archtest: %w", err)
	}
	var findings []Finding
	add := func(format string, args ...any) {
		findings = append(findings, Finding{File: "go.mod", What: fmt.Sprintf(format, args...)})
	}
	want := []string{tomlModule, cmpModule, decimalModule}
	var direct []string
	for _, r := range mod.Require {
		if !r.Indirect {
			direct = append(direct, r.Path)
		}
	}
	slices.Sort(direct)
	if !slices.Equal(direct, want) {
		add("direct dependencies %s; want %s", strings.Join(direct, ", "), strings.Join(want, ", "))
	}
	if n := len(mod.Replace) + len(mod.Exclude) + len(mod.Tool); n > 0 {
		add("%d replace, exclude or tool lines; want none", n)
	}
	return findings, nil
}
