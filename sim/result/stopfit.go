package result

// StopFit is what a stop log says of the time to a stop and of its length.
type StopFit struct {
	Head
	File     string     `json:"file"`
	Sheet    string     `json:"sheet,omitempty"`
	Answer   string     `json:"answer"`
	From     string     `json:"from"` // of the log, plant time
	To       string     `json:"to"`
	Clock    string     `json:"clock"`    // what the time to a stop is counted in, as a scenario says it: "calendar time", "on shift", "running", "cycles", "packs"
	Counted  string     `json:"counted"`  // how, in a sentence
	Exposure float64    `json:"exposure"` // of a meter: of the station whose meter counted most
	Unit     string     `json:"unit"`     // of exposure and times to stop: "h", "cycles", "packs"
	Causes   []StopFitC `json:"causes"`
	Short    *Short     `json:"short_stops,omitempty"`
	Snippet  string     `json:"snippet"`
	Warnings []Warning  `json:"warnings"`
	LeftOut  []string   `json:"left_out,omitempty"` // rows that were refused and named
}

// StopFitC is one cause of standing at one station.
type StopFitC struct {
	Station    string   `json:"station"`
	Name       string   `json:"name"`
	Outside    bool     `json:"outside"` // starved, blocked, waiting for people: the station itself was sound
	Said       bool     `json:"said"`    // the log says so; else it was read from the words
	N          int      `json:"n"`
	Open       int      `json:"open"` // without an end in the log: still standing, or the end not known, and then in no length and not in Down
	Down       float64  `json:"down_h"`
	Mean       float64  `json:"mean_to_stop"`               // of the shape that is taken; 0 where the log has no time of the clock
	Low        *float64 `json:"mean_to_stop_low,omitempty"` // interval of 95 % of the mean of this shape; nil where Mean is not known
	High       *float64 `json:"mean_to_stop_high,omitempty"`
	EveryBest  string   `json:"every_best"`
	Every      string   `json:"every"` // as it is written in a scenario; empty where it is not known
	EveryFits  []Fitted `json:"every_fits"`
	TakesBest  string   `json:"takes_best"`
	Takes      string   `json:"takes"`
	TakesMeanS float64  `json:"takes_mean_s"`
	TakesFits  []Fitted `json:"takes_fits"`
	Doubts     []string `json:"doubts"`
}

// Short is an estimate of short stops that no log has.
type Short struct {
	Station   string  `json:"station"`
	Share     float64 `json:"share_of_time"`
	PerHour   float64 `json:"per_hour"`
	EachS     float64 `json:"each_s"`
	Counted   float64 `json:"counted"`
	Predicted float64 `json:"predicted"`
	Sentence  string  `json:"sentence"`
}
