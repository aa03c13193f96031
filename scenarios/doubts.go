package scenarios

import (
	"fmt"
	"math"
)

// doubts are no faults: they become warnings.
var doubts = []func(*checker){(*checker).carriersUsed, (*checker).beltPlaces, (*checker).crewRange, (*checker).precision, (*checker).heldUp}

func (c *checker) beltPlaces() {
	for _, name := range c.s.Stations() {
		b := c.s.belts()[name]
		if b != nil && b.Rate == nil && b.Places == nil {
			c.warn("endless belt", name+": without a rate and without places a lane takes any number of packs at once and holds them all")
		}
		if b == nil || b.Rate == nil || b.Places == nil {
			continue
		}
		need := float64(*b.Rate) * b.Travel.Law().MeanUsed()
		if float64(*b.Places) < math.Floor(need) {
			c.warn("belt places", fmt.Sprintf("%s.places: %d places are fewer than rate times travel, %.4g; a lane lets out at most %.4g packs a minute",
				name, *b.Places, need, 60*float64(*b.Places)/b.Travel.Law().MeanUsed()))
		}
	}
}

func (c *checker) carriersUsed() {
	if c.s.Carriers != nil && c.s.Loading == nil {
		c.warn("carriers not used", "carriers: without loading nobody fills them; those that come from outside are not counted")
	}
}

func (c *checker) crewRange() {
	l := c.s.Loading
	if l != nil && l.Crew.Least != l.Crew.Most && l.HandTime.Per != "pack and person" {
		c.warn("crew range", fmt.Sprintf("loading.crew: a time per %s is taken as measured with %d at work; others who join shorten it in proportion", l.HandTime.Per, l.Crew.Least))
	}
}

func (c *checker) precision() {
	if c.s.Run.Replications > 0 && c.written("run.precision") {
		c.warn("precision not used", fmt.Sprintf("run.replications: there are %d replications, whatever precision they reach", c.s.Run.Replications))
	}
}
