//go:build race

package badinput

// Under the race detector everything takes many times as long.
const raceDetector = true
