package selftest

import (
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"

	"pascaline/sim/measure"
	"pascaline/testdata"
)

// The cases of queues, pulses, statistics and the like, and those of lines.
func tableCases() []Case {
	return slices.DeleteFunc(Cases(), func(c Case) bool { return isLine(c.Group) })
}

func isLine(group string) bool { return strings.HasSuffix(group, " lines") }

// passes runs a case: every check holds, and would not were its value a tenth further from what was got (1 s or one piece where it is 0).
func passes(t *testing.T, c Case) {
	t.Helper()
	checks, err := c.run(t.Context())
	if err != nil {
		t.Error(err)
	}
	for _, x := range checks {
		if !x.Pass {
			t.Errorf("%s, %s: %s: got %.9g, want %.9g within %.2g", x.Group, x.Name, x.Quantity, x.Got, x.Expected, x.Tolerance)
		}
		away := math.Abs(x.Expected) * 0.1
		if away == 0 {
			away = 1
		}
		if x.Group == "vessel" { // claims that are printed as a range
			away = max(away, 1.5*x.Tolerance)
		}
		y := x
		y.Expected += math.Copysign(away, x.Expected-x.Got)
		if y.Within() {
			t.Errorf("%s, %s: with a tolerance of %.3g a value %.3g away passes too", x.Group, x.Name, x.Tolerance, away)
		}
	}
}

func TestQuickTables(t *testing.T) {
	for _, c := range tableCases() {
		if c.Quick {
			t.Run(c.Group+"/"+c.Name, func(t *testing.T) { t.Parallel(); passes(t, c) })
		}
	}
}

// What stands in the tables is complete: known status, a source, no value twice, no scenario that nobody reads.
func TestTablesAreComplete(t *testing.T) {
	used := map[string]bool{}
	for _, table := range tables() {
		file := table.file
		rows, err := valueRows(file)
		if err != nil {
			t.Fatal(err)
		}
		seen := map[string]bool{}
		for _, x := range rows {
			c, err := x.check()
			if err != nil {
				t.Error(err)
			}
			if !slices.Contains([]string{"checked", "memory", "derived"}, c.Status) {
				t.Errorf("%s: status %q", c.Name, c.Status)
			}
			if c.Source == "" || c.Quantity == "" || c.Source == "as above" {
				t.Errorf("%s: source %q, quantity %q", c.Name, c.Source, c.Quantity)
			}
			if seen[c.Name] {
				t.Errorf("%s: %s twice", file, c.Name)
			}
			seen[c.Name] = true
			used[x["scenario"]+".yaml"] = true
		}
	}
	used["statistics-stopping.yaml"] = true
	for _, pattern := range []string{"queues", "pulses", "statistics"} {
		names, err := fs.Glob(testdata.Files, "published/"+pattern+"-*.yaml")
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range names {
			if !used[strings.TrimPrefix(n, "published/")] {
				t.Errorf("%s: no value is compared with it", n)
			}
		}
	}
}

// A word that is not known, or a name that the line does not have, is an error and not 0.
func TestUnknownMeasures(t *testing.T) {
	r := &Runner{ctx: t.Context(), Seed: 1}
	m, err := r.Text("small.yaml", "scenario: small\nlabeller: {time: 1 s}\nrun: {one_replication: 1 min}\n", 0)
	if err != nil {
		t.Fatal(err)
	}
	recs, err := r.replications(m)
	if err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"weight labeller", "wait before packing", "level table", "share packing blocked", "share labeller asleep",
		"count packing processing", "rate tip", "content tip", "content labeller and tip blocked", "content over rate tip", "idle menders", "running of busy tip"} {
		if s, err := sampleOf(recs, words); err == nil {
			t.Errorf("%q gives %v", words, s)
		}
	}
	c := cycle{recs[0], recs[0]}
	for _, words := range []string{"weight", "peak table", "waiting table", "lead table / packing", "lead before labeller / packing", "longest table / packing",
		"single lead table / packing", "single peak table", "more tip blocked", "busy tip", "clear tip"} {
		if x, err := c.measure(words); err == nil {
			t.Errorf("%q gives %v", words, x)
		}
	}
	if x, err := metricNamed("share labeller " + measure.Processing.String()); err != nil || x == nil {
		t.Error(err)
	}
}

func TestSampleFrom(t *testing.T) {
	for _, c := range []struct {
		data, why string
		n         int
		mean, sd  float64
	}{
		{"1 2 3", "values", 3, 2, 1},
		{"1,3 2,5 4,5", "pairs: differences 2 3 1", 3, 2, 1},
		{"summary 195 9.26146 0.02278881", "an odd number made up", 195, 9.26146, 0.02278881},
		{"summary 20 5 2", "an even number made up", 20, 5, 2},
	} {
		s, err := sampleFrom(c.data)
		if err != nil {
			t.Fatal(err)
		}
		if len(s) != c.n || math.Abs(s.Mean()-c.mean) > 1e-12 || math.Abs(s.SD()-c.sd) > 1e-12 {
			t.Errorf("%s: %d values, mean %v, sd %v", c.why, len(s), s.Mean(), s.SD())
		}
	}
	for _, data := range []string{"one", "1,two", "one,2", "summary 3 x 1"} {
		if s, err := sampleFrom(data); err == nil {
			t.Errorf("%q gives %v", data, s)
		}
	}
	if x, err := estimated(nil, "weight"); err == nil {
		t.Errorf("an unknown measure gives %v", x)
	}
}
