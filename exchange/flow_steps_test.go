package exchange

import (
	"strings"
	"testing"

	"example.com/meniscus/units"
)

// ln(1/0.25) = 1.3863 capacities mixed, 0.75 in plug flow.
func TestVolumeToSteps(t *testing.T) {
	for flow, want := range map[Flow]string{
		FlowMixed:   "capacities to pass = θ = ln(1/target) = ln(1/0.2500) = 1.3863\nvolume to pass = θ·C = 1.3863 × 10.000 L = 13.863 L\n",
		FlowUnknown: "capacities to pass = θ = ln(1/target) = ln(1/0.2500), as if mixed: the larger = 1.3863\nvolume to pass = θ·C = 1.3863 × 10.000 L = 13.863 L\n",
		FlowPlug:    "capacities to pass = θ = 1 - target = 1 - 0.2500 = 0.7500\nvolume to pass = θ·C = 0.7500 × 10.000 L = 7.500 L\n",
	} {
		s, err := ThroughFlow{Capacity: units.Litre.Of(10), Flow: flow}.VolumeToSteps(0.25)
		if err != nil || s.Text() != want {
			t.Errorf("%s: %v, got\n%swant\n%s", flow, err, s.Text(), want)
		}
	}
	// One tank is the mixed box.
	s, err := ThroughFlow{Capacity: units.Litre.Of(10), Flow: FlowTanks, Tanks: 1}.VolumeToSteps(0.25)
	if err != nil || !strings.Contains(s.Text(), "N = 1, target 0.2500 = 1.3863\n") {
		t.Errorf("%v\n%s", err, s.Text())
	}
	if s, err := (ThroughFlow{}).VolumeToSteps(0.25); s != nil || err == nil {
		t.Errorf("no box: %v, %v", s, err)
	}
}
