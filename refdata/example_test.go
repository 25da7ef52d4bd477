package refdata_test

import (
	"fmt"
	"testing/fstest"

	"example.com/meniscus/refdata"
)

func builtIn() *refdata.Pack {
	p, err := refdata.BuiltIn()
	if err != nil {
		fmt.Println(err)
	}
	return p
}

func ExampleBuiltIn() {
	p, err := refdata.BuiltIn()
	tern, ok := p.Procedure("tern-6")
	fmt.Println(tern.Capacity, ok, err)
	// Output: 9.6 L to 10.4 L true <nil>
}

func ExampleLoad() {
	_, err := refdata.Load(fstest.MapFS{"pack/a.toml": {Data: []byte("format = 1\nkind = \"sheet\"\n")}}, "pack")
	fmt.Println(err)
	// Output:
	// pack/a.toml:2:8: kind: "sheet" is not one of the words used here
	//     write one of: procedure, fluid, shop
}

func ExamplePack_IDs() {
	fmt.Println(len(builtIn().IDs()) >= 3)
	// Output: true
}

func ExamplePack_Procedure() {
	_, ok := builtIn().Procedure("heron-9")
	fmt.Println(ok)
	// Output: false
}

func ExamplePack_Fluid() {
	f, _ := builtIn().Fluid("s-2")
	fmt.Println(f.Density15, f.Offers[0].Name)
	// Output: 846.0 kg/m³ 1 L bottle
}

func ExamplePack_Shop() {
	fmt.Println(builtIn().Shop().Vessels[0].ID)
	// Output: jug-a
}

func ExamplePack_Hash() {
	fmt.Println(len(builtIn().Hash()))
	// Output: 64
}

func ExamplePack_Edition() {
	p := builtIn()
	fmt.Println(p.Edition() == p.Hash()[:12])
	// Output: true
}

func ExampleFigure_String() {
	tern, _ := builtIn().Procedure("tern-6")
	fmt.Println(tern.Figures[0])
	// Output: capacity.total = 9.6..10.4 L  [Saltmarsh workshop sheet 12, issue 3, p.2; manual, trust high; builtin/tern-6.toml:22]
}

func ExampleCheck() {
	found, err := refdata.Check(fstest.MapFS{"pack/tern.toml": {Data: []byte(`format = 1
kind = "procedure"
id = "tern-7"
title = "Tern seven-speed (invented)"
revision = "1"
[source.sheet]
title = "Saltmarsh sheet"
kind = "manual"
[capacity]
from = "sheet p.1"
total = "9 L"
[fluid]
from = "sheet p.1"
class = "s-1"
[plug.drain]
from = "sheet p.1"
thread = "M16x1.5"
torque = "240 N·m"
`)}, "pack/fluid.toml": {Data: []byte("format = 1\nkind = \"fluid\"\nid = \"s-1\"\ntitle = \"S-1 (invented)\"\n")}}, "pack")
	fmt.Println(found[0].Severity, found[0].Line, found[0].Code, err)
	// Output: warning 18 pack-torque-unusual <nil>
}

func ExampleFinding_String() {
	fmt.Println(refdata.Finding{Severity: "warning", File: "a.toml", Line: 3, Col: 1, Key: "capacity", Reason: "unusual", Do: "check it"})
	// Output:
	// a.toml:3:1: warning: capacity: unusual
	//     check it
}

func ExamplePack_Warnings() {
	fmt.Println(len(builtIn().Warnings()))
	// Output: 0
}
