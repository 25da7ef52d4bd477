package refdata

import (
	"fmt"

	"example.com/meniscus/exchange/caution"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/internal/sheet"
	"example.com/meniscus/refdata/tables"
	"example.com/meniscus/units"
)

// checks holds a procedure's figures against the outside tables. Errors come
// from strong tables only; a weak one warns, and names itself and its mark.
type checks struct {
	tables *tables.Tables
	plugs  map[sealing.Thread][]tables.Plug
	rings  []tables.Ring
	known  map[string]bool // ids of cautions
}

// allChecks sorts the tables for looking up: every plug of a pack asks them.
func allChecks() (checks, error) {
	all, err := tables.Open()
	if err != nil {
		return checks{}, err
	}
	c := checks{tables: all, plugs: map[sealing.Thread][]tables.Plug{}, rings: all.Rings(), known: map[string]bool{}}
	for _, p := range all.Plugs() {
		c.plugs[p.Thread] = append(c.plugs[p.Thread], p)
	}
	for _, x := range caution.All() {
		c.known[x.ID] = true
	}
	return c, nil
}

// plug judges one plug. t is its table in the file.
func (c checks) plug(r *reader, t *view, p sealing.Plug) {
	if v := r.where(t, "drive"); v.OK() && !p.Drive.IsZero() {
		c.drive(v, p)
	}
	if v := r.where(t, "torque"); v.OK() && p.Torque.Sign() > 0 {
		c.torque(v, p)
	}
	if t.whole() && t.kind("torque") == sheet.Absent && t.kind("turns") == sheet.Absent {
		t.warn("pack-plug-unset", "no torque and no turns are stated: nothing says how tight it is set", "copy the torque from the sheet")
	}
}

// drive wants a key that is made.
func (c checks) drive(v sheet.Value, p sealing.Plug) {
	key, ok := c.tables.Key(p.Drive)
	if !ok {
		problem := fmt.Sprintf("no %s of that size stands in the tables", p.Drive.Kind)
		switch p.Drive.Kind {
		case sealing.Hexalobular: // ISO 10664, seen
			v.Fault("pack-no-such-key", problem+" (ISO 10664, seen)", "look at the number on the bit")
		case sealing.HexHead: // ISO 272, seen
			v.Fault("pack-no-such-key", problem+" (ISO 272, seen)", "measure across the flats")
		default:
			v.Warn("pack-unusual-key", problem+" (ISO 2936 or ISO 1174-1, from memory)", "measure across the flats")
		}
		return
	}
	if p.Torque.Sign() > 0 && key.TestTorque.Sign() > 0 && p.Torque.Compare(key.TestTorque) > 0 {
		v.Warn("pack-key-too-weak", fmt.Sprintf("%s is more than a key of %s is tested with, %s (%s, %s)", sealing.Both(p.Torque), key.Name, key.TestTorque, short(key.Source), key.Mark), "check the torque and its unit")
	}
	c.usualKey(v, p)
}

// usualKey compares with the plugs that standards list for the thread.
func (c checks) usualKey(v sheet.Value, p sealing.Plug) {
	listed, near := 0, ""
	for _, row := range c.plugs[p.Thread] {
		if row.Drive != p.Drive.Kind {
			continue
		}
		size := row.Key
		if p.Drive.Kind == sealing.HexHead {
			size = row.AcrossFlats
		}
		if size.IsZero() {
			continue
		}
		if size == p.Drive.Size {
			return
		}
		listed++
		near = size.String() + " (" + row.Standard + ", " + row.Mark + ")"
	}
	if listed > 0 {
		v.Warn("pack-unusual-drive", fmt.Sprintf("plugs of thread %s are listed with other sizes, such as %s", p.Thread, near), "measure it again; makers do differ")
	}
}

