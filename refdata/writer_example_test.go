package refdata_test

import (
	"bytes"
	"fmt"
	"strings"

	"example.com/meniscus/refdata"
	"example.com/meniscus/units"
)

func ExampleExplain() {
	p, err := refdata.LoadLayers(refdata.BuiltInLayer(), shopLayer())
	tern, _ := p.Procedure("tern-6")
	_, drain, _ := strings.Cut(refdata.Explain(tern), "plug.drain.torque")
	lines := strings.Split(drain, "\n")
	fmt.Println("plug.drain.torque" + lines[0])
	fmt.Println(lines[1])
	fmt.Println(lines[2][:66], err)
	// Output:
	// plug.drain.torque = 22 N·m
	//     from letter of the invented maker, p.1 (manual), trust high, shop/tern.toml:12
	//     in place of 24 N·m: from Saltmarsh workshop sheet 12, issue 3 <nil>
}

func ExampleProcedure_TOML() {
	tern, _ := builtIn().Procedure("tern-6")
	data, err := tern.TOML()
	first, _, _ := bytes.Cut(data, []byte("cautions"))
	fmt.Print(string(first))
	fmt.Println(err)
	// Output:
	// format   = 1
	// kind     = "procedure"
	// id       = "tern-6"
	// title    = "Tern six-speed (invented)"
	// revision = "2026-11-02"
	// <nil>
}

func ExampleDiff() {
	before, _ := builtIn().Procedure("tern-6")
	after := before
	after.MixRuns = 5
	after.Overfill = units.Millilitre.Of(300) // 0.3 L, as before
	for _, d := range refdata.Diff(before, after) {
		fmt.Println(d)
	}
	// Output: mix.runs: 4 -> 5
}

func ExampleDifference_String() {
	fmt.Println(refdata.Difference{Key: "capacity.sump", Before: "4.2 L"})
	// Output: capacity.sump: 4.2 L -> (not stated)
}
