package thermal_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

func TestMaterialTextRoundTrips(t *testing.T) {
	for _, m := range thermal.Materials() {
		text, err := m.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		var back thermal.Material
		if err := back.UnmarshalText(text); err != nil || back != m {
			t.Errorf("%s reads back as %v, %v", text, back, err)
		}
	}
	if _, err := thermal.UnknownMaterial.MarshalText(); err == nil {
		t.Error("the unknown material was written")
	}
	keep := thermal.Aluminium
	if err := keep.UnmarshalText([]byte("cheese")); err == nil || keep != thermal.Aluminium {
		t.Errorf("cheese read as %v, %v", keep, err)
	}
}

func TestVesselAndWindowRoundTripAsJSON(t *testing.T) {
	vessel := thermal.Vessel{ID: "jug-a", Material: thermal.Polypropylene, Graduation: units.Millilitre.Of(50), ScaleError: 0.01, Capacity: units.Litre.Of(3), Entry: "entry-1"}
	text, err := json.Marshal(vessel)
	if err != nil {
		t.Fatal(err)
	}
	var back thermal.Vessel
	if err := json.Unmarshal(text, &back); err != nil {
		t.Fatal(err)
	}
	vessel.Entry = "" // names one reading, and is no part of the vessel
	if back != vessel {
		t.Errorf("%s reads back as %+v", text, back)
	}
	window := thermal.Window{Low: units.Celsius(38), High: units.Celsius(48), EngineIdling: true}
	text, _ = json.Marshal(window)
	var again thermal.Window
	if err := json.Unmarshal(text, &again); err != nil || again != window {
		t.Errorf("%s reads back as %+v, %v", text, again, err)
	}
}

func ExampleMaterial_MarshalText() {
	text, _ := thermal.SodaLimeGlass.MarshalText()
	fmt.Println(string(text))
	// Output: soda-lime glass
}

func ExampleMaterial_UnmarshalText() {
	var m thermal.Material
	fmt.Println(m.UnmarshalText([]byte("aluminium")), m)
	// Output: <nil> aluminium
}
