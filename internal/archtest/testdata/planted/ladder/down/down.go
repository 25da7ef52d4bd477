// path: thermal

// Package down imports what stands below it.
package down

import (
	_ "fmt"

	_ "example.com/meniscus/exchange" // want
	_ "example.com/meniscus/internal/elementary"
	_ "example.com/meniscus/internal/published" // want
	_ "example.com/meniscus/internal/sheet"     // want
	_ "example.com/meniscus/internal/unknown"   // want
	_ "example.com/meniscus/refdata"            // want
	_ "example.com/meniscus/thermal"            // want
	_ "example.com/meniscus/units"
	_ "example.com/meniscus/units/measure"
	_ "github.com/BurntSushi/toml"   // want
	_ "github.com/google/go-cmp/cmp" // want
	_ "github.com/shopspring/decimal"
	_ "golang.org/x/text/width" // want
)
