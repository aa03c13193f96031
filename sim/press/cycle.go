package press

import (
	"fmt"
	"math"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/random"
	"pascaline/sim/result"
)

// CycleOf works out one cycle of a scenario's vessel with a full load. The error says what of the scenario is missing.
func CycleOf(s *scenarios.Scenario) (*result.Cycle, error) {
	x, err := SetupOf(s)
	switch {
	case err != nil:
		return nil, err
	case x == nil:
		return nil, fmt.Errorf("the scenario has no vessel, so there is no cycle to work out; add vessel: with its volume and phases")
	case s.Vessel.Volume == 0:
		return nil, fmt.Errorf("vessel.volume is missing: without the inner volume of the vessel no water can be worked out; add it, such as volume: 420 L")
	case s.Product.Pack.Volume == 0:
		return nil, fmt.Errorf("product.pack.volume is missing: without the volume of a pack nobody knows what it leaves free; add it, such as pack: {volume: 300 mL}")
	}
	r := &result.Cycle{
		Head: result.NewHead(result.KindCycle), Scenario: string(s.Name), Product: string(s.Product.Name), Note: string(s.Note), ScenarioHash: s.Hash(),
		PressureMPa: six(x.MPa), HoldS: s.Product.Hold.Seconds(), Warnings: []result.Warning{}, Assumptions: []result.Assumption{},
	}
	r.Prefill = x.time(s.Vessel.Phases.Prefill, x.PrefillS(x.Full()))
	r.ComeUp = x.time(s.Vessel.Phases.ComeUp, x.ComeUpS(x.Full()))
	x.phases(r)
	x.content(r)
	u := x.comeUp(r)
	x.energy(r, u)
	x.curve(r, u)
	x.rest(r)
	x.doubts(r)
	return r, nil
}

// six rounds to six digits, which is more than is known and the same on every processor.
func six(v float64) float64 {
	if v == 0 {
		return 0
	}
	p := math.Pow10(5 - int(math.Floor(math.Log10(math.Abs(v)))))
	return math.Round(v*p) / p
}

func meanOf(t *scenarios.Time) float64 {
	if t == nil {
		return 0
	}
	l, err := random.NewLaw(t.Law())
	if err != nil {
		return 0 // refused when a line is made of the scenario
	}
	return six(l.Mean())
}

func (x *Setup) time(taken *scenarios.Time, worked float64) result.WorkedTime {
	w := result.WorkedTime{StopwatchS: meanOf(taken), WorkedOutS: worked, UsedS: worked}
	if taken != nil {
		w.UsedS = w.StopwatchS
	}
	return w
}

// phases lists the cycle in its order.
func (x *Setup) phases(r *result.Cycle) {
	v := x.s.Vessel
	p := &v.Phases
	add := func(name string, t *scenarios.Time) {
		if t != nil {
			r.Phases = append(r.Phases, result.CyclePhase{Name: name, S: meanOf(t), Origin: "stopwatch"})
		}
	}
	worked := func(name string, t *scenarios.Time, w result.WorkedTime) {
		if t == nil && w.UsedS > 0 {
			r.Phases = append(r.Phases, result.CyclePhase{Name: name, S: w.UsedS, Origin: "worked out"})
			return
		}
		add(name, t)
	}
	product := func(name string, d units.Duration) {
		if d > 0 {
			r.Phases = append(r.Phases, result.CyclePhase{Name: name, S: d.Seconds(), Origin: "product"})
		}
	}
	if v.Started != nil {
		add("start", &v.Started.Takes)
	}
	if v.Unloading == "push_through" {
		add("transfer", p.Transfer)
	} else {
		add("transfer in", p.TransferIn)
	}
	add("close", p.Close)
	worked("prefill", p.Prefill, r.Prefill)
	product("gas wait", x.s.Product.GasWait)
	worked("come-up", p.ComeUp, r.ComeUp)
	product("hold", x.s.Product.Hold)
	add("decompress", p.Decompress)
	add("open", p.Open)
	add("drain", p.Drain)
	if v.Unloading != "push_through" {
		add("transfer out", p.TransferOut)
	}
	for _, ph := range r.Phases {
		r.CycleS += ph.S
	}
	r.CycleS = six(r.CycleS)
	r.CyclesPerH = six(3600 / r.CycleS)
}

