package refdata_test

import (
	"fmt"
	"testing/fstest"

	"example.com/meniscus/refdata"
)

// shopLayer is a workshop that uses 22 N·m where the built-in pack says 24.
func shopLayer() refdata.Layer {
	return refdata.Layer{Name: "shop", FS: fstest.MapFS{"tern.toml": {Data: []byte(`format = 1
kind = "procedure"
id = "tern-6"
title = "Tern six-speed (invented), as our shop does it"
revision = "2026-11-20"
overlay_of = "tern-6"
based_on = "2026-11-02"
[source.letter]
title = "letter of the invented maker"
kind = "manual"
[plug.drain.torque]
value = "22 N·m"
was = "24 N·m"
from = "letter p.1"
`)}}}
}

func ExampleBuiltInLayer() {
	fmt.Println(refdata.BuiltInLayer().Dir)
	// Output: builtin
}

func ExampleLoadLayers() {
	p, err := refdata.LoadLayers(refdata.BuiltInLayer(), shopLayer())
	tern, _ := p.Procedure("tern-6")
	fmt.Println(tern.Plugs[1].Torque, tern.Plugs[1].Thread, err)
	// Output: 22 N·m M16x1.5 <nil>
}

func ExampleCheckLayers() {
	found, err := refdata.CheckLayers(shopLayer()) // alone: there is nothing under it
	fmt.Println(found[0].Code, err)
	// Output: pack-no-base <nil>
}

func ExamplePack_Has() {
	fmt.Println(builtIn().Has("tern-6"), builtIn().Has("heron-9"))
	// Output: true false
}

func ExamplePack_Outline() {
	tern, ok := builtIn().Outline("tern-6")
	fmt.Println(tern.Title, tern.Capacity, ok)
	// Output: Tern six-speed (invented) 9.6 L to 10.4 L true
}

func ExamplePack_Plug() {
	drain, ok := builtIn().Plug("tern-6", "drain")
	fmt.Println(drain.Torque, drain.Washer, ok)
	// Output: 24 N·m ring-16 true
}

func ExamplePack_Washer() {
	ring, ok := builtIn().Washer("tern-6", "ring-16")
	fmt.Println(ring.Inner, ring.Outer, ok)
	// Output: 16.2 mm 20 mm true
}

func ExampleWeakest() {
	tern, _ := builtIn().Procedure("tern-6")
	for _, f := range refdata.Weakest(tern.Figures, "medium") {
		fmt.Println(f.Key, f.Trust)
	}
	// Output: capacity.sump low
}
