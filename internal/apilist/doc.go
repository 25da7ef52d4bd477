// Package apilist writes down what other projects can reach: every exported
// name of the library packages, with its type, one a line and sorted. The list
// is kept in .ci/api.txt; a change of it is a change somebody meant.
//
//	go test ./internal/apilist -update
package apilist
