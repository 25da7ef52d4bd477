package jobcard

import (
	"errors"
	"fmt"

	"example.com/meniscus/exchange"
	"example.com/meniscus/units"
	"example.com/meniscus/units/measure"
	"example.com/meniscus/units/working"
)

// intervalCoverage is the coverage of every interval a card states.
const intervalCoverage = 0.95

// intervalTail is how much wider a distribution is at the ends of that coverage for its
// excess: (z² - 3)/24 of the Cornish-Fisher series, z = 1.960.
const intervalTail = 0.03506

// OldShareInterval returns the old share of a well-mixed box as an interval of
// 95 %: each capacity in its range equally likely, every amount that went in or
// out with the doubt of its reading, causes that readings share added with their
// signs. Its Best is the Estimate of [Card.OldShare]. For each capacity the share is
// taken as normal, its deviation to first order and its tails by the shapes of the causes
// (Cornish-Fisher, fourth cumulant); that is integrated over the capacity.
// Where no reading is in doubt, or the doubt is too little to be told from the
// capacity's, the capacity alone makes the interval. Nodes is how many capacities were
// looked at. A card without a drain is an error.
func (c *Card) OldShareInterval() (exchange.ShareInterval, error) {
	if c == nil || !c.open {
		return exchange.ShareInterval{}, errors.New("jobcard: no card; want one made by Open or Decode")
	}
	if c.state.flows.cycles == 0 {
		return exchange.ShareInterval{}, errors.New("jobcard: old share: nothing was drained yet; all of the fluid is old")
	}
	return newDilution(c.state.flows.moves()).interval(c.spec.Capacity)
}

func (d *dilution) interval(capacity units.Range[units.VolumeDim]) (exchange.ShareInterval, error) {
	low, high := capacity.Low().In(units.Litre), capacity.High().In(units.Litre)
	best, slope, sd, _ := d.at(capacity.Mid().In(units.Litre))
	r := exchange.ShareInterval{Best: best, Median: best, Coverage: intervalCoverage, Method: exchange.ByDefinition}
	// The variance of a rectangle is its width squared over twelve.
	spread := slope * (high - low)
	if all := float64(spread*spread)/12 + float64(sd*sd); all > 0 {
		r.CapacityShare = float64(spread*spread) / 12 / all
	}
	ends := [...]float64{(1 - intervalCoverage) / 2, 0.5, (1 + intervalCoverage) / 2}
	quantiles, err := d.quantiles(low, high, &r, ends[:])
	if err != nil {
		return exchange.ShareInterval{}, fmt.Errorf("jobcard: old share: %w", err)
	}
	r.Low, r.Median, r.High = clipped(quantiles[0]), clipped(quantiles[1]), clipped(quantiles[2])
	r.Low, r.High = min(r.Low, r.High), max(r.Low, r.High)
	if r.CapacityShare > 0.5 {
		r.Caveats = append(r.Caveats, exchange.CapacityDominates)
	}
	r.Steps = d.steps(r, capacity)
	return r, nil
}

// quantiles goes over the capacities, and where nothing else is in doubt, or too
// little, takes the capacity's own quantiles: the share rises with it.
func (d *dilution) quantiles(low, high float64, r *exchange.ShareInterval, ends []float64) ([]float64, error) {
	if _, _, sd, _ := d.at(low); sd > 0 {
		nodes := 0
		quantiles, err := measure.Mixture{Low: low, High: high, Given: func(c float64) measure.Component {
			x, _, sd, excess := d.at(c)
			nodes++
			return measure.Component{Mean: x, SD: sd * (1 + float64(intervalTail*excess))}
		}}.Quantiles(ends...)
		if !errors.Is(err, measure.ErrNoConvergence) {
			r.Method, r.Nodes = exchange.ByQuadrature, nodes
			return quantiles, err
		}
	}
	var quantiles []float64
	for _, p := range ends {
		x, _, _, _ := d.at(low + float64(p*(high-low)))
		quantiles = append(quantiles, x)
	}
	return quantiles, nil
}

func clipped(x float64) float64 { return min(1, max(0, x)) }

// steps writes every refill at the middle capacity.
func (d *dilution) steps(r exchange.ShareInterval, capacity units.Range[units.VolumeDim]) working.Steps {
	var b working.Builder
	c, x := capacity.Mid().In(units.Litre), 1.0
	for i, p := range d.refills {
		after := p.old + float64((x-p.old)*(c+p.before)/(c+p.after))
		b.Add(fmt.Sprintf("old share after refill %d, middle capacity", i+1), "c + (x - c)·A/B",
			fmt.Sprintf("%.4f + (%.4f - %.4f) × %.3f L / %.3f L", p.old, x, p.old, c+p.before, c+p.after), fmt.Sprintf("%.4f", after))
		x = after
	}
	b.Add("interval of 95 %", "by "+r.Method.String()+" over the capacity and the readings", "", fmt.Sprintf("%.4f to %.4f", r.Low, r.High))
	return b.Steps()
}
