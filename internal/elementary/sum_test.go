package elementary

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

func TestSum(t *testing.T) {
	for _, c := range []struct {
		name string
		x    []float64
		want float64
	}{
		{"one", []float64{3}, 3},
		{"what plain addition loses", []float64{1, 0x1p-60, 0x1p-60, -1}, 0x1p-59},
		{"a large term in between", []float64{1, 1e100, 1, -1e100}, 2},
		{"ten tenths", []float64{0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1}, 1},
	} {
		if got := Sum(c.x); got != c.want {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

func TestSumBound(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	var worst tally
	for range few(2000) {
		x := make([]float64, 1+r.IntN(200))
		exact := new(big.Float).SetPrec(4000)
		for i := range x {
			x[i] = math.Ldexp(r.NormFloat64(), r.IntN(60)-30)
			exact.Add(exact, new(big.Float).SetFloat64(x[i]))
		}
		worst.add(ulpError(Sum(x), exact), float64(len(x)))
	}
	worst.report(t, "ulp", 1)
}
