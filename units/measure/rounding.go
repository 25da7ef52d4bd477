package measure

import (
	"math"
	"strconv"
	"strings"
)

// Rounding is how an uncertainty is cut to two digits. The zero value is Nearest.
type Rounding uint8

// The ways of rounding. JCGM 100:2008 7.2.6 rounds 10.47 up to 11 but 28.05 to
// 28; Up never understates.
const (
	// Nearest rounds to the nearest two digits, half to even.
	Nearest Rounding = iota
	// Up rounds to two digits that are not less than the uncertainty.
	Up
)

const notValid = "not valid"

// TwoDigits returns a value and its uncertainty as text: the uncertainty to two
// significant digits, rounded as told, and the value to the same decimal place,
// to the nearest, half to even. Zero uncertainty leaves the value as it is. What
// is not finite, and a negative uncertainty, give "not valid" twice.
func TwoDigits(value, u float64, how Rounding) (valueText, uText string) {
	if !finite(value) || !finite(u) || u < 0 {
		return notValid, notValid
	}
	if u == 0 {
		return number(value), "0"
	}
	digits, exponent := twoDigits(u, how)
	place := exponent - 1
	return atPlace(value, place), scaled(int64(digits), place)
}

// twoDigits returns u as d × 10^(exponent-1), d from 10 to 99.
func twoDigits(u float64, how Rounding) (digits, exponent int) {
	text := strconv.FormatFloat(u, 'e', 1, 64) // d.de±xx
	mantissa, tail, _ := strings.Cut(text, "e")
	exponent, _ = strconv.Atoi(tail)
	digits = int(mantissa[0]-'0')*10 + int(mantissa[2]-'0')
	if back, _ := strconv.ParseFloat(text, 64); how == Up && back < u {
		digits++
	}
	if digits == 100 {
		return 10, exponent + 1
	}
	return digits, exponent
}

// atPlace writes x rounded to a multiple of 10^place.
func atPlace(x float64, place int) string {
	switch {
	case place < 0:
		return unsignedZero(strconv.FormatFloat(x, 'f', -place, 64))
	case place <= 15:
		return scaledText(strconv.FormatFloat(math.RoundToEven(x/tenTo(place)), 'f', 0, 64), place)
	}
	return strconv.FormatFloat(x, 'e', 6, 64)
}

func scaled(digits int64, place int) string {
	if place > 15 {
		return strconv.FormatInt(digits, 10) + "e" + strconv.Itoa(place)
	}
	if place >= 0 {
		return scaledText(strconv.FormatInt(digits, 10), place)
	}
	text := strconv.FormatInt(digits, 10)
	if short := 1 - place - len(text); short > 0 {
		text = strings.Repeat("0", short) + text
	}
	point := len(text) + place
	return text[:point] + "." + text[point:]
}

func scaledText(whole string, place int) string {
	whole = unsignedZero(whole)
	if whole == "0" {
		return whole
	}
	return whole + strings.Repeat("0", place)
}

// unsignedZero drops the sign of a number all of whose digits are zero.
func unsignedZero(s string) string {
	if strings.HasPrefix(s, "-") && strings.Trim(s, "-0.") == "" {
		return s[1:]
	}
	return s
}

func tenTo(n int) float64 {
	p := 1.0
	for range n {
		p *= 10
	}
	return p
}
