package study

import (
	"fmt"
	"math"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/press"
	"pascaline/sim/result"
)

// HandCheck is the rate that each part of the line could bring by its mean times alone, as one would work it out on paper, in finished
// packs per hour without breaks and stops; the lowest is the bound for all of them.
func HandCheck(s *scenarios.Scenario, simulated float64) result.HandCheck {
	h := result.HandCheck{Rows: mixedRates(s), BoundPacksPerH: math.Inf(1)}
	for _, r := range h.Rows {
		if r.PacksPerH < h.BoundPacksPerH {
			h.BoundPacksPerH, h.By = r.PacksPerH, r.Station
		}
	}
	if math.IsInf(h.BoundPacksPerH, 1) {
		h.BoundPacksPerH = 0
	}
	h.Share = per(simulated, h.BoundPacksPerH)
	return h
}

// handRates are the rows of one product.
func handRates(s *scenarios.Scenario) []result.HandRate {
	c := &checker{s: s, yield: 1, work: map[string]float64{}}
	c.stations()
	c.people()
	return c.rows
}

// checker works the rows out from the end of the line, so that packs lost further down are allowed for.
type checker struct {
	s     *scenarios.Scenario
	rows  []result.HandRate
	yield float64            // finished packs for one that comes to the station in hand
	work  map[string]float64 // person-seconds a finished pack costs each pool
}

func (c *checker) row(station string, packsPerS float64, format string, a ...any) {
	if packsPerS <= 0 || math.IsInf(packsPerS, 0) || math.IsNaN(packsPerS) {
		return
	}
	r := result.HandRate{Station: station, PacksPerH: packsPerS * c.yield * 3600, How: fmt.Sprintf(format, a...)}
	c.rows = append([]result.HandRate{r}, c.rows...)
}

// does adds work of a pool for one pack at the station in hand.
func (c *checker) does(crew units.Crew, personSeconds float64) {
	if crew.Pool == "" || c.yield == 0 {
		return
	}
	if p := c.pool(crew.Pool); p != nil {
		c.work[p.Name] += personSeconds / c.yield
	}
}

func (c *checker) pool(name string) *scenarios.Pool {
	for i := range c.s.People {
		if p := &c.s.People[i]; p.Name == name {
			return p
		}
	}
	return nil
}

// stations goes up the line.
func (c *checker) stations() {
	s := c.s
	perCase := float64(s.Product.PacksPerCase)
	c.machine("palletiser", s.Palletiser, perCase)
	c.machine("case labeller", s.CaseLabeller, perCase)
	c.machine("sealer", s.Sealer, perCase)
	c.packing(s.Packing)
	c.machine("checkweigher", s.Checkweigher, 1)
	c.machine("labeller", s.Labeller, 1)
	c.belt("dryer", s.Dryer)
	c.belt("shaker", s.Shaker)
	round := c.tip(s.Tip)
	round += c.vessel(s.Vessel)
	c.loading(s.Loading, round)
	c.supply()
}

// machine takes pieces of n packs.
func (c *checker) machine(name string, m *scenarios.Machine, n float64) {
	if m == nil {
		return
	}
	c.yield *= 1 - float64(m.Rejects.Share)
	t := meanOf(m.Time)
	if m.Rate != nil {
		t = 1 / float64(*m.Rate)
	}
	heads := float64(m.Heads)
	c.row(name, per(heads*n, t), "%g x %g packs each %.4g s", heads, n, t)
	c.does(m.By, t*float64(max(1, m.By.Least))/n)
}

func (c *checker) packing(p *scenarios.Packing) {
	if p == nil {
		return
	}
	n := float64(c.s.Product.PacksPerCase)
	t := meanOf(&p.Time.Time)
	if p.Time.Per == "pack" {
		t *= n
	}
	t += meanOf(&p.PerCase)
	benches := float64(p.Benches)
	if q := c.pool(p.Crew.Pool); q != nil {
		benches = min(benches, math.Floor(float64(c.s.MostHeads(q))/float64(max(1, p.Crew.Least))))
	}
	c.row("packing", per(benches*n, t), "%g benches x %g packs each %.4g s", benches, n, t)
	c.does(p.Crew, t*float64(max(1, p.Crew.Least))/n)
}

func (c *checker) belt(name string, b *scenarios.Belt) {
	if b == nil {
		return
	}
	c.yield *= 1 - float64(b.Leakers.Share)
	rate, how := math.Inf(1), ""
	if b.Rate != nil {
		rate, how = float64(*b.Rate), fmt.Sprintf("%g packs/min", float64(*b.Rate)*60)
	}
	if travel := meanOf(&b.Travel); b.Places != nil && travel > 0 && float64(*b.Places)/travel < rate {
		rate, how = float64(*b.Places)/travel, fmt.Sprintf("%d places in %g s", *b.Places, travel)
	}
	fresh := 1.0 // new packs among those that leave
	if w := b.Wet; w != nil {
		share := float64(w.Share)
		switch w.Then {
		case "sent round once":
			fresh = 1 / (1 + share)
		case "sent round every time":
			fresh = 1 - share
		default:
			c.does(w.By, share*meanOf(&w.Takes)*float64(max(1, w.By.Least)))
		}
	}
	c.row(name, rate*float64(b.Lanes)*fresh, "%d x %s, %.3g of them new", b.Lanes, how, fresh)
}

