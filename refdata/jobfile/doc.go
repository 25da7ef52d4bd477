// Package jobfile answers: what does this hand-written job file ask for, and
// what happened on the job? It reads one TOML file: which procedure was
// followed, what was agreed, and the entries of the job card in order.
//
// The form is the form of the reference-data pack: keyed tables, lower-case
// keys, every number in quotes with its unit.
//
//	format    = 1
//	job       = "2026-118"
//	vehicle   = "bus 7"
//	procedure = "tern-6"
//
//	[plan]
//	target  = "45 %"      # highest old share agreed
//	purpose = "refresh"   # or "change of class": the target must then hold whatever the gears do
//	on_hand = "8 L"
//
//	[entry.10]
//	at   = "2026-11-02 08:10"
//	kind = "fill plug opened"
//
//	[entry.20]
//	at          = "2026-11-02 08:25"
//	kind        = "drained"
//	volume      = "2.12 L"
//	temperature = "18 °C"
//	vessel      = "jug-a"
//
// [box] says what is known of this very box, and [ask.…] what else to work out;
// README lists their keys.
//
// Every fault is reported at once, each with file, line and column, what is
// wrong and one thing to do; a refused entry points at its own line too.
package jobfile
