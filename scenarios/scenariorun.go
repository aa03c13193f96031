package scenarios

import "pascaline/scenarios/units"

// Stop is something that makes a station stand.
type Stop struct {
	Station  units.Text       `yaml:"station" need:"yes" doc:"which station"`
	Name     units.Text       `yaml:"name" need:"yes" doc:"what it is"`
	Planned  units.Word       `yaml:"planned" choices:"yes|no" default:"no" doc:"a planned stop waits for the end of the cycle or task"`
	Every    *Every           `yaml:"every" doc:"from the end of one to the next, with its clock"`
	Chance   units.Share      `yaml:"chance" doc:"or: a chance at each cycle"`
	At       []units.Duration `yaml:"at" doc:"or: stated times from the start of the run"`
	Age      *units.Span      `yaml:"age" doc:"how old it is at the start; new is 0 (default: random, as in a plant that has long been running)"`
	Takes    Time             `yaml:"takes" need:"yes" doc:"how long the repair takes"`
	MendedBy units.Crew       `yaml:"mended_by" default:"machine" doc:"who mends it; machine: it clears itself"`
	Work     units.Word       `yaml:"work" choices:"continue|repeat|set aside" default:"continue" doc:"what becomes of the work in hand"`
	Load     units.Word       `yaml:"load" choices:"repeat from prefill|set aside" default:"repeat from prefill" with:"station: vessel" doc:"what becomes of a vessel load between come-up and decompression"`
	Loses    units.Count      `yaml:"loses" most:"50" noun:"intensifiers" with:"station: vessel" doc:"intensifiers that are lost meanwhile: come-ups are slower and nothing stands (left out: the vessel stands)"`
	Stands   units.Word       `yaml:"stands" choices:"each on its own|whole station" default:"each on its own" doc:"whether each lane, vessel or bench has its own such stop"`
}

// ColdChain is the user's limit on time out of the chilled store.
type ColdChain struct {
	Limit units.Duration `yaml:"limit" need:"yes" least:"1 s" doc:"longest time allowed"`
	From  units.Word     `yaml:"from" choices:"start of its carrier|leaving the vessel" default:"start of its carrier" doc:"from when it counts"`
}

// Run says what a replication is.
type Run struct {
	OneReplication Length          `yaml:"one_replication" default:"day" doc:"day, week, a length such as 8 h, or until finished"`
	AtMost         *units.Duration `yaml:"at_most" least:"1 min" with:"one_replication: until finished" doc:"cap on a replication that runs until finished (default: 28 days)"`
	Starts         Start           `yaml:"starts" doc:"when in the plant week it starts (default: the first shift of the first day)"`
	Precision      units.Share     `yaml:"precision" default:"1 %" least:"0.05 %" most:"50 %" doc:"half width of the headline's interval to be reached"`
	Replications   units.Count     `yaml:"replications" least:"1" most:"1000000" noun:"replications|times" doc:"a fixed number (default: as many as the precision needs)"`
	Seed           *units.Count    `yaml:"seed" doc:"seed of the random numbers (default: 1)"`
	Plan           *units.Rate     `yaml:"plan" noun:"packs" doc:"packs that are planned for a rostered hour; drawn as a line beside what is finished"`
	Steps          units.Duration  `yaml:"steps" default:"30 min" least:"1 min" most:"24 h" doc:"width of the steps in pictures over time"`
}

// Length is how long a replication is.
type Length struct {
	For           units.Duration // 0 where Until is set
	UntilFinished bool
}
