// path: exchange

// Package elsewhere uses the name without the place.
package elsewhere

func Simulate() {
	go func() {}() // want
}
