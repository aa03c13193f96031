package scenarios

import (
	"fmt"
	"reflect"

	"pascaline/scenarios/units"
)

// Pumps bring the vessels to pressure. With flow and volumes, prefill and come-up are worked out where no time of them was taken.
type Pumps struct {
	Flow           *units.Flow       `yaml:"flow" least:"0.1 L/min" most:"2000 L/min" doc:"water that all intensifiers of a set take in together, measured before it is pressed (left out: come-up cannot be worked out)"`
	Power          *units.Power      `yaml:"power" least:"1 kW" most:"5000 kW" doc:"most power that a set takes up (default: always enough for its flow)"`
	Efficiency     units.Share       `yaml:"efficiency" default:"75 %" least:"20 %" doc:"work done on the water, of the energy taken up"`
	Intensifiers   units.Count       `yaml:"intensifiers" default:"1" least:"1" most:"50" noun:"intensifiers" doc:"intensifiers of a set, all alike, each with its own drive"`
	Serve          units.Word        `yaml:"serve" choices:"each vessel has its own|one vessel at a time|all vessels at once" default:"each vessel has its own" doc:"a set for each vessel; or one set, for which come-ups wait; or one set, whose flow they share"`
	PrefillFlow    *units.Flow       `yaml:"prefill_flow" least:"1 L/min" most:"100000 L/min" doc:"water at low pressure that fills the vessel (left out: prefill cannot be worked out)"`
	GasInPacks     units.Share       `yaml:"gas_in_packs" default:"3 %" most:"60 %" doc:"gas in the packs, of their volume"`
	CarrierPlastic units.Share       `yaml:"carrier_plastic" default:"5 %" most:"60 %" doc:"plastic of the carriers of a full load, of the vessel's volume"`
	BoreGrowth     units.Share       `yaml:"bore_growth" default:"1.2 %" most:"5 %" doc:"growth of the vessel's volume to 600 MPa, in proportion at other pressures"`
	Water          units.Temperature `yaml:"water" default:"10 C" most:"40 C" doc:"temperature of the water before it is pressed"`
	Packs          units.Temperature `yaml:"packs" default:"5 C" most:"40 C" doc:"temperature of the packs before they are pressed"`
}

// Life is a part of the vessel or its pumps that lasts so many cycles.
type Life struct {
	Part   units.Text  `yaml:"part" need:"yes" doc:"what wears: the vessel itself, a plug, a valve"`
	Cycles units.Count `yaml:"cycles" need:"yes" least:"1" noun:"cycles" doc:"cycles it lasts, by its maker or its inspection"`
	Used   units.Count `yaml:"used" default:"0" noun:"cycles" doc:"cycles it has had"`
}

// TypicalPumps are the values that are taken where nothing is said of the pumps.
func TypicalPumps() *Pumps {
	p := new(Pumps)
	(&reader{}).defaultsIn("", reflect.ValueOf(p).Elem(), "")
	return p
}

// PrefillUnknown tells whether prefill is to be worked out: a flow is given and no time.
func (v *Vessel) PrefillUnknown() bool {
	return v.Phases.Prefill == nil && v.Pumps != nil && v.Pumps.PrefillFlow != nil
}

// ComeUpUnknown tells whether come-up is to be worked out: a flow is given and no time.
func (v *Vessel) ComeUpUnknown() bool {
	return v.Phases.ComeUp == nil && v.Pumps != nil && v.Pumps.Flow != nil
}

var pumpRules = []func(*checker){(*checker).volumesKnown, (*checker).loadFits, (*checker).losses, (*checker).lives}

// volumesKnown: nothing can be worked out without the volumes of vessel and packs.
func (c *checker) volumesKnown() {
	v := c.s.Vessel
	if v == nil {
		return
	}
	what, path := "", ""
	switch {
	case v.ComeUpUnknown():
		what, path = "come-up", "vessel.pumps.flow"
	case v.PrefillUnknown():
		what, path = "prefill", "vessel.pumps.prefill_flow"
	default:
		return
	}
	hint := what + " is worked out from the flow and the volumes, since no time of it is given"
	if v.Volume == 0 {
		c.fault(path, "a flow without vessel.volume", "vessel.volume: the inner volume of a vessel", hint, "vessel.volume")
	}
	if c.s.Product.Pack.Volume == 0 {
		c.fault(path, "a flow without product.pack.volume", "product.pack.volume: the outer volume of a pack", hint, "product.pack.volume")
	}
}

// loadFits: packs and carriers together are no more than the vessel.
func (c *checker) loadFits() {
	v := c.s.Vessel
	if v == nil || v.Pumps == nil || c.s.fill() == 0 || c.s.fill() > 1 {
		return
	}
	if both := c.s.fill() + float64(v.Pumps.CarrierPlastic); both > 1 {
		c.fault("vessel.pumps.carrier_plastic", c.said("vessel.pumps.carrier_plastic"), fmt.Sprintf("at most what the packs leave, %.0f %% of the vessel", 100*(1-c.s.fill())),
			"packs and carriers cannot be more than the vessel", "vessel.volume", "product.pack.volume")
	}
}

// losses: an intensifier can be lost where it is said how many there are, and one is left.
func (c *checker) losses() {
	for i, s := range c.s.Stops {
		path := stopPath(i, "loses")
		switch v := c.s.Vessel; {
		case s.Loses == 0:
		case s.Station != "vessel":
			c.fault(path, "loses at "+string(s.Station), "loses only where the station is vessel", "its pumps lose intensifiers", stopPath(i, "station"))
		case v == nil:
		case v.Pumps == nil || !c.written("vessel.pumps.intensifiers"):
			c.fault(path, c.said(path), "vessel.pumps.intensifiers: how many there are", "", "vessel.pumps")
		case s.Loses >= v.Pumps.Intensifiers:
			c.fault(path, c.said(path), fmt.Sprintf("fewer than the %d of the set", v.Pumps.Intensifiers), "a stop that takes them all leaves loses out: the vessel stands", "vessel.pumps.intensifiers")
		}
		if s.Loses > 0 && s.Load == "set aside" {
			c.fault(stopPath(i, "load"), "load beside loses", "one of the two", "where intensifiers are lost the load goes on, slower", path)
		}
	}
}

func (c *checker) lives() {
	if c.s.Vessel == nil {
		return
	}
	for i, l := range c.s.Vessel.Life {
		path := fmt.Sprintf("vessel.life[%d].used", i+1)
		if l.Used > l.Cycles {
			c.fault(path, c.said(path), fmt.Sprintf("at most the %d cycles it lasts", l.Cycles), "a part that is over its life is not in use")
		}
	}
}
