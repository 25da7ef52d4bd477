package refdata

import (
	"fmt"
	"slices"

	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/internal/sheet"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
)

const (
	volumeForm      = `write it like "2.1 L" or "2.2 US qt"`
	rangeForm       = `write it like "9.6..10.4 L"`
	temperatureForm = `write it like "41 °C" or "106 °F"`
	torqueForm      = `write it like "24 N·m" or "18 lbf·ft"`
	densityForm     = `write it like "850 kg/m³"`
	lengthForm      = `write it like "16.2 mm"`
)

func (r *reader) procedure(root *view) Procedure {
	p := Procedure{}
	p.ID, p.Title, p.Revision = root.need("id").String(), root.need("title").String(), root.need("revision").String()
	r.capacity(root.needSub("capacity"), &p)
	fluid := root.needSub("fluid")
	p.Fluid = r.must(fluid, "class").String()
	p.Overfill, _ = take(r, fluid, "overfill", "pack-volume", volumeForm, notNegative)
	p.Kept, _ = take(r, fluid, "kept", "pack-volume", volumeForm, notNegative)
	p.MixRuns, _ = r.value(root.sub("mix"), "runs").Count(1, 100)
	r.window(root.sub("window"), &p)
	washers := root.sub("washer").subs()
	p.Washers = room[sealing.Washer](len(washers))
	for _, t := range washers {
		w, ok := r.washer(t)
		if ok {
			r.checks.ring(t, w)
		} else {
			r.broken = append(r.broken, w.ID)
		}
		p.Washers = append(p.Washers, w)
	}
	plugs := root.sub("plug").subs()
	p.Plugs = room[sealing.Plug](len(plugs))
	for _, t := range plugs {
		plug, ok := r.plug(t, p.Washers)
		if ok {
			r.checks.plug(r, t, plug)
		}
		p.Plugs = append(p.Plugs, plug)
	}
	r.checks.box(root.sub("capacity"), p)
	r.checks.window(root.sub("window"), p)
	for _, v := range root.list("cautions") {
		if v.OK() && !r.checks.known[v.String()] {
			v.Fault("pack-caution", fmt.Sprintf("no caution is called %s", sheet.Echo(v.String())), "name one of package caution's ids, such as hot-fluid")
		}
		p.Cautions = append(p.Cautions, v.String())
	}
	for _, v := range root.list("notes") {
		p.Notes = append(p.Notes, v.String())
	}
	unusedWashers(root, p)
	r.bolder(root, p)
	p.Figures = slices.Clone(r.figures)
	return p
}

// room for n of them; nil for none.
func room[T any](n int) []T {
	if n == 0 {
		return nil
	}
	return make([]T, 0, n)
}

func (r *reader) capacity(t *view, p *Procedure) {
	p.Capacity, _ = mustTake(r, t, "total", "pack-range", rangeForm, positiveRange)
	capacityAgain(r, t, p.Capacity)
	drain := r.value(t, "drain")
	p.ColdDrain, _ = sheet.Take(drain, "pack-range", rangeForm, positiveRange)
	sump := r.value(t, "sump")
	p.Sump, _ = sheet.Take(sump, "pack-volume", volumeForm, notNegative)
	p.Reference, _ = take(r, t, "at", "pack-temperature", temperatureForm, units.ParseTemperature)
	p.CaseMetal, _ = take(r, t, "case", "pack-material", `write it like "aluminium"`, thermal.ParseMaterial)
	if p.Capacity.IsZero() {
		return
	}
	if drain.OK() && p.ColdDrain.High().Compare(p.Capacity.Low()) >= 0 {
		drain.Fault("pack-drain-over-capacity", fmt.Sprintf("a drain of %s does not come out of a box of %s", p.ColdDrain, p.Capacity), "check both figures and their units")
	}
	if sump.OK() && p.Sump.Compare(p.Capacity.Low()) > 0 {
		sump.Fault("pack-sump-over-capacity", fmt.Sprintf("a sump of %s is more than the box of %s", p.Sump, p.Capacity), "check both figures and their units")
	}
}

func (r *reader) window(t *view, p *Procedure) {
	if !t.present() {
		return
	}
	low, okLow := mustTake(r, t, "low", "pack-temperature", temperatureForm, units.ParseTemperature)
	high, okHigh := mustTake(r, t, "high", "pack-temperature", temperatureForm, units.ParseTemperature)
	temperatureAgain(r, t, "low", low, okLow)
	temperatureAgain(r, t, "high", high, okHigh)
	w := thermal.Window{Low: low, High: high, Note: t.text("note").String()}
	w.EngineIdling, _ = r.value(t, "engine_idling").YesNo()
	w.Level, _ = r.value(t, "level").YesNo()
	if !okLow || !okHigh {
		return
	}
	if err := w.Check(); err != nil {
		t.fault("pack-window", oneLine(err), "check both ends and their scale, °C or °F")
		return
	}
	p.Window = w
}

