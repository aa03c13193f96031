package scenarios

import "pascaline/scenarios/units"

// Scenario is one plant, as its people write it down. A section that is absent is not part of the line: what is there
// is a whole line, a stretch of it, or several stretches that share people. In the order of the line: loading, infeed,
// vessel, drain, tip, shaker, dryer, labeller, checkweigher, table, packing, sealer, case_labeller, palletiser.
type Scenario struct {
	Name         units.Text   `yaml:"scenario" need:"yes" doc:"what this scenario is called in every table"`
	Schema       units.Count  `yaml:"schema" default:"1" least:"1" most:"1" doc:"version of this file's format"`
	Note         units.Text   `yaml:"note" doc:"a sentence on what is asked; printed on the page"`
	Product      Product      `yaml:"product" doc:"what goes through the line"`
	Products     Products     `yaml:"products" doc:"several products, each with what is its own"`
	Lots         []Lot        `yaml:"lots" table:"yes" doc:"lots in the order in which they are treated"`
	WeekOf       *units.Date  `yaml:"week_of" with:"lots" doc:"a day of the week in which the run starts, where lots have dates"`
	LotOrder     units.Word   `yaml:"lot_order" choices:"as listed|next ready lot" default:"as listed" with:"lots" doc:"as listed: a lot that is not ready holds the line; or the first in the list that is ready"`
	KeptApart    []units.Text `yaml:"kept_apart" with:"lots" doc:"stations that let the next lot in when the lot before has left them"`
	SetFor       units.Text   `yaml:"set_for" with:"lots" doc:"the product or group that the line is set for at the start (default: that of the first lot)"`
	Changeovers  []Changeover `yaml:"changeovers" doc:"work between two lots; at each station, and for the whole line, the first that fits counts"`
	Supply       *Feed        `yaml:"supply" doc:"what enters the first station (default: without end)"`
	Loading      *Loading     `yaml:"loading" doc:"people fill carriers by hand"`
	Carriers     *Carriers    `yaml:"carriers" doc:"the carriers that go round (default: as many as wanted)"`
	Infeed       *Places      `yaml:"infeed" doc:"places for full carriers before the vessel"`
	Vessel       *Vessel      `yaml:"vessel" doc:"the pressure vessel"`
	Drain        *Places      `yaml:"drain" doc:"places for carriers after the vessel"`
	Tip          *Tip         `yaml:"tip" doc:"carriers are emptied onto the belt"`
	Shaker       *Belt        `yaml:"shaker" doc:"shaker conveyor"`
	Dryer        *Belt        `yaml:"dryer" doc:"air-knife dryer"`
	Labeller     *Machine     `yaml:"labeller" doc:"pack labeller"`
	Checkweigher *Machine     `yaml:"checkweigher" doc:"checkweigher"`
	Table        *Table       `yaml:"table" doc:"packing table"`
	Packing      *Packing     `yaml:"packing" doc:"packs are put into cases"`
	Sealer       *Machine     `yaml:"sealer" doc:"case sealer"`
	CaseLabeller *Machine     `yaml:"case_labeller" doc:"case labeller"`
	Palletiser   *Machine     `yaml:"palletiser" doc:"palletiser"`
	People       Pools        `yaml:"people" doc:"pools of people, the one served first first"`
	Roster       *Roster      `yaml:"roster" doc:"shifts and breaks (default: everybody is always there)"`
	Stops        []Stop       `yaml:"stops" doc:"what makes stations stand"`
	ColdChain    *ColdChain   `yaml:"cold_chain" doc:"how long packs may be out of the chilled store"`
	Money        *Money       `yaml:"money" doc:"what the line earns and costs; for sizing and payback"`
	Size         *Size        `yaml:"size" doc:"what may be chosen and the target to be met; asked by pascaline size"`
	Run          Run          `yaml:"run" doc:"how long a replication is and how often it is repeated"`

	Trail *Trail `yaml:"-"` // where every value came from
}

