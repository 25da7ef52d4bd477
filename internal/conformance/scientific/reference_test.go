package scientific

import (
	"bufio"
	_ "embed"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
)

//go:embed reference.py
var script string

// peer is the one Python process all tests ask.
type peer struct {
	in  io.WriteCloser
	out *bufio.Reader
	cmd *exec.Cmd
	err error
}

const install = "want Debian's python3-numpy, python3-scipy and python3-mpmath: .ci/conformance installs them"

var start = sync.OnceValue(func() (p peer) {
	p.cmd = exec.Command("/usr/bin/python3", "-c", script) // Debian's: no other one finds its packages
	p.cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1", "OPENBLAS_NUM_THREADS=1", "PYTHONWARNINGS=ignore")
	p.cmd.Stderr = os.Stderr
	out, err := p.cmd.StdoutPipe()
	if err != nil {
		return peer{err: err}
	}
	p.out = bufio.NewReader(out)
	if p.in, err = p.cmd.StdinPipe(); err != nil {
		return peer{err: err}
	}
	p.err = p.cmd.Start()
	return p
})

var asking sync.Mutex

// ask puts a question to a function of reference.py. A missing library fails
// the test.
func ask[A any](t *testing.T, name string, with map[string]any) (answer A) {
	t.Helper()
	asking.Lock()
	defer asking.Unlock()
	p := start()
	if p.err != nil {
		t.Fatalf("python: %v; %s", p.err, install)
	}
	line, err := json.Marshal(map[string]any{"ask": name, "with": with})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := p.in.Write(append(line, '\n')); err != nil {
		t.Fatalf("python: %v; %s", err, install)
	}
	back, err := p.out.ReadBytes('\n')
	if err != nil {
		t.Fatalf("python: no answer: %v; %s", err, install)
	}
	var reply struct {
		Answer json.RawMessage
		Error  string
	}
	if err := json.Unmarshal(back, &reply); err != nil || reply.Error != "" {
		t.Fatalf("python: %s: %v %s", name, err, reply.Error)
	}
	if err := json.Unmarshal(reply.Answer, &answer); err != nil {
		t.Fatalf("python: %s: %v", name, err)
	}
	return answer
}

func TestVersions(t *testing.T) {
	for name, version := range ask[map[string]string](t, "versions", map[string]any{}) {
		t.Log(name, version)
	}
}

// worst keeps the largest deviation and where it was.
type worst struct {
	cases int
	off   float64
	at    string
}

func (w *worst) see(off float64, format string, a ...any) {
	w.cases++
	if off > w.off || math.IsNaN(off) {
		w.off, w.at = off, fmt.Sprintf(format, a...)
	}
}

// within fails the test where the worst deviation is more than limit, and says
// what it was in any case.
func (w *worst) within(t *testing.T, limit float64, what ...string) {
	t.Helper()
	report := fmt.Sprintf("%s: %d cases, worst %.2g (allowed %.2g) at %s", strings.Join(what, " "), w.cases, w.off, limit, w.at)
	if w.cases == 0 || !(w.off <= limit) {
		t.Error(report)
		return
	}
	t.Log(report)
}

// relative is |a-b|/|b|, and |a| where b is 0.
func relative(a, b float64) float64 {
	if b == 0 {
		return math.Abs(a)
	}
	return math.Abs((a - b) / b)
}

// ulps is |a-b| in units of the last place of b.
func ulps(a, b float64) float64 {
	if a == b {
		return 0
	}
	x := math.Abs(b)
	return math.Abs(a-b) / (math.Nextafter(x, math.Inf(1)) - x)
}
