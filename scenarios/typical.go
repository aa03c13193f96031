package scenarios

import (
	"fmt"

	"pascaline/scenarios/units"
)

// Where a range comes from.
const (
	practice  = "common practice, no source"
	efsa      = "EFSA BIOHAZ Panel 2022, EFSA Journal 20(3):7128"
	packaging = "throughput-engineering article on packaging lines"
)

// typical is the range in which a value usually lies.
type typical struct {
	path      string
	what      string
	unit      string
	low, high float64
	source    string
	value     func(s *Scenario) float64 // 0 where there is none
}

// ranges are those of the trade; a value outside is used as it stands, but told.
var ranges = []typical{
	{"product.pressure", "the pressure", "MPa", 400, 600, efsa, func(s *Scenario) float64 { return float64(s.Product.Pressure) }},
	{"product.hold", "the hold", "s", 60, 360, efsa, func(s *Scenario) float64 { return s.Product.Hold.Seconds() }},
	{"loading.hand_time", "hand loading of a pack by one person", "s", 0.8, 4, practice, handPace},
	{"loading.swap", "the swap of a carrier", "s", 10, 60, practice, func(s *Scenario) float64 {
		return ifHas(s.Loading, func(l *Loading) float64 { return mean(&l.Swap.Time) })
	}},
	{"loading.crew", "the crew of a loading station", "people", 1, 4, practice, func(s *Scenario) float64 {
		return ifHas(s.Loading, func(l *Loading) float64 { return float64(l.Crew.Most) })
	}},
	{"vessel.volume", "the fill ratio", "of the vessel", leastFill, mostFill, practice, (*Scenario).fill},
	{"vessel.carriers_per_load", "a load", "carriers", 1, 8, practice, func(s *Scenario) float64 {
		return ifHas(s.Vessel, func(v *Vessel) float64 { return float64(v.CarriersPerLoad) })
	}},
	{"vessel.phases.transfer_in", "transfer in", "s", 15, 90, practice, phase(func(p *Phases) *Time { return p.TransferIn })},
	{"vessel.phases.transfer", "transfer", "s", 15, 90, practice, phase(func(p *Phases) *Time { return p.Transfer })},
	{"vessel.phases.close", "close", "s", 15, 60, practice, phase(func(p *Phases) *Time { return p.Close })},
	{"vessel.phases.prefill", "prefill", "s", 10, 60, practice, phase(func(p *Phases) *Time { return p.Prefill })},
	{"vessel.phases.come_up", "come-up", "s", 90, 300, practice, phase(func(p *Phases) *Time { return p.ComeUp })},
	{"vessel.phases.decompress", "decompression", "s", 1, 30, practice, phase(func(p *Phases) *Time { return p.Decompress })},
	{"vessel.phases.open", "open", "s", 10, 40, practice, phase(func(p *Phases) *Time { return p.Open })},
	{"vessel.phases.drain", "drain", "s", 10, 90, practice, phase(func(p *Phases) *Time { return p.Drain })},
	{"vessel.phases.transfer_out", "transfer out", "s", 10, 90, practice, phase(func(p *Phases) *Time { return p.TransferOut })},
	{"vessel.pumps.gas_in_packs", "the gas in the packs", "of their volume", 0.001, 0.10, practice, pumped(func(p *Pumps) float64 { return float64(p.GasInPacks) })},
	{"vessel.pumps.carrier_plastic", "the plastic of the carriers", "of the vessel's volume", 0.01, 0.15, practice, pumped(func(p *Pumps) float64 { return float64(p.CarrierPlastic) })},
	{"vessel.pumps.bore_growth", "the growth of the bore", "of the vessel's volume", 0.009, 0.015, "thick-walled cylinder, Lame 1833, outer over inner diameter 2.9 to 1.5", pumped(func(p *Pumps) float64 { return float64(p.BoreGrowth) })},
	{"vessel.pumps.efficiency", "the efficiency of the pumps", "of the energy", 0.5, 0.9, practice, pumped(func(p *Pumps) float64 { return float64(p.Efficiency) })},
	{"vessel.pressure_missed.chance", "pressure not reached", "of the cycles", 1.0 / 500, 1.0 / 30, practice, missed},
	{"drain.time", "the stay at the drain", "s", 5, 60, practice, func(s *Scenario) float64 { return ifHas(s.Drain, func(d *Places) float64 { return mean(&d.Time) }) }},
	{"tip", "tipping a carrier", "s", 5, 60, practice, tipping},
	{"shaker.travel", "the way over the shaker", "s", 10, 25, practice, func(s *Scenario) float64 { return ifHas(s.Shaker, func(b *Belt) float64 { return mean(&b.Travel) }) }},
	{"shaker.leakers", "leakers", "of the packs", 0.0002, 0.02, practice, func(s *Scenario) float64 {
		return ifHas(s.Shaker, func(b *Belt) float64 { return float64(b.Leakers.Share) })
	}},
	{"dryer.rate", "the rate of a dryer lane", "packs/min", 30, 120, practice, laneRate},
	{"dryer.wet.share", "wet packs after the dryer", "of the packs", 0.01, 0.30, practice, wetShare},
	{"labeller", "the labeller", "packs/min", 20, 600, practice, perMinute("labeller")},
	{"checkweigher", "the checkweigher", "packs/min", 40, 150, practice, perMinute("checkweigher")},
	{"packing.time", "packing by one person", "packs/min", 12, 45, practice, packPace},
	{"packing.per_case", "set-up and closing of a case", "s", 8, 30, practice, func(s *Scenario) float64 {
		return ifHas(s.Packing, func(p *Packing) float64 { return mean(&p.PerCase) })
	}},
	{"sealer", "the case sealer", "cases/min", 5, 30, packaging, perMinute("sealer")},
	{"case_labeller", "the case labeller", "cases/min", 30, 60, packaging, perMinute("case_labeller")},
	{"roster.shifts", "the longest start-up", "h", 0.25, 1.5, practice, func(s *Scenario) float64 {
		return longestOf(s, func(sh Shift) units.Duration { return sh.StartUp })
	}},
	{"roster.shifts", "the longest wash-down", "h", 1.5, 8, practice, func(s *Scenario) float64 {
		return longestOf(s, func(sh Shift) units.Duration { return sh.WashDown })
	}},
	{"palletiser", "the palletiser", "cases/min", 15, 25, packaging, perMinute("palletiser")},
}

