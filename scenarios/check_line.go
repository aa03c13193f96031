package scenarios

import (
	"fmt"
	"slices"

	"pascaline/scenarios/units"
)

var lineRules = []func(*checker){
	(*checker).someStation, (*checker).fedOnce, (*checker).feeds, (*checker).machineSpeed, (*checker).rateNouns,
	(*checker).tableHoldsCase, (*checker).tipHasRoom, (*checker).wetPacks, (*checker).tubs, (*checker).fillRatio, (*checker).shares,
}

func (c *checker) someStation() {
	if len(c.s.Stations()) > 0 || len(c.early) > 0 {
		return
	}
	c.fault("", "no station", "at least one of "+orList(stationNames()), "there is nothing to simulate")
}

// fedOnce: what enters the first station is the supply; fed elsewhere begins another stretch.
func (c *checker) fedOnce() {
	names := c.s.Stations()
	if len(names) == 0 || c.s.Supply == nil || stationNamed(names[0]).fed(c.s) == nil {
		return
	}
	c.fault(names[0]+".fed", "fed beside supply", "one of the two", "supply is what enters the first station, which is "+names[0])
}

// feeds must say in one way what comes in, counted as the station counts.
func (c *checker) feeds() {
	names := c.s.Stations()
	if c.s.Supply != nil && len(names) > 0 {
		c.feed("supply", c.s.Supply, stationNamed(names[0]))
	}
	for _, n := range names {
		st := stationNamed(n)
		if f := st.fed(c.s); f != nil {
			c.feed(n+".fed", f, st)
		}
	}
}

func (c *checker) feed(path string, f *Feed, st *station) {
	ways := 0
	for _, way := range []bool{f.Every != nil, len(f.At) > 0, len(f.Timetable) > 0} {
		ways += btoi(way)
	}
	switch {
	case ways > 1:
		c.fault(path, "more than one of every, at and timetable", "one of them", "")
	case ways == 0 && !f.WithoutEnd && f.Quantity == 0:
		c.fault(path, "nothing that comes in", f.shortWants(), "")
	case f.Quantity > 0 && (len(f.At) > 0 || len(f.Timetable) > 0):
		c.fault(path+".quantity", "a quantity beside times", "only one of the two", "the times say how many come")
	case f.Every == nil && (f.First != nil || c.written(path+".batch")):
		c.fault(path, "first or batch without every", "every: the time from one to the next", "")
	}
	if f.Every != nil && f.Every.Law().MeanUsed() == 0 {
		c.fault(path+".every", "an interval of 0", "more than 0", `for a supply that never runs out write "without end"`)
	}
	c.inOrderOfTime(path, f)
	for _, p := range []string{path, path + ".quantity", path + ".batch"} {
		c.noun(p, st)
	}
	for i := range f.Timetable {
		c.noun(fmt.Sprintf("%s.timetable[%d].quantity", path, i+1), st)
	}
}

func (c *checker) inOrderOfTime(path string, f *Feed) {
	if !slices.IsSorted(f.times()) {
		c.fault(path, "times that run backwards", "times in order", "", path+".at", path+".timetable")
	}
}

// noun refuses carriers where packs are counted, and the like. Loading draws single packs from the store.
func (c *checker) noun(path string, st *station) {
	n := c.r.trail.tree.find(path)
	if n == nil || n.kind != word {
		return
	}
	noun := new(units.Count).Noun(n.text)
	if n.text == "without end" || noun == "" || noun == st.in || noun == "pieces" {
		return
	}
	c.fault(path, n.show(), "a number of "+st.in, fmt.Sprintf("%s takes %s", st.name, st.in))
}

func (c *checker) machineSpeed() {
	for _, name := range c.s.Stations() {
		m := c.s.machines()[name]
		switch {
		case m == nil:
		case m.Rate == nil && m.Time == nil:
			c.fault(name, "neither rate nor time", "one of the two", "", name+".rate", name+".time")
		case m.Rate != nil && m.Time != nil:
			c.fault(name+".time", "a time beside a rate", "one of the two", "")
		case m.Time != nil && m.Time.Law().MeanUsed() == 0:
			c.fault(name+".time", "a time of 0", "more than 0", "take the station out if it takes no time")
		}
	}
}

func (c *checker) rateNouns() {
	for _, name := range c.s.Stations() {
		path := name + ".rate"
		n := c.r.trail.tree.find(path)
		if n == nil || n.kind != word {
			continue
		}
		st := stationNamed(name)
		if noun := new(units.Rate).Noun(n.text); noun != "" && noun != st.in && noun != "pieces" {
			c.fault(path, n.show(), "a rate of "+st.in, fmt.Sprintf("%s takes %s", name, st.in))
		}
	}
}

