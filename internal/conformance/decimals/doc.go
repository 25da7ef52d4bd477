// Package decimals holds what the library does with decimals (reading them,
// rounding them to a tick, printing them, scaling and averaging quantities, adding
// up prices) against math/big's rational numbers, on random values and on values
// next to ties and to the ends of the range.
package decimals