// Product is what goes through the line.
type Product struct {
	Name            units.Text     `yaml:"name" default:"pack" doc:"what the product is called"`
	Pack            Pack           `yaml:"pack" doc:"one pack"`
	PacksPerCarrier units.Count    `yaml:"packs_per_carrier" default:"1" least:"1" most:"100000" noun:"packs" doc:"packs in a full carrier"`
	PacksPerCase    units.Count    `yaml:"packs_per_case" default:"1" least:"1" most:"10000" noun:"packs" doc:"packs in a full case"`
	LastCase        units.Word     `yaml:"last_case" choices:"closed part full|left open" default:"closed part full" doc:"what becomes of an open case when no more packs come"`
	Pressure        units.Pressure `yaml:"pressure" default:"600 MPa" least:"1 MPa" most:"1000 MPa" source:"EFSA BIOHAZ Panel 2022, EFSA Journal 20(3):7128: 400 to 600 MPa" doc:"validated pressure; never changed by this program"`
	Hold            units.Duration `yaml:"hold" default:"180 s" least:"1 s" most:"1 h" source:"EFSA BIOHAZ Panel 2022, EFSA Journal 20(3):7128: 1.5 to 6 min" doc:"validated hold at pressure; always the same"`
	GasWait         units.Duration `yaml:"gas_wait" most:"1 h" doc:"time in the filled vessel in which gas leaves the packs' surface before the pumps start, where packs have headspace"`
}

// Pack is one pack.
type Pack struct {
	Volume units.Volume `yaml:"volume" doc:"outer volume of a pack (for the fill ratio)"`
	Mass   units.Mass   `yaml:"mass" doc:"mass of a pack (for kg per hour)"`
}

// Feed is what enters a stretch of the line. As one word: "without end", or a quantity such as "24000 packs".
type Feed struct {
	WithoutEnd bool             `yaml:"-"`
	Quantity   units.Count      `yaml:"quantity" least:"1" noun:"packs|carriers|cases|pieces" doc:"how many come in all (default: without end)"`
	Every      *Time            `yaml:"every" doc:"time from one to the next, in the hours of the roster"`
	First      *units.Duration  `yaml:"first" doc:"when the first comes, from the start of the run (default: after one interval)"`
	At         []units.Duration `yaml:"at" doc:"times from the start of the run at which one comes"`
	Timetable  []Arrival        `yaml:"timetable" doc:"times from the start of the run and how many come then"`
	Batch      units.Count      `yaml:"batch" default:"1" least:"1" noun:"packs|carriers|cases|pieces" with:"every" doc:"how many come together at each interval"`
}

// Arrival is one line of a timetable.
type Arrival struct {
	At       units.Duration `yaml:"at" need:"yes" doc:"time from the start of the run"`
	Quantity units.Count    `yaml:"quantity" need:"yes" least:"1" noun:"packs|carriers|cases|pieces" doc:"how many come"`
}

// Loading is where people fill carriers.
type Loading struct {
	Fed      *Feed       `yaml:"fed" doc:"what enters here, where this is not the first station"`
	Stations units.Count `yaml:"stations" default:"1" least:"1" most:"20" noun:"stations" doc:"loading stations"`
	Crew     units.Crew  `yaml:"crew" default:"machine" doc:"people at one station; a range begins with the least, others join when free"`
	HandTime HandTime    `yaml:"hand_time" need:"yes" doc:"time to fill a carrier, as it was measured"`
	Swap     Swap        `yaml:"swap" default:"0 s" doc:"full carrier out, empty carrier in"`
	Blocking units.Word  `yaml:"blocking" choices:"after|before" default:"after" doc:"after: a finished carrier waits at its station; before: none is begun until there is a place for it"`
}

// HandTime is a time of hand work and what one reading of it was: a pack, a carrier, a case.
type HandTime struct {
	Time
	Per units.Word `yaml:"per" choices:"pack and person|pack|carrier|case" need:"yes" doc:"what one reading was taken of; per pack and person is divided by the people at work, the others hold for the crew that begins"`
}

