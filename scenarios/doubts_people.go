package scenarios

import (
	"fmt"
	"slices"
	"strings"
)

// heldUp warns where all people of a pool can stand at a station that hands nothing on, so that nobody is left for the station that has to make
// room. Who tips a carrier or feeds a tub back stays until its last pack is handed on; then the line would stand for ever.
func (c *checker) heldUp() {
	for i := range c.s.People {
		p := &c.s.People[i]
		heads, when := c.fewest(p)
		held, where := 0, []string{}
		for _, u := range c.uses() {
			n := int(u.crew.Least)
			switch {
			case u.crew.Pool != p.Name:
				continue
			case u.path == "tip.by":
				n *= int(c.s.Tip.Stations)
			case !strings.HasSuffix(u.path, ".tubs.by"):
				continue
			}
			held, where = held+n, append(where, u.path)
		}
		if len(where) == 0 || heads == 0 {
			continue
		}
		if path, wants := c.makesRoom(p.Name, where[0]); wants > 0 && heads-min(held, heads) < wants {
			c.warn("people may wait for each other", fmt.Sprintf("%s: all %s%s (%d) can stand there and find no room, and then too few are left for %s, which makes room: the line would stand for ever; have one more of them, or let a machine do one of the two",
				strings.Join(where, " and "), p.Name, when, heads, path))
		}
	}
}

// makesRoom is the work after a station that takes most people of the same pool at once.
func (c *checker) makesRoom(pool, after string) (path string, wants int) {
	order := c.s.Stations()
	at := func(station string) int { return slices.Index(order, strings.ReplaceAll(station, "_", " ")) }
	from, _, _ := strings.Cut(after, ".")
	for _, u := range c.uses() {
		machine := c.s.Machine(u.station) != nil && u.path == u.station+".by"
		if u.crew.Pool == pool && (machine || u.path == "packing.crew") && at(u.station) > at(from) && int(u.crew.Least) > wants {
			path, wants = u.path, int(u.crew.Least)
		}
	}
	return path, wants
}

// fewest is how many of a pool are there when fewest are, but any.
func (c *checker) fewest(p *Pool) (heads int, when string) {
	if c.s.Roster == nil {
		return int(p.Heads), ""
	}
	for i := range c.s.Roster.Shifts {
		s := &c.s.Roster.Shifts[i]
		if n := int(p.In(s)); n > 0 && (heads == 0 || n < heads) {
			heads, when = n, " of shift "+s.Name
		}
	}
	return heads, when
}
