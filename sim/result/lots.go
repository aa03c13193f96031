package result

// Lots is what became of a list of lots. Hours count from the start of a replication; which time of the plant week that is stands in Profile.
type Lots struct {
	Order    string    `json:"order"` // "as listed" or "next ready lot"
	Finish   Finish    `json:"finish"`
	Each     []Lot     `json:"each"`
	Changes  []Change  `json:"changeovers"`
	Sentence string    `json:"sentence"`
	Wait     []LotWait `json:"wait_by_place"` // where packs of all lots waited, the longest first
}

// Finish is when something is finished, over the replications. A time is absent where too many replications did not finish it in the time allowed:
// those count as later than any other.
type Finish struct {
	P10H   *float64 `json:"p10_h"`
	P50H   *float64 `json:"p50_h"`
	P90H   *float64 `json:"p90_h"`
	Never  float64  `json:"not_finished_share"` // of the replications
	LastH  float64  `json:"latest_h"`           // of those that finished it
	FirstH float64  `json:"earliest_h"`
}

// Lot is one lot.
type Lot struct {
	Lot         string   `json:"lot"`
	Product     string   `json:"product,omitempty"`
	Customer    string   `json:"customer,omitempty"`
	Group       string   `json:"group,omitempty"`
	Packs       int64    `json:"packs"` // to be treated
	ReadyH      float64  `json:"ready_h"`
	BegunH      Estimate `json:"begun_h"`
	Finish      Finish   `json:"finish"`
	DueH        *float64 `json:"due_h,omitempty"`
	Late        *float64 `json:"late_share,omitempty"`     // of the replications; not finished is late
	LateLow     float64  `json:"late_share_low,omitempty"` // 95 % interval of that chance (Wilson 1927)
	LateHigh    float64  `json:"late_share_high,omitempty"`
	TurnaroundH Estimate `json:"turnaround_h"` // from ready to finished, of the replications that finished it
	SetAside    float64  `json:"set_aside_packs"`
	LongestS    float64  `json:"longest_out_s"`     // a pack out of the chilled store, over all replications
	Over        float64  `json:"share_over_limit"`  // of its packs, beyond the cold chain's limit
	OverBy      string   `json:"over_by,omitempty"` // where its packs waited longest
	Legs        []LotLeg `json:"stations"`
}

// LotLeg is a lot's way through one station, means over the replications.
type LotLeg struct {
	Station string  `json:"station"`
	FirstH  float64 `json:"first_in_h"`
	LastH   float64 `json:"last_out_h"`
	WaitS   float64 `json:"mean_wait_before_s"` // a pack waits before it
	StayS   float64 `json:"mean_stay_s"`        // a pack is in it
}

// LotWait is how long a pack waited at one place, on average over all lots.
type LotWait struct {
	Place string  `json:"place"`
	MeanS float64 `json:"mean_s"`
}

// Change is the changeovers at one station, per replication.
type Change struct {
	Station string  `json:"station"`
	Times   float64 `json:"times"`
	StoodH  float64 `json:"stood_h"`
	WaitH   float64 `json:"waiting_for_people_h"`
}
