// path: internal/sheet

// Package sheet is a leaf.
package sheet

import (
	_ "example.com/meniscus/internal/elementary" // want
	_ "example.com/meniscus/units"               // want
	_ "github.com/BurntSushi/toml"
	_ "github.com/shopspring/decimal" // want
)