func ifHas[T any](p *T, value func(*T) float64) float64 {
	if p == nil {
		return 0
	}
	return value(p)
}

func mean(t *Time) float64 { return t.Law().MeanUsed() }

func phase(of func(*Phases) *Time) func(*Scenario) float64 {
	return func(s *Scenario) float64 {
		return ifHas(s.Vessel, func(v *Vessel) float64 { return ifHas(of(&v.Phases), mean) })
	}
}

func pumped(of func(*Pumps) float64) func(*Scenario) float64 {
	return func(s *Scenario) float64 {
		return ifHas(s.Vessel, func(v *Vessel) float64 { return ifHas(v.Pumps, of) })
	}
}

func missed(s *Scenario) float64 {
	if s.Vessel == nil {
		return 0
	}
	return ifHas(s.Vessel.PressureMissed, func(p *PressureMissed) float64 { return float64(p.Chance) })
}

// handPace is seconds for one pack and person, whatever was measured.
func handPace(s *Scenario) float64 {
	if s.Loading == nil || s.Loading.Crew.Pool == "" {
		return 0
	}
	t, people := mean(&s.Loading.HandTime.Time), float64(s.Loading.Crew.Least)
	switch s.Loading.HandTime.Per {
	case "pack and person":
		return t
	case "carrier":
		return t * people / float64(s.Product.PacksPerCarrier)
	case "case":
		return t * people / float64(s.Product.PacksPerCase)
	}
	return t * people
}

func tipping(s *Scenario) float64 {
	return ifHas(s.Tip, func(t *Tip) float64 {
		return mean(&t.Swap) + float64(s.Product.PacksPerCarrier-1)*mean(&t.PerPack)
	})
}

func laneRate(s *Scenario) float64 {
	if s.Dryer == nil {
		return 0
	}
	return ifHas(s.Dryer.Rate, func(r *units.Rate) float64 { return 60 * float64(*r) })
}

func wetShare(s *Scenario) float64 {
	if s.Dryer == nil {
		return 0
	}
	return ifHas(s.Dryer.Wet, func(w *Wet) float64 { return float64(w.Share) })
}

func longestOf(s *Scenario, of func(Shift) units.Duration) (hours float64) {
	if s.Roster == nil {
		return 0
	}
	for _, sh := range s.Roster.Shifts {
		hours = max(hours, of(sh).Seconds()/3600)
	}
	return hours
}

func perMinute(name string) func(*Scenario) float64 {
	return func(s *Scenario) float64 {
		return ifHas(s.machines()[name], func(m *Machine) float64 {
			switch {
			case m.Rate != nil:
				return 60 * float64(*m.Rate) * float64(m.Heads)
			case m.Time != nil && mean(m.Time) > 0:
				return 60 / mean(m.Time) * float64(m.Heads)
			}
			return 0
		})
	}
}

// packPace is packs in a minute of hand packing; machines pack faster.
func packPace(s *Scenario) float64 {
	if s.Packing == nil || s.Packing.Crew.Pool == "" {
		return 0
	}
	t := mean(&s.Packing.Time.Time)
	if t == 0 {
		return 0
	}
	if s.Packing.Time.Per == "pack" {
		return 60 / t / float64(s.Packing.Crew.Least)
	}
	return 60 * float64(s.Product.PacksPerCase) / t / float64(s.Packing.Crew.Least)
}

// unusual are the values outside their typical range.
func (s *Scenario) unusual() (found []Assumption) {
	for _, r := range ranges {
		v := r.value(s)
		if v == 0 || v >= r.low*(1-1e-9) && v <= r.high*(1+1e-9) {
			continue
		}
		value := fmt.Sprintf("%.4g %s", v, r.unit)
		a := Assumption{Where: r.path, Value: value, Origin: "default"}
		if file, line, _, ok := s.Trail.Where(r.path); ok {
			a.Origin = fmt.Sprintf("%s line %d", file, line)
		}
		a.Says = fmt.Sprintf("%s: %s is %s; %.4g to %.4g %s is usual (%s).", r.path, r.what, value, r.low, r.high, r.unit, r.source)
		found = append(found, a)
	}
	return found
}
