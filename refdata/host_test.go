package refdata

import (
	"testing"

	"github.com/shopspring/decimal"
)

// A host may have set the decimal library's variables; prices are read all the same.
func TestPricesIgnorePackageVariables(t *testing.T) {
	before := decimal.MaxDecodeExponent
	defer func() { decimal.MaxDecodeExponent = before }()
	decimal.MaxDecodeExponent = 1
	for text, want := range map[string]decimal.Decimal{ // order does not matter
		"39.99": decimal.New(3999, -2), "12": decimal.New(12, 0), "12.": decimal.New(12, 0), "0.1250": decimal.New(1250, -4), "999999999.9999": decimal.New(9999999999999, -4),
	} {
		if got, err := parsePrice(text); err != nil || got.Cmp(want) != 0 || got.Exponent() != want.Exponent() {
			t.Errorf("%s: %v, %v", text, got, err)
		}
	}
}
