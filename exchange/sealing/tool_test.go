package sealing

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/meniscus/units"
)

func TestStandardTolerance(t *testing.T) {
	// ISO 6789 (2003-era wording), seen second-hand: 6 % up to 10 N·m, 4 % above.
	for _, tt := range []struct{ largest, want float64 }{{5, 0.06}, {10, 0.06}, {10.1, 0.04}, {50, 0.04}} {
		if got := StandardTolerance(units.NewtonMetre.Of(tt.largest)); got != tt.want {
			t.Errorf("up to %v N·m: %v, want %v", tt.largest, got, tt.want)
		}
	}
}

func TestToolSpreadAndCheck(t *testing.T) {
	nm := units.NewtonMetre.Of
	wrench := Tool{ID: "wrench-50", Low: nm(10), High: nm(50)}
	low, high, err := wrench.Spread(nm(24))
	if err != nil || low != nm(23.04) || high != nm(24.96) {
		t.Errorf("24 N·m ± 4 %%: %v to %v, %v", low, high, err)
	}
	for _, bad := range []units.Torque{nm(9.9), nm(50.1), nm(math.NaN())} {
		if _, _, err := wrench.Spread(bad); err == nil || !strings.Contains(err.Error(), "take another tool") {
			t.Errorf("%v: %v", bad, err)
		}
	}
	for _, bad := range []Tool{{}, {ID: "a", Low: nm(5), High: nm(5)}, {ID: "a", High: nm(5), Tolerance: math.NaN()}, {ID: "a", High: nm(5), Tolerance: 1}, {ID: "a", Low: nm(-1), High: nm(5)}} {
		if _, _, err := bad.Spread(nm(2)); err == nil {
			t.Errorf("%+v set a plug", bad)
		}
	}
}

func TestWithin(t *testing.T) {
	nm := units.NewtonMetre.Of
	for _, tt := range []struct {
		plug Plug
		set  float64
		want bool
	}{
		{Plug{Torque: nm(24)}, 24.9, true}, {Plug{Torque: nm(24)}, 25, false},
		{Plug{Torque: nm(9)}, 9.5, true}, {Plug{Torque: nm(9)}, 9.6, false},
		{Plug{Torque: nm(24), Spread: nm(3)}, 21, true}, {Plug{Torque: nm(24), Spread: nm(3)}, 20.9, false},
		{Plug{}, 24, false}, {Plug{Torque: nm(24)}, math.NaN(), false},
	} {
		if got := tt.plug.Within(nm(tt.set)); got != tt.want {
			t.Errorf("%v N·m on %v ± %v: %v", tt.set, tt.plug.Torque, tt.plug.Spread, got)
		}
	}
}

func ExampleTool_Check() {
	fmt.Println(Tool{ID: "wrench-50", Low: units.NewtonMetre.Of(60), High: units.NewtonMetre.Of(50)}.Check())
	// Output: sealing: torque tool "wrench-50": range 60 N·m to 50 N·m; want a low end below the high end
}

func ExampleTool_Spread() {
	low, high, _ := Tool{ID: "wrench-50", Low: units.NewtonMetre.Of(10), High: units.NewtonMetre.Of(50)}.Spread(units.NewtonMetre.Of(24))
	fmt.Println(low, "to", high)
	// Output: 23.04 N·m to 24.96 N·m
}

func ExampleStandardTolerance() {
	fmt.Println(StandardTolerance(units.NewtonMetre.Of(50)))
	// Output: 0.04
}

func ExamplePlug_Within() {
	fmt.Println(Plug{Torque: units.NewtonMetre.Of(24)}.Within(units.PoundForceFoot.Of(24)))
	// Output: false
}
