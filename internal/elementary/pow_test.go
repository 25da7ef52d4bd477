package elementary

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

func TestPowBound(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 18))
	var worst tally
	for i := range few(30000) {
		x, y := math.Exp2(20*r.Float64()-10), 0.0
		switch i % 4 {
		case 0: // anywhere in range
			y = (2*r.Float64() - 1) * 700 / math.Abs(math.Log(x))
		case 1: // close to 1, huge power
			x = 1 + math.Copysign(math.Exp2(-52*r.Float64()), r.Float64()-0.7)
			y = (2*r.Float64() - 1) * 700 / math.Abs(math.Log(x))
		case 2: // any x, small power
			x, y = patterns(r), 4*r.Float64()-2
		default:
			y = 20*r.Float64() - 10
		}
		if x <= 0 || x == 1 || y != y || math.IsInf(y, 0) || math.Abs(y*math.Log(x)) > 705 {
			continue
		}
		worst.add(ulpError(Pow(x, y), widePow(bigOf(x), bigOf(y))), x, y)
	}
	worst.report(t, "ulp", 1)
}

func TestIntPowBound(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 20))
	for n := 1; n <= 40; n++ {
		var worst tally
		for range few(2000) {
			x := math.Exp2(10*r.Float64()-5) * math.Copysign(1, r.Float64()-0.5)
			want := bigOf(1)
			for range n {
				want.Mul(want, bigOf(x))
			}
			worst.add(ulpError(IntPow(x, n), want)/float64(n), x, float64(n))
			worst.add(ulpError(IntPow(x, -n), quo(bigOf(1), want))/float64(n+1), x, float64(-n))
		}
		if !(worst.worst < 1) {
			worst.report(t, "of the stated bound", 1)
		}
	}
}

// TestPowerLaws pins what is exact.
func TestPowerLaws(t *testing.T) {
	for k := -1074; k <= 1023; k++ {
		want := math.Ldexp(1, k)
		if got := Pow(2, float64(k)); got != want {
			t.Errorf("Pow(2, %d) = %x", k, got)
		}
		if got := Exp(float64(k) / 2); got < 0 {
			t.Errorf("Exp(%d/2) = %v", k, got)
		}
	}
	for n := range 23 {
		want, _ := new(big.Float).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil)).Float64()
		if got := Pow(10, float64(n)); got != want {
			t.Errorf("Pow(10, %d) = %v", n, got)
		}
		if got := IntPow(10, n); got != want {
			t.Errorf("IntPow(10, %d) = %v", n, got)
		}
	}
}
