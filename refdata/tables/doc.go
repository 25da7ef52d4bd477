// Package tables answers: what do the published tables say of threads, keys,
// plugs, sealing rings, torques and containers, and how far is each to be
// trusted? The figures are embedded, each with its source and whether it was
// seen; see data/README.md for editions and for what differs from them.
//
// Strong figures (seen in a standard's table, or geometry) may refuse a sheet.
// Figures from memory and bands published with a wide spread may only warn.
package tables