func (c *checker) tableHoldsCase() {
	t := c.s.Table
	if t == nil || t.Places == nil || c.s.Packing == nil || *t.Places >= c.s.Product.PacksPerCase {
		return
	}
	c.fault("table.places", c.said("table.places"), fmt.Sprintf("room for a case of %d packs", c.s.Product.PacksPerCase),
		"a case is begun when all its packs are on the table", "product.packs_per_case")
}

// tipHasRoom: a tip that waits until there are places for all packs of a carrier would wait for ever where there never are so many.
func (c *checker) tipHasRoom() {
	names := c.s.Stations()
	i := slices.Index(names, "tip") + 1
	if i == 0 || i == len(names) || c.s.Tip.Blocking != "before" || stationNamed(names[i]).fed(c.s) != nil {
		return
	}
	if n, path := c.s.placesAt(names[i]); n < c.s.Product.PacksPerCarrier {
		c.fault("tip.blocking", "before", fmt.Sprintf("after, or places for the %d packs of a carrier at the %s", c.s.Product.PacksPerCarrier, names[i]),
			"no carrier would ever be emptied: none is begun until there is a place for each of its packs", path, "product.packs_per_carrier")
	}
}

func (c *checker) wetPacks() {
	if c.s.Shaker != nil && c.s.Shaker.Wet != nil {
		c.fault("shaker.wet", "wet packs at the shaker", "wet under dryer", "packs are told wet when they leave the dryer")
	}
	if c.s.Dryer == nil || c.s.Dryer.Wet == nil {
		return
	}
	w := c.s.Dryer.Wet
	switch {
	case w.Then == "wiped by hand" && w.Takes.Law().MeanUsed() == 0:
		c.fault("dryer.wet", "no takes", "takes: the time to wipe one pack", "", "dryer.wet.takes", "dryer.wet.then")
	case w.Then != "wiped by hand" && w.By.Pool != "":
		c.fault("dryer.wet.by", c.said("dryer.wet.by"), "nobody: wet packs that are sent round go by themselves", "by says who wipes; takes is how long the way back is")
	case w.Then == "sent round every time" && w.Share == 1:
		c.fault("dryer.wet.share", c.said("dryer.wet.share"), "less than all", "no pack would ever come out", "dryer.wet.then")
	}
}

func (c *checker) tubs() {
	if t := c.s.Table; t != nil && t.Tubs != nil {
		if t.Places == nil {
			c.fault("table.tubs", "tubs beside a table that is never full", "places: how many packs fit on the table", "", "table.places")
		} else if t.Tubs.FedBack > *t.Places {
			c.fault("table.tubs.fed_back_below", c.said("table.tubs.fed_back_below"), fmt.Sprintf("at most the %d places of the table", *t.Places), "")
		}
	}
	for _, name := range []string{"shaker", "dryer"} {
		b := c.s.belts()[name]
		if b == nil || b.Tubs == nil || b.Tubs.FedBack <= b.PlacesBefore {
			continue
		}
		path := name + ".tubs.fed_back_below"
		c.fault(path, c.said(path), fmt.Sprintf("at most the %d places before the belt", b.PlacesBefore), "tubs are fed back onto them", name+".places_before")
	}
}

const (
	leastFill = 0.30
	mostFill  = 0.90
)

// fill ratio of a load: volume of the packs over volume of the vessel; 0 where one of them is not known.
func (s *Scenario) fill() float64 {
	if s.Vessel == nil || s.Vessel.Volume == 0 {
		return 0
	}
	packs := float64(s.Product.PacksPerCarrier * s.Vessel.CarriersPerLoad)
	return packs * float64(s.Product.Pack.Volume) / float64(s.Vessel.Volume)
}

func (c *checker) fillRatio() {
	fill := c.s.fill()
	if fill <= 1 {
		return
	}
	c.fault("vessel.volume", fmt.Sprintf("a fill ratio of %.2f", fill), "at most 1",
		fmt.Sprintf("%d carriers of %d packs of %s in %s", c.s.Vessel.CarriersPerLoad, c.s.Product.PacksPerCarrier, c.s.Product.Pack.Volume, c.s.Vessel.Volume),
		"product.pack.volume", "product.packs_per_carrier", "vessel.carriers_per_load")
}

// shares that take every pack out leave nothing to finish.
func (c *checker) shares() {
	for _, name := range c.s.Stations() {
		if b := c.s.belts()[name]; b != nil && b.Leakers.Share == 1 {
			c.fault(name+".leakers", c.said(name+".leakers"), "less than all", "no pack would be left")
		}
		if m := c.s.machines()[name]; m != nil && m.Rejects.Share == 1 {
			c.fault(name+".rejects", c.said(name+".rejects"), "less than all", "no piece would be left")
		}
	}
}
