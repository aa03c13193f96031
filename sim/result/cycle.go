package result

// Cycle is one cycle of a vessel with a full load, worked out from volumes and flows; nothing in it is random.
type Cycle struct {
	Head
	Scenario     string       `json:"scenario"`
	Variant      string       `json:"variant,omitempty"`
	Product      string       `json:"product"`
	Note         string       `json:"note,omitempty"`
	ScenarioHash string       `json:"scenario_hash"`
	Answer       string       `json:"answer"`
	PressureMPa  float64      `json:"pressure_mpa"`
	HoldS        float64      `json:"hold_s"`
	CycleS       float64      `json:"cycle_s"`
	CyclesPerH   float64      `json:"cycles_per_h"` // of one vessel without a pause
	KgPerH       float64      `json:"kg_per_h"`     // of one vessel without a pause; 0 where the mass of a pack is not known
	Phases       []CyclePhase `json:"phases"`
	Prefill      WorkedTime   `json:"prefill"`
	ComeUp       WorkedTime   `json:"come_up"`
	Curve        []CurvePoint `json:"curve"`
	Load         CycleLoad    `json:"load"`
	Water        CycleWater   `json:"water"`
	Energy       CycleEnergy  `json:"energy"`
	Warming      Warming      `json:"warming"`
	Plugs        *Plugs       `json:"plugs,omitempty"` // absent where the bore is not known
	Pumps        CyclePumps   `json:"pumps"`
	Assumptions  []Assumption `json:"assumptions"`
	Warnings     []Warning    `json:"warnings"`
	Cautions     []string     `json:"cautions"`
}

// CyclePhase is one phase; Origin is "stopwatch", "worked out" or "product".
type CyclePhase struct {
	Name   string  `json:"phase"`
	S      float64 `json:"s"`
	Origin string  `json:"origin"`
}

// WorkedTime is a time by the stopwatch and by physics. The stopwatch wins; 0 where one of them is not known.
type WorkedTime struct {
	UsedS      float64 `json:"used_s"`
	StopwatchS float64 `json:"stopwatch_s"` // mean
	WorkedOutS float64 `json:"worked_out_s"`
}

// CurvePoint is the pressure at a time of the cycle.
type CurvePoint struct {
	S        float64 `json:"s"`
	MPa      float64 `json:"mpa"`
	PushedIn float64 `json:"pushed_in_l"`
}

// CycleLoad is what is in the vessel.
type CycleLoad struct {
	VesselL  float64 `json:"vessel_l"`
	PacksL   float64 `json:"packs_l"`
	PlasticL float64 `json:"carrier_plastic_l"`
	FreeL    float64 `json:"free_l"`
	Fill     float64 `json:"fill_ratio"`
	Packs    int     `json:"packs"`
	PacksKg  float64 `json:"packs_kg"` // 0 where the mass of a pack is not known
}

// CycleWater is the water of a cycle, in litres as it is before the pumps.
type CycleWater struct {
	PrefillL   float64     `json:"prefill_l"`
	PushedInL  float64     `json:"pushed_in_l"`
	PerVesselL float64     `json:"pushed_in_per_l_of_vessel"`
	Parts      []WaterPart `json:"parts"`
	CycleL     float64     `json:"cycle_l"`
	PerKg      float64     `json:"l_per_kg"` // 0 where the mass of a pack is not known
}

// WaterPart is what makes room for water.
type WaterPart struct {
	Name   string  `json:"name"`
	Litres float64 `json:"l"`
}

// CycleEnergy is the energy of the pumps for a cycle.
type CycleEnergy struct {
	IdealKWh     float64 `json:"ideal_kwh"`
	KWh          float64 `json:"kwh"`
	PerKg        float64 `json:"kwh_per_kg"` // 0 where the mass of a pack is not known
	PerPacksL    float64 `json:"kwh_per_l_of_packs"`
	Efficiency   float64 `json:"efficiency"`
	MostKW       float64 `json:"most_kw"`        // at a time; 0 where the flow is not known
	PowerShortS  float64 `json:"power_short_s"`  // seconds in which the power held the flow back
	PowerEnoughS float64 `json:"power_enough_s"` // the come-up if it never did; 0 where the flow is not known
}

// Warming is the most there can be: no heat goes into steel or plastic.
type Warming struct {
	WaterFromC float64 `json:"water_from_c"`
	WaterToC   float64 `json:"water_to_c"`
	PacksFromC float64 `json:"packs_from_c"`
	PacksToC   float64 `json:"packs_to_c"` // taken as water
}

// Plugs is what each plug bears.
type Plugs struct {
	BoreMM  float64 `json:"bore_mm"`
	ForceMN float64 `json:"force_mn"`
	Tonnes  float64 `json:"tonnes_force"`
	LengthM float64 `json:"length_m"` // of the bore
}

// CyclePumps is what the pumps can do.
type CyclePumps struct {
	FlowLMin     float64    `json:"flow_l_min"` // 0 where not known
	FlowNeeded   float64    `json:"flow_needed_l_min"`
	PowerKW      float64    `json:"power_kw"` // 0: never short
	Intensifiers int        `json:"intensifiers"`
	Serve        string     `json:"serve"`
	MostPerH     float64    `json:"most_cycles_per_h"` // that one set can bring to pressure; 0 where come-up is not known
	Lost         []LostPump `json:"lost,omitempty"`
}

// LostPump is the cycle with so many intensifiers of a set lost.
type LostPump struct {
	Lost       int     `json:"lost"`
	ComeUpS    float64 `json:"come_up_s"`
	CycleS     float64 `json:"cycle_s"`
	CyclesPerH float64 `json:"cycles_per_h"`
}
