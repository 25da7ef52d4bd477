package down

import (
	_ "example.com/meniscus/examples/classroom" // want
	_ "example.com/meniscus/internal/published"
	_ "example.com/meniscus/refdata"
	_ "github.com/google/go-cmp/cmp"
	_ "golang.org/x/tools/txtar" // want
)
