package selftest

import (
	"context"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
)

func lineCases() []Case {
	return slices.DeleteFunc(Cases(), func(c Case) bool { return !isLine(c.Group) })
}

// lineHolds runs a line: every value is met, and says something. A share of time that is rare may have a tolerance of a tenth of it, a gain
// half of it; every other value is met within 4 %. A value that is 3 tolerances or 2 % away is not met.
func lineHolds(t *testing.T, c Case) {
	t.Helper()
	checks, err := c.run(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range checks {
		if !x.Pass {
			t.Errorf("%s: %s: got %.9g, want %.9g within %.2g", x.Name, x.Quantity, x.Got, x.Expected, x.Tolerance)
		}
		most := 0.04
		switch {
		case strings.HasSuffix(x.Name, "_gain"):
			most = 0.5
		case x.Expected < 0.2:
			most = 0.1
		}
		if x.Tolerance > most*x.Expected {
			t.Errorf("%s: a tolerance of %.3g says little about %.3g", x.Name, x.Tolerance, x.Expected)
		}
		for _, sign := range []float64{-1, 1} {
			y := x
			y.Expected += sign * max(3*x.Tolerance, 0.02*x.Expected)
			if y.Within() {
				t.Errorf("%s: %.9g is met too", x.Name, y.Expected)
			}
		}
	}
}

func TestQuickLines(t *testing.T) {
	for _, c := range lineCases() {
		if c.Quick {
			t.Run(c.Name, func(t *testing.T) { t.Parallel(); lineHolds(t, c) })
		}
	}
}

// A line that is not the published one does not give the published value: each change of a scenario is noticed.
func TestChangedLinesFail(t *testing.T) {
	for _, c := range []struct{ file, from, to, value, why string }{
		{"serial-exponential-3-1", "labeller: {places_before: 1", "labeller: {places_before: 2", "exp_K3_B1_X", "one place more"},
		{"serial-exponential-3-1", "hand_time:", "blocking: before, hand_time:", "exp_K3_B1_X", "blocking before service"},
		{"serial-exponential-3-1", "swap: {mean: 10 s", "swap: {mean: 10.3 s", "exp_K3_B1_X", "the second station 3 % slower"},
		{"serial-erlang-2-3-1", "as: gamma", "as: lognormal", "erl2_K3_B1", "another distribution of the same mean and deviation"},
		{"serial-parallel-2-2-2", "heads: 2, time", "time", "par2_2_2_2", "one head for two"},
		{"unreliable-exponential-2-2-odf", " running", " calendar time", "expu2_b2_1-1_0.1-0.1_0.5-0.5_odf_X", "stops by the other clock"},
		{"unreliable-one-mender-2-tdf", "heads: 1", "heads: 2", "mender_B2_tdf_waiting1", "two menders"},
	} {
		t.Run(c.why, func(t *testing.T) {
			t.Parallel()
			all := lineCases()
			i := slices.IndexFunc(all, func(x Case) bool { return x.Name == c.file })
			if i < 0 {
				t.Fatal("no such line")
			}
			r := &Runner{ctx: t.Context(), Seed: Seed, read: func(name string) ([]byte, error) {
				b, err := publishedFile(name)
				text := strings.ReplaceAll(string(b), c.from, c.to)
				if text == string(b) {
					t.Errorf("%q does not stand in %s", c.from, name)
				}
				return []byte(text), err
			}}
			checks, err := all[i].Run(r)
			if err != nil {
				t.Fatal(err)
			}
			k := slices.IndexFunc(checks, func(x Check) bool { return x.Name == c.value })
			if k < 0 {
				t.Fatal("no value", c.value)
			}
			if x := checks[k]; x.Within() {
				t.Errorf("%s: got %.9g, which still is %.9g within %.2g", x.Name, x.Got, x.Expected, x.Tolerance)
			}
		})
	}
}

// The checks are in order of the cases and the same to the last digit on any number of workers.
func TestRunIsTheSameOnAnyNumberOfWorkers(t *testing.T) {
	list := lineCases()[:3]
	one, err := run(t.Context(), list, 1)
	if err != nil {
		t.Fatal(err)
	}
	many, err := run(t.Context(), list, 7)
	if err != nil {
		t.Fatal(err)
	}
	if len(one) < 3 || !reflect.DeepEqual(one, many) {
		t.Errorf("%v\n%v", one, many)
	}
}

// A run that is given up says so and gives nothing that was not compared; a case that cannot be run is named.
func TestRunEndsEarly(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if checks, err := run(ctx, lineCases(), 2); err == nil || len(checks) > 0 {
		t.Error(checks, err)
	}
	for name, c := range map[string]Case{
		"no such file": {Run: func(r *Runner) ([]Check, error) { _, err := r.File("none.yaml", 0); return nil, err }},
		"a scenario with a fault": {Run: func(r *Runner) ([]Check, error) {
			_, err := r.Text("x", "scenario: x\nlabeler: {}\n", 0)
			return nil, err
		}},
		"nothing is compared":            {Run: func(*Runner) ([]Check, error) { return nil, nil }},
		"a station that is not there":    oneRow("serial-exponential-2-0", valueRow{"quantity": "blocked 3"}),
		"a quantity that is not known":   oneRow("serial-exponential-2-0", valueRow{"quantity": "weight"}),
		"a state that is not known":      oneRow("serial-exponential-2-0", valueRow{"quantity": "asleep 1"}),
		"a value that is no number":      oneRow("serial-exponential-2-0", valueRow{"quantity": "throughput", "value": "x"}),
		"a variance that is no number":   oneRow("serial-exponential-2-0", valueRow{"quantity": "throughput", "avar": "x"}),
		"an allowance that is none":      oneRow("serial-exponential-2-0", valueRow{"quantity": "throughput", "allow": "x"}),
		"no such other line":             oneRow("serial-exponential-2-0", valueRow{"quantity": moreThan + "none"}),
		"a unit without its unit":        oneRow("serial-exponential-2-0", valueRow{"unit": "10"}),
		"a length that is no number":     oneRow("serial-exponential-2-0", valueRow{"length": "x"}),
		"a line that is not to be found": oneRow("none", valueRow{}),
	} {
		c.Group, c.Name = "group", "case"
		if _, err := run(t.Context(), []Case{c}, 1); err == nil || !strings.Contains(err.Error(), "group, case: ") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// oneRow is a case of a line with one row, which says what it must and besides what x says.
func oneRow(scenario string, x valueRow) Case {
	all := valueRow{"unit": "10 s", "length": "100", "quantity": "throughput", "value": "1"}
	for k, v := range x {
		all[k] = v
	}
	return Case{Run: func(r *Runner) ([]Check, error) { return linesOf(r, scenario, []valueRow{all}) }}
}

// What is no number is met by nothing.
func TestWithin(t *testing.T) {
	for _, c := range []struct {
		x    Check
		want bool
		why  string
	}{
		{Check{Expected: 1, Got: 1}, true, "the same, without tolerance"},
		{Check{Expected: 1, Got: 1.5, Tolerance: 0.5}, true, "at the edge"},
		{Check{Expected: 1, Got: 1.51, Tolerance: 0.5}, false, "beyond"},
		{Check{Expected: 1, Got: math.NaN(), Tolerance: 1}, false, "got no number"},
		{Check{Expected: 1, Got: 1, Tolerance: math.NaN()}, false, "a tolerance that is no number"},
	} {
		if c.x.Within() != c.want {
			t.Errorf("%s: %v", c.why, !c.want)
		}
	}
}
