package elementary

import (
	"flag"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

// A draw gives the i-th test argument.
type draw func(r *rand.Rand) float64

func uniform(lo, hi float64) draw {
	return func(r *rand.Rand) float64 { return lo + (hi-lo)*r.Float64() }
}

// spread gives ±2^e with e uniform between lo and hi.
func spread(lo, hi float64, signed bool) draw {
	return func(r *rand.Rand) float64 {
		x := math.Exp2(lo + (hi-lo)*r.Float64())
		if signed && r.Uint64()&1 == 0 {
			return -x
		}
		return x
	}
}

// around gives points within some 2^-e of one of the centres, e uniform from 1.1
// to 53.1: the seams where a function changes its way of working.
func around(centres ...float64) draw {
	return func(r *rand.Rand) float64 {
		return centres[r.IntN(len(centres))] + math.Copysign(math.Exp2(-1.1-52*r.Float64()), r.Float64()-0.5)
	}
}

// patterns gives every positive float with the same chance, subnormals included.
func patterns(r *rand.Rand) float64 {
	return math.Float64frombits(r.Uint64() % 0x7FF0000000000000)
}

// quarterTurns gives the floats next to whole multiples of π/2.
func quarterTurns(r *rand.Rand) float64 {
	n := math.Floor(math.Exp2(19.2 * r.Float64()))
	x := n * (math.Pi / 2)
	for k := r.Uint64() % 4; k > 0; k-- {
		x = math.Nextafter(x, 2e6)
	}
	return x
}

// pointsTimes makes every test try so many times the points: -points 5 gives each
// stated bound 100 000 or more.
var pointsTimes = flag.Int("points", 1, "times the usual number of points")

// few cuts a number of points to a tenth when tests are asked to be short or
// the race detector slows them down.
func few(n int) int {
	if testing.Short() || raceDetector {
		return n / 10
	}
	return n * *pointsTimes
}

type bound struct {
	name   string
	f      func(float64) float64
	oracle func(*big.Float) *big.Float
	draws  []draw
	points int
	ulp    float64
}

func (b bound) check(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	worst, at := 0.0, 0.0
	for i := range few(b.points) {
		x := b.draws[i%len(b.draws)](r)
		if off := ulpError(b.f(x), b.oracle(bigOf(x))); !(off <= worst) {
			worst, at = off, x
		}
	}
	t.Logf("worst %.3f ulp at %v, stated %v", worst, at, b.ulp)
	if !(worst < b.ulp) {
		t.Errorf("%s(%v) is %.3f ulp off, stated %v", b.name, at, worst, b.ulp)
	}
}

func TestStatedBounds(t *testing.T) {
	for _, b := range []bound{
		{"Exp", Exp, wideExp, []draw{uniform(-708, 709.7), uniform(-1, 1), spread(-60, 9, true), around(math.Ln2/2, -math.Ln2/2, 1.5*math.Ln2)}, 102000, 0.75},
		{"Expm1", Expm1, wideExpm1, []draw{uniform(-40, 709), uniform(-2, 2), spread(-1022, 9, true), uniform(-0.4, 0.4), around(math.Ln2/2, -math.Ln2/2, 1.5*math.Ln2, 39.5, -37)}, 102000, 1},
		{"Log", Log, wideLog, []draw{patterns, uniform(0.5, 2), around(1, sqrtHalf, sqrtTwo), uniform(0, 1000)}, 102000, 1},
		{"Log1p", Log1p, wideLog1p, []draw{patterns, uniform(-1, 1), spread(-1022, -1, true), uniform(0, 1000), around(sqrtHalf-1, sqrtTwo-1, 1)}, 102000, 1},
		{"Sin", Sin, wideSin, []draw{uniform(-1e6, 1e6), uniform(-7, 7), spread(-1022, 1, true), quarterTurns, around(math.Pi/4, 3*math.Pi/4, -math.Pi/4)}, 102000, 1},
		{"Cos", Cos, wideCos, []draw{uniform(-1e6, 1e6), uniform(-7, 7), spread(-60, 1, true), quarterTurns, around(math.Pi/4, 3*math.Pi/4, -math.Pi/4)}, 102000, 1},
		{"Tan", Tan, wideTan, []draw{uniform(-1e6, 1e6), uniform(-7, 7), spread(-1022, 1, true), quarterTurns, around(math.Pi/4, 3*math.Pi/4, -math.Pi/4)}, 102000, 1.5},
	} {
		t.Run(b.name, b.check)
	}
}
