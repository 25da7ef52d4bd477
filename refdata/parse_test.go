package refdata

import (
	"strings"
	"testing"

	"example.com/meniscus/thermal"
)

// TestMaterialsReadAsInThermal holds our cheaper reader of materials against the
// one it stands for.
func TestMaterialsReadAsInThermal(t *testing.T) {
	words := []string{"", "tin foil", "Aluminium", "aluminium ", strings.Repeat("x", 39), strings.Repeat("x", 40), strings.Repeat("x", 41), strings.Repeat("é", 30)}
	for _, m := range thermal.Materials() {
		words = append(words, m.String())
	}
	for _, word := range words {
		want, wantErr := thermal.ParseMaterial(word)
		got, err := parseMaterial(word)
		if got != want || (err == nil) != (wantErr == nil) || err != nil && err.Error() != wantErr.Error() {
			t.Errorf("%q: %v, %v; want %v, %v", word, got, err, want, wantErr)
		}
	}
}