// Swap is the change of a carrier at a loading station or a tip.
type Swap struct {
	Time
	By units.Word `yaml:"by" choices:"crew|machine" default:"crew" doc:"by the crew, or by the machine while the crew fills elsewhere"`
}

// Carriers go round.
type Carriers struct {
	Owned  units.Count `yaml:"owned" least:"1" most:"100000" noun:"carriers" doc:"how many there are (default: as many as wanted)"`
	Return Time        `yaml:"return" default:"0 s" doc:"from the tip back to loading"`
}

// Places is room for carriers.
type Places struct {
	Fed    *Feed       `yaml:"fed" doc:"what enters here (full carriers), where this is not the first station"`
	Places units.Count `yaml:"places" most:"100000" noun:"carriers|places" doc:"how many carriers can stand here (default: as many as wanted; 0: a carrier waits where it was finished)"`
	None   bool        `yaml:"-"` // places: 0 was written
	Time   Time        `yaml:"time" default:"0 s" doc:"how long a carrier stays at least"`
}

// Vessel is the pressure vessel, or several alike.
type Vessel struct {
	Fed             *Feed           `yaml:"fed" doc:"what enters here (full carriers), where this is not the first station"`
	Vessels         units.Count     `yaml:"vessels" default:"1" least:"1" most:"20" noun:"vessels" doc:"how many vessels"`
	Volume          units.Volume    `yaml:"volume" doc:"inner volume of one vessel (for the fill ratio)"`
	Bore            *units.Length   `yaml:"bore" least:"10 mm" most:"2000 mm" doc:"inner diameter (for the force on the plugs)"`
	Pumps           *Pumps          `yaml:"pumps" doc:"the pumps and what they push against, to work out prefill and come-up where no time of them is given"`
	Life            []Life          `yaml:"life" doc:"parts that last a number of cycles, to know when they are due"`
	CarriersPerLoad units.Count     `yaml:"carriers_per_load" default:"1" least:"1" most:"100" noun:"carriers" doc:"carriers in a full load"`
	Unloading       units.Word      `yaml:"unloading" choices:"separate|push_through" default:"separate" doc:"push_through: in and out are one stroke, a finished load stays until the next is complete"`
	FinishedLoad    *FinishedLoad   `yaml:"finished_load" with:"unloading: push_through" doc:"how the last load leaves a push-through vessel (default: pushed by empty carriers in the time of a transfer)"`
	PartLoad        PartLoad        `yaml:"part_load" doc:"when a load is taken that is not full"`
	MixedLoads      units.Word      `yaml:"mixed_loads" choices:"never|same hold and pressure" doc:"whether carriers of two lots may go into one load (left out: never)"`
	Phases          Phases          `yaml:"phases" doc:"the phases of a cycle; the hold comes from the product"`
	PressureMissed  *PressureMissed `yaml:"pressure_missed" doc:"how often the pressure is not reached, and what then"`
	Started         *Started        `yaml:"started" doc:"who starts a cycle and how long that takes (default: nobody is needed)"`
}

// FinishedLoad says how the last load leaves a push-through vessel.
type FinishedLoad struct {
	Takes Time       `yaml:"takes" need:"yes" doc:"how long it takes to draw it out"`
	By    units.Crew `yaml:"by" default:"machine" doc:"who does it"`
}

// PartLoad says when a load that is not full is taken. At the end of the supply and of the shift it always is.
type PartLoad struct {
	After *units.Duration `yaml:"after" doc:"time from the first carrier's arrival at the infeed (default: only when no more carriers come)"`
	AtEnd units.Word      `yaml:"at_end" choices:"taken|left" default:"taken" doc:"when no more carriers come: take the rest as a part load, or leave it at the infeed"`
}

