// path: exchange/sealing

// Package sideways imports its neighbour on the same rung.
package sideways

import (
	_ "example.com/meniscus/exchange"
	_ "example.com/meniscus/exchange/caution" // want
	_ "example.com/meniscus/exchange/jobcard" // want
)
