package refdata_test

import (
	"fmt"
	"strings"

	"example.com/meniscus/refdata"
)

func ExampleTemplate() {
	data, err := refdata.Template("procedure", "tern-7")
	_, capacity, _ := strings.Cut(string(data), "[capacity]")
	fmt.Println(strings.Split(capacity, "\n")[2], err)
	// Output: total = "?"  # such as "9.6..10.4 L": the whole system; a range where the sheet is not sure <nil>
}
