package exchange

import (
	"strings"
	"testing"
)

// 30 000 old at the first service, 0.8 of that after it, and so on.
func TestFromNewSteps(t *testing.T) {
	s := scheduleEvery(30000, 1, 0.2)
	s.Unit = "mi"
	w, err := s.FromNewSteps(2)
	const want = "mean age before service 1 = m + L = 0 + 30000 = 30000 mi\n" +
		"mean age after service 1 = m(1 - r) = 30000 × (1 - 0.2) = 24000 mi\n" +
		"mean age before service 2 = m + L = 24000 + 30000 = 54000 mi\n" +
		"mean age after service 2 = m(1 - r) = 54000 × (1 - 0.2) = 43200 mi\n"
	if err != nil || w.Text() != want {
		t.Errorf("%v, got\n%swant\n%s", err, w.Text(), want)
	}
	// A top-up of a capacity in 30 000: (1 - 1/e)·30 000 at the first service.
	s.TopUp = 1.0 / 30000
	if w, err = s.FromNewSteps(1); err != nil || !strings.Contains(w.Text(), "m·exp(-λL) + (1 - exp(-λL))/λ = m = 0, L = 30000, λ = 3.33333e-05 = 18963.6 mi\n") {
		t.Errorf("%v\n%s", err, w.Text())
	}
	if w, err := s.FromNewSteps(100); err != nil || len(w) != 200 {
		t.Errorf("100 services: %d lines, %v", len(w), err)
	}
	for _, rounds := range []int{0, 101} {
		if w, err := s.FromNewSteps(rounds); w != nil || err == nil {
			t.Errorf("%d rounds: %v, %v", rounds, w, err)
		}
	}
	if w, err := (Schedule{}).FromNewSteps(1); w != nil || err == nil {
		t.Errorf("no services: %v, %v", w, err)
	}
}

// Fluid of two and a half rounds has lived through two or three services: 0.8² and 0.8³.
func TestAtLeastSteps(t *testing.T) {
	s := scheduleEvery(30000, 1, 0.2)
	old, err := s.AtLeast(75000)
	const want = "left by whole rounds and the top-up = exp(-λ·age)·Π(1 - r)^rounds = age 75000 unit of length, of which beyond whole rounds 15000 unit of length = 0.64\n" +
		"share at least so old before service 1 = what is left, times (1 - r) of every service within the rest = 0.64\n" +
		"share at least so old after service 1 = that, with this service counted = 0.512\n" +
		"share at least so old over the round = 0.576\n"
	if err != nil || old.Steps.Text() != want {
		t.Errorf("%v, got\n%swant\n%s", err, old.Steps.Text(), want)
	}
}
