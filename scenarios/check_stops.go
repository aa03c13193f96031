package scenarios

import (
	"fmt"
	"slices"

	"pascaline/scenarios/units"
)

var stopRules = []func(*checker){
	(*checker).stopStations, (*checker).stopNames, (*checker).stopWays, (*checker).stopTimes, (*checker).stopClocks, (*checker).stopAges,
	(*checker).stopRepeats, (*checker).stopLoads,
}

func stopPath(i int, field string) string { return join(stopItem(i), field) }

func stopItem(i int) string { return fmt.Sprintf("stops[%d]", i+1) }

func (c *checker) stopStations() {
	here := c.s.Stations()
	for i, s := range c.s.Stops {
		name := string(s.Station)
		if slices.Contains(here, name) {
			if by := emptiedBy[name]; by != "" && !c.s.emptied(name) {
				c.fault(stopPath(i, "station"), quote(name), "a station, or places that a station empties", fmt.Sprintf("without %s after it the %s never holds anything up", by, name))
			}
			continue
		}
		c.fault(stopPath(i, "station"), quote(name), "a station of this scenario: "+orList(here), c.stationHint(name, here))
	}
}

func (c *checker) stationHint(name string, here []string) string {
	if stationNamed(name) != nil {
		return "this scenario has no " + name
	}
	return didYouMean(name, here)
}

func (c *checker) stopNames() {
	seen := map[[2]units.Text]int{}
	for i, s := range c.s.Stops {
		key := [2]units.Text{s.Station, s.Name}
		if first, twice := seen[key]; twice {
			c.fault(stopPath(i, "name"), quote(string(s.Name))+" a second time", "a name of its own for each stop of a station",
				fmt.Sprintf("first on line %d", c.r.trail.nearest(stopPath(first, "name")).line))
			continue
		}
		seen[key] = i
	}
}

func (c *checker) stopWays() {
	for i := range c.s.Stops {
		var ways []string
		for _, w := range []string{"every", "chance", "at"} {
			if c.written(stopPath(i, w)) {
				ways = append(ways, w)
			}
		}
		switch len(ways) {
		case 0:
			c.fault(stopItem(i), "no every, chance or at", "one of them", "when does it stop?")
		case 1:
		default:
			c.fault(stopPath(i, ways[1]), orList(ways[:1])+" and "+ways[1], "only one of every, chance and at", "")
		}
	}
}

// stopTimes come in order.
func (c *checker) stopTimes() {
	for i, s := range c.s.Stops {
		if !slices.IsSorted(s.At) {
			c.fault(stopPath(i, "at"), "times that run backwards", "times in order", "")
		}
	}
}

// stopClocks: cycles can be counted only where work comes in cycles, and packs where packs pass.
func (c *checker) stopClocks() {
	for i, s := range c.s.Stops {
		st := stationNamed(string(s.Station))
		if st == nil {
			continue
		}
		hint := st.name + " has no cycles; a time or a number of packs will do"
		if c.written(stopPath(i, "chance")) && !st.tasks {
			c.fault(stopPath(i, "chance"), "a chance at each cycle", "every: an interval", hint, stopPath(i, "station"))
		}
		if s.Every != nil && s.Every.Clock() == units.Cycles && !st.tasks {
			c.fault(stopPath(i, "every"), "an interval in cycles", "an interval in hours or packs", hint, stopPath(i, "station"))
		}
		if s.Every != nil && s.Every.Clock() == units.Packs && st.in == "cases" {
			c.fault(stopPath(i, "every"), "an interval in packs", "an interval in hours or cycles", st.name+" handles cases", stopPath(i, "station"))
		}
	}
}

func (c *checker) stopAges() {
	for i, s := range c.s.Stops {
		if s.Age == nil {
			continue
		}
		path := stopPath(i, "age")
		switch {
		case s.Every == nil:
			c.fault(path, "an age", "every: the interval it is the age in", "", stopPath(i, "every"))
		case s.Age.Value > 0 && s.Age.Clock != s.Every.Clock():
			c.fault(path, c.said(path), fmt.Sprintf("new, or an age in the clock of every: %s", s.Every.Clock()), "", stopPath(i, "every"))
		case s.Every.Law().Shape == Constant && s.Age.Value > s.Every.Law().Mean:
			c.fault(path, c.said(path), "at most the interval", "", stopPath(i, "every"))
		}
	}
}

// stopRepeats finds work that can never be finished: begun again at every stop, and always stopped before its end.
func (c *checker) stopRepeats() {
	for i, s := range c.s.Stops {
		if s.Work != "repeat" || s.Every == nil || s.Every.Clock() != units.Running || s.Every.Law().Shape != Constant || s.Planned == "yes" {
			continue
		}
		if !slices.Contains(c.s.Stations(), string(s.Station)) {
			continue
		}
		task := c.s.shortest(string(s.Station))
		if every := s.Every.Law().Mean; task > every {
			c.fault(stopPath(i, "every"), fmt.Sprintf("a stop every %.4g s", every), fmt.Sprintf("longer than the shortest task, %.4g s", task),
				"with work: repeat no task would ever be finished", string(s.Station), "product")
		}
	}
}

func (c *checker) stopLoads() {
	for i, s := range c.s.Stops {
		if c.written(stopPath(i, "load")) && s.Station != "vessel" {
			c.fault(stopPath(i, "load"), "load at "+string(s.Station), "load only where the station is vessel", "work says what becomes of the work in hand", stopPath(i, "station"))
		}
	}
}
