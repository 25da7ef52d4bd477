// path: refdata/tables

// Package tables is read by refdata and does not know it.
package tables

import (
	_ "example.com/meniscus/exchange/jobcard" // want
	_ "example.com/meniscus/exchange/sealing"
	_ "example.com/meniscus/internal/sheet"
	_ "example.com/meniscus/refdata"         // want
	_ "example.com/meniscus/refdata/jobfile" // want
	_ "example.com/meniscus/units"
	_ "github.com/BurntSushi/toml" // want
)
