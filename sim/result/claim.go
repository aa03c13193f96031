package result

// Claim is what a quoted output would need. Nothing in it is random.
type Claim struct {
	Head
	Answer     string   `json:"answer"`
	Quoted     string   `json:"quoted"` // as it was written
	QuotedKg   float64  `json:"quoted_kg"`
	QuotedPerH float64  `json:"quoted_kg_per_h"`
	Hours      float64  `json:"hours"`
	VolumeL    float64  `json:"volume_l"`
	Vessels    int      `json:"vessels"`
	CyclesPerH float64  `json:"cycles_per_h"` // of each vessel
	HoldS      float64  `json:"hold_s"`       // 0 where not stated
	Density    float64  `json:"density_kg_per_l"`
	Fill       float64  `json:"fill"`        // stated or taken; fill_taken says which
	FillTaken  bool     `json:"fill_taken"`  // nobody stated it
	FillNeeded float64  `json:"fill_needed"` // above 1 the claim cannot be
	Possible   bool     `json:"possible"`
	Verdict    string   `json:"verdict"`
	KgAtFill   float64  `json:"kg_at_fill"` // in all the hours
	PerHAtFill float64  `json:"kg_per_h_at_fill"`
	HoursFill  float64  `json:"hours_needed_at_fill"`
	CyclesFill float64  `json:"cycles_per_h_needed_at_fill"` // of each vessel
	Cautions   []string `json:"cautions"`
}
