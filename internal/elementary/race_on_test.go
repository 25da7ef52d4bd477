//go:build race

package elementary

// The race detector makes wide arithmetic ten times slower and has nothing to
// find in it.
const raceDetector = true
