package exchange

import "strconv"

// Share is an old share known to lie between two ends, both included, each
// from 0 to 1. The zero value says that no old fluid is left.
type Share struct{ Low, High float64 }

// allOld is what stands beside an error.
func allOld() Share { return Share{1, 1} }

// String returns the share in per cent with one decimal, such as
// "31.6 to 48.2 %", or one figure where both ends print alike.
func (s Share) String() string {
	low, high := sharePercent(s.Low), sharePercent(s.High)
	if low == high {
		return high + " %"
	}
	return low + " to " + high + " %"
}

// sharePercent prints a share in per cent with one decimal, nearest. A number that
// is no share at all is called that.
func sharePercent(x float64) string {
	if !(x > -1e15 && x < 1e15) {
		return "no share"
	}
	return strconv.FormatFloat(100*x, 'f', 1, 64)
}

// shareText prints a share for the working, with four decimals.
func shareText(x float64) string { return strconv.FormatFloat(x, 'f', 4, 64) }
