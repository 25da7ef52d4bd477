package examples_test

import "fmt"

func ExampleShown() {
	// Output:
}

func ExampleSilent() {}

func ExampleSuffixed_twice() {
	fmt.Println("two")
	// Output: two
}

func ExampleMethod_Do() {
	fmt.Println("of a type called Method")
	// Output: of a type called Method
}

func ExampleT_Do() {
	fmt.Println("done")
	// Output: done
}

func ExampleRange_Low() {
	fmt.Println("low")
	// Unordered output: low
}
