package refdata

import (
	"errors"
	"strconv"
	"strings"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

func notNegative(s string) (units.Volume, error) {
	v, err := units.ParseExplicit[units.VolumeDim](s)
	if err == nil && v.Sign() < 0 {
		return v, errors.New("is negative; want zero or more")
	}
	return v, err
}

func positiveVolume(s string) (units.Volume, error) {
	v, err := units.ParseExplicit[units.VolumeDim](s)
	return v, above(err, v.Sign())
}

func positiveRange(s string) (units.Range[units.VolumeDim], error) {
	v, err := units.ParseExplicitRange[units.VolumeDim](s)
	return v, above(err, v.Low().Sign())
}

func positiveTorque(s string) (units.Torque, error) {
	v, err := units.ParseTorque(s)
	return v, above(err, v.Sign())
}

func positiveMass(s string) (units.Mass, error) {
	v, err := units.ParseMass(s)
	return v, above(err, v.Sign())
}

func positiveDelta(s string) (units.TemperatureDelta, error) {
	v, err := units.ParseTemperatureDelta(s)
	return v, above(err, v.Sign())
}

func positiveDensity(s string) (units.Density, error) {
	v, err := units.ParseExplicitDensity(s)
	if err == nil && !(v > 0) {
		err = errors.New("is not above zero; want more than zero")
	}
	return v, err
}

func positiveLength(s string) (units.Length, error) {
	v, err := units.ParseLength(s)
	return v, above(err, v.Sign())
}

func above(err error, sign int) error {
	if err == nil && sign <= 0 {
		return errors.New("is not above zero; want more than zero")
	}
	return err
}

func parseRole(s string) (role sealing.Role, err error) {
	if s == "" {
		return role, errors.New("is empty")
	}
	err = role.UnmarshalText([]byte(s))
	return role, err
}

func parseTurns(s string) (float64, error) {
	x, err := plain(s)
	if err != nil || x <= 0 || x > 20 {
		return 0, errors.New("not a number of turns; want above 0 and at most 20")
	}
	return x, nil
}

func parsePercent(s string) (float64, error) {
	text, ok := strings.CutSuffix(s, "%")
	x, err := plain(strings.TrimSpace(text))
	if !ok || err != nil || x >= 100 {
		return 0, errors.New("not a percentage below 100")
	}
	return x / 100, nil
}

func parseExpansion(s string) (float64, error) {
	text, ok := strings.CutSuffix(s, "/K")
	x, err := plain(strings.TrimSpace(text))
	if !ok || err != nil || x <= 0 || x > 0.01 {
		return 0, errors.New("not a coefficient of cubic expansion; want about 0.0007 /K")
	}
	return x, nil
}

// plain reads a short decimal without sign or exponent.
func plain(s string) (float64, error) {
	if s == "" || len(s) > 12 || strings.Trim(s, "0123456789.") != "" {
		return 0, errors.New("not a plain number")
	}
	return strconv.ParseFloat(s, 64)
}

func oneLine(err error) string { return strings.ReplaceAll(err.Error(), "\n", "; ") }

func join(list []string) string { return strings.Join(list, "; ") }

func parseThread(s string) (sealing.Thread, error) { return sealing.ParseThread(s) }

func parseDrive(s string) (sealing.Drive, error) { return sealing.ParseDrive(s) }

func materialWords(m thermal.Material) string {
	if m == thermal.UnknownMaterial {
		return ""
	}
	return m.String()
}

func driveWords(d sealing.Drive) string {
	if d.IsZero() {
		return ""
	}
	return d.String()
}
