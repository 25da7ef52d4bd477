//go:build !race

package elementary

const raceDetector = false
