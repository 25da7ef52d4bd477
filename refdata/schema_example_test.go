package refdata_test

import (
	"fmt"
	"strings"

	"example.com/meniscus/refdata"
)

func ExampleKinds() {
	fmt.Println(refdata.Kinds())
	// Output: [procedure fluid shop]
}

func ExampleSchema() {
	s, err := refdata.Schema("procedure")
	fmt.Println(strings.Contains(string(s), "draft-07"), err)
	// Output: true <nil>
}
