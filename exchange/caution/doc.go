// Package caution answers: what can hurt somebody at this step, and whose word
// goes first? It holds the usual cautions for draining, filling and checking a
// sealed transmission, each with the figure behind it, its source and whether
// the source was seen.
//
// The cautions are reminders for people who know the trade. They replace
// neither the maker's instructions nor local codes, and where work is reserved
// for licensed people they do not licence anybody.
package caution