// torque compares with the band of published values for the thread.
func (c checks) torque(v sheet.Value, p sealing.Plug) {
	band, ok := c.tables.Band(p.Thread)
	if !ok || p.Torque.Compare(band.Low) >= 0 && p.Torque.Compare(band.High) <= 0 {
		return
	}
	v.Warn("pack-torque-unusual", fmt.Sprintf("%s is outside the published values for %s plugs, %s to %s (torque_bands, %s)%s",
		sealing.Both(p.Torque), p.Thread, band.Low, band.High, band.Mark, slip(p.Torque, band)), "check the figure and its unit")
}

// slip says when another unit would bring the figure into the band.
func slip(t units.Torque, band tables.Band) string {
	for _, s := range [...]struct {
		factor float64
		hint   string
	}{{12, "lbf·ft typed as lbf·in"}, {1.0 / 12, "lbf·in typed as lbf·ft"}, {10.19716, "kgf·m or N·m typed as kgf·cm or the like"}, {0.0980665, "kgf·cm typed as N·m"}} {
		if other := t.Scale(s.factor); other.Compare(band.Low) >= 0 && other.Compare(band.High) <= 0 {
			return ": is it " + s.hint + "?"
		}
	}
	return ""
}

// ring compares a washer with the rings that are sold.
func (c checks) ring(t *view, w sealing.Washer) {
	if w.Inner.IsZero() || w.Outer.IsZero() {
		return
	}
	slack := units.Millimetre.Of(0.5) // rings are made a little over their nominal size
	for _, r := range c.rings {
		if r.Outer == w.Outer && r.Inner.Sub(w.Inner).Abs().Compare(slack) <= 0 {
			return
		}
	}
	t.warn("pack-ring-unusual", fmt.Sprintf("no ring of %s x %s stands in the tables (DIN 7603, from memory)", w.Inner, w.Outer), "measure it again; special rings exist")
}

// box warns of figures no common box has (our judgement).
func (c checks) box(t *view, p Procedure) {
	litre := units.Litre.Of
	if p.Capacity.IsZero() {
		return
	}
	if p.Capacity.Low().Compare(litre(3)) < 0 || p.Capacity.High().Compare(litre(30)) > 0 {
		t.warn("pack-capacity-unusual", fmt.Sprintf("a capacity of %s is unusual for such a box (our judgement: 3 to 30 L)", p.Capacity), "check the figure and its unit")
	}
	if p.ColdDrain.IsZero() || p.ColdDrain.High().Compare(p.Capacity.Low()) >= 0 {
		return // not stated, or refused already
	}
	if least := p.ColdDrain.Low().Ratio(p.Capacity.High()); least < 0.08 {
		t.warn("pack-drain-unusual", fmt.Sprintf("one drain of %s is less than a twelfth of the box (our judgement)", p.ColdDrain), "check the figure and its unit")
	}
	if most := p.ColdDrain.High().Ratio(p.Capacity.Low()); most > 0.7 {
		t.warn("pack-drain-unusual", fmt.Sprintf("one drain of %s is most of the box (our judgement)", p.ColdDrain), "check the figure and its unit")
	}
}

// window warns of a window where no level check is usual; °F typed as °C and
// the other way round end up here.
func (c checks) window(t *view, p Procedure) {
	w := p.Window
	if w.Low.IsZero() && w.High.IsZero() {
		return
	}
	if w.Low.Compare(units.Celsius(20)) < 0 || w.High.Compare(units.Celsius(90)) > 0 {
		t.warn("pack-window-unusual", fmt.Sprintf("a window of %s to %s is unusual (our judgement: within 20 to 90 °C)", w.Low.Text(units.CelsiusScale, 1), w.High.Text(units.CelsiusScale, 1)), "check the figures and their scale, °C or °F")
	}
}

// short keeps a source in a message readable.
func short(s string) string {
	const most = 60
	if len(s) <= most {
		return s
	}
	cut := most
	for cut > 0 && s[cut]&0xC0 == 0x80 {
		cut--
	}
	return s[:cut] + "…"
}
