// Package exchange answers: after these drain-and-fills, how much of the old
// fluid is left, and how many more are worth doing?
//
// A sealed automatic transmission gives up only part of its fluid through the
// drain plug. The rest stands in the converter, the cooler and the lines. One
// drain-and-fill of d litres from a box of C litres therefore leaves the share
// 1 - d/C of the old fluid, the next one 1 - d/C of that, and so on: each cycle
// gains less than the one before. The old share is what this package counts.
//
//   - [Remaining] gives the old share after any list of drains, [RemainingRange]
//     where capacity and drains are ranges, [Bounds] without any belief about
//     how well the gears mix the fluid, [MeasuredService] with its interval and
//     the budget of its doubt.
//   - [State] is the ledger of a box: drain, refill, mix, in any order and amount.
//   - [Cycles] and [Plan] answer how many cycles meet a target, what each further
//     one gains and what fluid they take; [BestUse] what a fixed supply does at best.
//   - [ThroughFlow] is a flush through the lines, [Combine] drains and flushes one
//     after the other, [FromSamples] what drained samples prove, [Losses] the
//     fluid that does not go where the jug says.
//   - [Cover] buys the fluid, [Schedule] follows its age from service to service,
//     [EstimateCapacity] finds a capacity from a marker in the drains, [LevelCheck]
//     says what the check plug should show.
//
// Two models stand behind it. Well mixed: running the gears makes all the fluid
// one, and drains multiply. Two zones: a sump that the drain plug reaches and
// fluid held back elsewhere, between which a run of the gears closes a share m of
// the difference. The share m cannot be measured in a workshop, so it is only
// ever a what-if: what is shown by default are the two bounds that hold
// whatever m is.
//
// A share is a plain number from 0 (no old fluid) to 1 (all old). Where a
// function fails, the share it returns beside the error is 1: a caller who
// forgets the error is told that nothing was gained, never that all was.
package exchange
