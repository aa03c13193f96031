package result

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
