package capital

import (
	"context"
	"math"

	"pascaline/sim/line"
	"pascaline/sim/study"
)

// Sample is what each replication showed, of the line as it stands and of each option, replication by replication under the same
// random numbers.
type Sample struct {
	Sides       [][]Output // [0] the line as it stands, then the options; by replication
	WeekH       []float64  // rostered hours of a week, of each side
	StoppedBy   string     // "precision", "number asked", "cap", "interrupted"
	RosteredH   float64    // of a replication of the line as it stands
	LengthH     float64
	Incomplete  bool
	Replication int // how many
}

// Most is the cap on replications of a comparison.
const Most = 400

// run repeats all models together. It goes on until each paired difference is known to a tenth, or to a quarter of the precision asked for
// of the output as it stands, tested in order of replication.
func run(ctx context.Context, models []*line.Model, o study.Options) (*Sample, error) {
	s := &Sample{Sides: make([][]Output, len(models)), StoppedBy: "cap"}
	for _, m := range models {
		s.WeekH = append(s.WeekH, m.Scenario().WeekHours(""))
	}
	most := Most
	if o.Replications > 0 {
		most, s.StoppedBy = o.Replications, "number asked"
	}
	interrupted, err := study.Together(ctx, models, o, most, func(n int, records []*line.Record) bool {
		s.take(records)
		if o.Progress != nil {
			o.Progress(n, s.worst())
		}
		if o.Replications == 0 && n >= study.Least && s.precise(o.Precision) {
			s.StoppedBy = "precision"
			return false
		}
		return true
	})
	if interrupted {
		s.StoppedBy, s.Incomplete = "interrupted", true
	}
	return s, err
}

func (s *Sample) take(records []*line.Record) {
	for i, r := range records {
		o, ok := outputOf(r)
		if !ok {
			o.Overtime = make([]float64, len(r.Pools))
		}
		s.Sides[i] = append(s.Sides[i], o)
	}
	n := float64(s.Replication)
	s.RosteredH = (float64(s.RosteredH*n) + hours(records[0].Rostered)) / (n + 1)
	s.LengthH = (float64(s.LengthH*n) + hours(records[0].Length)) / (n + 1)
	s.Replication++
}

// packs are the packs per rostered hour of a side, by replication.
func (s *Sample) packs(side int) (x study.Sample) {
	for _, o := range s.Sides[side] {
		x = append(x, o.Packs)
	}
	return x
}

// week are the packs of a side in a week of its own roster, by replication.
func (s *Sample) week(side int) (x study.Sample) {
	for _, o := range s.Sides[side] {
		x = append(x, float64(o.Packs*s.WeekH[side]))
	}
	return x
}

// gain is the paired difference of a side to the line as it stands in packs a week, by replication: of rosters that differ in their hours,
// packs for each of them say nothing of what is gained.
func (s *Sample) gain(side int) study.Sample {
	pairs := study.Pairs{Base: s.week(0), Other: s.week(side)}
	return pairs.Differences()
}

func (s *Sample) worst() float64 {
	half := 0.0
	for i := 1; i < len(s.Sides); i++ {
		h, _ := s.gain(i).Half()
		half = max(half, h)
	}
	return half
}

func (s *Sample) precise(gamma float64) bool {
	base := s.week(0).Mean()
	for i := 1; i < len(s.Sides); i++ {
		d := s.gain(i)
		h, ok := d.Half()
		if !ok || h > max(0.1*math.Abs(d.Mean()), 0.25*gamma*base) {
			return false
		}
	}
	return true
}

// mean is the mean output of a side over some replications; all of them where which is nil.
func (s *Sample) mean(side int, which []int) (m Output) {
	outputs := s.Sides[side]
	n := len(outputs)
	if which != nil {
		n = len(which)
	}
	if n == 0 {
		return m
	}
	m.Overtime = make([]float64, len(outputs[0].Overtime))
	for k := range n {
		i := k
		if which != nil {
			i = which[k]
		}
		o := &outputs[i]
		m.Packs += o.Packs
		m.Cycles += o.Cycles
		for p, h := range o.Overtime {
			m.Overtime[p] += h
		}
	}
	m.Packs /= float64(n)
	m.Cycles /= float64(n)
	for p := range m.Overtime {
		m.Overtime[p] /= float64(n)
	}
	return m
}
