package badinput

import (
	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/caution"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/exchange/sealing"
	"example.com/meniscus/refdata"
	"example.com/meniscus/refdata/jobfile"
	"example.com/meniscus/refdata/tables"
	"example.com/meniscus/thermal"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
)

// row is a function and, where ordinary values of the types will not do, the
// arguments it accepts.
type row []any

// functions are all that the library exports.
func functions() map[string]row {
	return map[string]row{
		"exchange/caution.All": {caution.All}, "exchange/caution.BareMetalLimit": {caution.BareMetalLimit}, "exchange/caution.For": {caution.For},
		"exchange/caution.Lookup": {caution.Lookup, "hot-fluid"},
		"exchange/jobcard.Close":  {jobcard.Close}, "exchange/jobcard.Decode": {jobcard.Decode}, "exchange/jobcard.DrainOf": {jobcard.DrainOf},
		"exchange/jobcard.FillPlug": {jobcard.FillPlug}, "exchange/jobcard.GearRuns": {jobcard.GearRuns}, "exchange/jobcard.KeptBack": {jobcard.KeptBack},
		"exchange/jobcard.NewWasher": {jobcard.NewWasher}, "exchange/jobcard.Note": {jobcard.Note}, "exchange/jobcard.Observe": {jobcard.Observe},
		"exchange/jobcard.Open": {jobcard.Open}, "exchange/jobcard.ParseKind": {jobcard.ParseKind, "drained"}, "exchange/jobcard.ReadWindow": {jobcard.ReadWindow},
		"exchange/jobcard.RefillOf": {jobcard.RefillOf}, "exchange/jobcard.Spill": {jobcard.Spill}, "exchange/jobcard.Strike": {jobcard.Strike},
		"exchange/jobcard.Supply": {jobcard.Supply}, "exchange/jobcard.TopUp": {jobcard.TopUp}, "exchange/jobcard.TorqueSet": {jobcard.TorqueSet},
		"exchange/sealing.Both": {sealing.Both}, "exchange/sealing.Fit": {sealing.Fit}, "exchange/sealing.ParseDrive": {sealing.ParseDrive, "hex socket 8 mm"},
		"exchange/sealing.ParseThread": {sealing.ParseThread, "M16x1.5"}, "exchange/sealing.StandardTolerance": {sealing.StandardTolerance},
		"exchange.BestUse": {exchange.BestUse}, "exchange.CapacityForSteps": {exchange.CapacityForSteps}, "exchange.DrainForSteps": {exchange.DrainForSteps}, "exchange.BoundsSteps": {exchange.BoundsSteps}, "exchange.CyclesSteps": {exchange.CyclesSteps}, "exchange.Bounds": {exchange.Bounds},
		"exchange.CapacityFor": {exchange.CapacityFor}, "exchange.Combine": {exchange.Combine}, "exchange.CompareSchedules": {exchange.CompareSchedules},
		"exchange.Cover": {exchange.Cover}, "exchange.CoverBudget": {exchange.CoverBudget}, "exchange.Cycles": {exchange.Cycles},
		"exchange.CyclesRange": {exchange.CyclesRange}, "exchange.DrainFor": {exchange.DrainFor},
		"exchange.EstimateCapacity": {exchange.EstimateCapacity}, "exchange.FromSamples": {exchange.FromSamples},
		"exchange.LongRunFactor": {exchange.LongRunFactor}, "exchange.Plan": {exchange.Plan}, "exchange.RealCycles": {exchange.RealCycles},
		"exchange.Remaining": {exchange.Remaining}, "exchange.RemainingRange": {exchange.RemainingRange},
		"exchange.RemainingSteps": {exchange.RemainingSteps}, "exchange.SamplesReading": {exchange.SamplesReading}, "exchange.Start": {exchange.Start},
		"exchange.StartFrom": {exchange.StartFrom}, "exchange.WhatIf": {exchange.WhatIf},
		"refdata/jobfile.Open": {jobfile.Open}, "refdata/jobfile.Read": {jobfile.Read},
		"refdata/tables.Open": {tables.Open},
		"refdata.BuiltIn":     {refdata.BuiltIn}, "refdata.BuiltInLayer": {refdata.BuiltInLayer}, "refdata.Check": {refdata.Check},
		"refdata.CheckLayers": {refdata.CheckLayers}, "refdata.Diff": {refdata.Diff}, "refdata.Explain": {refdata.Explain}, "refdata.Kinds": {refdata.Kinds},
		"refdata.Load": {refdata.Load}, "refdata.LoadLayers": {refdata.LoadLayers}, "refdata.Schema": {refdata.Schema, "procedure"},
		"refdata.Template": {refdata.Template, "procedure", "tern-6"}, "refdata.Weakest": {refdata.Weakest},
		"thermal.Density15": {thermal.Density15}, "thermal.Emissivities": {thermal.Emissivities}, "thermal.Exponential": {thermal.Exponential},
		"thermal.Follow": {thermal.Follow}, "thermal.Lubricant": {thermal.Lubricant}, "thermal.LubricatingCTL": {thermal.LubricatingCTL},
		"thermal.Materials": {thermal.Materials}, "thermal.ParseMaterial": {thermal.ParseMaterial, "aluminium"},
		"thermal.ReferenceTemperature": {thermal.ReferenceTemperature}, "thermal.Tabulated": {thermal.Tabulated},
		"thermal.UnknownDensity": {thermal.UnknownDensity}, "thermal.VesselReference": {thermal.VesselReference},
		"units/measure.Agree": {measure.Agree}, "units/measure.AtLeast": {measure.AtLeast}, "units/measure.AtMost": {measure.AtMost},
		"units/measure.Between": {measure.Between}, "units/measure.Budget": {measure.Budget}, "units/measure.ClassTolerance": {measure.ClassTolerance},
		"units/measure.Combine": {measure.Combine}, "units/measure.Decide": {measure.Decide}, "units/measure.DecideOn": {measure.DecideOn},
		"units/measure.Exact": {measure.Exact}, "units/measure.FromCoverage": {measure.FromCoverage}, "units/measure.FromExpanded": {measure.FromExpanded},
		"units/measure.FromHalfWidth": {measure.FromHalfWidth}, "units/measure.FromQuantiles": {measure.FromQuantiles},
		"units/measure.FromRecord": {measure.FromRecord}, "units/measure.FromResolution": {measure.FromResolution},
		"units/measure.MeasuredExactly":    {measure.MeasuredExactly[units.VolumeDim]},
		"units/measure.MeasuredFromRecord": {measure.MeasuredFromRecord[units.VolumeDim]},
		"units/measure.MeasuredFrom":       {measure.MeasuredFrom[units.VolumeDim]}, "units/measure.New": {measure.New},
		"units/measure.NewCause": {measure.NewCause}, "units/measure.NewCurve": {measure.NewCurve},
		"units/measure.NewMeasured": {measure.NewMeasured[units.VolumeDim]}, "units/measure.NewStream": {measure.NewStream},
		"units/measure.NewTemperature": {measure.NewTemperature}, "units/measure.Observed": {measure.Observed},
		"units/measure.ParseShape": {measure.ParseShape, "normal"}, "units/measure.ParseVerdict": {measure.ParseVerdict, "inside"},
		"units/measure.Propagate": {measure.Propagate}, "units/measure.Simulate": {measure.Simulate},
		"units/measure.TemperatureExactly": {measure.TemperatureExactly}, "units/measure.TemperatureFromRecord": {measure.TemperatureFromRecord},
		"units/measure.TwoDigits": {measure.TwoDigits}, "units/measure.WeightedMean": {measure.WeightedMean},
		"units.Celsius": {units.Celsius}, "units.Exactly": {units.Exactly[units.VolumeDim]}, "units.Fahrenheit": {units.Fahrenheit},
		"units.KilogramsPerLitre": {units.KilogramsPerLitre}, "units.Max": {units.Max[units.VolumeDim]}, "units.MeanTemperature": {units.MeanTemperature},
		"units.Mean": {units.Mean[units.VolumeDim]}, "units.Min": {units.Min[units.VolumeDim]}, "units.NewRange": {units.NewRange[units.VolumeDim]},
		"units.ParseDensity": {units.ParseDensity, "867.5 kg/m³"}, "units.ParseDistance": {units.ParseDistance, "48000 km"}, "units.ParseExplicitDensity": {units.ParseExplicitDensity, "867.5 kg/m³"},
		"units.ParseExplicitRange": {units.ParseExplicitRange[units.VolumeDim], "9.6..10.4 L"}, "units.ParseExplicit": {units.ParseExplicit[units.VolumeDim], "2.5 L"},
		"units.ParseLength": {units.ParseLength, "18.2 mm"}, "units.ParseMass": {units.ParseMass, "2.15 kg"}, "units.ParseRange": {units.ParseRange[units.VolumeDim], "9.6..10.4 L"},
		"units.ParseTemperature": {units.ParseTemperature, "36.5 °C"}, "units.ParseTemperatureDelta": {units.ParseTemperatureDelta, "5.5 °C"},
		"units.ParseTemperatureRange": {units.ParseTemperatureRange, "35 to 45 °C"}, "units.ParseTorque": {units.ParseTorque, "24 N·m"}, "units.ParseVolume": {units.ParseVolume, "2.5 L"},
		"units.Parse": {units.Parse[units.VolumeDim], "2.5 L"}, "units.PoundsPerUSGallon": {units.PoundsPerUSGallon}, "units.Sum": {units.Sum[units.VolumeDim]},
		"units.TryCelsius": {units.TryCelsius}, "units.TryFahrenheit": {units.TryFahrenheit},
	}
}
