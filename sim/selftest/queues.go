package selftest

import (
	"fmt"
	"math"
	"strings"

	"pascaline/sim/line"
	"pascaline/sim/study"
)

// standardErrors is how far a mean of random runs may be from the value. By chance alone fewer than one of 10,000 values would be outside.
const standardErrors = 4

// queueChecks compares queues and pools with their theory: a scenario of queues.csv, run as many times as it says. Each run starts empty;
// they are so long that this does not show. The tolerance is 4 standard errors from column sd, the standard deviation of one run: known from
// the theory of the queue, or found by recursions outside this program (testdata/independent/spread). It is never taken from the runs that
// are judged, so that a fault which makes them scatter does not excuse itself.
func queueChecks(r *Runner, scenario string, rows []valueRow) ([]Check, error) {
	m, err := r.File(scenario+".yaml", 0)
	if err != nil {
		return nil, err
	}
	recs, err := r.replications(m)
	if err != nil {
		return nil, err
	}
	var checks []Check
	for _, x := range rows {
		s, err := sampleOf(recs, x["metric"])
		if err != nil {
			return nil, err
		}
		c, err := x.check()
		if err != nil {
			return nil, err
		}
		sd, err := x.number("sd")
		if err != nil {
			return nil, err
		}
		c.Got, c.Tolerance = s.Mean(), standardErrors*sd/math.Sqrt(float64(len(s)))
		checks = append(checks, c)
	}
	return checks, nil
}

// check is what a row of a table says, without what was got.
func (x valueRow) check() (Check, error) {
	c := Check{Name: x["id"], Quantity: x["what"], Source: x["source"], Status: x["source_status"]}
	if x["note"] != "" {
		c.Quantity += " (" + x["note"] + ")"
	}
	status, _, _ := strings.Cut(c.Status, " (") // "memory (printed values recalled)"
	c.Status = status
	var err error
	if c.Expected, err = x.number("value"); err != nil {
		return c, err
	}
	c.Tolerance, err = x.number("tolerance")
	return c, err
}

// replications runs a scenario as often as it says.
func (r *Runner) replications(m *line.Model) ([]*line.Record, error) {
	var recs []*line.Record
	for i := range max(1, int(m.Scenario().Run.Replications)) {
		if err := r.ctx.Err(); err != nil {
			return nil, err
		}
		rec, err := study.One(m, line.Options{Seed: r.Seed, Replication: i + 1})
		if err != nil {
			return nil, err
		}
		recs = append(recs, rec)
	}
	return recs, nil
}

// sampleOf is a metric of every replication.
func sampleOf(recs []*line.Record, words string) (study.Sample, error) {
	m, err := metricNamed(words)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", words, err)
	}
	var s study.Sample
	for _, rec := range recs {
		x, err := m(rec)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", words, err)
		}
		s = append(s, x)
	}
	return s, nil
}
