package elapsed

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

func TestText(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0: "0 s", 499 * time.Millisecond: "0 s", 500 * time.Millisecond: "1 s", 45 * time.Second: "45 s", time.Minute: "1 min", 90 * time.Second: "1 min 30 s",
		59*time.Second + 600*time.Millisecond: "1 min", time.Hour: "1 h", 2*time.Hour + 5*time.Minute: "2 h 5 min", time.Hour + time.Second: "1 h 1 s",
		10*time.Hour + 29*time.Second: "10 h", 10*time.Hour + 30*time.Second: "10 h 1 min", 9*time.Hour + 59*time.Minute + 59*time.Second: "9 h 59 min 59 s",
		-90 * time.Second: "-1 min 30 s", math.MaxInt64: "2562047 h 47 min", math.MinInt64: "-2562047 h 47 min",
	} {
		if got := Text(d); got != want {
			t.Errorf("%v: %q; want %q", d, got, want)
		}
	}
}

// What is written adds up to the length, to the second or, from ten hours on, the minute.
func TestTextAddsUp(t *testing.T) {
	r := rand.New(rand.NewPCG(81, 82))
	for range 10_000 {
		d := time.Duration(r.Int64N(int64(40 * time.Hour)))
		within := time.Second / 2
		if d >= 10*time.Hour-time.Second/2 {
			within = 30*time.Second + within
		}
		if off := (read(t, Text(d)) - d).Abs(); off > within {
			t.Errorf("%v is written %q, %v off", d, Text(d), off)
		}
	}
}

func read(t *testing.T, text string) time.Duration {
	t.Helper()
	var packed []byte
	for i := range len(text) {
		switch c := text[i]; {
		case c == ' ', c == 'i', c == 'n': // "min" is read as "m"
		default:
			packed = append(packed, c)
		}
	}
	d, err := time.ParseDuration(string(packed))
	if err != nil {
		t.Fatal(err)
	}
	return d
}
