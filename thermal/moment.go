package thermal

import (
	"math"
	"time"

	"example.com/meniscus/internal/elapsed"
)

// Never marks an end of a Moment that the course does not reach, or not within
// 1000 hours.
const Never time.Duration = math.MaxInt64

// Moment is when something happens, as times since the start of the caller's
// clock: the best estimate and the ends of the 95 % interval, each 0 or more.
// The zero value is the start itself.
type Moment struct {
	Earliest, Best, Latest time.Duration
}

// After returns the moment as seen from the time now: how long until then, 0
// where it has passed. Never stays Never.
func (m Moment) After(now time.Duration) Moment {
	return Moment{remaining(m.Earliest, now), remaining(m.Best, now), remaining(m.Latest, now)}
}

func remaining(then, now time.Duration) time.Duration {
	switch {
	case then == Never:
		return Never
	case then <= now:
		return 0
	case now < 0:
		now = 0 // before the clock started nothing is known
	}
	return then - now
}

// String returns the moment to the second, such as "5 min 53 s (4 min 10 s to 7 min 2 s)".
func (m Moment) String() string {
	return clock(m.Best) + " (" + clock(m.Earliest) + " to " + clock(m.Latest) + ")"
}

func clock(d time.Duration) string {
	if d == Never {
		return "never"
	}
	return elapsed.Text(d)
}

// never is Never in seconds.
const never = math.MaxFloat64

// span is a Moment in seconds, before it is cut off at the start of the clock.
type span struct{ early, best, late float64 }

func (s span) moment() Moment {
	return Moment{sinceStart(s.early), sinceStart(s.best), sinceStart(s.late)}
}

func sinceStart(seconds float64) time.Duration {
	d, ok := duration(math.Max(0, seconds))
	if !ok {
		return Never
	}
	return d
}
