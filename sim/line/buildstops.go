package line

import (
	"cmp"
	"slices"
	"strings"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/clock"
	"pascaline/sim/measure"
	"pascaline/sim/random"
)

// stopTasks makes the stops: one for each lane, vessel or place, or one for the whole station. What happens at one tick must not depend on
// the order in the file, so they are made in the order of the line and by name.
func (b *builder) stopTasks() {
	for _, s := range b.stopsInOrder() {
		if in := b.placesNamed(string(s.Station)); in != nil {
			b.placesStop(s, in)
			continue
		}
		st := b.stationNamed(string(s.Station))
		if st == nil {
			b.fail("stops: there is no station %q", s.Station)
			return
		}
		if s.Stands == "whole station" || s.Loses > 0 && b.onePumps() {
			b.addStop(s, st, st.name, st.servers)
			continue
		}
		for _, o := range st.servers {
			b.addStop(s, st, o.base().name, []stander{o})
		}
	}
}

func (b *builder) stopsInOrder() []*scenarios.Stop {
	order := b.s.Stations()
	var list []*scenarios.Stop
	for i := range b.s.Stops {
		list = append(list, &b.s.Stops[i])
	}
	slices.SortStableFunc(list, func(x, y *scenarios.Stop) int {
		return cmp.Or(slices.Index(order, string(x.Station))-slices.Index(order, string(y.Station)), strings.Compare(string(x.Name), string(y.Name)))
	})
	return list
}

func (b *builder) stationNamed(name string) *station {
	for _, st := range b.l.stations {
		if !st.side && (st.section == name || st.section == spaced(name)) {
			return st
		}
	}
	return nil
}

// placesNamed finds places that are no station: infeed, drain, table.
func (b *builder) placesNamed(name string) *inbox {
	for _, st := range b.l.stations {
		if st.in != nil && st.in.name == name {
			return st.in
		}
	}
	return nil
}

// placesStop lets nothing in or out of places. A clock of running hours counts while the station that empties them runs.
func (b *builder) placesStop(s *scenarios.Stop, in *inbox) {
	for _, st := range b.l.stations {
		if st.in == in {
			x := b.newStop(s, st, string(s.Station), nil)
			x.places = in
			b.clockOf(x, s, st.servers)
		}
	}
}

func (b *builder) addStop(s *scenarios.Stop, st *station, on string, of []stander) {
	b.clockOf(b.newStop(s, st, on, of), s, of)
}

func (b *builder) newStop(s *scenarios.Stop, st *station, on string, of []stander) *stop {
	name := on + "/stop " + string(s.Name)
	x := &stop{l: b.l, station: st, label: string(s.Station), name: string(s.Name), of: of, planned: s.Planned == "yes", takes: b.draw(name+"/takes", &s.Takes)}
	x.menders, x.crew = b.pool(s.MendedBy.Pool), max(1, s.MendedBy.Least)
	x.ask = ask{by: x, station: len(b.l.stations), least: x.crew, most: x.crew}
	work := s.Work
	if st.name == "vessel" {
		work = map[units.Word]units.Word{"set aside": "set aside"}[s.Load]
		if work == "" {
			work = "repeat"
		}
	}
	x.pol = map[units.Word]policy{"repeat": again, "set aside": setAside}[work]
	x.loses = int(s.Loses)
	for _, o := range of {
		if v, ok := o.(*vessel); ok && x.loses > 0 && !slices.Contains(x.pumps, v.pumps) {
			x.pumps = append(x.pumps, v.pumps)
		}
	}
	for _, at := range s.At {
		x.at = append(x.at, clock.Tick(at))
	}
	if s.Chance > 0 {
		x.chance, x.byChance = float64(s.Chance), b.stream(name+"/chance")
	}
	if s.Every != nil {
		b.firstStop(x, s, name)
	}
	b.l.stops = append(b.l.stops, x)
	return x
}

// firstStop draws the time to the first stop: at a random age of the process as it has long been running, or from a stated age.
func (b *builder) firstStop(x *stop, s *scenarios.Stop, name string) {
	x.kind = s.Every.Clock()
	x.every = b.drawLaw(name+"/every", s.Every.Law())
	law := b.law(name+"/every", func() (random.Law, error) { return random.NewLaw(s.Every.Law()) })
	if b.err != nil {
		return
	}
	u := b.stream(name + "/first").At(0)
	if s.Age != nil {
		x.first = beyond(law, s.Age.Value, u) - s.Age.Value
		return
	}
	x.first = b.law(name+"/first", func() (random.Law, error) { return random.Residual(law), nil }).Quantile(u)
}

// beyond draws from a law given that it is beyond age, by one uniform number.
func beyond(law random.Law, age, u float64) float64 {
	lo, hi := 0.0, 1.0
	for range 60 { // the share of the law up to age
		mid := (lo + hi) / 2
		if law.Quantile(mid) <= age {
			lo = mid
		} else {
			hi = mid
		}
	}
	if age == 0 {
		lo = 0
	}
	return max(law.Quantile(lo+float64(u*(1-lo))), age)
}

// clockOf gives a stop the clock that it counts by.
func (b *builder) clockOf(x *stop, s *scenarios.Stop, of []stander) {
	switch {
	case len(x.at) > 0:
	case x.chance > 0 || x.kind == units.Cycles || x.kind == units.Packs:
		x.count = &counter{s: x, packs: x.kind == units.Packs}
		for _, o := range of {
			o.base().count = append(o.base().count, x.count)
		}
	case x.kind == units.Running:
		x.runs = &runClock{until: clock.Never}
		for _, o := range of {
			o.base().runs = append(o.base().runs, x.runs)
		}
	case x.kind == units.OnShift:
		x.runs = &runClock{until: clock.Never}
		for _, o := range of {
			o.base().shift = append(o.base().shift, x.runs)
			if o.base().st.Now() != measure.OffShift {
				x.runs.start(0, false)
			}
		}
	}
}
