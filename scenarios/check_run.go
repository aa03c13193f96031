package scenarios

import "pascaline/scenarios/units"

var runRules = []func(*checker){
	(*checker).untilFinished, (*checker).starts, (*checker).coldChain,
}

// untilFinished: a replication that runs until finished needs feeds that come to an end.
func (c *checker) untilFinished() {
	if !c.s.Run.OneReplication.UntilFinished {
		if c.s.Run.AtMost != nil {
			c.fault("run.at_most", "at_most", "one_replication: until finished", "a replication of stated length needs no cap", "run.one_replication")
		}
		return
	}
	names := c.s.Stations()
	if c.s.Several() {
		names = names[min(1, len(names)):] // the lots come to an end
	}
	for i, n := range names {
		path, f := n+".fed", stationNamed(n).fed(c.s)
		first := i == 0 && !c.s.Several()
		if first && f == nil {
			path, f = "supply", c.s.Supply
		}
		if (first || f != nil) && !f.feedEnds() {
			c.fault("run.one_replication", c.said("run.one_replication"), path+" with a quantity, times or a timetable",
				"what comes in without end is never finished", path)
		}
	}
}

// starts: a replication begins with the first shift of the first day, unless it is said when.
func (c *checker) starts() {
	run := &c.s.Run
	n := c.r.trail.tree.find("run.starts")
	if n == nil || n.kind == group && n.get("at") == nil {
		run.Starts.At = units.Moment{At: c.firstShift()}
		c.r.trail.defaults[map[bool]string{true: "run.starts", false: "run.starts.at"}[n == nil]] = run.Starts.At.String()
		return
	}
	if run.Starts.At.Daily {
		run.Starts.At = units.Moment{At: c.firstDay()*units.Day + run.Starts.At.At}
	}
}

func (c *checker) firstDay() units.Duration {
	if c.s.Roster != nil {
		for day, works := range c.s.Roster.Days {
			if works {
				return units.Duration(day)
			}
		}
	}
	return 0
}

func (c *checker) firstShift() units.Duration {
	if c.s.Roster == nil || len(c.s.Roster.Shifts) == 0 {
		return 0
	}
	first := units.Day
	for _, sh := range c.s.Roster.Shifts {
		first = min(first, sh.Hours.From)
	}
	return c.firstDay()*units.Day + first
}

func (c *checker) coldChain() {
	if c.s.ColdChain != nil && c.s.ColdChain.From == "leaving the vessel" && c.s.Vessel == nil {
		c.fault("cold_chain.from", c.said("cold_chain.from"), "start of its carrier", "this scenario has no vessel")
	}
}
