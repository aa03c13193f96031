package selftest

import (
	"fmt"
	"hash/fnv"
	"strconv"
	"strings"

	"pascaline/scenarios/units"
	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/measure"
)

// moreThan begins a quantity that is the throughput less that of another scenario.
const moreThan = "more than "

// warmUp is the part of a line's length before what is compared begins.
const warmUp = 20

// linesOf runs one line for the length of its rows, in the published unit of time, and compares all their values.
//
// The tolerance is 4 standard errors from column avar, the limit of t times the variance of the estimate over a time t: worked out from
// the line's Markov chain, or, where service times are not exponential, by simulation of the recursion of departure times outside this
// program. It is never taken from the run that is judged. Column allow is added where the value itself is not exactly that of this line.
func linesOf(r *Runner, scenario string, rows []valueRow) ([]Check, error) {
	unit, err := unitOf(rows[0]["unit"])
	if err != nil {
		return nil, err
	}
	length, err := rows[0].number("length")
	if err != nil {
		return nil, err
	}
	t := clock.Tick(length) * unit
	r.Seed = seedOf(r.Seed, scenario)
	w, err := r.Between(scenario+".yaml", t/warmUp, t/warmUp+t)
	if err != nil {
		return nil, err
	}
	var checks []Check
	for _, x := range rows {
		var other *Window // with the same random numbers
		if name, paired := strings.CutPrefix(x["quantity"], moreThan); paired {
			if other, err = r.Between(name+".yaml", t/warmUp, t/warmUp+t); err != nil {
				return nil, err
			}
		}
		c, err := lineCheck(w, other, unit, x)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", x["id"], err)
		}
		checks = append(checks, c)
	}
	return checks, nil
}

// seedOf gives each line random numbers of its own, so that lines with the same stations are not all lucky or unlucky together.
func seedOf(seed uint64, name string) uint64 {
	h := fnv.New64a()
	fmt.Fprint(h, seed, "/", name)
	return h.Sum64()
}

func unitOf(words string) (clock.Tick, error) {
	var d units.Duration
	if err := d.Parse(words); err != nil {
		return 0, err
	}
	return clock.Tick(d), nil
}

func lineCheck(w, other *Window, unit clock.Tick, x valueRow) (Check, error) {
	c, err := x.check()
	if err != nil {
		return c, err
	}
	avar, err := x.number("avar")
	if err != nil {
		return c, err
	}
	allow, err := x.number("allow")
	if err != nil {
		return c, err
	}
	c.Tolerance = FromVariance(avar, w.Per(unit)) + allow
	if other != nil {
		c.Got = (w.Packs() - other.Packs()) / w.Per(unit)
		return c, nil
	}
	c.Got, err = w.lineValue(x["quantity"], unit)
	return c, err
}

// lineValue measures what a row names: "throughput" (packs in a unit of time), "wip" (packs at stations and between them), "lead" (units of
// time from the first station to the end), or the share of time that a station, counted from 1, spends in a state: "blocked 2".
func (w *Window) lineValue(quantity string, unit clock.Tick) (float64, error) {
	switch quantity {
	case "throughput":
		return w.Packs() / w.Per(unit), nil
	case "wip":
		return w.onLine()
	case "lead":
		return w.Lead() / float64(unit), nil
	}
	word, number, _ := strings.Cut(quantity, " ")
	k, err := strconv.Atoi(number)
	if err != nil || k < 1 || k > len(w.after.Stations) {
		return 0, fmt.Errorf("no such quantity: %q", quantity)
	}
	for state, name := range map[measure.State]string{measure.Starved: "starved", measure.Blocked: "blocked", measure.UnderRepair: "down", measure.WaitRepair: "waiting"} {
		if word == name {
			return w.Share(k-1, state), nil
		}
	}
	return 0, fmt.Errorf("no such quantity: %q", quantity)
}

// onLine is the mean number of packs at the stations, which hold one unless starved, and in the places between. It holds where no station
// is down without a pack in hand.
func (w *Window) onLine() (float64, error) {
	total := 0.0
	for i := range w.after.Stations {
		total += (1 - w.Share(i, measure.Starved)) * float64(len(w.after.Stations[i].Servers))
	}
	for i := range w.after.Buffers {
		b := &w.after.Buffers[i]
		if isStore(b) {
			continue
		}
		n, err := w.Level(b.Name)
		if err != nil {
			return 0, err
		}
		total += n
	}
	return total, nil
}

// isStore tells whether a buffer is what comes into the line, which is not on it yet.
func isStore(b *line.BufferRecord) bool { return strings.HasPrefix(b.Name, "store before ") }
