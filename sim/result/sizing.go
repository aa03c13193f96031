package result

// KindSizing is the kind of the results of a search for the cheapest setting that meets a target.
const KindSizing = "sizing"

// Sizing is what a search found.
type Sizing struct {
	Head
	Scenario     string       `json:"scenario"`
	Variant      string       `json:"variant,omitempty"`
	Note         string       `json:"note,omitempty"`
	ScenarioHash string       `json:"scenario_hash"`
	Seed         uint64       `json:"seed"`
	Answer       string       `json:"answer"`
	Target       SizeTarget   `json:"target"`
	Rostered     bool         `json:"rostered"` // rates are per rostered hour; without a roster every hour counts
	Currency     string       `json:"currency"`
	Dimensions   []SizeChoice `json:"dimensions"`
	Chosen       *SizeFound   `json:"chosen,omitempty"`  // absent where nothing meets the target
	Nearest      *SizeFound   `json:"nearest,omitempty"` // what came nearest, where nothing meets it
	Settings     []Setting    `json:"settings"`          // all, cheapest first
	Frontier     []int        `json:"frontier"`          // numbers of settings: nothing that was simulated makes as much for less
	Steps        []SizeStep   `json:"steps"`             // one step less and one step more of each dimension
	Staffing     []Staffing   `json:"staffing,omitempty"`
	Procedure    Procedure    `json:"procedure"`
	Incomplete   bool         `json:"incomplete"`
	Assumptions  []Assumption `json:"assumptions"`
	Warnings     []Warning    `json:"warnings"`
	Cautions     []string     `json:"cautions"`
}

// LotsOnTime is the unit of a target for lots with a due time.
const LotsOnTime = "% of lots on time"

// SizeTarget is what was asked for.
type SizeTarget struct {
	Value      float64  `json:"value"`
	Unit       string   `json:"unit"`             // "packs/shift", "packs/h" for a rostered hour, or "% of lots on time"
	Shifts     []string `json:"shifts,omitempty"` // that count; all where absent
	Over       string   `json:"counted_over"`     // "shifts", or "replications" without a roster and for lots
	Share      float64  `json:"share"`            // of them that must reach it; 0: their mean
	Confidence float64  `json:"confidence"`
	Tolerance  float64  `json:"tolerance"`
}

// SizeChoice is one thing that could be chosen.
type SizeChoice struct {
	Name   string   `json:"name"`
	Fields []string `json:"fields,omitempty"`
	Values []string `json:"values"`
}

// Setting is one choice of everything, and what became of it.
type Setting struct {
	Number  int       `json:"number"` // from 1, in this list
	Values  []string  `json:"values"` // one for each dimension
	Cost    float64   `json:"cost_per_year"`
	Fate    string    `json:"fate"`
	Why     string    `json:"why,omitempty"`
	N       int       `json:"replications"`
	Output  *Estimate `json:"output,omitempty"` // in packs per shift or hour, as the target
	Reached float64   `json:"share_reached"`    // of the shifts that were simulated
	Ceiling float64   `json:"hand_check_most"`  // what the hand check allows at most, as the target; 0: not known
}

// Fates of a setting.
const (
	FateChosen    = "chosen"
	FateFails     = "does not meet"
	FateByHand    = "ruled out by the hand check"
	FateNotApart  = "not told apart from the target"
	FateDearer    = "costs more than the chosen one"
	FateNotBuilt  = "not possible"
	FateNotLooked = "not looked at"
)

// SizeFound is a setting that was estimated again with random numbers that the search had not seen.
type SizeFound struct {
	Number  int         `json:"number"` // in the list of settings
	Setting []SizeValue `json:"setting"`
	Cost    float64     `json:"cost_per_year"`
	Chance  Chance      `json:"chance_of_meeting"` // share of shifts that reach the target
	Output  Estimate    `json:"output"`
	Packs   Estimate    `json:"finished_packs_per_h"`
	// OvertimeH is worked after a shift until the line is empty, mean of a shift. What its people are paid in a year is Overtime: not in the cost, and
	// absent where no hour of any pool has a cost.
	OvertimeH float64   `json:"overtime_h"`
	Overtime  *Estimate `json:"overtime_pay_per_year,omitempty"`
}

// SizeValue is one choice.
type SizeValue struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// Chance is a share of shifts with its 95 % interval (Clopper and Pearson).
type Chance struct {
	Share float64 `json:"share"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
	N     int     `json:"replications"`
}

// SizeStep is one step from the setting that was found, with the same random numbers.
type SizeStep struct {
	Name     string    `json:"name"`
	Step     string    `json:"step"` // "less" or "more"
	From     string    `json:"from"`
	To       string    `json:"to"` // "" where there is no such step
	Number   int       `json:"number"`
	Cost     float64   `json:"cost_per_year"`
	Why      string    `json:"why,omitempty"` // where it was not simulated
	Chance   *Chance   `json:"chance_of_meeting,omitempty"`
	Differs  Estimate  `json:"output_difference"`               // paired
	Overtime *Estimate `json:"overtime_pay_per_year,omitempty"` // beside the cost
}

// Procedure is how the choice was made and how sure it is.
type Procedure struct {
	Settings     int     `json:"settings"`
	ByHand       int     `json:"ruled_out_by_hand_check"`
	Judged       int     `json:"judged"`
	Replications int     `json:"replications"`
	Fresh        int     `json:"fresh_replications"`
	WrongDrop    float64 `json:"chance_of_dropping_one_that_meets"` // of each
	Rate         float64 `json:"rate"`                              // a year, at which what is bought once is spread over its life
	Weeks        int     `json:"weeks_per_year"`
}
