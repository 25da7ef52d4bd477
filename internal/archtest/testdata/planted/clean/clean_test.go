package clean

import (
	"fmt"
	"time"

	"github.com/google/go-cmp/cmp"
)

func ExampleReading_String() {
	fmt.Println(Reading{Name: "pan"}, cmp.Equal(1, 1))
	// Output: pan true
}

func ExampleMustValue() {
	fmt.Println(MustValue(Reading{}) > 0)
	// Output: true
}

func ExampleValue_cold() {
	_, err := Value(Reading{}, 0)
	fmt.Println(err)
	// Output: clean: too cold
}

func ExampleDraw() {
	fmt.Println(Draw(1) < 1)
	// Output: true
}

func ExampleNext() {
	fmt.Println(Next(time.Unix(0, 0)).Unix())
	// Output: 86400
}

func ExampleNames() {
	fmt.Println(Names(nil))
	// Output: [] 0
}
