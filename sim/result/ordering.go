package result

// Ordering is a better order of a scenario's lots, held against the one that is listed. It is a suggestion: nothing was changed.
type Ordering struct {
	Head
	Scenario     string    `json:"scenario"`
	Variant      string    `json:"variant,omitempty"`
	ScenarioHash string    `json:"scenario_hash"`
	Seed         uint64    `json:"seed"`
	Goal         string    `json:"goal"` // "lateness": the greatest lateness of a lot; "changeover": the time stations stand for changeovers
	Answer       string    `json:"answer"`
	Rule         string    `json:"found_by"`
	Same         bool      `json:"as_listed"` // no better order was found
	Tried        int       `json:"orders_tried"`
	Look         int       `json:"replications_of_each"`
	Replications int       `json:"replications"` // in which both were held against each other; none of them is one of the search
	Incomplete   bool      `json:"incomplete"`
	StartMin     int       `json:"start_min_of_week"`
	Listed       OrderSide `json:"listed"`
	Suggested    OrderSide `json:"suggested"`
	Difference   Estimate  `json:"difference_h"` // suggested minus listed, in hours of the goal, paired by replication
	Warnings     []Warning `json:"warnings"`
	Cautions     []string  `json:"cautions"`
}

// OrderSide is what one order of the lots brings.
type OrderSide struct {
	Value   Estimate `json:"goal_h"` // hours of the goal
	Lots    []Lot    `json:"lots"`   // in this order
	Finish  Finish   `json:"finish"`
	Changes []Change `json:"changeovers"`
}
