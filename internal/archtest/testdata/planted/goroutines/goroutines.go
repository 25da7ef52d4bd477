// path: units/measure

// Package goroutines starts some.
package goroutines

// Simulate is known to wait.
func Simulate() { go func() {}() }

func simulateBlocks() { go func() {}() }

func Budget() {
	go func() {}() // want
	_ = func() {
		go Simulate() // want
	}
}

type T struct{}

func (T) Simulate() {
	go func() {}() // want
}
