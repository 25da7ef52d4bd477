// Package scientific holds the library's numbers against numpy, scipy and
// mpmath, general numerical libraries for Python: special functions and
// quantiles, the two-zone model against an integrator of differential
// equations, the age of fluid against a count of cohorts, capacity estimates
// against curve fits, doubt against Monte Carlo and quadrature, purchases
// against integer programming, tilted surfaces against integration.
//
// The tests put their questions, as lines of JSON, to one Python process that
// runs reference.py. They fail where Debian's python3-numpy, python3-scipy and
// python3-mpmath are missing. Inputs are random with fixed seeds.
package scientific
