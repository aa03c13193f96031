package result

// TimeFit is what a stopwatch sheet says of task times.
type TimeFit struct {
	Head
	File        string    `json:"file"`
	Sheet       string    `json:"sheet,omitempty"`
	Answer      string    `json:"answer"`
	Rule        string    `json:"rule"`         // how ratings and allowances were put in, in a sentence
	Rating      float64   `json:"rating"`       // pace that was seen over the normal one, where the sheet says none
	Allowance   float64   `json:"allowance"`    // for personal needs and fatigue, as a share
	AllowanceOf string    `json:"allowance_of"` // what it is a share of: "work" or "shift" time
	HalfShare   float64   `json:"half_width"`   // half width of a mean that is asked for, as a share of it
	Tasks       []FitTask `json:"tasks"`
	Pace        *Pace     `json:"shift_pace,omitempty"`
	Snippet     string    `json:"snippet"` // for the scenario file, with the evidence as comments
	Warnings    []Warning `json:"warnings"`
	LeftOut     []string  `json:"left_out,omitempty"` // rows that were refused and named
}

// FitTask is one task of a stopwatch sheet. Times are seconds.
type FitTask struct {
	Name      string      `json:"name"`
	Field     string      `json:"field,omitempty"` // where it goes in a scenario, such as tip.swap
	Per       string      `json:"per,omitempty"`   // what one reading is of, where the field asks
	ReadingOf string      `json:"reading_of"`      // in words: "148 packs by 2 people"
	Packs     float64     `json:"packs,omitempty"` // of one reading, where the sheet says so
	People    float64     `json:"people,omitempty"`
	N         int         `json:"n"`
	MeanS     float64     `json:"mean_s"`
	HalfS     *float64    `json:"half_width_s,omitempty"` // of the mean, 95 %; absent for one reading
	SDS       float64     `json:"sd_s"`
	LeastS    float64     `json:"least_s"`
	MedianS   float64     `json:"median_s"`
	MostS     float64     `json:"most_s"`
	Best      string      `json:"best"`
	Value     string      `json:"value"` // as it is written in a scenario
	Why       string      `json:"why"`
	Fits      []Fitted    `json:"fits"`
	Needed    int         `json:"readings_needed"` // in all, for the half width asked for
	Doubts    []string    `json:"doubts"`
	Outliers  []Outlier   `json:"outliers,omitempty"`
	TwoKinds  *TwoKinds   `json:"two_kinds,omitempty"`
	NextR     float64     `json:"correlation_with_next"`
	DriftPer  float64     `json:"drift_share_per_10_readings"`
	DriftZ    float64     `json:"drift_z"`
	Bars      []FitBar    `json:"histogram"`
	Quantiles []FitPoint  `json:"quantiles"`
	Shifts    []ShiftMean `json:"shifts,omitempty"`
	ReadingsS []float64   `json:"readings_s,omitempty"` // sorted, where they stand for themselves

	ReadingsFile string `json:"readings_file,omitempty"` // in which they are, beside the snippet
}

// DriftShown is the DriftZ beyond which, up or down, a drift is more than chance would show in 95 of 100 steady tasks.
const DriftShown = 1.96

// Fitted is one distribution fitted by maximum likelihood.
type Fitted struct {
	Distribution    string      `json:"distribution"`
	Parameters      []Parameter `json:"parameters"`
	MeanS           float64     `json:"mean_s"`
	SDS             float64     `json:"sd_s"`
	LogLikelihood   float64     `json:"log_likelihood"`
	AIC             *float64    `json:"aic"`              // absent for the readings themselves
	AndersonDarling *float64    `json:"anderson_darling"` // A²; absent with censored values
	Modified        *float64    `json:"anderson_darling_modified,omitempty"`
	Critical        *float64    `json:"critical_5_pct,omitempty"`     // of the modified value
	P               string      `json:"p,omitempty"`                  // chance of so bad a fit where the shape is right: "0.05 to 0.1"
	Distance        *float64    `json:"kolmogorov_smirnov,omitempty"` // D; absent with censored values
	Rejected        bool        `json:"rejected_at_5_pct"`
	Remark          string      `json:"remark,omitempty"` // why it cannot be used
}

// Parameter of a distribution, by the name that the literature has for it.
type Parameter struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"`
}

// Outlier is a reading far from the others.
type Outlier struct {
	Place   string  `json:"place"`
	Seconds float64 `json:"seconds"`
}

// TwoKinds says that readings are of two kinds.
type TwoKinds struct {
	Share float64 `json:"share_of_shorter"`
	LowS  float64 `json:"mean_of_shorter_s"`
	HighS float64 `json:"mean_of_longer_s"`
}

// FitBar is a bar of a histogram, and how many readings the chosen distribution expects there.
type FitBar struct {
	FromS    float64 `json:"from_s"`
	ToS      float64 `json:"to_s"`
	Readings int     `json:"readings"`
	Expected float64 `json:"expected"`
}

// FitPoint is a reading and what the chosen distribution expects at its rank.
type FitPoint struct {
	ExpectedS float64 `json:"expected_s"`
	ReadS     float64 `json:"read_s"`
}

// ShiftMean is the readings of one shift.
type ShiftMean struct {
	Shift string  `json:"shift"`
	N     int     `json:"n"`
	MeanS float64 `json:"mean_s"`
}

// Pace is how much one shift's pace differs from the next, from readings logged with their shift.
type Pace struct {
	Shifts   int     `json:"shifts"`
	Readings int     `json:"readings"`
	Share    float64 `json:"share"` // standard deviation over the mean
	Low      float64 `json:"low"`   // interval of 95 %
	High     float64 `json:"high"`
	Sentence string  `json:"sentence"`
}
