package gnuunits

import (
	"bytes"
	"fmt"
	"math/big"
	"os"
	"os/exec"
	"strings"
	"testing"
)

const install = "want Debian's package \"units\": .ci/conformance installs it"

// definitions reads the file the program uses.
func definitions(t *testing.T) *Definitions {
	t.Helper()
	name, err := program("", "-U").Output()
	if err != nil {
		t.Fatalf("GNU units: %v; %s", err, install)
	}
	file, err := os.Open(strings.TrimSpace(string(name)))
	if err != nil {
		t.Fatalf("GNU units: %v; %s", err, install)
	}
	defer file.Close()
	d, err := Read(file)
	if err != nil {
		t.Fatal(err)
	}
	if len(d.units) < 2000 || len(d.prefixes) < 40 || len(d.functions) < 20 {
		t.Fatalf("%s: %d units, %d prefixes, %d functions: not the whole file", name, len(d.units), len(d.prefixes), len(d.functions))
	}
	return d
}

// program runs GNU units with its own file only and in no country's language.
func program(stdin string, args ...string) *exec.Cmd {
	c := exec.Command("units", args...)
	c.Env = []string{"LC_ALL=C", "HOME=" + os.DevNull, "PATH=" + os.Getenv("PATH")}
	c.Stdin = strings.NewReader(stdin)
	return c
}

// question is a conversion for the program.
type question struct{ have, want string }

// ask puts all questions to one run of the program.
func ask(t *testing.T, all []question) []*big.Rat {
	t.Helper()
	var in strings.Builder
	for _, q := range all {
		fmt.Fprintf(&in, "%s\n%s\n", q.have, q.want)
	}
	c := program(in.String(), "-t", "-q", "-d", "max")
	var stderr bytes.Buffer
	c.Stderr = &stderr
	out, err := c.Output()
	if err != nil {
		t.Fatalf("GNU units: %v %s; %s", err, stderr.Bytes(), install)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(all) {
		t.Fatalf("GNU units: %d answers to %d questions", len(lines), len(all))
	}
	answers := make([]*big.Rat, len(lines))
	for i, line := range lines {
		x, ok := new(big.Rat).SetString(line)
		if !ok {
			t.Fatalf("GNU units: %s in %s: %q", all[i].have, all[i].want, line)
		}
		answers[i] = x
	}
	return answers
}

// printedDigits is how far two numbers may differ, as a share, that agree to the
// fifteen digits the program prints: one unit of the last, after a leading 1.
func printedDigits() *big.Rat { return big.NewRat(1, 1e14) }

func near(a, b *big.Rat) bool { return relative(a, b).Cmp(printedDigits()) <= 0 }

func relative(a, b *big.Rat) *big.Rat {
	if b.Sign() == 0 {
		return new(big.Rat).Abs(a)
	}
	d := new(big.Rat).Sub(a, b)
	return d.Abs(d.Quo(d, b))
}

func rat(t *testing.T, s string) *big.Rat {
	t.Helper()
	x, ok := new(big.Rat).SetString(s)
	if !ok {
		t.Fatalf("%q is no number", s)
	}
	return x
}
