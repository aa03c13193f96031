package timestudy

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/sim/result"
)

const fewestShifts = 4

// paceOf estimates how much one shift's pace differs from the next. The pace of a shift is one factor in all its hand work: on the logs its effect is the mean of
// what its readings are away from their tasks, each task weighing by its own scatter; between shifts these differ by more than their scatter explains
// (DerSimonian and Laird 1986), with the interval by profile of Q (Viechtbauer 2007). Where people are logged, tasks without them are left out:
// machines have no pace. nil where fewer than four shifts are logged. effect is each shift's own, drawn towards 0 by how little is known of it.
func paceOf(tasks []Task, values [][]float64) (p *result.Pace, effect map[string]float64) {
	e := shiftEffects(tasks, values)
	if len(e.names) < fewestShifts {
		return nil, nil
	}
	at := func(tau float64) float64 { // Q of the effects if shifts differ by tau
		var w, wy float64
		for i := range e.sum {
			x := 1 / (1/e.weight[i] + tau)
			w += x
			wy += float64(x * e.sum[i] / e.weight[i])
		}
		q := 0.0
		for i := range e.sum {
			d := e.sum[i]/e.weight[i] - wy/w
			q += float64(d*d) / (1/e.weight[i] + tau)
		}
		return q
	}
	df := float64(len(e.names) - 1)
	share := func(want float64) float64 {
		if at(0) <= want {
			return 0
		}
		v := bisect(func(tau float64) float64 { return want - at(tau) }, 0, 4)
		return round(math.Sqrt(math.Expm1(v)))
	}
	chi := distuv.ChiSquared{K: df}
	p = &result.Pace{Shifts: len(e.names), Readings: e.readings, Share: share(df), Low: share(chi.Quantile(0.975)), High: share(chi.Quantile(0.025))}
	p.Sentence = fmt.Sprintf("One shift's pace differs from the next by %.1f %% (standard deviation; 95 %% interval %.1f to %.1f %%), from %d readings in %d shifts.",
		100*p.Share, 100*p.Low, 100*p.High, p.Readings, p.Shifts)
	if p.Low == 0 {
		p.Sentence += " That is not told apart from shifts that are all alike."
	}
	effect = map[string]float64{}
	tau := math.Log1p(p.Share * p.Share)
	for i, name := range e.names {
		effect[name] = e.sum[i] / e.weight[i] * tau / (tau + 1/e.weight[i])
	}
	return p, effect
}

// effects of shifts: by shift the weighted sum of what readings are away from their task, and the weight.
type effects struct {
	names       []string
	sum, weight []float64
	readings    int
}

func shiftEffects(tasks []Task, values [][]float64) *effects {
	e := &effects{}
	people := slices.ContainsFunc(tasks, func(t Task) bool { return usual(t, func(r Reading) float64 { return r.People }) > 0 })
	for i, t := range tasks {
		if people && usual(t, func(r Reading) float64 { return r.People }) == 0 {
			continue
		}
		groups := byShift(t, logs(values[i]))
		var all []float64
		within, df := 0.0, 0
		for _, g := range groups {
			all = append(all, g.values...)
			within += spread(g.values)
			df += len(g.values) - 1
		}
		if len(groups) < 2 || df < 4 || within == 0 {
			continue
		}
		m, variance := mean(all), within/float64(df)
		for _, g := range groups {
			k := slices.Index(e.names, g.name)
			if k < 0 {
				k = len(e.names)
				e.names, e.sum, e.weight = append(e.names, g.name), append(e.sum, 0), append(e.weight, 0)
			}
			w := float64(len(g.values)) / variance
			e.weight[k] += w
			e.sum[k] += float64(w * (mean(g.values) - m))
			e.readings += len(g.values)
		}
	}
	return e
}

// shiftGroup is the readings of one shift.
type shiftGroup struct {
	name   string
	values []float64
}

// byShift groups values by the shift of their readings, in order of first appearance; readings without a shift are left out.
func byShift(t Task, values []float64) []shiftGroup {
	var groups []shiftGroup
	for i, r := range t.Readings {
		if r.Shift == "" {
			continue
		}
		k := slices.IndexFunc(groups, func(g shiftGroup) bool { return g.name == r.Shift })
		if k < 0 {
			groups = append(groups, shiftGroup{name: r.Shift})
			k = len(groups) - 1
		}
		groups[k].values = append(groups[k].values, values[i])
	}
	return groups
}

// widen makes the interval of a mean as wide as few shifts leave it: readings of one shift share its pace, so that beside the scatter of the
// readings the pace counts over the shifts, with their degrees of freedom. freed tells that the pace was taken out of the scatter.
func widen(t *result.FitTask, p *result.Pace, freed bool) {
	shifts := float64(len(t.Shifts))
	if p == nil || p.Low == 0 || shifts < 2 || t.HalfS == nil || t.People == 0 {
		return
	}
	n, pace := float64(t.N), p.Share*t.MeanS
	variance := float64(t.SDS*t.SDS)/n + float64(pace*pace)/shifts
	if !freed {
		variance -= float64(pace*pace) / n
	}
	h := round(student(len(t.Shifts)-1) * math.Sqrt(math.Max(variance, float64(t.SDS*t.SDS)/n)))
	if h > *t.HalfS {
		t.HalfS = &h
		t.Doubts = append(t.Doubts, fmt.Sprintf("Readings of one shift share its pace: with %d shifts the mean is known to ± %.1f %%; more shifts help, more readings in the same shifts do not.", len(t.Shifts), 100*h/t.MeanS))
	}
}
