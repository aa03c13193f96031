package scenarios

import (
	"math"

	"pascaline/scenarios/units"
)

// Size asks for the cheapest setting of the line that meets a target.
type Size struct {
	Target Target     `yaml:"target" need:"yes" doc:"what the line has to make"`
	Vary   Dimensions `yaml:"vary" need:"yes" doc:"what may be chosen, and what it costs"`
}

// Target is what a setting has to make, how often, and how sure that has to be.
type Target struct {
	PacksPerShift units.Count  `yaml:"packs_per_shift" least:"1" noun:"packs" doc:"finished packs of a shift"`
	PacksPerHour  units.Count  `yaml:"packs_per_hour" least:"1" noun:"packs" doc:"or: finished packs per rostered hour of a shift"`
	LotsOnTime    units.Share  `yaml:"lots_on_time" doc:"or: share of the lots with a due time that are finished by then"`
	Shifts        []units.Text `yaml:"shifts" doc:"the shifts that count (default: all)"`
	In            units.Often  `yaml:"in" default:"9 of 10 shifts" doc:"how often it is to be met: a share of the shifts, or the mean; without a roster a replication counts as a shift"`
	Confidence    units.Share  `yaml:"confidence" default:"95 %" least:"80 %" most:"99.9 %" doc:"how sure the choice has to be"`
	Tolerance     units.Share  `yaml:"tolerance" default:"1 %" least:"0.1 %" most:"10 %" doc:"so much less than the target is as good as the target"`
}

// Value is the target itself: packs of a shift, packs per hour, or percent of lots.
func (t *Target) Value() float64 {
	if t.LotsOnTime > 0 {
		return math.Round(float64(t.LotsOnTime)*1e10) / 1e8
	}
	return float64(max(t.PacksPerShift, t.PacksPerHour))
}

// Dimensions are what may be chosen, in the order in which they are written.
type Dimensions []Dimension

// Dimension is one thing that may be chosen: a field, or several that go together, with its values; or one of the file's variants.
type Dimension struct {
	Name     string        `yaml:"-"`
	Fields   []units.Text  `yaml:"fields" doc:"the fields that get the value, each by its path, such as loading.stations"`
	Values   []units.Text  `yaml:"values" doc:"the values, from the least to the most"`
	Range    *units.Steps  `yaml:"range" doc:"or: a range of values"`
	Variants []units.Text  `yaml:"variants" doc:"or: variants of this file to choose from; as written is the file without any"`
	CostEach *units.Money  `yaml:"cost_each" doc:"what each one costs: for an hour of each person, for a year, or once"`
	Owned    units.Count   `yaml:"owned" with:"cost_each" doc:"how many are there and paid for (default: none)"`
	Costs    []units.Money `yaml:"costs" doc:"or: what each value costs, one amount for each"`
	Life     units.Years   `yaml:"life" default:"10 years" doc:"how long something is used that is bought once"`
}

// AsWritten is the choice that leaves the file as it is.
const AsWritten = "as written"

// Choices are the values to choose from, as they were written.
func (d *Dimension) Choices() []string {
	if d.Range != nil {
		return d.Range.Values
	}
	list := d.Values
	if len(list) == 0 {
		list = d.Variants
	}
	out := make([]string, len(list))
	for i, v := range list {
		out[i] = string(v)
	}
	return out
}

// Numbers are the numbers of the choices; false where they are not numbers that could be stepped through.
func (d *Dimension) Numbers() ([]float64, bool) {
	if len(d.Variants) > 0 {
		return nil, false
	}
	var out []float64
	for _, c := range d.Choices() {
		v, ok := units.Leading(c)
		if !ok {
			return nil, false
		}
		out = append(out, v)
	}
	return out, true
}

// Currency is the label of the amounts of the block, or "" where there are none.
func (s *Size) Currency() string {
	for i := range s.Vary {
		for _, m := range append(single(s.Vary[i].CostEach), s.Vary[i].Costs...) {
			return m.Currency
		}
	}
	return ""
}
