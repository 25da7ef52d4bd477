// Package toml holds the reader of sheets, and the loader of packs, against the public TOML test suite. It is a module
// of its own, so that the suite is no dependency of anybody who uses Meniscus; run it with "go test ./..." in this
// folder.
//
// A sheet is less than TOML 1.0. So every document that is invalid TOML must be refused; a valid one may be refused
// too, but whatever is accepted must mean what the suite says it means.
package toml
