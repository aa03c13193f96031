package result

// Gains is what the line would gain if one thing at a time were a little better, the greatest gain first.
type Gains struct {
	N        int      `json:"n"`     // replications, paired with those of the run
	Level    float64  `json:"level"` // of each interval; all hold together at 95 %
	Unit     string   `json:"unit"`
	Sentence string   `json:"sentence"`
	Method   []string `json:"method"`
	Rows     []Gain   `json:"rows"`
}

// Gain is one candidate for what limits the line. Low and High are absent with one replication.
type Gain struct {
	Candidate     string   `json:"candidate"`
	Kind          string   `json:"kind"`   // "station", "supply", "carriers", "people", "places", "roster"
	Change        string   `json:"change"` // "10 % faster", "one more carrier"
	Mean          float64  `json:"mean"`   // per rostered hour
	Low           *float64 `json:"low,omitempty"`
	High          *float64 `json:"high,omitempty"`
	Share         float64  `json:"share"`          // of the run's mean
	Shown         bool     `json:"shown"`          // the interval lies above 0
	NotToldApart  bool     `json:"not_told_apart"` // its interval reaches into that of the greatest gain
	VarianceSaved *float64 `json:"variance_saved,omitempty"`
}
