package main

import (
	"encoding/json"
	"io"

	"github.com/shopspring/decimal"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/caution"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

// result is the JSON output; its keys are described in the package comment.
type result struct {
	Schema    int    `json:"schema"`
	Job       string `json:"job"`
	Vehicle   string `json:"vehicle"`
	Procedure string `json:"procedure"`
	Pack      string `json:"pack"`

	Plan         planResult    `json:"plan"`
	Balance      balanceResult `json:"balance"`
	OldShare     float64       `json:"oldShare"`
	OldShareLow  float64       `json:"oldShareLow"`
	OldShareHigh float64       `json:"oldShareHigh"`
	OldShareMost float64       `json:"oldShareMost"`
	Likely       *likely       `json:"oldShareLikely"`
	FluidLeft    units.Volume  `json:"fluidLeft"`

	Window   windowResult      `json:"window"`
	Torque   []setting         `json:"torque"`
	Answers  []answer          `json:"answers"`
	Findings []jobcard.Finding `json:"findings"`
	Blocking []jobcard.Block   `json:"blocking"`
	Next     jobcard.Step      `json:"next"`
	Cautions []caution.Caution `json:"cautions"`     // of the whole service
	NextOnes []caution.Caution `json:"nextCautions"` // of the next step
	Record   string            `json:"record"`
	Card     *jobcard.Card     `json:"card"`
}

// likely is an interval for an old share and what it comes from.
type likely struct {
	Low           float64 `json:"low"`
	High          float64 `json:"high"`
	Coverage      float64 `json:"coverage"`
	Method        string  `json:"method"`
	CapacityShare float64 `json:"capacityShare"` // of the doubt
}

type planResult struct {
	Target       float64          `json:"target"`
	Purpose      exchange.Purpose `json:"purpose"`
	Cycles       int              `json:"cycles"`
	CyclesLow    int              `json:"cyclesLow"`
	CyclesHigh   int              `json:"cyclesHigh"`
	Met          bool             `json:"met"`
	Outcome      string           `json:"outcome"`
	OldShare     float64          `json:"oldShare"`
	OldShareLow  float64          `json:"oldShareLow"`
	OldShareMost float64          `json:"oldShareMost"`
	FluidNeeded  units.Volume     `json:"fluidNeeded"`
	Allowances   allowances       `json:"allowances"`
	FluidToBuy   units.Volume     `json:"fluidToBuy"`
	Buy          []bought         `json:"buy"`
	Cost         decimal.Decimal  `json:"cost"`
	Currency     string           `json:"currency"`
	Rows         []planRow        `json:"rows"`
	Working      working.Steps    `json:"working"`
	Advice       string           `json:"advice"`
}

type allowances struct {
	Refills        units.Volume `json:"refills"`
	KeptOnce       units.Volume `json:"keptOnce"`
	KeptEachTime   units.Volume `json:"keptEachTime"`
	Film           units.Volume `json:"film"`
	FinalAllowance units.Volume `json:"finalAllowance"`
}

type bought struct {
	Name  string          `json:"name"`
	Size  units.Volume    `json:"size"`
	Count int             `json:"count"`
	Cost  decimal.Decimal `json:"cost"`
}

type planRow struct {
	Cycle        int             `json:"cycle"`
	OldShareLow  float64         `json:"oldShareLow"`
	OldShare     float64         `json:"oldShare"`
	OldShareMost float64         `json:"oldShareMost"`
	LikelyLow    float64         `json:"likelyLow"` // 95 % interval over the ranges
	LikelyHigh   float64         `json:"likelyHigh"`
	Chance       float64         `json:"chance"` // that the target is met
	Gain         float64         `json:"gain"`
	GainPerLitre float64         `json:"gainPerLitre"`
	GainPerMoney float64         `json:"gainPerMoney"`
	Fluid        units.Volume    `json:"fluid"`
	Cost         decimal.Decimal `json:"cost"`
}

type balanceResult struct {
	Net                  units.Volume          `json:"net"`
	PlusMinus            units.Volume          `json:"plusMinus"`
	K                    int                   `json:"k"`
	ReferenceTemperature units.Temperature     `json:"referenceTemperature"`
	Verdict              jobcard.Standing      `json:"verdict"`
	In                   units.Volume          `json:"in"`
	Out                  units.Volume          `json:"out"`
	Contributors         []jobcard.Contributor `json:"contributors"`
	Advice               string                `json:"advice"`
	Sentence             string                `json:"sentence"`
	Weighed              []weighed             `json:"weighed"`
	Working              working.Steps         `json:"working"`
	Budget               *measure.Table        `json:"budget,omitempty"`
}

// weighed is the doubt the same job would have had on a scale.
type weighed struct {
	Scale     string       `json:"scale"`
	PlusMinus units.Volume `json:"plusMinus"`
}

type windowResult struct {
	Verdict     string             `json:"verdict"`
	Low         *units.Temperature `json:"low,omitempty"`
	High        *units.Temperature `json:"high,omitempty"`
	Temperature *units.Temperature `json:"temperature,omitempty"`
	Flow        exchange.AtPlug    `json:"flow"`
	Proof       bool               `json:"proof"`
	Why         string             `json:"why,omitempty"`
	Closing     *units.Volume      `json:"closing,omitempty"` // off at mid-window when closed at Temperature
}

// setting is what one plug is set to, and with what.
type setting struct {
	Plug       string       `json:"plug"`
	Torque     units.Torque `json:"torque,omitzero"`
	PoundFeet  float64      `json:"poundForceFeet,omitzero"`
	Turns      float64      `json:"turns,omitzero"`
	Tool       string       `json:"tool,omitempty"` // first of the shop's that can set it
	Low        units.Torque `json:"low,omitzero"`   // what the plug may really get with it
	High       units.Torque `json:"high,omitzero"`
	Washer     string       `json:"washer,omitempty"`
	WasherFits string       `json:"washerFits,omitempty"`
}

func newResult(s *service) (result, error) {
	share := s.card.OldShare()
	r := result{
		Schema: 1, Job: s.file.Job, Vehicle: s.file.Vehicle, Procedure: s.proc.ID, Pack: s.pack.Edition(),
		OldShare: share.Estimate, OldShareLow: share.Low, OldShareHigh: share.High, OldShareMost: share.Most,
		FluidLeft: s.card.FluidLeft(), Window: s.window(), Torque: s.settings(),
		Answers: s.answers(), Findings: orEmpty(s.card.Findings()), Blocking: orEmpty(s.card.Blocking()), Next: s.card.Next(),
		Cautions: serviceCautions(), NextOnes: orEmpty(s.card.Cautions()), Record: s.card.Record(), Card: s.card,
	}
	if i, err := s.card.OldShareInterval(); err == nil {
		r.Likely = &likely{i.Low, i.High, i.Coverage, i.Method.String(), i.CapacityShare}
	}
	var err error
	if r.Plan, err = s.planResult(); err != nil {
		return r, err
	}
	b := s.card.Balance()
	r.Balance = balanceResult{
		Net: b.Net.Best(), PlusMinus: b.PlusMinus, K: 2, ReferenceTemperature: b.Reference, Verdict: b.Verdict,
		In: b.In.Best(), Out: b.Out.Best(), Contributors: orEmpty(b.Contributors()), Advice: s.card.Advice(), Sentence: b.Sentence(),
	}
	r.Balance.Weighed, r.Balance.Working = s.weighed(), orEmpty(b.Steps)
	if table, err := b.Budget(); err == nil && table.U > 0 {
		r.Balance.Budget = &table
	}
	return r, nil
}

// weighed compares the job with the same job on each scale of the shop.
func (s *service) weighed() []weighed {
	list := []weighed{}
	for _, scale := range s.pack.Shop().Scales {
		if b, err := s.card.Weighed(scale.ID); err == nil {
			list = append(list, weighed{scale.ID, b.PlusMinus})
		}
	}
	return list
}

// serviceCautions are all that a drain, a refill and a level check bring, with
// fluid of unknown temperature: to be read before work starts.
func serviceCautions() []caution.Caution {
	return caution.For(caution.Situation{
		Raised: true, EngineRunning: true, Draining: true, Filling: true, LevelCheck: true, UsedFluid: true,
	})
}

// orEmpty keeps an empty list from being written as null.
func orEmpty[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

func (s *service) planResult() (planResult, error) {
	p := s.plan
	r := planResult{
		Target: s.file.Plan.Target, Purpose: s.file.Plan.Purpose, Cycles: p.Cycles.Chosen, CyclesLow: p.Cycles.Low, CyclesHigh: p.Cycles.High,
		Met: p.Met, Outcome: p.Outcome.String(), OldShare: p.Share.High, OldShareLow: p.Share.Low, OldShareMost: p.Bounds.High,
		FluidNeeded: p.Fluid.Total, FluidToBuy: s.buy.ToBuy, Cost: s.buy.Cost, Currency: s.fluid.Currency,
		Allowances: allowances{
			Refills: p.Fluid.Refills, KeptOnce: p.Fluid.KeptOnce, KeptEachTime: p.Fluid.KeptEachTime,
			Film: p.Fluid.Film, FinalAllowance: p.Fluid.FinalAllowance,
		},
		Buy: []bought{}, Rows: []planRow{}, Working: orEmpty(p.Steps), Advice: p.Advice(),
	}
	for _, line := range s.buy.Lines {
		r.Buy = append(r.Buy, bought{line.Offer.Name, line.Offer.Size, line.Count, line.Cost})
	}
	for _, row := range p.Rows {
		cost, err := s.cover(row.Fluid.High())
		if err != nil {
			return r, err
		}
		r.Rows = append(r.Rows, planRow{
			Cycle: row.Cycle, OldShareLow: row.Share.Low, OldShare: row.Share.High, OldShareMost: row.Bounds.High,
			LikelyLow: row.Interval.Low, LikelyHigh: row.Interval.High, Chance: row.Chance,
			Gain: row.Gain, GainPerLitre: row.GainPerLitre, GainPerMoney: row.GainPerMoney, Fluid: row.Fluid.High(), Cost: cost.Cost,
		})
	}
	return r, nil
}

func writeJSON(w io.Writer, s *service) error {
	r, err := newResult(s)
	if err != nil {
		return err
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(r)
}
