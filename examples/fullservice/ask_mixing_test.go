package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// By hand, three drains of 3 L from 12 L with a sump of 6 L, each run closing half
// the difference: the sump goes to 0.5, 0.625 after mixing, 0.3125, 0.453125 after
// mixing, 0.2265625, the fluid held back to 0.875 and 0.734375; the box ends at
// (0.2265625 + 0.734375)/2 = 48.0 %. Fully mixed it would be 27/64 = 42.2 %, not
// mixed 1/2 + 1/2·1/8 = 56.2 %. A flow of 0.5 L/min for 2·ln 2 min between 6 L and 6 L
// turns over 2·ln 2·0.5/3 = 0.231: 20.6 %.
func TestWhatIfByHand(t *testing.T) {
	const sump = "capacity  = \"12 L\"\nsump = \"6 L\""
	got := askingOf(t, `capacity  = "12 L"`, sump, "[ask.what_if]\nshare = \"50 %\"\n")["what_if"]
	for _, want := range []string{"closed 50 % of the difference", "3 drains would leave 48.0 % old fluid (42.2 to 56.2 % whatever they do)"} {
		if got.Refused || !strings.Contains(got.Answer, want) {
			t.Errorf("%+v; by hand %q", got, want)
		}
	}
	got = askingOf(t, `capacity  = "12 L"`, sump, "[ask.what_if]\nflow = \"0.5 L\"\nminutes = \"1.3863\"\n")["what_if"]
	if got.Refused || !strings.Contains(got.Answer, "closed 21 % of the difference") || got.Working[0].Quantity != "turnovers a minute" {
		t.Errorf("%+v", got)
	}
}

func TestWhatIfWantsASump(t *testing.T) {
	// plover-5 states no sump.
	got := askingOf(t, `"tern-6"`, `"plover-5"`, "[ask.what_if]\nshare = \"50 %\"\n")["what_if"]
	if !got.Refused || !strings.Contains(got.Answer, "[box] sump") {
		t.Errorf("%+v; want it refused", got)
	}
}

// By hand: three swaps lose 20 mL in the line and 20 mL of film each, 0.12 L in all,
// and the hose of the sheet takes 0.25 L once; the line hands 50 mL of 3 L back.
func TestLossesByHand(t *testing.T) {
	got := asking(t, "[losses]\nkept_each_time = \"20 mL\"\nfilm_each_time = \"20 mL\"\nline_returns = \"50 mL\"\n")["losses"]
	for _, want := range []string{"3 swaps leave the box 0.37 L (0.39 US qt) low: 0.25 L (0.26 US qt) for what hose and pump take once, 0.12 L (0.13 US qt) for", "a drain of 3.00 L (3.17 US qt) acts as 2.95 L (3.12 US qt)"} {
		if got.Refused || !strings.Contains(got.Answer, want) {
			t.Errorf("%+v; by hand %q", got, want)
		}
	}
	if _, asked := asking(t, "")["losses"]; asked {
		t.Error("losses are answered where none are stated")
	}
}

// By hand: a quarter changed every 1000 days leaves it L(1-r)/r = 3000 days old just
// after, L/r = 4000 just before, L(1/r - 1/2) = 3500 on average.
func TestIntervalByTime(t *testing.T) {
	got := asking(t, "[ask.interval]\nevery = \"1000 days\"\ndrains = \"1\"\n")["interval"]
	if want := "1 drain every 1000 days leaves fluid of mean age 3000 days just after and 4000 days just before a service, 3500 days on average"; got.Refused || !strings.Contains(got.Answer, want) {
		t.Errorf("%+v; by hand %q", got, want)
	}
}

// A job that is only planned has nothing to say about the level.
func TestAPlanAloneSaysNothingOfTheLevel(t *testing.T) {
	path := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(path, []byte("format = 1\njob = \"x\"\nprocedure = \"tern-6\"\n[plan]\ntarget = \"50 %\"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if code, out, stderr := call("-job", path); code != 0 || strings.Contains(out, "ASKED") {
		t.Errorf("exit %d %s\n%s", code, stderr, out)
	}
}
