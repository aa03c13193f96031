package scenarios

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"pascaline/scenarios/units"
)

var peopleRules = []func(*checker){
	(*checker).crews, (*checker).rosterPools, (*checker).headsOnce, (*checker).crewFits, (*checker).serveLists, (*checker).breakPools,
	(*checker).poolsUsed,
}

// use is a task that needs people of a pool.
type use struct {
	path    string
	crew    units.Crew
	station string // as a serve list names it
}

// crews gives every crew the name of its pool as it is written under people, so that "1 packer" is one of the packers.
func (c *checker) crews() {
	pools := c.poolNames()
	c.each(func(path string, v reflect.Value, f *field) {
		crew, ok := v.Addr().Interface().(*units.Crew)
		if !ok || crew.Pool == "" {
			return
		}
		if name := poolMeant(crew.Pool, pools); name != "" {
			crew.Pool = name
		} else {
			c.fault(path, c.said(path), c.poolWanted(), c.poolHint(crew.Pool), "people")
		}
		if crew.Least != crew.Most && path != "loading.crew" {
			c.fault(path, c.said(path), "a fixed number of people", "only at loading do others join when free")
		}
	})
}

func (c *checker) poolWanted() string {
	pools := c.poolNames()
	if len(pools) == 0 {
		return "a pool that is named under people, where there is none yet"
	}
	return "a pool that is named under people: " + orList(pools)
}

func (c *checker) poolNames() []string {
	var names []string
	for _, p := range c.s.People {
		names = append(names, p.Name)
	}
	return names
}

// poolMeant takes one packer for the pool packers, and two fitters for the pool fitter.
func poolMeant(name string, pools []string) string {
	for _, n := range []string{name, name + "s", strings.TrimSuffix(name, "s")} {
		if slices.Contains(pools, n) {
			return n
		}
	}
	return ""
}

// poolHint finds the pool that was meant, in the singular too.
func (c *checker) poolHint(written string) string {
	pools := c.poolNames()
	if n := nearest(written, pools); n != "" {
		return didYouMean(written, pools)
	}
	one := make([]string, len(pools))
	for i, p := range pools {
		one[i] = strings.TrimSuffix(p, "s")
	}
	return didYouMean(written, one)
}

// uses are all tasks that need people, in order of their fields.
func (c *checker) uses() (uses []use) {
	c.each(func(path string, v reflect.Value, f *field) {
		crew, ok := v.Addr().Interface().(*units.Crew)
		if !ok || crew.Pool == "" {
			return
		}
		station, _, _ := strings.Cut(path, ".")
		if strings.HasPrefix(path, "stops[") {
			station = "stops"
		}
		uses = append(uses, use{path, *crew, station})
	})
	return uses
}

func (c *checker) rosterPools() {
	if c.s.Roster == nil {
		return
	}
	pools := c.poolNames()
	for _, sh := range c.s.Roster.Shifts {
		for _, h := range sh.People {
			if !slices.Contains(pools, h.Pool) {
				c.fault(fmt.Sprintf("roster.shifts.%s.people.%s", sh.Name, h.Pool), quote(h.Pool), c.poolWanted(), didYouMean(h.Pool, pools), "people")
			}
		}
	}
}

// heads are the most people of a pool that are ever there, and whether that is said under people or in the roster.
func (c *checker) heads(p *Pool) (most int, people, roster bool) {
	most, people = int(p.Heads), p.Heads > 0
	if c.s.Roster == nil {
		return most, people, false
	}
	for _, sh := range c.s.Roster.Shifts {
		for _, h := range sh.People {
			if h.Pool == p.Name {
				most, roster = max(most, int(h.Count)), true
			}
		}
	}
	return most, people, roster
}

func (c *checker) headsOnce() {
	for i := range c.s.People {
		p := &c.s.People[i]
		path := "people." + p.Name
		_, people, roster := c.heads(p)
		switch {
		case people && roster:
			c.fault(path+".heads", c.said(path+".heads"), "heads here or in the shifts of the roster, not both", "", "roster")
		case !people && !roster && c.s.Roster == nil:
			c.fault(path, "no heads", "heads: how many there are", "", path+".heads")
		case !people && !roster:
			c.fault(path, "no heads", "heads here, or a number in the shifts of the roster", "", path+".heads", "roster")
		}
	}
}

func (c *checker) crewFits() {
	for _, u := range c.uses() {
		i := slices.IndexFunc(c.s.People, func(p Pool) bool { return p.Name == u.crew.Pool })
		if i < 0 {
			continue
		}
		most, people, roster := c.heads(&c.s.People[i])
		if (people || roster) && u.crew.Least > most {
			c.fault(u.path, c.said(u.path), fmt.Sprintf("at most the %d of %s that are ever there", most, u.crew.Pool),
				"the task would wait for ever", "people", "roster")
		}
	}
}

// serveLists name stations of this scenario, each once, and every task for which the pool is wanted.
func (c *checker) serveLists() {
	allowed := append([]string{"stops"}, c.s.Stations()...)
	if len(c.s.Changeovers) > 0 {
		allowed = append(allowed, "changeovers")
	}
	for _, p := range c.s.People {
		if len(p.Serve) == 0 {
			continue
		}
		path := "people." + p.Name + ".serve"
		for i, s := range p.Serve {
			item := fmt.Sprintf("%s[%d]", path, i+1)
			switch {
			case !slices.Contains(allowed, string(s)):
				c.fault(item, quote(string(s)), "stops, or a station of this scenario: "+orList(allowed[1:]), c.stationHint(string(s), allowed))
			case slices.Index(p.Serve, s) < i:
				c.fault(item, quote(string(s))+" a second time", "each once, the one served first first", "")
			}
		}
		c.servesAll(path, p)
	}
}

func (c *checker) servesAll(path string, p Pool) {
	for _, u := range c.uses() {
		if strings.HasPrefix(u.station, "changeovers") {
			continue // where the list does not name them, they come as soon as mending does
		}
		if u.crew.Pool == p.Name && !slices.Contains(p.Serve, units.Text(u.station)) {
			c.fault(path, "a list without "+u.station, fmt.Sprintf("every task for which %s are wanted", p.Name), "they are named at "+u.path, u.path)
		}
	}
}

// breakPools gives a break that names nobody to all pools.
func (c *checker) breakPools() {
	if c.s.Roster == nil {
		return
	}
	pools := c.poolNames()
	for i := range c.s.Roster.Breaks {
		b := &c.s.Roster.Breaks[i]
		for k, name := range b.Pools {
			if !slices.Contains(pools, string(name)) {
				c.fault(fmt.Sprintf("roster.breaks[%d].pools[%d]", i+1, k+1), quote(string(name)), c.poolWanted(), didYouMean(string(name), pools), "people")
			}
		}
		if len(b.Pools) == 0 {
			for _, name := range pools {
				b.Pools = append(b.Pools, units.Text(name))
			}
		}
	}
}

func (c *checker) poolsUsed() {
	uses := c.uses()
	for _, p := range c.s.People {
		if !slices.ContainsFunc(uses, func(u use) bool { return u.crew.Pool == p.Name }) {
			c.warn("pool not used", fmt.Sprintf("people.%s: no station, stop or start names this pool; it has nothing to do", p.Name))
		}
	}
}