// content is the load and its water.
func (x *Setup) content(r *result.Cycle) {
	c := x.Content(x.Full())
	packs := int(x.s.Product.PacksPerCarrier) * x.Full()
	r.Load = result.CycleLoad{
		VesselL: six(c.Vessel), PacksL: six(c.Packs), PlasticL: six(c.Plastic), FreeL: six(c.Free()), Fill: six(c.Packs / c.Vessel),
		Packs: packs, PacksKg: six(float64(packs) * float64(x.s.Product.Pack.Mass)),
	}
	p := c.PushIn(x.Water, x.MPa)
	r.Water = result.CycleWater{PrefillL: r.Load.FreeL, PushedInL: six(p.Sum()), PerVesselL: six(p.Sum() / c.Vessel), CycleL: six(c.Free() + p.Sum())}
	for _, part := range []result.WaterPart{{Name: "water around the packs", Litres: p.Water}, {Name: "what is in the packs", Litres: p.Packs},
		{Name: "gas in the packs", Litres: p.Gas}, {Name: "carrier plastic", Litres: p.Plastic}, {Name: "growth of the bore", Litres: p.Bore}} {
		part.Litres = six(part.Litres)
		r.Water.Parts = append(r.Water.Parts, part)
	}
	if kg := r.Load.PacksKg; kg > 0 {
		r.Water.PerKg, r.KgPerH = six(r.Water.CycleL/kg), six(kg*r.CyclesPerH)
	}
}

// comeUp is that of the pumps; where their flow is not known, of the flow that the stopwatch time asks for.
func (x *Setup) comeUp(r *result.Cycle) ComeUp {
	p := x.Pumps
	if p.Flow == 0 && r.ComeUp.UsedS > 0 {
		p.Flow, p.Power = r.Water.PushedInL/r.ComeUp.UsedS*60, 0
	}
	return x.Content(x.Full()).ComeUp(x.Water, p, x.MPa)
}

func (x *Setup) energy(r *result.Cycle, u ComeUp) {
	r.Energy = result.CycleEnergy{IdealKWh: six(u.IdealKWh), KWh: six(u.KWh), Efficiency: float64(x.Set.Efficiency), PerPacksL: six(u.KWh / r.Load.PacksL), MostKW: six(u.MostKW)}
	if kg := r.Load.PacksKg; kg > 0 {
		r.Energy.PerKg = six(u.KWh / kg)
	}
	if x.Pumps.Flow > 0 {
		r.Energy.PowerShortS, r.Energy.PowerEnoughS = six(u.ShortS), hundredths(u.FreeS)
	}
}

// rest is temperatures, forces and pumps.
func (x *Setup) rest(r *result.Cycle) {
	from, packs := float64(x.Set.Water), float64(x.Set.Packs)
	r.Warming = result.Warming{WaterFromC: from, WaterToC: six(from + x.Water.Warming(x.MPa)), PacksFromC: packs}
	if w, err := NewWater(packs); err == nil {
		r.Warming.PacksToC = six(packs + w.Warming(x.MPa))
	}
	if b := x.s.Vessel.Bore; b != nil {
		mn := Force(x.MPa, float64(*b))
		r.Plugs = &result.Plugs{BoreMM: float64(*b), ForceMN: six(mn), Tonnes: six(TonnesForce(mn)), LengthM: six(Length(r.Load.VesselL, float64(*b)))}
	}
	n := int(x.Set.Intensifiers)
	r.Pumps = result.CyclePumps{FlowLMin: six(x.Pumps.Flow), PowerKW: six(x.Pumps.Power), Intensifiers: n, Serve: string(x.Set.Serve)}
	if r.ComeUp.UsedS == 0 {
		return
	}
	r.Pumps.FlowNeeded, r.Pumps.MostPerH = six(r.Water.PushedInL/r.ComeUp.UsedS*60), six(3600/r.ComeUp.UsedS)
	for lost := 1; lost < min(n, 4); lost++ {
		up := hundredths(r.ComeUp.UsedS * Lost(n, lost))
		cycle := six(r.CycleS - r.ComeUp.UsedS + up)
		r.Pumps.Lost = append(r.Pumps.Lost, result.LostPump{Lost: lost, ComeUpS: up, CycleS: cycle, CyclesPerH: six(3600 / cycle)})
	}
}
