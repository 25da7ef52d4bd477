// path: refdata

// Package refdata imports what it fills, and what it must not know.
package refdata

import (
	_ "example.com/meniscus/exchange/exercise" // want
	_ "example.com/meniscus/exchange/jobcard"  // want
	_ "example.com/meniscus/exchange/sealing"
	_ "example.com/meniscus/internal/sheet"
	_ "example.com/meniscus/refdata/jobfile" // want
	_ "example.com/meniscus/refdata/tables"
	_ "github.com/BurntSushi/toml"
)
