package refdata

import (
	"fmt"

	"example.com/meniscus/internal/sheet"
	"example.com/meniscus/units"
)

const mostChain = 8 // files over one another

// readOverlay takes what a file says of the one it is laid over.
func (f *file) readOverlay(root *sheet.Table) {
	f.over = root.String("overlay_of")
	if !f.over.OK() {
		return
	}
	f.removed, _ = root.Sub("remove").List("keys")
	f.added, _ = root.Sub("add").List("keys")
	root.Sub("remove").Text("note")
	root.Sub("add").Text("note")
}

// chainOf gives the file and all it is laid over, the top first. A base that is
// not there, or a ring of bases, is a fault of the file that names it, and the
// chain is not whole.
func (b *builder) chainOf(f *file) (chain []*file, whole bool) {
	chain = []*file{f}
	for f.over.OK() {
		base, ok := b.baseOf(f)
		switch {
		case !ok:
			f.over.Fault("pack-no-base", fmt.Sprintf("no %s %s lies under this file", f.kind, sheet.Echo(f.over.String())), "name the id of one in this folder or in a layer below; lay the layers in their order")
			return chain, false
		case contains(chain, base):
			f.over.Fault("pack-overlay-cycle", fmt.Sprintf("%s is laid over this file itself", sheet.Echo(f.over.String())), "let one of them stand by itself")
			return chain, false
		case len(chain) == mostChain:
			chain[0].over.Fault("pack-overlay-deep", fmt.Sprintf("more than %d files lie over one another", mostChain), "write the figures out in one file")
			return chain, false
		}
		chain = append(chain, base)
		f = base
	}
	return chain, true
}

func contains(chain []*file, f *file) bool {
	for _, x := range chain {
		if x == f {
			return true
		}
	}
	return false
}

// baseOf finds what a file is laid over: its own id means the file of that id in
// a layer below, another id the topmost one this file can see.
func (b *builder) baseOf(f *file) (*file, bool) {
	from := f.layer
	if f.id.String() == f.over.String() {
		from--
	}
	for n := from; n >= 0; n-- {
		if base, ok := b.files[place{n, f.kind, f.over.String()}]; ok {
			return base, true
		}
	}
	return nil, false
}

// lists holds [add] and [remove] of the topmost file against what lies under it.
func lists(chain []*file) {
	top, base := chain[0], under(chain)
	own := open(chain[:1])
	for _, r := range top.removed {
		if !base.has(r.String()) {
			r.Fault("pack-remove-nothing", fmt.Sprintf("the base has no %s to remove", sheet.Echo(r.String())), "write the full path of a key or table of the base, such as plug.check")
		}
		if own.has(r.String()) {
			r.Fault("pack-remove-written", "this file writes it as well", "a value written here replaces the base's; drop it from the list")
		}
	}
	for _, a := range top.added {
		switch {
		case base.has(a.String()):
			a.Fault("pack-add-there", fmt.Sprintf("the base has %s already", sheet.Echo(a.String())), "drop it from [add]; a value written here replaces the base's")
		case !own.has(a.String()):
			a.Fault("pack-add-nothing", fmt.Sprintf("no %s is written in this file", sheet.Echo(a.String())), "write it, or drop it from [add]")
		}
	}
}

// basedOn warns when the base has moved since it was looked at.
func basedOn(chain []*file) {
	top := chain[0].doc.Root()
	base := under(chain).str("revision")
	if !base.OK() {
		return
	}
	on := top.Need("based_on")
	if on.OK() && on.String() != base.String() {
		on.Warn("pack-base-moved", fmt.Sprintf("the base is now revision %s; this file was written over %s", sheet.Echo(base.String()), sheet.Echo(on.String())),
			"look at the base again, then write its revision here; was = \"…\" beside a value guards it")
	}
}

// bolder warns where an overlay raises a torque or widens the window on weaker
// trust than what it replaces.
func (r *reader) bolder(v *view, p Procedure) {
	if len(v.chain) < 2 {
		return
	}
	for _, plug := range p.Plugs {
		r.bolderTorque(v.sub("plug").sub(plug.ID), plug.Torque)
	}
	w := v.sub("window")
	r.bolderEnd(w, "low", func(was units.Temperature) bool { return p.Window.Low.Compare(was) < 0 })
	r.bolderEnd(w, "high", func(was units.Temperature) bool { return p.Window.High.Compare(was) > 0 })
}

func (r *reader) bolderTorque(v *view, now units.Torque) {
	if f, ok := r.weaker(v, "torque"); ok && now.Sign() > 0 {
		was, err := units.ParseTorque(f.Shadows[0].Text)
		if err == nil && now.Compare(was) > 0 {
			r.warnBolder(v, "torque", "raises the torque", f)
		}
	}
}

func (r *reader) bolderEnd(v *view, name string, wider func(units.Temperature) bool) {
	if f, ok := r.weaker(v, name); ok {
		was, err := units.ParseTemperature(f.Shadows[0].Text)
		if err == nil && wider(was) {
			r.warnBolder(v, name, "widens the window", f)
		}
	}
}

func (r *reader) warnBolder(v *view, name, what string, f Figure) {
	r.where(v, name).Warn("pack-bolder", fmt.Sprintf("%s from %s on weaker trust: %s over %s", what, f.Shadows[0].Text, f.Trust, f.Shadows[0].Trust), "let somebody check it against the maker's sheet")
}

// weaker finds a figure that replaces one with more trust.
func (r *reader) weaker(v *view, name string) (Figure, bool) {
	for _, f := range r.figures {
		if f.Key == v.join(name) && len(f.Shadows) > 0 && rank(f.Trust) < rank(f.Shadows[0].Trust) {
			return f, true
		}
	}
	return Figure{}, false
}
