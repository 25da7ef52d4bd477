package main

import (
	"embed"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/shopspring/decimal"

	"example.com/meniscus/exchange"
	"example.com/meniscus/exchange/jobcard"
	"example.com/meniscus/refdata"
	"example.com/meniscus/refdata/jobfile"
	"example.com/meniscus/units"
)

//go:embed demo
var demo embed.FS

// service is one job, computed.
type service struct {
	file  *jobfile.File
	pack  *refdata.Pack
	proc  refdata.Procedure
	fluid refdata.FluidClass
	plan  exchange.Proposal
	buy   exchange.Purchase
	card  *jobcard.Card
}

// load reads the pack and the job and computes all that follows.
func load(job, pack string, over bool) (*service, error) {
	s := &service{}
	var err error
	if s.pack, err = openPack(pack, over); err != nil {
		return nil, err
	}
	if s.file, err = openJob(job); err != nil {
		return nil, err
	}
	if err := s.choose(); err != nil {
		return nil, err
	}
	if err := s.makePlan(); err != nil {
		return nil, err
	}
	if s.card, err = jobcard.Open(s.spec()); err != nil {
		return nil, err
	}
	return s, s.file.Fill(s.card)
}

func openPack(dir string, over bool) (*refdata.Pack, error) {
	if dir == "" {
		return refdata.BuiltIn()
	}
	info, err := os.Stat(dir)
	if err != nil {
		return nil, fmt.Errorf("fullservice: -pack: %w", err)
	}
	if !info.IsDir() {
		return nil, fmt.Errorf("fullservice: -pack %s is no folder; want a folder of .toml files", dir)
	}
	if over {
		return refdata.LoadLayers(refdata.BuiltInLayer(), refdata.Layer{FS: os.DirFS(dir), Dir: ".", Name: dir})
	}
	return refdata.Load(os.DirFS(dir), ".")
}

func openJob(path string) (*jobfile.File, error) {
	if path == "" {
		return jobfile.Open(demo, "demo/job.toml")
	}
	info, err := os.Stat(path)
	if err != nil {
		return nil, fmt.Errorf("fullservice: -job: %w", err)
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("fullservice: -job %s is no plain file; want a job file", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("fullservice: -job: %w", err)
	}
	defer f.Close()
	return jobfile.Read(filepath.Base(path), f)
}

// choose takes the procedure the job names and lays what is known of this very
// box over it.
func (s *service) choose() error {
	var ok bool
	if s.proc, ok = s.pack.Procedure(s.file.Procedure); !ok {
		s.file.Fault("procedure", fmt.Sprintf("the pack has no procedure %.40q", s.file.Procedure), fmt.Sprintf("name one of %q", s.pack.IDs()))
		return s.file.Err()
	}
	s.fluid, _ = s.pack.Fluid(s.proc.Fluid)
	box := s.file.Box
	if !box.Capacity.IsZero() {
		s.proc.Capacity = box.Capacity
	}
	if !box.Sump.IsZero() {
		s.proc.Sump = box.Sump
	}
	if !box.Drain.IsZero() {
		s.proc.ColdDrain = box.Drain
	}
	if !box.Reference.IsZero() {
		s.proc.Reference = box.Reference
	}
	return nil
}

// makePlan answers before any plug is touched: how many cycles, how much fluid,
// which containers.
func (s *service) makePlan() error {
	if s.file.Plan.Target == 0 {
		s.file.Fault("plan", "no target was agreed", `write [plan] target = "55 %", the highest old share agreed`)
		return s.file.Err()
	}
	var err error
	s.plan, err = exchange.Plan(s.request())
	if err != nil {
		s.file.Fault("plan", strings.TrimPrefix(plainly(err), "plan: "), "look at the capacity, sump and drain of procedure "+s.proc.ID+" and of [box]")
		return s.file.Err()
	}
	s.buy, err = s.cover(s.plan.Fluid.Total)
	if errors.Is(err, exchange.ErrNotEnough) {
		err = fmt.Errorf("%s: plan: %w", s.file.Name(), err)
	}
	return err
}

func (s *service) request() exchange.Request {
	lost := s.lost()
	return exchange.Request{
		Capacity: s.proc.Capacity, Drain: s.proc.ColdDrain, Sump: s.proc.Sump,
		Target: s.file.Plan.Target, Purpose: s.file.Plan.Purpose, MostCycles: s.file.Plan.MostCycles,
		KeptOnce: lost.KeptOnce, KeptEachTime: lost.KeptEachTime, FilmEachTime: lost.FilmEachTime, LineReturns: lost.LineReturns,
		FinalAllowance: s.proc.Overfill, PricePerLitre: s.pricePerLitre(),
	}
}

// pricePerLitre is that of the cheapest container for its size, for the gain
// by money; what is bought is worked out by whole containers.
func (s *service) pricePerLitre() decimal.Decimal {
	var least decimal.Decimal
	for i, o := range s.fluid.Offers {
		litres, err := o.Size.Decimal(units.Litre, 9, units.HalfEven)
		if err != nil || litres.Sign() <= 0 {
			continue
		}
		if price := o.Price.DivRound(litres, 4); i == 0 || price.Cmp(least) < 0 {
			least = price
		}
	}
	return least
}

// cover returns what to buy for a need, stock on hand first.
func (s *service) cover(need units.Volume) (exchange.Purchase, error) {
	order := exchange.Order{Need: need, Offers: s.fluid.Offers}
	if onHand := s.file.Plan.OnHand; onHand.Sign() > 0 {
		order.OnHand = exchange.Stock{{Name: "on hand", Volume: onHand, Count: 1, Opened: true}}
	}
	return exchange.Cover(order)
}

// spec is the job for the card: the sheet's figures, the shop's instruments.
func (s *service) spec() jobcard.Spec {
	shop := s.pack.Shop()
	spec := jobcard.Spec{
		Job: s.file.Job, Vehicle: s.file.Vehicle, Procedure: s.proc.ID, Edition: s.pack.Edition(),
		Capacity: s.proc.Capacity, Sump: s.proc.Sump, UsualDrain: s.proc.ColdDrain, Reference: s.proc.Reference,
		Fluid:     jobcard.Fluid{Class: s.proc.Fluid, Density15: s.fluid.Density15, Expansion: s.fluid.Expansion, Table: s.fluid.Table},
		CaseMetal: s.proc.CaseMetal, Window: s.proc.Window, Target: s.file.Plan.Target, Purpose: s.file.Plan.Purpose, Overfill: s.proc.Overfill,
		OnHand: s.file.Plan.OnHand.Add(s.buy.Volume), Runs: s.proc.MixRuns,
		Plugs: s.proc.Plugs, Washers: s.proc.Washers, Tools: shop.Tools, Vessels: shop.Vessels,
	}
	for _, t := range shop.Thermometers {
		spec.Thermometers = append(spec.Thermometers, jobcard.Thermometer{ID: t.ID, PlusMinus: t.PlusMinus, Step: t.Step})
	}
	for _, w := range shop.Scales {
		spec.Scales = append(spec.Scales, jobcard.Scale{ID: w.ID, PlusMinus: w.PlusMinus, Step: w.Step})
	}
	return spec
}
