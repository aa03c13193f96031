package scenarios

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pascaline/scenarios/units"
)

// lawOf reads a time in a small scenario.
func lawOf(t *testing.T, text string) Law {
	t.Helper()
	s, faults := ReadBytes("f", []byte("scenario: x\npacking: {time: "+text+"}\n"))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return s.Packing.Time.Law()
}

func TestLawsByWhatIsKnown(t *testing.T) {
	for _, c := range []struct {
		text string
		want Law
	}{
		{"25 s", Law{Shape: Constant, Mean: 25}},
		{"{low: 1 s, high: 3 s}", Law{Shape: Uniform, Low: 1, High: 3}},
		{"{low: 3 s, high: 3 s}", Law{Shape: Constant, Mean: 3}},
		{"{low: 1 s, likely: 2 s, high: 4 s}", Law{Shape: Triangular, Low: 1, Likely: 2, High: 4}},
		{"{low: 1 s, likely: 2 s, high: 4 s, as: pert}", Law{Shape: PERT, Low: 1, Likely: 2, High: 4}},
		{"{mean: 1 min, sd: 10 s}", Law{Shape: Lognormal, Mean: 60, SD: 10}},
		{"{mean: 1 min, sd: 10 s, as: gamma}", Law{Shape: Gamma, Mean: 60, SD: 10}},
		{"{mean: 1 min, sd: 10 s, as: weibull}", Law{Shape: Weibull, Mean: 60, SD: 10}},
		{"{mean: 1 min, sd: 10 s, as: normal}", Law{Shape: Normal, Mean: 60, SD: 10}},
		{"{mean: 15 s, as: exponential}", Law{Shape: Exponential, Mean: 15}},
		{"{mean: 15 s, as: constant}", Law{Shape: Constant, Mean: 15}},
	} {
		t.Run(c.text, func(t *testing.T) {
			if d := cmp.Diff(c.want, lawOf(t, c.text)); d != "" {
				t.Error(d)
			}
		})
	}
	if d := cmp.Diff(Law{Shape: Constant}, Time{}.Law()); d != "" {
		t.Error("a time that is not there is 0 s:", d)
	}
}

func TestIntervalsAndTheirClocks(t *testing.T) {
	for _, c := range []struct {
		text  string
		law   Law
		clock units.Clock
	}{
		{"3000 cycles", Law{Shape: Constant, Mean: 3000}, units.Cycles},
		{"2 h running", Law{Shape: Constant, Mean: 7200}, units.Running},
		{"{mean: 2 h on shift}", Law{Shape: Exponential, Mean: 7200}, units.OnShift},
		{"{mean: 2 h calendar time, sd: 30 min}", Law{Shape: Weibull, Mean: 7200, SD: 1800}, units.Calendar},
		{"{mean: 2 h, sd: 30 min running, as: lognormal}", Law{Shape: Lognormal, Mean: 7200, SD: 1800}, units.Running},
		{"{low: 10 packs, likely: 20 packs, high: 60 packs}", Law{Shape: Triangular, Low: 10, Likely: 20, High: 60}, units.Packs},
	} {
		t.Run(c.text, func(t *testing.T) {
			s, faults := ReadBytes("f", []byte("scenario: x\nlabeller: {rate: 60/min}\nstops: [{station: labeller, name: jam, takes: 1 s, every: "+c.text+"}]\n"))
			if len(faults) > 0 {
				t.Fatal(faults)
			}
			e := s.Stops[0].Every
			if d := cmp.Diff(c.law, e.Law()); d != "" || e.Clock() != c.clock {
				t.Error(d, e.Clock())
			}
		})
	}
}

// Hand case O10 (a): "normal, mean 10 s, sd 8 s" is negative in 10.6 of 100 draws, and its mean, drawn again, is 11.63 s.
func TestNormalThatIsOftenNegative(t *testing.T) {
	l := Law{Shape: Normal, Mean: 10, SD: 8}
	if p := l.negative(); math.Abs(p-0.1056) > 5e-5 {
		t.Errorf("P(negative) %v", p)
	}
	if m := l.MeanUsed(); math.Abs(m-11.634) > 5e-4 {
		t.Errorf("mean used %v", m)
	}
}

// Between 1 in 10,000 and 1 in 100 a normal time is used, and warned of.
func TestNormalThatIsSeldomNegative(t *testing.T) {
	for _, c := range []struct {
		sd    string
		warns bool
	}{{"2.5 s", false}, {"3.5 s", true}} {
		s, faults := ReadBytes("f", []byte("scenario: x\npacking: {time: {mean: 10 s, sd: "+c.sd+", as: normal}}\n"))
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		if got := hasWarning(s, "normal clipped"); got != c.warns {
			t.Errorf("sd %s: warned %v", c.sd, got)
		}
	}
}

func hasWarning(s *Scenario, code string) bool {
	for _, w := range s.Warnings() {
		if w.Code == code {
			return true
		}
	}
	return false
}

func TestMeanAndLeastOfLaws(t *testing.T) {
	for _, c := range []struct {
		law         Law
		mean, least float64
	}{
		{Law{Shape: Constant, Mean: 5}, 5, 5},
		{Law{Shape: Uniform, Low: 2, High: 4}, 3, 2},
		{Law{Shape: Triangular, Low: 1, Likely: 2, High: 6}, 3, 1},
		{Law{Shape: PERT, Low: 1, Likely: 2, High: 9}, 3, 1},
		{Law{Shape: Lognormal, Mean: 7, SD: 2}, 7, 0},
		{Law{Shape: Exponential, Mean: 7}, 7, 0},
		{Law{Shape: Empirical, Values: []float64{1, 2, 6}}, 3, 1},
	} {
		if m, l := c.law.MeanUsed(), c.law.Least(); m != c.mean || l != c.least {
			t.Errorf("%s: mean %v, least %v", c.law.Shape, m, l)
		}
	}
}

// Readings come from one column, in the unit of its heading, sorted; the file is part of the scenario's hash.
func TestReadingsFromFile(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		t.Helper()
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	path := write("x.yaml", "scenario: x\npacking: {time: {file: times.csv, column: hand time}}\n")
	write("times.csv", "\ufefforder,hand time (min)\r\n1,0.5\r\n2, 0.25\r\n")
	s, faults, err := Read(path, "")
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	if d := cmp.Diff(Law{Shape: Empirical, Values: []float64{15, 30}}, s.Packing.Time.Law()); d != "" {
		t.Error(d)
	}
	write("times.csv", "order,hand time (min)\n1,0.5\n2,0.75\n")
	changed, _, _ := Read(path, "")
	if changed.Hash() == s.Hash() {
		t.Error("other readings, same hash")
	}
	if _, faults := ReadBytes("f", []byte("scenario: x\npacking: {time: {file: times.csv}}\n")); len(faults) == 0 {
		t.Error("a text from memory read a file")
	}
}
