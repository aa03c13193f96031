package result

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

// Staffing is one pool in one shift.
type Staffing struct {
	Pool     string   `json:"pool"`
	Shift    string   `json:"shift"` // "" where there is no roster
	People   int      `json:"people"`
	Busy     float64  `json:"busy_share"`
	LongestS float64  `json:"longest_busy_s"` // longest stretch without a pause
	HoldsUp  []HeldUp `json:"holds_up"`
}

// HeldUp is work that waited for people, the longest first.
type HeldUp struct {
	Station string  `json:"station"`
	WaitH   float64 `json:"waited_h"` // per shift
}
