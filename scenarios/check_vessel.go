package scenarios

import "fmt"

var vesselRules = []func(*checker){
	(*checker).transfers, (*checker).finishedLoad, (*checker).enoughCarriers, (*checker).infeedHoldsLoad, (*checker).drainHoldsLoad,
}

func (s *Scenario) pushThrough() bool { return s.Vessel != nil && s.Vessel.Unloading == "push_through" }

// transfers: with push_through in and out are one stroke, otherwise two.
func (c *checker) transfers() {
	if c.s.Vessel == nil {
		return
	}
	p := c.s.Vessel.Phases
	if !c.s.pushThrough() {
		if p.Transfer != nil {
			c.fault("vessel.phases.transfer", "transfer with separate unloading", "transfer_in and transfer_out",
				"or unloading: push_through, where in and out are one stroke", "vessel.unloading")
		}
		return
	}
	hint := "or unloading: separate, where in and out are two"
	if p.TransferIn != nil {
		c.fault("vessel.phases.transfer_in", "transfer_in with push_through", "transfer, which is in and out in one stroke", hint, "vessel.unloading")
	}
	if p.TransferOut != nil {
		c.fault("vessel.phases.transfer_out", "transfer_out with push_through", "transfer, which is in and out in one stroke", hint, "vessel.unloading")
	}
	if p.Transfer == nil {
		c.fault("vessel.phases", "no transfer", "transfer: the time in which one load goes in and the other out",
			"unloading is push_through", "vessel.unloading", "vessel.phases.transfer")
	}
}

func (c *checker) finishedLoad() {
	if c.s.Vessel != nil && c.s.Vessel.FinishedLoad != nil && !c.s.pushThrough() {
		c.fault("vessel.finished_load", "finished_load with separate unloading", "none: each load is taken out by transfer_out",
			"it says how the last load leaves a push_through vessel", "vessel.unloading")
	}
}

// enoughCarriers: fewer than these can never fill a load, and the line would stand for ever.
func (c *checker) enoughCarriers() {
	if c.s.Vessel == nil || c.s.Carriers == nil || c.s.Carriers.Owned == 0 || c.s.Loading == nil {
		return
	}
	v := c.s.Vessel
	least, why := v.CarriersPerLoad, "one load"
	if c.s.pushThrough() {
		least = (v.Vessels + 1) * v.CarriersPerLoad
		why = fmt.Sprintf("%d loads: one in each vessel and one that pushes", v.Vessels+1)
	}
	if c.s.Carriers.Owned < least {
		c.fault("carriers.owned", c.said("carriers.owned"), fmt.Sprintf("at least %d carriers", least), why,
			"vessel.vessels", "vessel.carriers_per_load", "vessel.unloading")
	}
}

func (c *checker) infeedHoldsLoad() {
	in := c.s.Infeed
	if c.s.Vessel == nil || in != nil && in.Places == 0 && !in.None {
		return
	}
	load := c.s.Vessel.CarriersPerLoad
	if in == nil {
		if c.s.pushThrough() {
			c.fault("vessel.unloading", c.said("vessel.unloading"), fmt.Sprintf("infeed: room for a load of %d carriers", load), "the next load pushes the finished one out when it is complete at the infeed")
		}
		return
	}
	if in.Places >= load || in.None && !c.s.pushThrough() {
		return
	}
	c.fault("infeed.places", c.said("infeed.places"), fmt.Sprintf("room for a load of %d carriers", load),
		"a load goes in when it is complete at the infeed", "vessel.carriers_per_load", "vessel.unloading")
}

// drainHoldsLoad: without places at the drain the tips take the load, all of it at once.
func (c *checker) drainHoldsLoad() {
	d, tip := c.s.Drain, c.s.Tip
	if !c.s.pushThrough() {
		return
	}
	load := c.s.Vessel.CarriersPerLoad
	const why = "with push_through a load comes out as a whole"
	switch {
	case d == nil && (tip == nil || tip.Stations >= load):
	case d == nil:
		c.fault("vessel.unloading", c.said("vessel.unloading"), fmt.Sprintf("drain: room for a load of %d carriers", load), why, "vessel.carriers_per_load")
	case d.Places < load && !(d.Places == 0 && !d.None):
		c.fault("drain.places", c.said("drain.places"), fmt.Sprintf("room for a load of %d carriers", load), why, "vessel.carriers_per_load", "vessel.unloading")
	}
}
