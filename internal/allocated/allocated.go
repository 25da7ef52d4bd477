// Package allocated measures what a call asks of the heap, for tests that bound work
// without looking at a clock.
package allocated

import "runtime"

// Bytes returns how many bytes a call allocates in all, collected again or not. What
// runs beside it counts too, so a test that asks must not run in parallel.
func Bytes(call func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	call()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}
