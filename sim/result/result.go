// Package result holds what a study found, as plain data: numbers, units in the names, no methods that compute. It is what
// results.json carries and all that a report may read. Lists are in the order of the line or of the scenario file; there
// is no map, so the same results give the same bytes.
package result

// Run is the result of running one scenario.
type Run struct {
	Head
	Scenario       string        `json:"scenario"`
	Variant        string        `json:"variant,omitempty"`        // of the scenario file, where it has several
	OtherVariants  []string      `json:"other_variants,omitempty"` // of the file, which were not run
	Note           string        `json:"note,omitempty"`
	ScenarioHash   string        `json:"scenario_hash"` // SHA-256 of the scenario with its base and data files
	Seed           uint64        `json:"seed"`
	Replications   Replications  `json:"replications"`
	Answer         string        `json:"answer"` // the first sentence
	Headline       Headline      `json:"headline"`
	Steady         *Steady       `json:"steady,omitempty"` // absent unless asked for; the headline is then its
	HandCheck      HandCheck     `json:"hand_check"`
	Stations       []Station     `json:"stations"`
	Bottleneck     Bottleneck    `json:"bottleneck"`
	Gains          *Gains        `json:"gains,omitempty"`          // absent where they were not asked for
	Waterfall      []Loss        `json:"loss_waterfall,omitempty"` // absent where there is no vessel
	Vessel         *Vessel       `json:"vessel,omitempty"`
	Profile        Profile       `json:"profile"`
	Buffers        []Buffer      `json:"buffers"`
	Carriers       *Carriers     `json:"carriers,omitempty"`
	People         []Pool        `json:"people"`
	Staffing       []Staffing    `json:"staffing,omitempty"` // pools by shift
	Shifts         []Shift       `json:"shifts,omitempty"`
	Stops          []Stop        `json:"stops"`
	Lots           *Lots         `json:"lots,omitempty"` // absent where the scenario has none
	ColdChain      ColdChain     `json:"cold_chain"`
	Stretches      []Stretch     `json:"stretches"`
	Balance        Balance       `json:"balance"`
	Assumptions    []Assumption  `json:"assumptions"`
	Warnings       []Warning     `json:"warnings"`
	Cautions       []string      `json:"cautions"`
	Contribution   *Contribution `json:"contribution,omitempty"` // where the scenario gives one
	PerReplication []Replication `json:"per_replication"`
	Replays        []Replay      `json:"replays,omitempty"`
}

// Estimate is a mean over replications with its Student-t interval. HalfWidth is absent with one replication.
type Estimate struct {
	Mean      float64  `json:"mean"`
	HalfWidth *float64 `json:"half_width,omitempty"`
	Level     float64  `json:"level"` // 0.95
	N         int      `json:"n"`     // replications behind it
	SD        float64  `json:"sd"`
	P10       float64  `json:"p10"` // of the replications
	P90       float64  `json:"p90"`
}

// Replications says how many there were and why no more.
type Replications struct {
	N              int     `json:"n"`
	Asked          string  `json:"asked"`      // "auto" or the number
	StoppedBy      string  `json:"stopped_by"` // "precision", "number asked", "cap", "interrupted"
	Precision      float64 `json:"precision"`  // asked relative half width
	Length         string  `json:"length"`     // "1 day from Mon 06:00"
	LengthH        float64 `json:"length_h"`   // simulated hours of one replication (mean)
	RosteredHoursH float64 `json:"rostered_h"` // rostered hours of one replication
	Incomplete     bool    `json:"incomplete"` // interrupted by the user
}

// Headline is what the line brought, per rostered hour, everything in.
type Headline struct {
	PacksPerH     Estimate  `json:"finished_packs_per_h"`
	CasesPerH     *Estimate `json:"finished_cases_per_h,omitempty"`
	KgPerH        *Estimate `json:"finished_kg_per_h,omitempty"`
	CyclesPerH    *Estimate `json:"vessel_cycles_per_h,omitempty"`
	CarriersPerH  *Estimate `json:"finished_carriers_per_h,omitempty"` // where the line ends with carriers
	PacksPerRun   Estimate  `json:"finished_packs_per_replication"`
	PacksPerShift *Estimate `json:"finished_packs_per_shift,omitempty"` // interval over replications; P10 and P90 of the single shifts
}

// HandCheck is what the rates alone allow, each station by itself.
type HandCheck struct {
	BoundPacksPerH float64    `json:"bound_packs_per_h"` // the lowest of the rows
	By             string     `json:"by"`                // which row
	Rows           []HandRate `json:"rows"`
	Share          float64    `json:"simulated_share_of_bound"`
	Sentence       string     `json:"sentence"`
}

// HandRate is what one station could do if nothing else held it.
type HandRate struct {
	Station   string  `json:"station"`
	PacksPerH float64 `json:"packs_per_h"`
	How       string  `json:"how"` // the sum in words: "5 carriers x 148 packs per 416 s"
}

// Bottleneck says where the line was held, by views that are told apart.
type Bottleneck struct {
	Sentence string   `json:"sentence"`
	Rows     []Limit  `json:"rows"`
	Method   []string `json:"method"` // one sentence a view
}

// Limit is one station in the search for the bottleneck.
type Limit struct {
	Station       string  `json:"station"`
	ActiveShare   float64 `json:"active_share"`           // of the base: neither starved nor blocked nor waiting for operator
	MeanActiveS   float64 `json:"mean_active_period_s"`   // Roser, Nakano, Tanaka 2001
	SoleShare     float64 `json:"holds_alone_share"`      // of the time in which some station was active: its active period was the longest, no other's overlapped
	ShiftingShare float64 `json:"holds_shifting_share"`   // likewise, passing to it or from it (Roser, Nakano, Tanaka 2002)
	VesselHeldPct float64 `json:"vessel_time_lost_to_it"` // share (0 to 1) of the vessel's base that it lost to this station
}

// Loss is one step of the waterfall from the vessel's ideal to what was finished, in packs per rostered hour. The first row
// is the ideal (positive), then the losses (negative) and gains, the last row what was finished; they add up.
type Loss struct {
	Cause     string  `json:"cause"`
	PacksPerH float64 `json:"packs_per_h"`
	Kind      string  `json:"kind"` // "ideal", "loss", "gain", "finished"
	From      string  `json:"from"` // "own", "outside", "" for the ends
	Detail    string  `json:"detail,omitempty"`
}

// Contribution is what one pack earns, as the scenario has it: its central value.
type Contribution struct {
	PerPack  float64 `json:"per_pack"`
	Currency string  `json:"currency"`
}

// Balance is where the packs are at the end, per replication, over the whole scenario.
type Balance struct {
	In       float64 `json:"packs_in"`
	Finished float64 `json:"finished"`
	SetAside float64 `json:"set_aside"`
	OnLine   float64 `json:"on_the_line"`
}

// Assumption is a value that stands behind the result.
type Assumption struct {
	Where  string `json:"where"` // path in the scenario file
	Value  string `json:"value"`
	Origin string `json:"origin"` // "file", "default", "base"
	Says   string `json:"says"`   // a sentence
}

// Warning is a doubt that travels with the number, printed as a numbered footnote.
type Warning struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

// Replication is the short record of one replication.
type Replication struct {
	Number    int     `json:"number"`
	PacksPerH float64 `json:"packs_per_h"`
	Packs     int64   `json:"packs"`
	Cases     int64   `json:"cases"`
	Carriers  int64   `json:"carriers"`
	Cycles    int64   `json:"cycles"`
	LengthH   float64 `json:"length_h"`
}
