package result

// Steady is what the line brings once it has filled up, without a roster. An observation is what was finished from one end of a vessel cycle to the
// next, or in one step of time where there is no vessel.
type Steady struct {
	ByCycle      bool      `json:"by_vessel_cycle"`
	Observations int       `json:"observations"`       // of each replication, those that all have
	Cut          int       `json:"cut"`                // observations left out at the start of each (MSER-5)
	CutH         float64   `json:"cut_h"`              // hours left out, mean
	Short        bool      `json:"too_short"`          // the cut reaches the middle of the run, or there are too few observations for one
	PerH         Estimate  `json:"finished_per_h"`     // ratio of what was finished to the time, after the cut, with a ratio's interval
	TimesPerH    Estimate  `json:"observations_per_h"` // likewise: vessel cycles per hour
	Each         Estimate  `json:"finished_per_observation"`
	Series       []float64 `json:"series"` // mean over replications, by observation
}