// washer reads one ring; not ok where its own figures are at fault.
func (r *reader) washer(t *view) (sealing.Washer, bool) {
	before := r.misses
	w := sealing.Washer{ID: t.name(), Material: r.value(t, "material").String()}
	w.Inner, _ = take(r, t, "inner", "pack-length", lengthForm, positiveLength)
	w.Outer, _ = take(r, t, "outer", "pack-length", lengthForm, positiveLength)
	w.Thickness, _ = take(r, t, "thickness", "pack-length", lengthForm, positiveLength)
	w.Reusable, _ = r.value(t, "reusable").YesNo()
	if err := w.Check(); err != nil {
		t.fault("pack-washer", oneLine(err), "measure the ring again")
		return w, false
	}
	return w, r.misses == before
}

// plug reads one plug and whether its washer fits; not ok where its own figures
// are at fault.
func (r *reader) plug(t *view, washers []sealing.Washer) (sealing.Plug, bool) {
	before := r.misses
	p := sealing.Plug{ID: t.name()}
	role := t.str("role")
	if role.OK() {
		p.Role, _ = sheet.Take(role, "pack-role", `write "drain", "fill" or "check"`, parseRole)
	} else if err := p.Role.UnmarshalText([]byte(t.name())); err != nil {
		t.fault("pack-role", "says not what the plug is for", `look at its name, or write role = "drain", "fill" or "check"`)
	}
	p.Thread, _ = mustTake(r, t, "thread", "pack-thread", `write it like "M16x1.5"`, sealing.ParseThread)
	p.Drive, _ = take(r, t, "drive", "pack-drive", `write it like "hex socket 8 mm"`, sealing.ParseDrive)
	p.Torque, _ = take(r, t, "torque", "pack-torque", torqueForm, positiveTorque)
	torqueAgain(r, t, p.Torque)
	p.Spread, _ = take(r, t, "plus_minus", "pack-torque", torqueForm, positiveTorque)
	p.Turns, _ = take(r, t, "turns", "pack-turns", `write it like "2.5"`, parseTurns)
	p.Shoulder, _ = take(r, t, "shoulder", "pack-length", lengthForm, positiveLength)
	p.Collar, _ = take(r, t, "collar", "pack-length", lengthForm, positiveLength)
	p.Seat, _ = take(r, t, "seat", "pack-length", lengthForm, positiveLength)
	washer := r.value(t, "washer")
	p.Washer = washer.String()
	if err := p.Check(); err != nil {
		t.fault("pack-plug", oneLine(err), "check the plug's figures against each other")
		return p, false
	}
	ok := r.misses == before
	if p.Washer != "" && !slices.Contains(r.broken, p.Washer) {
		fitWasher(washer, p, washers, ok)
	}
	return p, ok
}

// unusedWashers warns of rings that no plug takes.
func unusedWashers(root *view, p Procedure) {
	for _, plug := range p.Plugs {
		if plug.Washer != "" && !slices.ContainsFunc(p.Washers, func(w sealing.Washer) bool { return w.ID == plug.Washer }) {
			return // a slip of the name, told at the plug
		}
	}
	all := root.sub("washer")
	for _, w := range p.Washers {
		if !slices.ContainsFunc(p.Plugs, func(plug sealing.Plug) bool { return plug.Washer == w.ID }) {
			all.sub(w.ID).warn("pack-washer-unused", "no plug of this file takes it", fmt.Sprintf("name it: washer = %q in its plug, or drop it", w.ID))
		}
	}
}

// fitWasher holds a plug against the washer it names; what is missing is only
// worth a word where everything else could be read.
func fitWasher(v sheet.Value, p sealing.Plug, washers []sealing.Washer, read bool) {
	for _, w := range washers {
		if w.ID != p.Washer {
			continue
		}
		fit := sealing.Fit(p, w)
		switch {
		case fit.Verdict == sealing.DoesNotFit:
			v.Fault("pack-fit", join(fit.Reasons), "measure plug and ring again")
		case fit.Verdict == sealing.CannotCheck && read:
			v.Warn("pack-fit-unchecked", "cannot check the fit: "+join(fit.Reasons), "measure what is missing")
		}
		return
	}
	v.Fault("pack-no-washer", fmt.Sprintf("no washer here is called %s", sheet.Echo(p.Washer)), "describe the washer, or drop it")
}
