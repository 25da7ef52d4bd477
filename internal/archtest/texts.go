package archtest

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"strings"
)

// The patterns are put together from halves, so that this file does not find
// itself.
func unfinished() *regexp.Regexp {
	return regexp.MustCompile(`\b(TO` + `DO|FIX` + `ME|XX` + `X)\b|(?i:\bnot imple` + `mented\b)`)
}

func machinePath() *regexp.Regexp {
	return regexp.MustCompile(`/wo` + `rk/|/ro` + `ot/|/tm` + `p/[a-z]|/ho` + `me/[a-z]|/Us` + `ers/[a-z]`)
}

func registryHost() *regexp.Regexp {
	return regexp.MustCompile(`proxy\.go` + `lang|sum\.go` + `lang|registry\.np` + `mjs|deb\.deb` + `ian|files\.python` + `hosted`)
}

// Texts finds what no file of the tree may say.
func Texts(tree fs.FS) ([]Finding, error) {
	var findings []Finding
	err := walk(tree, func(name string) error {
		text, err := fs.ReadFile(tree, name)
		if err != nil {
			return fmt.Errorf("archtest: %w", err)
		}
		if bytes.IndexByte(text, 0) < 0 && path.Ext(name) != ".sum" {
			findings = append(findings, textFindings(name, string(text))...)
		}
		return nil
	})
	return findings, err
}

func textFindings(name, text string) []Finding {
	var findings []Finding
	promise, machine, host := unfinished(), machinePath(), registryHost()
	number := 0
	for line := range strings.Lines(text) {
		number++
		add := func(what, found string) {
			if found != "" {
				findings = append(findings, Finding{name, number, fmt.Sprintf("%s %q", what, found)})
			}
		}
		if ext := path.Ext(name); ext == ".go" || ext == ".md" || ext == "" {
			add("unfinished:", promise.FindString(line))
		}
		add("path of one machine:", machine.FindString(line))
		add("host of a package registry:", host.FindString(line))
	}
	return findings
}

// walk visits the files of the tree, leaving out what git does not keep and the
// faults planted for these very rules.
func walk(tree fs.FS, visit func(name string) error) error {
	ignored, err := ignoredNames(tree)
	if err != nil {
		return err
	}
	return fs.WalkDir(tree, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return fmt.Errorf("archtest: %w", err)
		}
		base := path.Base(name)
		if d.IsDir() && (base == ".git" || strings.HasSuffix(name, "archtest/testdata/planted")) {
			return fs.SkipDir
		}
		if matchesAny(base, ignored) || !d.Type().IsRegular() {
			if d.IsDir() && matchesAny(base, ignored) {
				return fs.SkipDir
			}
			return nil
		}
		return visit(name)
	})
}

// ignoredNames reads .gitignore, which here holds plain name patterns only.
func ignoredNames(tree fs.FS) ([]string, error) {
	text, err := fs.ReadFile(tree, ".gitignore")
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("archtest: %w", err)
	}
	var names []string
	for line := range strings.Lines(string(text)) {
		line = strings.Trim(strings.TrimSpace(line), "/")
		if line != "" && !strings.HasPrefix(line, "#") {
			names = append(names, line)
		}
	}
	return names, nil
}

func matchesAny(name string, patterns []string) bool {
	for _, p := range patterns {
		if ok, err := path.Match(p, name); ok && err == nil {
			return true
		}
	}
	return false
}
