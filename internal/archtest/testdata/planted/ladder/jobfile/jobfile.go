// path: refdata/jobfile

// Package jobfile may know everything but TOML.
package jobfile

import (
	_ "example.com/meniscus/exchange/exercise"
	_ "example.com/meniscus/exchange/jobcard"
	_ "example.com/meniscus/internal/sheet"
	_ "example.com/meniscus/refdata"
	_ "github.com/BurntSushi/toml" // want
)
