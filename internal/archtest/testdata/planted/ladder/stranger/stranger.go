// path: exchange/wishes

// Package stranger has no rung.
package stranger // want

import (
	_ "example.com/meniscus/units" // want
)