// tip gives the time a carrier spends there.
func (c *checker) tip(t *scenarios.Tip) float64 {
	if t == nil {
		return 0
	}
	n := float64(c.s.Product.PacksPerCarrier)
	each := meanOf(&t.Swap) + float64(n*meanOf(&t.PerPack))
	c.row("tip", per(float64(t.Stations)*n, each), "%d x %g packs each %.4g s", t.Stations, n, each)
	c.does(t.By, each*float64(max(1, t.By.Least))/n)
	return each
}

// vessel gives the time a carrier spends in it and on drain places.
func (c *checker) vessel(v *scenarios.Vessel) float64 {
	drain := 0.0
	if c.s.Drain != nil {
		drain = meanOf(&c.s.Drain.Time)
	}
	if v == nil {
		return drain
	}
	cycle := idealCycle(c.s)
	again := 1.0
	if m := v.PressureMissed; m != nil && m.Then == "repeat from prefill" && m.AtMost > 0 {
		p := press.Phases(c.s)
		again = (cycle + float64(float64(m.Chance)*(meanOf(p.Prefill)+meanOf(p.ComeUp)))) / cycle
	}
	load, n := float64(v.CarriersPerLoad), float64(c.s.Product.PacksPerCarrier)
	c.row("vessel", per(float64(v.Vessels)*load*n, cycle*again), "%d x %g carriers x %g packs each %.4g s", v.Vessels, load, n, cycle*again)
	if up := meanOf(press.Phases(c.s).ComeUp); v.Pumps != nil && v.Pumps.Serve != "each vessel has its own" && v.Vessels > 1 {
		c.row("pumps", per(load*n, up), "one come-up each %.4g s for %g carriers x %g packs", up, load, n)
	}
	if v.Started != nil {
		c.does(v.Started.By, meanOf(&v.Started.Takes)*float64(max(1, v.Started.By.Least))/(load*n))
	}
	return drain + cycle
}

// loading adds its own row and that of the carriers, which are back after a round.
func (c *checker) loading(l *scenarios.Loading, round float64) {
	if l == nil {
		return
	}
	n := float64(c.s.Product.PacksPerCarrier)
	least := float64(max(1, l.Crew.Least))
	crew := least
	if q := c.pool(l.Crew.Pool); q != nil {
		crew = max(least, min(float64(l.Crew.Most), math.Floor(float64(c.s.MostHeads(q))/float64(l.Stations))))
	}
	hand := meanOf(&l.HandTime.Time) // person-seconds a carrier
	switch l.HandTime.Per {
	case "pack and person":
		hand *= n
	case "pack":
		hand *= n * least
	case "carrier":
		hand *= least
	case "case":
		hand *= math.Ceil(n/float64(c.s.Product.PacksPerCase)) * least
	}
	swap := meanOf(&l.Swap.Time)
	each := hand/crew + swap
	c.row("loading", per(float64(l.Stations)*n, each), "%d x %g packs each %.4g s with %g people", l.Stations, n, each, crew)
	work := hand
	if l.Swap.By != "machine" {
		work += float64(swap * crew)
	}
	c.does(l.Crew, work/n)
	if k := c.s.Carriers; k != nil && k.Owned > 0 && c.s.Tip != nil {
		round += each + meanOf(&k.Return)
		c.row("carriers", per(float64(k.Owned)*n, round), "%d carriers x %g packs each round of %.4g s", k.Owned, n, round)
	}
}

// supply is what comes in, where it comes at a pace.
func (c *checker) supply() {
	f := c.s.Supply
	if f == nil || f.Every == nil {
		return
	}
	each, packs := meanOf(f.Every), c.s.Product.PacksIn(c.s.EntersAs())
	c.row("supply", per(float64(max(1, f.Batch)*packs), each), "%d x %d packs each %.4g s", max(1, f.Batch), packs, each)
}

// people adds a row for every pool that several stations share: all heads at work all the time.
func (c *checker) people() {
	c.yield = 1
	for i := range c.s.People {
		p := &c.s.People[i]
		if w := c.work[p.Name]; w > 0 {
			c.rows = append(c.rows, result.HandRate{Station: p.Name, PacksPerH: float64(c.s.MostHeads(p)) / w * 3600, How: fmt.Sprintf("%g people, %.4g person-seconds a pack", float64(c.s.MostHeads(p)), w)})
		}
	}
}
