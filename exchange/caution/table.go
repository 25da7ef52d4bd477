package caution

// rule is a caution and the situation it belongs to.
type rule struct {
	Caution
	applies func(Situation) bool
}

// rules lists what can kill first, then what burns, then what soils.
func rules() []rule {
	return append(vehicleRules(), append(fluidRules(), wasteRules()...)...)
}

func vehicleRules() []rule {
	raised := func(s Situation) bool { return s.Raised }
	return []rule{
		{Caution{
			ID: "raised-vehicle", Hazard: "vehicle falling",
			When:    "any work under a raised vehicle",
			Text:    "never rely on a jack: stand, crib or block the vehicle at once after raising it",
			DeferTo: "vehicle and lift maker's instructions, workplace rules",
			Figure:  "29 CFR 1910.244(a)(2)(iii)", Source: "29 CFR 1910.244, 2011 text", Mark: "seen",
		}, raised},
		{Caution{
			ID: "jack-base", Hazard: "jack sinking or slipping",
			When:    "a vehicle raised on soft or uneven ground",
			Text:    "block under the base, and between cap and load where it may slip",
			DeferTo: "vehicle and lift maker's instructions, workplace rules",
			Figure:  "29 CFR 1910.244(a)(2)(i)", Source: "29 CFR 1910.244, 2011 text", Mark: "seen",
		}, raised},
		{Caution{
			ID: "rolling", Hazard: "vehicle rolling",
			When:    "wheels on the ground, or one end raised",
			Text:    "chock the wheels, set the brake, and level the vehicle: the check needs it level too",
			DeferTo: "vehicle maker's instructions",
			Source:  "workplace safety guidance on jack stands; chocks are not listed by name", Mark: "seen",
		}, func(s Situation) bool { return s.Raised || s.EngineRunning || s.opening() }},
		{Caution{
			ID: "running-engine", Hazard: "running engine near hands and clothes",
			When:    "the level check, and running through the gears",
			Text:    "ventilate; keep clear of belts, shafts and exhaust; brake set; nobody in front of or behind the vehicle while gears are selected",
			DeferTo: "vehicle maker's instructions",
			Source:  "no published source", Mark: "common practice",
		}, func(s Situation) bool { return s.EngineRunning || s.LevelCheck }},
	}
}

func fluidRules() []rule {
	return []rule{
		{Caution{
			ID: "hot-fluid", Hazard: "hot fluid",
			When:    "opening any plug with the fluid at or above 49 °C (120 °F), or of unknown temperature",
			Text:    "let it cool, or wear gloves, sleeves and face protection; expect a stream, not drips",
			DeferTo: "the maker's procedure, the safety data sheet",
			Figure:  "water scalds in under 5 s at 60 °C (140 °F) and in 1.5 s at 66 °C (150 °F); sources differ, the shorter times are given; water scalds faster than oil of the same temperature",
			Source:  "consumer and children's hospital burn tables; the use of water times for oil is our judgement", Mark: "seen second-hand",
		}, func(s Situation) bool { return s.opening() && s.hot() }},
		{Caution{
			ID: "hot-metal", Hazard: "hot metal",
			When:    "touching case, pan, plug or exhaust",
			Text:    "treat bare metal as able to burn from 49 °C (120 °F); do not judge it by the fluid reading alone",
			DeferTo: "ISO 13732-1 for limits",
			Figure:  "metal burns after 5 min at 49 °C, 30 s at 55 °C, 5 s at 60 °C, 1.5 s at 66 °C",
			Source:  "burns-institute contact table", Mark: "seen second-hand",
		}, func(s Situation) bool { return s.opening() && (s.EngineRunning || s.hot()) }},
		{Caution{
			ID: "window-is-not-touch", Hazard: "hot parts beside a warm box",
			When:    "the fluid is inside its check window",
			Text:    "being inside the window does not make the box safe to touch: the exhaust and the converter housing can be far hotter",
			DeferTo: "the maker's procedure",
			Source:  "no published source", Mark: "judgement",
		}, func(s Situation) bool { return s.LevelCheck }},
		{Caution{
			ID: "eyes", Hazard: "fluid in the eyes",
			When:    "taking out a plug overhead",
			Text:    "wear eye protection",
			DeferTo: "the safety data sheet",
			Source:  "no published source", Mark: "common practice",
		}, func(s Situation) bool { return s.Draining || s.LevelCheck }},
		{Caution{
			ID: "fill-plug-first", Hazard: "a drained box that cannot be filled",
			When:    "before any drain plug is touched",
			Text:    "prove that the fill plug opens first; measure what comes out before anything goes in",
			DeferTo: "the maker's procedure",
			Source:  "no published source", Mark: "common practice",
		}, func(s Situation) bool { return s.Draining }},
		{Caution{
			ID: "wrong-fluid", Hazard: "wrong fluid",
			When:    "before any refill",
			Text:    "the fluid must meet the specification the maker names; a class name here is no approval",
			DeferTo: "the vehicle maker's fluid specification",
			Source:  "no published source", Mark: "judgement",
		}, func(s Situation) bool { return s.Filling }},
		{Caution{
			ID: "fire", Hazard: "fire",
			When:    "fluid near a hot exhaust or a flame",
			Text:    "keep fluid off hot exhaust parts; it burns although it is not classed as a flammable liquid",
			DeferTo: "the safety data sheet",
			Figure:  "flammable liquid: flash point at or below 93 °C (199.4 °F), 29 CFR 1910.106(a)(19)",
			Source:  "29 CFR 1910.106, text seen", Mark: "seen",
		}, func(s Situation) bool { return s.opening() }},
	}
}

func wasteRules() []rule {
	used := func(s Situation) bool { return s.UsedFluid || s.Draining }
	return []rule{
		{Caution{
			ID: "skin", Hazard: "skin damage",
			When:    "frequent or long contact with used fluid",
			Text:    "wear gloves, wash soon, no solvents on skin",
			DeferTo: "the safety data sheet",
			Figure:  "dermatitis, rarely skin cancer: stated for used engine oil, used here as the cautious side",
			Source:  "national health and safety authority guidance for vehicle repair", Mark: "seen",
		}, used},
		{Caution{
			ID: "used-oil-storage", Hazard: "used oil leaking or mistaken",
			When:    "drained fluid is kept",
			Text:    "keep it in a sound, closed container marked as used oil and hand it to a collector",
			DeferTo: "local law; in the United States 40 CFR 279.22 and state rules, in the European Union national law under Directive 2008/98/EC Art. 21",
			Figure:  "40 CFR 279.22(a)-(c)", Source: "40 CFR 279.22", Mark: "seen",
		}, used},
		{Caution{
			ID: "used-oil-mixing", Hazard: "used oil turned into hazardous waste",
			When:    "cleaner, solvent, coolant or fuel is about",
			Text:    "mix nothing into drained fluid, above all no chlorinated cleaner",
			DeferTo: "local law; in the United States 40 CFR 279.10(b) and 279.21",
			Figure:  "above 1000 ppm total halogens it is presumed hazardous", Source: "40 CFR 279.10, 279.21", Mark: "seen",
		}, used},
		{Caution{
			ID: "spill", Hazard: "spill",
			When:    "fluid on the floor, in a drain or on the ground",
			Text:    "stop it, contain it, clean it up, mend the container; an oily floor is slippery",
			DeferTo: "local law; in the United States 40 CFR 279.22(d)",
			Figure:  "40 CFR 279.22(d)(1)-(4)", Source: "40 CFR 279.22", Mark: "seen",
		}, func(s Situation) bool { return s.Spilled }},
	}
}
