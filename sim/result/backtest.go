package result

// Backtest is a prediction held against what was counted on the floor.
type Backtest struct {
	Head
	Scenario     string      `json:"scenario"`
	Variant      string      `json:"variant,omitempty"`
	ScenarioHash string      `json:"scenario_hash"`
	File         string      `json:"file"`
	Seed         uint64      `json:"seed"`
	Replications int         `json:"replications"`
	Incomplete   bool        `json:"incomplete"` // interrupted by the user: fewer replications than were asked for
	Answer       string      `json:"answer"`     // the verdict
	Accepted     bool        `json:"accepted"`
	What         string      `json:"what"` // "packs", "cases" or "cycles"
	Per          string      `json:"per"`  // "hour", "shift" or "day"
	Units        int         `json:"independent_units"`
	Unit         string      `json:"unit"` // what is independent: a replication is one of it
	Counted      float64     `json:"counted"`
	Predicted    float64     `json:"predicted"`
	Inside       int         `json:"inside"` // periods within their interval
	Bias         float64     `json:"bias"`   // counted over predicted, less 1
	BiasLow      float64     `json:"bias_low"`
	BiasHigh     float64     `json:"bias_high"`
	Z            float64     `json:"z"`
	Detectable   float64     `json:"detectable_bias"`   // that these data would have shown 9 times in 10
	PowerAt5     float64     `json:"power_at_5_pct"`    // chance that a bias of 5 % would have been shown
	SpreadRatio  float64     `json:"spread_ratio"`      // scatter of what was counted over what was predicted (standard deviations)
	Scatter      string      `json:"scatter,omitempty"` // ScatterMore or ScatterLess than 99 of 100 valid models have; "" where it is neither, or not known
	Periods      []CountedIn `json:"periods"`
	Gaps         []GapLoss   `json:"losses"`
	StandsOut    *StandsOut  `json:"stands_out,omitempty"`
	Where        string      `json:"where"` // where the gap lies
	Says         []string    `json:"says"`
	Warnings     []Warning   `json:"warnings"`
	LeftOut      []string    `json:"left_out,omitempty"`
}

// What the scatter of counts can be, beside that of the model.
const (
	ScatterMore = "more"
	ScatterLess = "less"
)

// StandsOut is the time of day, shift or weekday in which a gap lies.
type StandsOut struct {
	At      string  `json:"at"`
	Bias    float64 `json:"bias"` // counted over predicted there, less 1
	Periods int     `json:"periods"`
}

// CountedIn is one period.
type CountedIn struct {
	Period  string  `json:"period"`
	Counted float64 `json:"counted"`
	Mean    float64 `json:"predicted"`
	Low     float64 `json:"low"` // of the interval of 95 % for one period
	High    float64 `json:"high"`
	Inside  bool    `json:"inside"`
}

// GapLoss is a loss of the line, and what it would have to be to explain the gap alone.
type GapLoss struct {
	Cause     string  `json:"cause"`
	PacksPerH float64 `json:"packs_per_h"` // as simulated, above 0
	Times     float64 `json:"times"`       // it would have to be so many times as great
}
