package scenarios

import "pascaline/scenarios/units"

// Shape names a distribution.
type Shape string

// The shapes a distribution can have.
const (
	Constant    Shape = "constant"
	Uniform     Shape = "uniform"
	Triangular  Shape = "triangular"
	PERT        Shape = "pert"
	Normal      Shape = "normal" // negative draws are taken again; MeanUsed says what that makes of the mean
	Lognormal   Shape = "lognormal"
	Gamma       Shape = "gamma"
	Weibull     Shape = "weibull"
	Exponential Shape = "exponential"
	Empirical   Shape = "empirical"
)

// Law is a distribution described by what a person knows of it, in base units (seconds, or pieces for counts).
type Law struct {
	Shape             Shape
	Low, Likely, High float64   // uniform (Low, High), triangular, PERT
	Mean, SD          float64   // constant and exponential (Mean), normal, lognormal, gamma, Weibull
	Values            []float64 // empirical, sorted
}

// Time is a time: one value ("25 s"), or a distribution by what a person knows.
type Time struct {
	Value  *units.Duration `yaml:"-"` // written as one word
	Low    *units.Duration `yaml:"low" doc:"shortest"`
	Likely *units.Duration `yaml:"likely" doc:"most likely"`
	High   *units.Duration `yaml:"high" doc:"longest"`
	Mean   *units.Duration `yaml:"mean" doc:"mean"`
	SD     *units.Duration `yaml:"sd" doc:"standard deviation"`
	As     units.Word      `yaml:"as" choices:"constant|uniform|triangular|pert|normal|lognormal|gamma|weibull|exponential|empirical" doc:"shape; left out: low and high uniform, with likely triangular, mean and sd lognormal"`
	File   units.Text      `yaml:"file" doc:"CSV or XLSX table with one reading a row, beside the scenario file"`
	Column units.Text      `yaml:"column" doc:"column of that file"`
	law    Law
}

// Every is the interval between stops, with the clock it is counted by.
type Every struct {
	Value  *units.Span `yaml:"-"` // written as one word
	Low    *units.Span `yaml:"low" doc:"shortest"`
	Likely *units.Span `yaml:"likely" doc:"most likely"`
	High   *units.Span `yaml:"high" doc:"longest"`
	Mean   *units.Span `yaml:"mean" doc:"mean"`
	SD     *units.Span `yaml:"sd" doc:"standard deviation"`
	As     units.Word  `yaml:"as" choices:"constant|uniform|triangular|pert|lognormal|gamma|weibull|exponential" doc:"shape; left out: low and high uniform, with likely triangular, mean alone exponential, mean and sd Weibull"`
	law    Law
	clock  units.Clock
}

// Law is the distribution in seconds. It is valid once the scenario was read without a fault; the zero Time is 0 s.
func (t Time) Law() Law {
	if t.law.Shape == "" {
		return Law{Shape: Constant}
	}
	return t.law
}

// Law is the distribution in seconds of its clock, or in cycles or packs.
func (e Every) Law() Law { return e.law }

// Clock is what the interval is counted in.
func (e Every) Clock() units.Clock { return e.clock }

// ConstantTime is a time that is always the same.
func ConstantTime(d units.Duration) *Time {
	return &Time{Value: &d, law: Law{Shape: Constant, Mean: d.Seconds()}}
}
