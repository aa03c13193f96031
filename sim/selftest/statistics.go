package selftest

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"pascaline/scenarios"
	"pascaline/sim/random"
	"pascaline/sim/study"
)

// statisticChecks compares the means, deviations, intervals and the stopping rule that every answer goes through.
func statisticChecks(_ *Runner, name string, rows []valueRow) ([]Check, error) {
	var checks []Check
	for _, x := range rows {
		c, err := x.check()
		if err != nil {
			return nil, err
		}
		s, err := sampleFrom(x["data"])
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.Name, err)
		}
		if c.Got, err = estimated(s, x["metric"]); err != nil {
			return nil, fmt.Errorf("%s: %w", c.Name, err)
		}
		checks = append(checks, c)
	}
	return checks, nil
}

// sampleFrom reads the data of a row: values, pairs "a,b" of which the difference b - a is the sample, or "n mean sd" after the word summary:
// a sample made up to have exactly these.
func sampleFrom(data string) (study.Sample, error) {
	words := strings.Fields(data)
	summary := len(words) == 4 && words[0] == "summary"
	if summary {
		words = words[1:]
	}
	var s study.Sample
	for _, w := range words {
		a, b, pair := strings.Cut(w, ",")
		x, err := strconv.ParseFloat(a, 64)
		if err != nil {
			return nil, err
		}
		if pair {
			y, err := strconv.ParseFloat(b, 64)
			if err != nil {
				return nil, err
			}
			x = y - x
		}
		s = append(s, x)
	}
	if summary {
		return summarised(int(s[0]), s[1], s[2]), nil
	}
	return s, nil
}

// summarised is n values of which half lie as far above the mean as the others below, so that their standard deviation is sd.
func summarised(n int, mean, sd float64) (s study.Sample) {
	away := sd * math.Sqrt(float64(n-1)/float64(n-n%2))
	for i := range n {
		switch {
		case i == n-1 && n%2 == 1:
			s = append(s, mean)
		case i%2 == 0:
			s = append(s, mean+away)
		default:
			s = append(s, mean-away)
		}
	}
	return s
}

// estimated is what the product says of a sample.
func estimated(s study.Sample, words string) (float64, error) {
	half, ok := s.Half()
	root := math.Sqrt(float64(len(s)))
	switch words {
	case "mean":
		return s.Mean(), nil
	case "variance":
		return s.SD() * s.SD(), nil
	case "has an interval":
		return map[bool]float64{false: 0, true: 1}[ok], nil
	case "half width":
		return half, nil
	case "low":
		return s.Mean() - half, nil
	case "high":
		return s.Mean() + half, nil
	case "t": // quantile behind the interval
		return half / s.SD() * root, nil
	case "paired t":
		return s.Mean() / s.SD() * root, nil
	case "P10":
		return s.Estimate().P10, nil
	case "P90":
		return s.Estimate().P90, nil
	}
	return 0, fmt.Errorf("no such measure: %q", words)
}

// pairedExponentials: with the same uniform numbers by inversion the difference of two exponential times has the variance (1/a - 1/b)^2, with
// others the sum of both. A sample variance of n values of fourth moment ratio k has a variance of (k-1)/n of its square.
func pairedExponentials(r *Runner) ([]Check, error) {
	const n = 200_000
	law := func(mean float64) (random.Law, error) {
		return random.NewLaw(scenarios.Law{Shape: scenarios.Exponential, Mean: mean})
	}
	x, err := law(1)
	if err != nil {
		return nil, err
	}
	y, err := law(1 / 1.2)
	if err != nil {
		return nil, err
	}
	same, other := random.Named(r.Seed, 1, "selftest/task"), random.Named(r.Seed, 1, "selftest/other task")
	var together, apart study.Sample
	for i := range uint64(n) {
		together = append(together, x.Quantile(same.At(i))-y.Quantile(same.At(i)))
		apart = append(apart, x.Quantile(same.At(i))-y.Quantile(other.At(i)))
	}
	of := func(name, what string, s study.Sample, want, kurtosis float64) Check {
		return Check{Name: name, Quantity: what, Source: "closed form", Status: "derived", Expected: want, Got: s.SD() * s.SD(),
			Tolerance: standardErrors * want * math.Sqrt((kurtosis-1)/n)}
	}
	// The fourth central moment of a difference of independent exponentials of means p and q is 9 (p^4 + q^4) + 6 p^2 q^2.
	p2, q2 := 1.0, 1/1.44
	both := p2 + q2
	return []Check{
		of("crn_exp_corr", "rates 1 and 1.2, the same uniform numbers by inversion: variance of the difference, (1/1 - 1/1.2)^2", together, 1.0/36, 9),
		of("crn_exp_ind", "rates 1 and 1.2, independent: variance of the difference, 1/1^2 + 1/1.2^2", apart, 61.0/36,
			(9*(p2*p2+q2*q2)+6*p2*q2)/(both*both)),
	}, nil
}

// stopsWhenPrecise: a study ends with the first number of replications, at least 20, at which half width / mean <= gamma / (1 + gamma).
func stopsWhenPrecise(r *Runner) ([]Check, error) {
	m, err := r.File("statistics-stopping.yaml", 0)
	if err != nil {
		return nil, err
	}
	long, err := study.Run(r.Context(), m, study.Options{Seed: r.Seed, Replications: study.Most, Workers: 1})
	if err != nil {
		return nil, err
	}
	var checks []Check
	for _, gamma := range []float64{0.05, 0.1, 0.15} {
		got, err := study.Run(r.Context(), m, study.Options{Seed: r.Seed, Precision: gamma, Workers: 1})
		if err != nil {
			return nil, err
		}
		var s study.Sample
		want := 0
		for i, x := range long.PerReplication {
			s = append(s, x.PacksPerH)
			if half, _ := s.Half(); want == 0 && i+1 >= study.Least && half/s.Mean() <= gamma/(1+gamma) {
				want = i + 1
			}
		}
		checks = append(checks, Check{Name: fmt.Sprintf("seqstop_%g", gamma), Status: "memory", Expected: float64(want), Got: float64(got.Replications.N),
			Quantity: fmt.Sprintf("replications until the interval is within %g of the mean: half width at most %g/(1+%g), tried after each", gamma, gamma, gamma),
			Source:   "Law & Kelton, Simulation Modeling and Analysis; Law 2015, section 9.4.1"})
	}
	return checks, nil
}
