//go:build !race

package badinput

const raceDetector = false