// Phases of a vessel cycle in their order. Absent ones take no time.
type Phases struct {
	TransferIn  *Time `yaml:"transfer_in" doc:"carriers into the vessel (separate unloading)"`
	Transfer    *Time `yaml:"transfer" doc:"carriers in and out in one stroke (push_through)"`
	Close       *Time `yaml:"close" doc:"plugs and yoke close"`
	Prefill     *Time `yaml:"prefill" doc:"filled with water at low pressure"`
	ComeUp      *Time `yaml:"come_up" doc:"pumps bring it to pressure"`
	Decompress  *Time `yaml:"decompress" doc:"pressure is let off"`
	Open        *Time `yaml:"open" doc:"yoke and plugs open"`
	Drain       *Time `yaml:"drain" doc:"water runs out of the vessel"`
	TransferOut *Time `yaml:"transfer_out" doc:"carriers out of the vessel (separate unloading)"`
}

// PressureMissed is a pressure that is not reached. The hold is never shortened: the load is repeated or set aside.
type PressureMissed struct {
	Chance units.Share `yaml:"chance" need:"yes" doc:"share of cycles"`
	Then   units.Word  `yaml:"then" choices:"repeat from prefill|set aside" default:"repeat from prefill" doc:"what becomes of the load"`
	AtMost units.Count `yaml:"at_most" default:"1" most:"100" noun:"times|repeats" doc:"repeats of one load before it is set aside"`
}

// Started is the hand work that starts a cycle.
type Started struct {
	By    units.Crew `yaml:"by" need:"yes" doc:"who does it"`
	Takes Time       `yaml:"takes" need:"yes" doc:"how long it takes"`
}

// Tip is where carriers are emptied.
type Tip struct {
	Fed      *Feed       `yaml:"fed" doc:"what enters here (full carriers), where this is not the first station"`
	Stations units.Count `yaml:"stations" default:"1" least:"1" most:"20" noun:"tips|stations" doc:"how many tips"`
	By       units.Crew  `yaml:"by" default:"machine" doc:"who does it"`
	Swap     Time        `yaml:"swap" default:"0 s" doc:"empty carrier out, full carrier in, before the first pack comes out"`
	PerPack  Time        `yaml:"per_pack" default:"0 s" doc:"from one pack to the next"`
	Blocking units.Word  `yaml:"blocking" choices:"after|before" default:"after" doc:"as for loading"`
}

// Belt is the shaker conveyor or the dryer: packs ride on lanes.
type Belt struct {
	Fed          *Feed        `yaml:"fed" doc:"what enters here (packs), where this is not the first station"`
	Lanes        units.Count  `yaml:"lanes" default:"1" least:"1" most:"50" noun:"lanes" doc:"lanes side by side"`
	Rate         *units.Rate  `yaml:"rate" noun:"packs" doc:"packs a lane takes at most (default: as many as come)"`
	Travel       Time         `yaml:"travel" need:"yes" constant:"yes" doc:"time from end to end"`
	Places       *units.Count `yaml:"places" least:"1" most:"1000000" noun:"packs|places" doc:"packs that fit on one lane (default: rate x travel, rounded up)"`
	PlacesBefore units.Count  `yaml:"places_before" default:"0" most:"1000000" noun:"packs|places" doc:"packs that can wait before the lanes"`
	Standing     units.Word   `yaml:"standing" choices:"packs close up|belt stands still" default:"packs close up" doc:"what the others do while the first pack cannot leave"`
	Leakers      Portion      `yaml:"leakers" default:"0 %" doc:"share of packs taken out"`
	Wet          *Wet         `yaml:"wet" doc:"packs that come out wet"`
	Tubs         *Tubs        `yaml:"tubs" doc:"packs go into tubs when there is no place before the belt"`
}

// Portion is a share of packs, by chance or by count (every 20th).
type Portion struct {
	Share units.Share `yaml:"share" need:"yes" doc:"share of the packs"`
	Drawn units.Word  `yaml:"drawn" choices:"by chance|by count" default:"by chance" doc:"by chance, or evenly: every n-th"`
}

