package jobcard

import (
	"fmt"
	"strings"
)

// mostNamed is how many names an error tells; the others are counted.
const mostNamed = 10

// notListed refuses a name the job does not list, and tells those it does.
func notListed(what, id string, n int, at func(int) string) error {
	return fmt.Errorf("%s %.40q is not one of the job's; want %s", what, id, oneOf(what, n, at))
}

// oneOf writes "one of fill, drain, check". A name that no check lets pass is counted
// and not repeated.
func oneOf(what string, n int, at func(int) string) string {
	if n == 0 {
		return "no " + what + " name: the job lists none"
	}
	var names []string
	for i := 0; i < n && len(names) < mostNamed; i++ {
		if id := at(i); checkID(id) == nil {
			names = append(names, id)
		}
	}
	if len(names) == 0 {
		return "one of the job's"
	}
	list := "one of " + strings.Join(names, ", ")
	if more := n - len(names); more > 0 {
		list += fmt.Sprintf(" and %d more", more)
	}
	return list
}

func (s *Spec) noPlug(id string) error {
	return notListed("plug", id, len(s.Plugs), func(i int) string { return s.Plugs[i].ID })
}

func (s *Spec) noWasher(id string) error {
	return notListed("washer", id, len(s.Washers), s.washerID)
}

func (s *Spec) washerID(i int) string { return s.Washers[i].ID }

func (s *Spec) noTool(id string) error {
	return notListed("tool", id, len(s.Tools), func(i int) string { return s.Tools[i].ID })
}

func (s *Spec) noVessel(id string) error {
	return notListed("vessel", id, len(s.Vessels), func(i int) string { return s.Vessels[i].ID })
}

func (s *Spec) noThermometer(id string) error {
	return notListed("thermometer", id, len(s.Thermometers), func(i int) string { return s.Thermometers[i].ID })
}

func (s *Spec) noScale(id string) error {
	return notListed("scale", id, len(s.Scales), func(i int) string { return s.Scales[i].ID })
}
