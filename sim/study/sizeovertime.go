package study

import (
	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/result"
)

// overtimePay is what overtime costs. It is known only after a line was simulated, so it stands beside the cost by which settings are sorted and
// chosen, not in it.
type overtimePay struct {
	yearly []float64 // by pool, for a year: of one person-hour of overtime in each rostered hour; 0 where no hour of the pool has a cost
	any    bool      // some pool has its cost
}

// overtime prices the overtime of a setting: an hour of a person at what it costs in the last shift in which the pool is there, after which it is
// worked, and what the money block says that overtime costs above that.
func (p *pricer) overtime(s *scenarios.Scenario) overtimePay {
	o := overtimePay{yearly: make([]float64, len(s.People))}
	more := 1.0
	if p.s.Money != nil {
		more += float64(p.s.Money.Overtime)
	}
	for i := range s.People {
		if last := s.LastShift(&s.People[i]); last != nil {
			o.yearly[i] = float64(p.hour(s.People[i].Name, last.Name)*more) * float64(s.WeekHours("")*p.weeks)
			o.any = o.any || o.yearly[i] > 0
		}
	}
	return o
}

// hour is what an hour of a person of a pool costs in a shift: as the size block says where it sets their number, else as the money block says; 0 where
// neither does.
func (p *pricer) hour(pool, shift string) float64 {
	for i := range p.s.Size.Vary {
		d := &p.s.Size.Vary[i]
		if d.CostEach == nil || d.CostEach.Per != "h" {
			continue
		}
		for _, f := range d.Fields {
			if name, in, ok := p.s.HeadsAt(string(f)); ok && name == pool && (in == shift || in == "") {
				return d.CostEach.Value
			}
		}
	}
	if p.s.Money != nil {
		for i := range p.s.Money.People {
			if c := &p.s.Money.People[i]; c.Pool == pool {
				in := c.In(shift)
				return in.Central()
			}
		}
	}
	return 0
}

// of is the overtime pay of a year in which every week is as a record was.
func (o *overtimePay) of(r *line.Record) float64 {
	sum := 0.0
	for i := range r.Pools {
		sum += float64(o.yearly[i] * per(hours(r.Pools[i].Overtime), hours(r.Rostered)))
	}
	return sum
}

// mean is the overtime pay of a year over trials; nil where no pool has its cost.
func (o *overtimePay) mean(trials []trial) *result.Estimate {
	if !o.any {
		return nil
	}
	var pay Sample
	for _, t := range trials {
		pay = append(pay, t.pay)
	}
	e := pay.Estimate()
	return &e
}

// unpaid are the pools that worked overtime of which no hour has a cost.
func (o *overtimePay) unpaid(t *total) (names []string) {
	for i := range t.pools {
		if r := &t.pools[i].rec; r.Overtime > 0 && o.yearly[i] == 0 {
			names = append(names, r.Name)
		}
	}
	return names
}
