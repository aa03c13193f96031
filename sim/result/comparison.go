package result

// Comparison sets scenarios beside a base, paired by replication with common random numbers.
type Comparison struct {
	Head
	Seed           uint64           `json:"seed"`
	Replications   Replications     `json:"replications"`
	Answer         string           `json:"answer"` // the first sentence
	Measures       []Measure        `json:"measures"`
	Scenarios      []Compared       `json:"scenarios"` // the first is the base
	Differences    []Difference     `json:"differences"`
	Differing      []Differing      `json:"values_that_differ"`
	Method         []string         `json:"method"`
	Warnings       []Warning        `json:"warnings"`
	Cautions       []string         `json:"cautions"`
	PerReplication []PairedReadings `json:"per_replication"`
}

// Measure is what is compared. The first of a comparison is its headline.
type Measure struct {
	Name string `json:"name"`
	Unit string `json:"unit"`
	Says string `json:"says"`
	More string `json:"more_is"` // "better" or "worse"
}

// Compared is one of the scenarios.
type Compared struct {
	Name         string         `json:"name"`
	Variant      string         `json:"variant,omitempty"`
	ScenarioHash string         `json:"scenario_hash"`
	LengthH      float64        `json:"length_h"`   // simulated hours of one replication (mean)
	RosteredH    float64        `json:"rostered_h"` // rostered hours of one replication (mean)
	Values       []ValueReading `json:"values"`     // in the order of the measures, those that it has
	Holds        string         `json:"holds_it_back,omitempty"`
}

// ValueReading is a measure of a scenario.
type ValueReading struct {
	Measure string `json:"measure"`
	Estimate
}

// Difference is a scenario minus the base. Low and High are absent with one replication, when there is no interval.
type Difference struct {
	Scenario      string   `json:"scenario"`
	Measure       string   `json:"measure"`
	Mean          float64  `json:"mean"`
	Low           *float64 `json:"low,omitempty"`
	High          *float64 `json:"high,omitempty"`
	Unit          string   `json:"unit"`
	Level         float64  `json:"level"`         // of this interval alone
	Simultaneous  bool     `json:"simultaneous"`  // all intervals of this measure hold together at 95 %; else each is a single one
	Shown         bool     `json:"shown"`         // 0 lies outside the interval
	Share         float64  `json:"share_of_base"` // mean over the base's mean; 0 where the base's is 0
	Correlation   *float64 `json:"correlation,omitempty"`
	VarianceSaved *float64 `json:"variance_saved,omitempty"` // share of variance that pairing took away; below 0 it cost precision
	Pairs         int      `json:"pairs"`                    // replications in which both have the measure
	Above         int      `json:"pairs_above"`              // of them, those in which the scenario lies above the base
	Below         int      `json:"pairs_below"`
}

// Differing is a value of the files that is not the same in all scenarios.
type Differing struct {
	Where  string   `json:"where"`
	Values []string `json:"values"` // in the order of the scenarios
}

// PairedReadings is the headline of each scenario in one replication, in their order.
type PairedReadings struct {
	Number int       `json:"number"`
	Values []float64 `json:"values"`
}
