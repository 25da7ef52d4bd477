package units_test

import (
	"fmt"

	"example.com/meniscus/units"
)

// capacity is "12 to 15 quarts", as a sheet for a family of gearboxes says.
func capacity() units.Range[units.VolumeDim] {
	r, err := units.NewRange(units.USQuart.Of(12), units.USQuart.Of(15))
	if err != nil {
		fmt.Println(err)
	}
	return r
}

func ExampleNewRange() {
	_, err := units.NewRange(units.Litre.Of(3), units.Litre.Of(2))
	fmt.Println(err)
	// Output: units: range of volume: low end 3 L is above high end 2 L; want low..high
}

func ExampleExactly() {
	fmt.Println(units.Exactly(units.Litre.Of(10)))
	// Output: 10 L
}

func ExampleRange_Low() {
	fmt.Println(capacity().Low().Text(units.USQuart, 0))
	// Output: 12 US qt
}

func ExampleRange_High() {
	fmt.Println(capacity().High().Text(units.USQuart, 0))
	// Output: 15 US qt
}

func ExampleRange_Mid() {
	fmt.Println(capacity().Mid().Text(units.USQuart, 1))
	// Output: 13.5 US qt
}

func ExampleRange_Width() {
	fmt.Println(capacity().Width().Text(units.USQuart, 0))
	// Output: 3 US qt
}

func ExampleRange_Contains() {
	fmt.Println(capacity().Contains(units.USQuart.Of(15)), capacity().Contains(units.USQuart.Of(15.1)))
	// Output: true false
}

func ExampleRange_Valid() {
	fmt.Println(capacity().Valid(), units.Exactly(units.Litre.Of(1e9)).Valid())
	// Output: true false
}

func ExampleRange_IsZero() {
	var unset units.Range[units.VolumeDim]
	fmt.Println(unset.IsZero(), capacity().IsZero())
	// Output: true false
}

func ExampleRange_Text() {
	fmt.Println(capacity().Text(units.Litre, 1))
	// Output: 11.4 to 14.2 L
}

func ExampleRange_String() {
	fmt.Println(capacity())
	// Output: 11.356235352 L to 14.19529419 L
}

func ExampleRange_AppendText() {
	b, err := capacity().AppendText([]byte("holds "))
	fmt.Println(string(b), err)
	// Output: holds 11.356235352 L to 14.19529419 L <nil>
}

func ExampleRange_MarshalText() {
	b, err := units.Exactly(units.Litre.Of(10)).MarshalText()
	fmt.Println(string(b), err)
	// Output: 10 L <nil>
}

func ExampleRange_UnmarshalText() {
	var r units.Range[units.TorqueDim]
	err := r.UnmarshalText([]byte("30..40 N·m"))
	fmt.Println(r, err)
	// Output: 30 N·m to 40 N·m <nil>
}

func ExampleRange_UnmarshalJSON() {
	var r units.Range[units.VolumeDim]
	err := r.UnmarshalJSON([]byte(`"9.6 to 10.4 L"`))
	fmt.Println(r, err)
	// Output: 9.6 L to 10.4 L <nil>
}

func ExampleRange_Value() {
	v, err := units.Exactly(units.Litre.Of(10)).Value()
	fmt.Println(v, err)
	// Output: 10 L <nil>
}

func ExampleRange_Scan() {
	var r units.Range[units.VolumeDim]
	err := r.Scan("9.6 L to 10.4 L")
	fmt.Println(r, err)
	// Output: 9.6 L to 10.4 L <nil>
}

func ExampleRange_GoString() {
	fmt.Printf("%#v\n", units.Exactly(units.Litre.Of(10)))
	// Output: units.Range[units.VolumeDim]("10 L")
}
