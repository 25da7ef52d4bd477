package measure

import "math"

// finite keeps NaN and infinities out.
func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
