package working_test

import (
	"fmt"

	"example.com/meniscus/units/working"
)

func ExampleSteps_Add() {
	var s working.Steps
	s = s.Add("old share after drain 1", "1 - d/C", "1 - 2 L / 10 L", "0.8")
	fmt.Println(len(s), s[0].Result)
	// Output: 1 0.8
}

func ExampleSteps_Text() {
	var s working.Steps
	s = s.Add("old share after drain 1", "1 - d/C", "1 - 2 L / 10 L", "0.8")
	s = s.Add("kept in the hose", "", "", "60 mL")
	fmt.Print(s.Text())
	// Output:
	// old share after drain 1 = 1 - d/C = 1 - 2 L / 10 L = 0.8
	// kept in the hose = 60 mL
}

func ExampleSteps_Markdown() {
	var s working.Steps
	s = s.Add("old share after drain 1", "1 - d/C", "1 - 2 L / 10 L", "0.8")
	fmt.Print(s.Markdown())
	// Output:
	// | Quantity | Formula | With numbers | Result |
	// | --- | --- | --- | --- |
	// | old share after drain 1 | 1 - d/C | 1 - 2 L / 10 L | 0.8 |
}

func ExampleBuilder_Add() {
	var b working.Builder
	for _, share := range []string{"0.8", "0.64"} {
		b.Add("old share", "x·(1 - d/C)", "", share)
	}
	fmt.Print(b.Steps().Text())
	// Output:
	// old share = x·(1 - d/C) = 0.8
	// old share = x·(1 - d/C) = 0.64
}

func ExampleBuilder_Steps() {
	var b working.Builder
	b.Add("old share", "", "", "0.8")
	first := b.Steps()
	b.Add("old share", "", "", "0.64")
	fmt.Println(len(first), len(b.Steps()))
	// Output: 1 2
}
