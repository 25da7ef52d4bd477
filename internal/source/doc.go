// Package source reads this module's own Go code for the gates that judge it:
// every file parsed with its comments, every package type-checked, test files
// apart. Nothing of the library imports it.
package source
