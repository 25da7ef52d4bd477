package units_test

import (
	"encoding/json"
	"fmt"

	"example.com/meniscus/units"
)

func ExampleQuantity_AppendText() {
	b, err := units.Litre.Of(2.5).AppendText([]byte("drained "))
	fmt.Println(string(b), err)
	// Output: drained 2.5 L <nil>
}

// Name the field: embedded, the quantity would write itself in place of the
// whole struct.
func ExampleQuantity_MarshalText() {
	type entry struct {
		Drained units.Volume `json:"drained,omitzero"`
		Note    string       `json:"note"`
	}
	b, err := json.Marshal(entry{units.Litre.Of(2.5), "dark"})
	fmt.Println(string(b), err)
	// Output: {"drained":"2.5 L","note":"dark"} <nil>
}

func ExampleQuantity_UnmarshalText() {
	var v units.Volume
	err := v.UnmarshalText([]byte("2.5 US qt"))
	fmt.Println(v, err)
	// Output: 2.365882365 L <nil>
}

func ExampleQuantity_UnmarshalJSON() {
	var v units.Volume
	fmt.Println(v.UnmarshalJSON([]byte("null")))
	// Output: units: null in JSON is not a volume; want a string with the unit, such as "2.5 L"
}

func ExampleQuantity_Value() {
	v, err := units.NewtonMetre.Of(35).Value()
	fmt.Println(v, err)
	// Output: 35 N·m <nil>
}

func ExampleQuantity_Scan() {
	var t units.Torque
	err := t.Scan("35 N·m")
	fmt.Println(t, err)
	// Output: 35 N·m <nil>
}

func ExampleQuantity_GoString() {
	fmt.Printf("%#v\n", units.Litre.Of(2.5))
	// Output: units.Volume("2.5 L")
}

func ExampleKilogramsPerLitre() {
	fmt.Println(units.KilogramsPerLitre(0.85))
	// Output: 850.0 kg/m³
}

// 7 lb/US gal is 7 × 0.45359237 kg over 3.785411784 L.
func ExamplePoundsPerUSGallon() {
	fmt.Println(units.PoundsPerUSGallon(7))
	// Output: 838.8 kg/m³
}

func ExampleDensity_KilogramsPerCubicMetre() {
	fmt.Println(units.KilogramsPerLitre(0.85).KilogramsPerCubicMetre())
	// Output: 850
}

func ExampleDensity_KilogramsPerLitre() {
	fmt.Println(units.Density(850).KilogramsPerLitre())
	// Output: 0.85
}

func ExampleDensity_PoundsPerUSGallon() {
	fmt.Println(units.PoundsPerUSGallon(7).PoundsPerUSGallon())
	// Output: 7
}

func ExampleDensity_Valid() {
	fmt.Println(units.Density(850).Valid(), units.Density(0).Valid(), units.Density(-1).Valid())
	// Output: true false false
}

func ExampleDensity_String() {
	fmt.Println(units.Density(850.04))
	// Output: 850.0 kg/m³
}

func ExampleDensity_AppendText() {
	b, err := units.Density(850.04).AppendText([]byte("oil "))
	fmt.Println(string(b), err)
	// Output: oil 850.04 kg/m³ <nil>
}

func ExampleDensity_MarshalText() {
	b, err := units.Density(850.04).MarshalText()
	fmt.Println(string(b), err)
	// Output: 850.04 kg/m³ <nil>
}

func ExampleDensity_UnmarshalText() {
	var d units.Density
	err := d.UnmarshalText([]byte("0.85 kg/L"))
	fmt.Println(d, err)
	// Output: 850.0 kg/m³ <nil>
}

func ExampleDensity_UnmarshalJSON() {
	var d units.Density
	fmt.Println(d.UnmarshalJSON([]byte("850")))
	// Output: units: 850 in JSON is not a density; want a string with the unit, such as "867.5 kg/m³"
}

func ExampleDensity_Value() {
	v, err := units.Density(850).Value()
	fmt.Println(v, err)
	// Output: 850 kg/m³ <nil>
}

func ExampleDensity_Scan() {
	var d units.Density
	err := d.Scan("850 kg/m³")
	fmt.Println(d, err)
	// Output: 850.0 kg/m³ <nil>
}

func ExampleDensity_GoString() {
	fmt.Printf("%#v\n", units.Density(850))
	// Output: units.Density(850)
}
