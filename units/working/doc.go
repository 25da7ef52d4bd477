// Package working answers: how was that figure reached? A result carries its
// steps, each a quantity, the formula, the numbers put in, and what came out,
// so that a report, an exercise and an auditor all read the same lines.
package working
