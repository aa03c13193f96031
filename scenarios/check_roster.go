package scenarios

import (
	"fmt"
	"slices"

	"pascaline/scenarios/units"
)

var rosterRules = []func(*checker){
	(*checker).shiftsApart, (*checker).shiftsLongEnough, (*checker).breaksInside,
}

// turn is one shift on one day of the week.
type turn struct {
	shift    int
	from, to units.Duration // from Monday 00:00
}

// shiftsApart: no two shifts are there at the same time, over midnight and over the end of the week too.
func (c *checker) shiftsApart() {
	if c.s.Roster == nil {
		return
	}
	var turns []turn
	for day, works := range c.s.Roster.Days {
		for i, sh := range c.s.Roster.Shifts {
			if works {
				at := units.Duration(day) * units.Day
				turns = append(turns, turn{i, at + sh.Hours.From, at + sh.Hours.To})
			}
		}
	}
	told := map[[2]int]bool{}
	for _, a := range turns {
		for _, b := range turns {
			pair := [2]int{min(a.shift, b.shift), max(a.shift, b.shift)}
			if a == b || told[pair] || !overlap(a, b) {
				continue
			}
			told[pair] = true
			c.overlapping(pair[0], pair[1])
		}
	}
}

func (c *checker) overlapping(a, b int) {
	one, two := c.s.Roster.Shifts[a], c.s.Roster.Shifts[b]
	path := "roster.shifts." + two.Name + ".hours"
	want := fmt.Sprintf("hours apart from those of %s, %s", one.Name, one.Hours)
	if a == b {
		want = "hours that end before the shift begins again"
	}
	c.fault(path, c.said(path), want, "two shifts at the same time", "roster.shifts."+one.Name+".hours", "roster.days")
}

func overlap(a, b turn) bool {
	for _, week := range []units.Duration{-units.Week, 0, units.Week} {
		if a.from+week < b.to && b.from < a.to+week {
			return true
		}
	}
	return false
}

func (c *checker) shiftsLongEnough() {
	if c.s.Roster == nil {
		return
	}
	for _, sh := range c.s.Roster.Shifts {
		length := sh.Hours.To - sh.Hours.From
		used := sh.StartUp + sh.WashDown + sh.LastCarrier
		if used < length || length == 0 {
			continue
		}
		path := "roster.shifts." + sh.Name
		c.fault(path, fmt.Sprintf("start_up, wash_down and last_carrier of %s together", used), fmt.Sprintf("less than the shift of %s", length),
			"no carrier would ever be begun")
	}
}

func (c *checker) breaksInside() {
	if c.s.Roster == nil {
		return
	}
	var names []string
	for _, sh := range c.s.Roster.Shifts {
		names = append(names, sh.Name)
	}
	for i, b := range c.s.Roster.Breaks {
		path := fmt.Sprintf("roster.breaks[%d]", i+1)
		k := slices.Index(names, string(b.Shift))
		if k < 0 {
			c.fault(path+".shift", quote(string(b.Shift)), "a shift of the roster: "+orList(names), didYouMean(string(b.Shift), names), "roster.shifts")
			continue
		}
		for j, at := range b.At {
			c.breakInside(fmt.Sprintf("%s.at[%d]", path, j+1), path, b, at, c.s.Roster.Shifts[k])
		}
	}
}

func (c *checker) breakInside(path, rule string, b BreakRule, m units.Moment, sh Shift) {
	if !m.Daily {
		c.fault(path, c.said(path), `a time of day, such as "08:30"`, "a break is on every day of its shift")
		return
	}
	at := m.At
	if at < sh.Hours.From {
		at += units.Day
	}
	end := at + b.Length*units.Duration(b.InGroups)
	if at < sh.Hours.To && end <= sh.Hours.To {
		return
	}
	c.fault(path, c.said(path), fmt.Sprintf("a break within %s, %s, to its end", sh.Name, sh.Hours), "",
		rule+".length", rule+".in_groups", "roster.shifts."+sh.Name+".hours")
}