// Wet says what becomes of packs that come out of the dryer wet.
type Wet struct {
	Share  units.Share  `yaml:"share" need:"yes" doc:"share of the packs"`
	Drawn  units.Word   `yaml:"drawn" choices:"by chance|by count" default:"by chance" doc:"by chance, or evenly: every n-th"`
	Then   units.Word   `yaml:"then" choices:"wiped by hand|sent round once|sent round every time" need:"yes" doc:"what is done with them"`
	Takes  Time         `yaml:"takes" default:"0 s" doc:"time to wipe one pack, or to bring it back before the dryer"`
	By     units.Crew   `yaml:"by" default:"machine" with:"then: wiped by hand" doc:"who wipes"`
	Places *units.Count `yaml:"places" least:"1" most:"1000000" noun:"packs|places" doc:"wet packs that can wait (default: as many as come)"`
}

// Machine is a station that takes one piece, works on it and hands it on.
type Machine struct {
	Fed          *Feed       `yaml:"fed" doc:"what enters here, where this is not the first station"`
	Heads        units.Count `yaml:"heads" default:"1" least:"1" most:"100" noun:"heads|pieces" doc:"pieces worked on at the same time"`
	By           units.Crew  `yaml:"by" default:"machine" doc:"who does it"`
	Rate         *units.Rate `yaml:"rate" noun:"packs|cases|pieces" doc:"pieces per minute of one head; or give a time"`
	Time         *Time       `yaml:"time" doc:"time for one piece"`
	PlacesBefore units.Count `yaml:"places_before" default:"0" most:"1000000" endless:"without end" noun:"packs|cases|pieces|places" doc:"pieces that can wait before it; without end: as many as come"`
	Endless      bool        `yaml:"-"` // places_before: without end
	Rejects      Portion     `yaml:"rejects" default:"0 %" doc:"share taken out"`
	Blocking     units.Word  `yaml:"blocking" choices:"after|before" default:"after" doc:"as for loading"`
}

// Table is the packing table.
type Table struct {
	Fed    *Feed        `yaml:"fed" doc:"what enters here (packs), where this is not the first station"`
	Places *units.Count `yaml:"places" least:"1" most:"10000000" noun:"packs|places" doc:"packs that fit on it (default: as many as come)"`
	Tubs   *Tubs        `yaml:"tubs" doc:"packs go into tubs when the table is full"`
}

// Tubs take packs that have no place, and are fed back by hand.
type Tubs struct {
	Tubs        units.Count `yaml:"tubs" need:"yes" least:"1" most:"10000" noun:"tubs" doc:"how many tubs there are"`
	PacksPerTub units.Count `yaml:"packs_per_tub" need:"yes" least:"1" most:"100000" noun:"packs" doc:"packs in a tub"`
	FedBack     units.Count `yaml:"fed_back_below" need:"yes" least:"1" noun:"packs" doc:"packs on the table or before the belt below which a tub is fed back"`
	Takes       Time        `yaml:"takes" need:"yes" doc:"time to feed a tub back"`
	By          units.Crew  `yaml:"by" default:"machine" doc:"who does it"`
}

// Packing is where packs are put into cases.
type Packing struct {
	Fed      *Feed       `yaml:"fed" doc:"what enters here (packs), where this is not the first station"`
	Benches  units.Count `yaml:"benches" default:"1" least:"1" most:"200" noun:"benches|heads|places" doc:"places to pack at, or heads of a case packer"`
	Crew     units.Crew  `yaml:"crew" default:"machine" doc:"people at one bench, or machine for a case packer"`
	Time     PackTime    `yaml:"time" need:"yes" doc:"time to fill and close a case, as it was measured"`
	PerCase  Time        `yaml:"per_case" default:"0 s" doc:"time for each case besides (set-up, closing)"`
	Blocking units.Word  `yaml:"blocking" choices:"after|before" default:"after" doc:"as for loading"`
}

// PackTime is a time of packing and what one reading of it was.
type PackTime struct {
	Time
	Per units.Word `yaml:"per" choices:"case|pack" default:"case" doc:"what one reading was taken of"`
}
