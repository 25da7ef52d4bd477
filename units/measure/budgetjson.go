package measure

import (
	"encoding/json"
	"errors"
)

// budgetSchema is raised when a field changes its meaning.
const budgetSchema = 1

type tableJSON struct {
	Schema     int       `json:"schema"`
	Quantity   string    `json:"quantity,omitzero"`
	Unit       string    `json:"unit,omitzero"`
	Value      float64   `json:"value"`
	U          float64   `json:"standard_uncertainty"`
	DoF        float64   `json:"effective_degrees_of_freedom,omitzero"` // absent: infinite
	Coverage   float64   `json:"coverage,omitzero"`
	K          float64   `json:"coverage_factor"`
	Expanded   float64   `json:"expanded_uncertainty"`
	Components []rowJSON `json:"components"`
}

type rowJSON struct {
	Quantity     string   `json:"quantity"`
	Cause        string   `json:"cause"`
	Estimate     *float64 `json:"estimate,omitzero"`
	U            float64  `json:"standard_uncertainty"`
	Shape        Shape    `json:"distribution"`
	DoF          float64  `json:"degrees_of_freedom,omitzero"` // absent: infinite
	Sensitivity  float64  `json:"sensitivity"`
	Contribution float64  `json:"contribution"`
	Share        float64  `json:"share"`
}

// MarshalJSON writes the table with every digit, as schema 1. Degrees of freedom
// that are absent are infinite. A number that is not finite is an error.
func (t Table) MarshalJSON() ([]byte, error) {
	out := tableJSON{
		Schema: budgetSchema, Quantity: t.Quantity, Unit: t.Unit, Value: t.Value, U: t.U,
		DoF: t.Expanded.DoF, Coverage: t.Expanded.Coverage, K: t.Expanded.K, Expanded: t.Expanded.U,
		Components: make([]rowJSON, len(t.Rows)),
	}
	for i, r := range t.Rows {
		out.Components[i] = rowJSON{
			Quantity: r.Quantity, Cause: r.Cause, U: r.U, Shape: r.Shape, DoF: r.DoF,
			Sensitivity: r.Sensitivity, Contribution: r.Contribution, Share: r.Share,
		}
		if r.HasEstimate {
			out.Components[i].Estimate = &t.Rows[i].Estimate
		}
	}
	data, err := json.Marshal(out)
	if err != nil {
		return nil, errors.New("measure: budget with a number that is not finite or a shape that is none; want a table made by Budget")
	}
	return data, nil
}
