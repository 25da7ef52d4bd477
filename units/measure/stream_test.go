package measure_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/meniscus/units/measure"
)

func TestStreamIsRepeatable(t *testing.T) {
	a, b, c := measure.NewStream(1, 2), measure.NewStream(1, 2), measure.NewStream(1, 3)
	same := 0
	for range 1000 {
		x := a.Uint64()
		if x != b.Uint64() {
			t.Fatal("one seed and block give two streams")
		}
		if x == c.Uint64() {
			same++
		}
	}
	if same > 0 {
		t.Errorf("two blocks share %d numbers", same)
	}
}

func ExampleNewStream() {
	s := measure.NewStream(1, 0)
	sum := 0.0
	for range 100_000 {
		sum += s.Uniform()
	}
	fmt.Printf("%.2f\n", sum/100_000)
	// Output: 0.50
}

func ExampleStream_Uint64() {
	a, b := measure.NewStream(1, 0), measure.NewStream(1, 0)
	fmt.Println(a.Uint64() == b.Uint64())
	// Output: true
}

func ExampleStream_Uniform() {
	u := measure.NewStream(1, 0).Uniform()
	fmt.Println(u > 0 && u < 1)
	// Output: true
}

func ExampleStream_Normal() {
	s := measure.NewStream(1, 0)
	square := 0.0
	for range 100_000 {
		z := s.Normal()
		square += z * z
	}
	fmt.Printf("%.1f\n", math.Sqrt(square/100_000))
	// Output: 1.0
}
