package tables

// laws lists every comparison, in the order of the table.
func laws() []law {
	return []law{
		{"repeated drain and fill", "exchange_vectors", repeated},
		{"cycles to a target", "exchange_vectors", cycles},
		{"continuous washout", "exchange_vectors", washout},
		{"tanks in series", "exchange_vectors", tanks},
		{"two zones, mixing by flow and time", "exchange_vectors", mixing},
		{"two zones, drains and mixing share", "exchange_two_compartment", twoZones},
		{"bounds without a mixing share", "exchange_bounds", bounds},
		{"old share, ranges of capacity and drain", "exchange_interval", ranges},
		{"cycles, drain and capacity for a target", "exchange_inverse", inverse},
		{"age of the fluid in steady state", "exchange_age", ages},
		{"accumulation, 1/r and kin", "exchange_vectors", accumulation},
		{"capacity from a fitted marker", "exchange_vectors", fitted},
		{"least-cost purchase", "exchange_packs", packs},
		{"pan on a slope", "exchange_tilt", tilts},
		{"volume correction, 2004 form, worked examples", "thermal_vectors", worked},
		{"volume correction, 2004 form, lubricating oil", "thermal_vectors", lubricating},
		{"volume correction, metric form", "vcf_lube_grid", grid},
		{"volume correction, metric form, named values", "thermal_vectors", metric},
		{"density at 15 °C from one observed", "thermal_vectors", observed},
		{"warm-up of a lumped body", "thermal_vectors", warming},
		{"infrared, fourth powers", "thermal_vectors", infrared},
		{"worth of the check window", "level_sensitivity", window},
		{"setting of a torque wrench with adapter", "torque_adapter_examples", adapters},
		{"metric threads: diameter, pitch, root", "threads", threads},
		{"first-order uncertainty", "uncertainty_vectors", linear},
		{"simulation", "uncertainty_vectors", simulated},
		{"conformity at a stated risk", "uncertainty_vectors", conformity},
		{"exchange under doubt", "uncertainty_vectors", doubt},
	}
}
