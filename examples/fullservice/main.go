// Fullservice computes one whole service from a job file: the plan, what to
// buy, the job card entry by entry, the balance with its doubt, the window
// verdict, the torque settings, the cautions, and the record.
//
//	go run ./examples/fullservice                         the built-in demonstration job
//	go run ./examples/fullservice -job FILE               your own job file
//	go run ./examples/fullservice -job FILE -pack FOLDER  with your own reference data
//	go run ./examples/fullservice -pack FOLDER -over      with your own laid over the built-in pack
//	go run ./examples/fullservice -working                how every figure was reached, as well
//	go run ./examples/fullservice -json                   the whole result as JSON
//
// The form of a job file is described in package refdata/jobfile, that of a
// pack in package refdata. Input that cannot be used gives exit code 2, every
// fault on standard error, and nothing on standard output.
//
// # The JSON result
//
// The keys are stable. Quantities are text with a unit, exact, as package units
// writes and reads them. Each item of a list, written here with [], has keys of
// its own:
//
//	plan.buy[].name, size, count           one container, and how many of it
//	plan.buy[].cost                        of them all
//	plan.rows[].cycle                      the state after so many drain-and-fills:
//	plan.rows[].oldShareLow, oldShare      old share, best and worst case, fully mixed
//	plan.rows[].oldShareMost               worst case whatever the gears do
//	plan.rows[].likelyLow, likelyHigh      95 % interval of the old share over the ranges of box and drains, fully mixed
//	plan.rows[].chance                     probability that the target is met, on the same footing, 0 to 1
//	plan.rows[].gain                       fall of the old share by this cycle, worst case
//	plan.rows[].gainPerLitre               the same by each litre of fluid this cycle takes
//	plan.rows[].gainPerMoney               and by each unit of money, at the cheapest container's price
//	plan.rows[].fluid, cost                fluid needed in all if work stops here, and what it costs to buy
//	plan.working[].quantity, formula, substitution, result
//	balance.contributors[].name, share     instrument, fluid or estimate, and its share of the variance
//	balance.weighed[].scale, plusMinus     a scale, and the doubt of the net with it, k = 2
//	balance.working[].quantity, formula, substitution, result
//	balance.budget.components[].quantity   what is doubtful, in words
//	balance.budget.components[].cause      its stable id
//	balance.budget.components[].standard_uncertainty, distribution, sensitivity
//	balance.budget.components[].contribution, share
//	torque[].plug                          one plug:
//	torque[].torque, poundForceFeet        what to set it to
//	torque[].tool, low, high               a tool of the shop that can, and what the plug may really get with it; left out where none can
//	torque[].washer, washerFits            its washer, and whether that fits; left out where none is stated
//	answers[].asked, answer                one question, and the answer in a line
//	answers[].refused                      whether the answer is the reason why there is none
//	answers[].working[].quantity, formula, substitution, result
//	findings[].entry, code, text           entry of the card, stable code, words
//	blocking[].code, text                  stable code, words
//	cautions[].id, hazard, when, text      what can hurt, when, and what to do
//	cautions[].deferTo                     whose word goes first
//	cautions[].figure, source, mark        figure or clause behind it, where that comes from, and whether it was seen
//	nextCautions[].id, hazard, when, text, deferTo, figure, source, mark
//
// These are left out where they do not apply:
//
//	torque[].turns                         of a taper plug, past finger tight; torque, poundForceFeet and tool are then left out
//	window.why                             why the look at the check plug proves nothing
//	next.volume, plug                      how much, and which plug, where the step has one
//	balance.budget.coverage                probability, where one was asked for instead of k = 2
//	balance.budget.effective_degrees_of_freedom
//	balance.budget.components[].estimate, degrees_of_freedom
//
// These are there unless they say otherwise; shares are plain numbers from 0 to 1.
//
//	schema                        1
//	job, vehicle, procedure       as in the job file
//	pack                          edition of the reference data
//	plan.target                   highest old share agreed
//	plan.purpose                  "refresh", or "change of class": the target then holds whatever the gears do
//	plan.cycles                   drain-and-fills planned, for the worst case of the ranges
//	plan.cyclesLow, cyclesHigh    for the best and for the worst case
//	plan.met, plan.outcome        whether and how the target is met
//	plan.oldShare                 old share after plan.cycles, worst case (largest box, smallest drains), fully mixed
//	plan.oldShareLow              the same, best case
//	plan.oldShareMost             worst case whatever the gears do
//	plan.fluidNeeded              refills and every allowance together
//	plan.allowances.refills       the largest drains together
//	plan.allowances.keptOnce, keptEachTime, film, finalAllowance
//	plan.fluidToBuy               fluidNeeded less what is on hand
//	plan.buy, plan.cost           containers to buy, and their cost
//	plan.currency                 of every cost, in the words of the pack
//	plan.rows                     the state after each cycle
//	plan.advice                   the plan in a sentence or two
//	plan.working                  how the plan was reached: quantity, formula, substitution, result
//	balance.net                   what went in less what came out, negative when the box is short
//	balance.referenceTemperature  at which all volumes of the balance are stated
//	balance.plusMinus             expanded uncertainty of the net
//	balance.k                     its coverage factor, 2
//	balance.verdict               "not shown to be wrong", "short" or "over"
//	balance.sentence              net, doubt and verdict in words
//	balance.in, balance.out       the two sides
//	balance.contributors          what the doubt comes from, largest first
//	balance.advice                what to measure better
//	balance.weighed               the doubt the same job would have had on each scale of the shop
//	balance.working               how the net was reached
//	balance.budget                the whole uncertainty budget, as package units/measure writes it; left out while there is no doubt
//	balance.budget.schema         1
//	balance.budget.quantity, unit, value
//	balance.budget.standard_uncertainty, coverage_factor, expanded_uncertainty
//	balance.budget.components     one for each cause, largest share first
//	oldShare                      old share so far, middle capacity, fully mixed
//	oldShareLow, oldShareHigh     over the range of the capacity
//	oldShareMost                  whatever the gears did
//	oldShareLikely.low, high      95 % interval, if mixed; oldShareLikely is null where none can be found
//	oldShareLikely.coverage       0.95
//	oldShareLikely.method         how it was found
//	oldShareLikely.capacityShare  how much of the doubt is the capacity's
//	fluidLeft                     of what was on hand and bought by plan
//	window.verdict                "inside", "below", "above", "undecided"; "none" where there is no window or no reading
//	window.low, high              the window itself; left out where there is none
//	window.temperature            the temperature read last; left out where none was
//	window.flow                   what was seen at the check plug
//	window.proof                  whether the look at the check plug proves the level
//	window.closing                what closing at the temperature read is worth at mid-window
//	torque                        settings for each plug
//	answers                       to what the job file asks, one line each, with the working
//	findings                      what was unusual
//	blocking                      what stands between the job and closing it; empty when nothing does
//	next.code, text               the next step: stable code, words
//	cautions                      those of the whole service, to be read before work starts
//	nextCautions                  those of the next step
//	record                        the printable record
//	card                          the job card itself, as package jobcard writes it
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// exitBad is the exit code for input that cannot be used.
const exitBad = 2

