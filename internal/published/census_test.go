package published

import "testing"

// The counts are the ones DEVELOPERS.md quotes; a table that gains or loses a
// row, or a figure that is confirmed, changes them on purpose.
func TestCensus(t *testing.T) {
	want := []Count{
		{Seen, 346}, {SeenSecondHand, 77}, {Computed, 590},
		{CommonPractice, 21}, {Judgement, 4}, {FromMemory, 158},
	}
	got, err := Census()
	if err != nil {
		t.Fatal(err)
	}
	t.Log(got) // go test -v -run Census ./internal/published
	if len(got) != len(want) {
		t.Fatalf("got %v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%v: %d rows, want %d", got[i].Mark, got[i].Rows, want[i].Rows)
		}
	}
}

// A row lost on the way from the reference figures would silence the checks
// that read it.
func TestNoTableLostRows(t *testing.T) {
	want := map[string]int{
		"cautions":                 18,
		"containers":               10,
		"drives":                   60,
		"emissivity":               15,
		"exchange_age":             7,
		"exchange_bounds":          45,
		"exchange_deadvolume":      4,
		"exchange_interval":        27,
		"exchange_inverse":         67,
		"exchange_ledger":          6,
		"exchange_packs":           38,
		"exchange_tilt":            11,
		"exchange_two_compartment": 157,
		"exchange_vectors":         147,
		"fluid_density_published":  28,
		"instrument_tolerances":    22,
		"level_sensitivity":        15,
		"oil_expansion_values":     13,
		"plugs":                    74,
		"sealing_rings":            36,
		"thermal_vectors":          62,
		"threads":                  46,
		"threads_taper":            25,
		"torque_adapter_examples":  11,
		"torque_bands":             6,
		"torque_guidance":          58,
		"uncertainty_vectors":      39,
		"vcf_lube_grid":            138,
		"vessel_expansion":         11,
	}
	if len(Names()) != len(want) {
		t.Errorf("%d tables, want %d", len(Names()), len(want))
	}
	for _, name := range Names() {
		if got := len(Load(t, name).Rows()); got != want[name] {
			t.Errorf("%s: %d rows, want %d", name, got, want[name])
		}
	}
}

// Spot checks against the works named, read a second time, so that the reader
// itself is checked and not only its own output.
func TestKnownFigures(t *testing.T) {
	ach := Load(t, "exchange_vectors").Find("id", "ach-1-99")
	if ach.Float("published") != 276 || ach.Mark() != Seen || ach.Input("inputs", "ACH") != 1 {
		t.Errorf("one air change an hour, 99 %%: %g min", ach.Float("published"))
	}
	m10 := Load(t, "threads").Find("thread", "M10x1")
	if m10.Float("pitch_mm") != 1 || m10.Float("d_mm") != 10 {
		t.Errorf("M10x1: %g x %g", m10.Float("d_mm"), m10.Float("pitch_mm"))
	}
	if m10.MarkOf("d2_mm") != FromMemory || m10.SourceOf("As_table_mm2") == m10.Source() {
		t.Error("M10x1: the figures of one row have sources of their own")
	}
}
