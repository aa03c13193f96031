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
	PacksPerShift *Estimate `json:"finished_packs_per_shift,omitempty"`
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

// Station is one station over all its servers.
type Station struct {
	Name      string       `json:"name"`
	Servers   int          `json:"servers"`
	BaseH     float64      `json:"base_h"` // server-hours per replication without off shift and planned stops
	Shares    []StateShare `json:"shares"` // of the base, in the order of result.States; all states, zeros too
	OffH      float64      `json:"off_shift_h"`
	PlannedH  float64      `json:"planned_stop_h"`
	Handled   Estimate     `json:"handled_per_h"` // pieces handed on per rostered hour
	Piece     string       `json:"piece"`         // "packs", "carriers", "cases"
	Phases    []PhaseShare `json:"phases,omitempty"`
	Each      []Server     `json:"each,omitempty"`       // one row per server, where there are several
	ActiveS   float64      `json:"mean_active_period_s"` // mean uninterrupted active period of a server
	WaitMeanS float64      `json:"wait_mean_s"`          // pieces wait before it: mean
	WaitP95S  float64      `json:"wait_p95_s"`
	SetAside  float64      `json:"set_aside_packs"` // packs taken out here per replication
	Bound     string       `json:"bound,omitempty"`
}

// StateShare is the share of a station's base that it spent in a state.
type StateShare struct {
	State string  `json:"state"`
	Share float64 `json:"share"`
	Half  float64 `json:"half_width,omitempty"` // absent with one replication
}

// PhaseShare is a part of processing: a phase of the vessel.
type PhaseShare struct {
	Phase string  `json:"phase"`
	Share float64 `json:"share"`  // of the base
	MeanS float64 `json:"mean_s"` // mean length
}

// Server is one server of a station.
type Server struct {
	Name   string    `json:"name"`
	BaseH  float64   `json:"base_h"`
	Shares []float64 `json:"shares"` // in the order of result.States
}

// States are the states in the order in which they are listed and drawn.
var States = []string{"processing", "starved", "blocked", "waiting for operator", "changeover", "under repair", "waiting for repair"}

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

// Vessel is what the vessels did.
type Vessel struct {
	Fill          float64  `json:"fill_ratio"`      // pack volume in a full load over vessel volume; 0 where not known
	MeanLoadShare float64  `json:"mean_load_share"` // carriers in a load over carriers in a full load
	CycleS        Estimate `json:"cycle_s"`         // phases only
	IntervalS     Estimate `json:"interval_s"`      // rostered vessel seconds per cycle
	Cycles        Estimate `json:"cycles_per_replication"`
	Repeated      Estimate `json:"repeated_per_replication"`
	SetAsideLoads Estimate `json:"set_aside_loads_per_replication"`
	PartLoads     Estimate `json:"part_loads_per_replication"`
	Wear          []Wear   `json:"wear,omitempty"`
}

// Wear is a part that lasts so many cycles, and when it is due at the cycles of this run.
type Wear struct {
	Part        string      `json:"part"`
	Cycles      int64       `json:"cycles"`
	Used        int64       `json:"used"`
	PerWeek     float64     `json:"cycles_per_week"`   // of one vessel: cycles per rostered hour times the rostered hours of a week
	HoursPerWk  float64     `json:"rostered_h_a_week"` // 168 where there is no roster
	WeeksLeft   *float64    `json:"weeks_left"`        // from now; null where no cycle was made
	WeeksWithin *[2]float64 `json:"weeks_left_within"` // by the interval of the cycles; null with one replication
}

// Profile is what was finished over time, in steps.
type Profile struct {
	StepS     float64   `json:"step_s"`
	StartMin  int       `json:"start_min_of_week"` // minutes from Monday 00:00
	Roster    bool      `json:"roster"`            // whether times are plant times
	PacksPerH []float64 `json:"packs_per_h"`       // mean over replications, by step
	P10       []float64 `json:"p10"`
	P90       []float64 `json:"p90"`
	Shaded    []Span    `json:"off,omitempty"`              // when the line is not rostered
	Shifts    []Span    `json:"shifts,omitempty"`           // when which shift is on: the crew changes with it
	Plan      float64   `json:"plan_packs_per_h,omitempty"` // planned for a rostered hour; 0: nothing was stated
}

// Span is a stretch of simulated time with a name.
type Span struct {
	FromS float64 `json:"from_s"`
	ToS   float64 `json:"to_s"`
	What  string  `json:"what"`
}

