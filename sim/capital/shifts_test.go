package capital

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pascaline/sim/result"
	"pascaline/sim/study"
)

// moreHours adds a shift: some 100 packs an hour in each, with chance, for 56 hours a week or 112.
const moreHours = `scenario: one shift or two
packing: {crew: 1 packer, time: {mean: 36 s, sd: 30 s}}
people: {packers: {}}
roster: {shifts: {early: {hours: 06:00 to 14:00, people: {packers: 1}}}}
run: {one_replication: day}
money: {contribution: 1 EUR/pack, people: {packers: 1 EUR/h}}
variants:
  late shift: {roster.shifts.late: {hours: 14:00 to 22:00, people: {packers: 1}}}
`

// A second shift gains what it makes in its hours, though an hour of it brings no more than before: the middle of the bar is what the plan gains, the gain is
// shown, and the replications end by their precision.
func TestAShiftMoreIsAGain(t *testing.T) {
	r := answer(t, ask(t, moreHours), study.Options{Seed: 1, Precision: 0.01, Workers: 2})
	o := &r.Options[1]
	planned := o.Side.PacksPerWeek - r.Base.Side.PacksPerWeek
	if planned < 5000 || planned > 6200 { // 56 h x 100, less the case in hand
		t.Fatalf("%v packs a week more", planned)
	}
	i := slices.IndexFunc(o.Tornado, func(s result.Swing) bool { return strings.HasPrefix(s.What, "gain in output") })
	if i < 0 {
		t.Fatalf("no gain in %+v", o.Tornado)
	}
	if s := o.Tornado[i]; !near((s.Low+s.High)/2, planned) || !near((s.NPVLow+s.NPVHigh)/2, o.Central.NPV) {
		t.Errorf("%v to %v packs a week, worth %v to %v; planned %v, %v", s.Low, s.High, s.NPVLow, s.NPVHigh, planned, o.Central.NPV)
	}
	if slices.ContainsFunc(r.Warnings, func(w result.Warning) bool { return w.Code == "no difference shown" }) {
		t.Error("the gain of a whole shift is not shown")
	}
	if r.Replications.StoppedBy != "precision" {
		t.Errorf("stopped by %s after %d", r.Replications.StoppedBy, r.Replications.N)
	}
	if !near(o.Gain.Mean, planned) {
		t.Errorf("gain %v, planned %v", o.Gain.Mean, planned)
	}
}

// hourly is a sample of a line of 56 hours a week and an option of 112, in packs an hour by replication.
func hourly(base, option []float64) *Sample {
	s := &Sample{Sides: [][]Output{nil, nil}, WeekH: []float64{56, 112}, Replication: len(base)}
	for i := range base {
		s.Sides[0], s.Sides[1] = append(s.Sides[0], Output{Packs: base[i]}), append(s.Sides[1], Output{Packs: option[i]})
	}
	return s
}

// 100 and 102 an hour against 101 and 103: 11,312 - 5,600 = 5,712 and 11,536 - 5,712 = 5,824 a week; mean 5,768, standard deviation 112/sqrt 2, and in 8
// of 10 cases within 3.0776835 x 112/2 = 172.35 (Student, 1 degree of freedom).
func TestGainIsOfTheWeek(t *testing.T) {
	s := hourly([]float64{100, 102}, []float64{101, 103})
	g := s.gain(1)
	if h, _ := g.HalfAt(eightOfTen); !slices.Equal(g, study.Sample{5712, 5824}) || math.Abs(h-172.350277) > 1e-5 {
		t.Errorf("%v within %v", g, h)
	}
	if h, _ := g.Half(); !near(s.worst(), h) {
		t.Errorf("widest %v, want %v", s.worst(), h)
	}
}

// Twenty replications of 95 or 105 an hour against 105 or 95: 6,440 or 4,760 a week more, mean 5,600, standard deviation 840 x sqrt(20/19) = 861.8, half width
// 2.0930241 x 861.8/sqrt 20 = 403.3. That is known to a tenth (560), though of the hour nothing is known. With 94 and 106 it is 1,008 for 840 (484.0), with
// 93 and 107 1,176 (564.7): no longer, unless that is within a quarter of the precision asked for of the 5,600 as it stands.
func TestWhenAGainIsKnown(t *testing.T) {
	for _, c := range []struct {
		name         string
		apart, gamma float64
		known        bool
	}{
		{"within a tenth", 5, 0.01, true}, {"just within", 6, 0.01, true}, {"just beyond", 7, 0.01, false},
		{"beyond a tenth, but within a quarter of the precision: 0.25 x 0.41 x 5,600 = 574", 7, 0.41, true},
		{"and not within 0.25 x 0.4 x 5,600 = 560", 7, 0.4, false},
	} {
		var base, option []float64
		for i := range 20 {
			d := c.apart
			if i%2 == 0 {
				d = -d
			}
			base, option = append(base, 100+d), append(option, 100-d)
		}
		if s := hourly(base, option); s.precise(c.gamma) != c.known {
			h, _ := s.gain(1).Half()
			t.Errorf("%s: half width %v, known %v", c.name, h, !c.known)
		}
	}
}
