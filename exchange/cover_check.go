package exchange

import (
	"errors"
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"example.com/meniscus/units"
	"github.com/shopspring/decimal"
)

const (
	coverMostOffers   = 64
	coverMostLitres   = 30_000 // sums of three such volumes still fit 64 bits of ticks
	coverPricePlaces  = 9
	coverMostPrice    = 1_000_000_000
	coverMostHeld     = 1_000_000
	coverMostStock    = 1000 // lines
	coverMostName     = 200  // bytes
	coverTickPlaces   = 14   // a tick of volume is 1e-14 L
	coverShownOfAName = 40
)

func (o Order) check() error {
	faults := []error{coverCheckVolume("need", o.Need, false)}
	faults = append(faults, coverCheckOffers(o.Offers), o.OnHand.check())
	return errors.Join(faults...)
}

func coverCheckOffers(offers []Offer) error {
	if len(offers) > coverMostOffers {
		return fmt.Errorf("exchange: %d offers; want at most %d", len(offers), coverMostOffers)
	}
	var faults coverFaults
	for i, o := range offers {
		where := coverWhere("offer", i, o.Name)
		faults.add(coverCheckName(where, o.Name))
		faults.add(coverCheckVolume(where+": size", o.Size, true))
		faults.add(coverCheckVolume(where+": heel", o.Heel, false))
		if o.Heel.Valid() && o.Size.Valid() && o.Size.Sign() > 0 && o.Heel.Compare(o.Size) >= 0 {
			faults.add(fmt.Errorf("exchange: %s: heel %s leaves nothing of %s to pour; want less than the size", where, o.Heel, o.Size))
		}
		if _, err := coverPrice(o.Price); err != nil {
			faults.add(fmt.Errorf("exchange: %s: price %w", where, err))
		}
		if o.Most < 0 {
			faults.add(fmt.Errorf("exchange: %s: most %d; want 0 (no limit) or more", where, o.Most))
		}
	}
	return errors.Join(faults...)
}

// coverFaults keeps the first ten faults of a list: a long bad list must not make
// a longer message.
type coverFaults []error

func (f *coverFaults) add(err error) {
	if err != nil && len(*f) < remainingMostFaults {
		*f = append(*f, err)
	}
}

func coverCheckName(where, name string) error {
	if len(name) > coverMostName {
		return fmt.Errorf("exchange: %s: name of %d bytes; want at most %d", where, len(name), coverMostName)
	}
	return nil
}

func coverCheckVolume(where string, v units.Volume, positive bool) error {
	most := units.Litre.Of(coverMostLitres)
	accepted := "want 0 to " + most.Text(units.Litre, 0)
	if positive {
		accepted = "want above 0, at most " + most.Text(units.Litre, 0)
	}
	switch {
	case !v.Valid():
		return fmt.Errorf("exchange: %s is %w; %s", where, units.ErrOutOfRange, accepted)
	case v.Sign() < 0, positive && v.IsZero(), v.Compare(most) > 0:
		return fmt.Errorf("exchange: %s is %s; %s", where, v, accepted)
	}
	return nil
}

// coverWhere names an entry by place, counted from 1, and by name.
func coverWhere(what string, i int, name string) string {
	where := what + " " + strconv.Itoa(i+1)
	if name == "" {
		return where
	}
	return where + " (" + coverClip(name) + ")"
}

// coverClip keeps a long or broken name from filling a message.
func coverClip(name string) string {
	if len(name) > coverShownOfAName {
		return strings.ToValidUTF8(name[:coverShownOfAName], "") + "…"
	}
	return strings.ToValidUTF8(name, "?")
}

// coverPrice returns the price in 1e-9 of the currency, exactly.
func coverPrice(price decimal.Decimal) (int64, error) {
	const accepted = "want 0 to 1 000 000 000 with at most 9 decimals"
	exp := price.Exponent()
	coef := price.Coefficient()
	// Both bounds come before any power is made: 1e10000 would be slow to scale.
	if coef.BitLen() > 256 || exp < -80 || exp > 20 {
		return 0, errors.New("has too many digits; " + accepted)
	}
	if coef.Sign() < 0 {
		return 0, fmt.Errorf("%s is negative; %s", price.StringFixed(2), accepted)
	}
	shift := int64(exp) + coverPricePlaces
	power := new(big.Int).Exp(big.NewInt(10), big.NewInt(max(shift, -shift)), nil)
	if shift >= 0 {
		coef.Mul(coef, power)
	} else if _, rem := coef.QuoRem(coef, power, new(big.Int)); rem.Sign() != 0 {
		return 0, errors.New("has more than 9 decimals; " + accepted)
	}
	if !coef.IsInt64() || coef.Int64() > coverMostPrice*1_000_000_000 {
		return 0, errors.New("is too large; " + accepted)
	}
	return coef.Int64(), nil
}

// coverTicks returns the ticks of a checked volume. The exact decimal of a
// volume, without its point, is its tick count.
func coverTicks(v units.Volume) uint64 {
	text, _, _ := strings.Cut(v.Text(units.Litre, coverTickPlaces), " ")
	n, err := strconv.ParseUint(strings.Replace(text, ".", "", 1), 10, 64)
	if err != nil {
		return 0 // a checked volume is neither negative nor out of range
	}
	return n
}