// Buffer is a place where packs, carriers or cases wait.
type Buffer struct {
	Name      string    `json:"name"`
	Piece     string    `json:"piece"`
	Places    int64     `json:"places"` // 0: as many as come
	Mean      float64   `json:"mean"`
	Max       float64   `json:"max"`        // greatest over all replications
	Full      float64   `json:"full_share"` // share of the time it was full
	Steps     []float64 `json:"steps"`      // mean content by step of the profile
	StepsMax  []float64 `json:"steps_max"`  // greatest content by step over all replications
	WaitMeanS float64   `json:"wait_mean_s"`
	WaitP95S  float64   `json:"wait_p95_s"`
}

// Carriers says where the carriers were.
type Carriers struct {
	Owned     int     `json:"owned"` // 0: as many as wanted
	MeanEmpty float64 `json:"mean_empty_waiting"`
	Short     float64 `json:"loading_starved_of_carriers"` // share of loading's base
	Sentence  string  `json:"sentence"`
}

// Pool is a pool of people over the run.
type Pool struct {
	Name      string      `json:"name"`
	Heads     string      `json:"heads"`      // "3", or "3 to 5" over shifts
	RosterH   float64     `json:"roster_h"`   // person-hours on shift and not on a break, per replication
	Busy      Estimate    `json:"busy_share"` // of that
	FreeShare float64     `json:"free_share"`
	KeptShare float64     `json:"kept_share"` // free, but kept for a task that needs more people
	WalkShare float64     `json:"walk_share"` // part of busy
	BreakH    float64     `json:"break_h"`
	StandsH   float64     `json:"line_stands_h"` // on shift during start-up and wash-down, neither busy nor free
	OvertimeH float64     `json:"overtime_h"`
	Tasks     []PoolTask  `json:"tasks"`
	ByShift   []PoolShift `json:"by_shift,omitempty"`
	LongestS  float64     `json:"longest_busy_s"` // longest stretch without a pause, over all replications
}

// PoolTask is what a pool spent its time on.
type PoolTask struct {
	Station string  `json:"station"`
	Share   float64 `json:"share"`       // of roster_h
	WaitS   float64 `json:"mean_wait_s"` // a task waited so long for people
}

// PoolShift is a pool in one shift of the roster.
type PoolShift struct {
	Shift   string  `json:"shift"`
	Heads   int     `json:"heads"`
	RosterH float64 `json:"roster_h"`
	Busy    float64 `json:"busy_share"`
}

// Shift is what one shift of the roster brought, over all days and replications.
type Shift struct {
	Name      string   `json:"name"`
	Hours     string   `json:"hours"`
	Packs     Estimate `json:"finished_packs"`
	OvertimeH float64  `json:"overtime_h"` // from the end of the shift until the line was empty and washed
}

// Stop is one cause of standing.
type Stop struct {
	Station string  `json:"station"`
	Name    string  `json:"name"`
	Times   float64 `json:"times"`     // per replication
	DownH   float64 `json:"down_h"`    // server-hours per replication, waiting for repair and under repair
	WaitH   float64 `json:"waiting_h"` // of which waiting for a mender
	Planned bool    `json:"planned"`
	Slows   bool    `json:"slows,omitempty"`            // intensifiers are lost: come-ups take longer and nothing stands
	From    string  `json:"from,omitempty"`             // "own": it stands the vessel itself; "outside": another station; "" where there is no vessel
	Lost    float64 `json:"lost_packs_per_h,omitempty"` // vessel output lost to it, per rostered hour; not told apart for planned stops outside the vessel
}

// ColdChain is the time packs were out of the chilled store.
type ColdChain struct {
	FromStart  Times   `json:"from_start_of_carrier"`
	FromVessel *Times  `json:"from_leaving_the_vessel,omitempty"`
	LimitS     float64 `json:"limit_s"` // 0: none stated
	LimitFrom  string  `json:"limit_from,omitempty"`
	OverShare  float64 `json:"share_over_limit"`
}

// Times sums up many times.
type Times struct {
	N     int64    `json:"n"`
	MeanS float64  `json:"mean_s"`
	P95S  Estimate `json:"p95_s"`
	MaxS  float64  `json:"max_s"`
}

// Stretch is one stretch of the line and what came out of it.
type Stretch struct {
	From   string  `json:"from"`
	To     string  `json:"to"`
	Piece  string  `json:"piece"`  // what leaves it
	Pieces float64 `json:"pieces"` // per replication
	Packs  float64 `json:"packs"`
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