// run builds the whole output before it prints any of it.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("fullservice", flag.ContinueOnError)
	flags.SetOutput(stderr)
	job := flags.String("job", "", "job `file`; empty: the built-in demonstration job")
	pack := flags.String("pack", "", "`folder` of reference data; empty: the built-in demonstration pack")
	over := flags.Bool("over", false, "lay the folder over the built-in pack instead of replacing it")
	showWorking := flags.Bool("working", false, "print how every figure was reached, line by line")
	asJSON := flags.Bool("json", false, "print the whole result as JSON")
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return exitBad
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "fullservice: unexpected argument %.40q; want flags only: -job FILE, -pack FOLDER, -over, -working, -json\n", flags.Arg(0))
		return exitBad
	}
	s, err := load(*job, *pack, *over)
	if err != nil {
		fmt.Fprintln(stderr, err)
		return exitBad
	}
	var out bytes.Buffer
	if *asJSON {
		err = writeJSON(&out, s)
	} else {
		err = writeText(&out, s)
		if *showWorking {
			writeWorking(&out, s)
		}
	}
	if err != nil {
		fmt.Fprintln(stderr, err)
		return exitBad
	}
	if _, err := stdout.Write(out.Bytes()); err != nil {
		fmt.Fprintln(stderr, "fullservice: output:", err)
		return 1
	}
	return 0
}
