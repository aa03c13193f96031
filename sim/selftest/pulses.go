package selftest

import (
	"fmt"
	"strings"

	"pascaline/sim/line"
	"pascaline/sim/measure"
)

// pulseChecks compares carriers that are tipped in one lump with what was worked out for them, exactly, with fixed times. The tip is what is held, so that
// the C of the formulas is the rest of its cycle: its swap. A scenario is run for so many carriers and for one more: what the last one adds is a
// cycle of the steady state, whatever the beginning was like.
func pulseChecks(r *Runner, scenario string, rows []valueRow) ([]Check, error) {
	c := cycle{}
	var err error
	if c.few, err = r.carriers(scenario, 0); err != nil {
		return nil, err
	}
	if c.more, err = r.carriers(scenario, 1); err != nil {
		return nil, err
	}
	var checks []Check
	for _, x := range rows {
		k, err := x.check()
		if err != nil {
			return nil, err
		}
		if k.Got, err = c.measure(x["metric"]); err != nil {
			return nil, fmt.Errorf("%s: %w", k.Name, err)
		}
		checks = append(checks, k)
	}
	return checks, nil
}

// carriers runs a pulse until as many carriers as it says and some more are finished.
func (r *Runner) carriers(scenario string, more int) (*line.Record, error) {
	m, err := r.File(scenario+".yaml", 0)
	if err != nil {
		return nil, err
	}
	s := *m.Scenario()
	tip, fed := *s.Tip, *s.Tip.Fed // copies: the model keeps its scenario
	for range more {
		fed.Quantity++
	}
	tip.Fed, s.Tip = &fed, &tip
	if m, err = line.New(&s); err != nil {
		return nil, err
	}
	return r.Once(m)
}

// cycle is two runs, the second of one carrier more.
type cycle struct{ few, more *line.Record }

// measure reads a number by its words, the time of one cycle among them. Times are in seconds.
func (c *cycle) measure(words string) (float64, error) {
	kind, rest, _ := strings.Cut(words, " ")
	places, server, _ := strings.Cut(rest, " / ")
	switch kind {
	case "cycle":
		return seconds(c.more.Length - c.few.Length), nil
	case "clear": // from the first release to the last exit, of one carrier
		return c.clear(c.few)
	case "more": // time of a server in a state, in a cycle
		return c.inState(rest)
	case "busy":
		x, err := c.inState(rest + " processing")
		return x / seconds(c.more.Length-c.few.Length), err
	case "throughput":
		return float64(c.more.Packs-c.few.Packs) / seconds(c.more.Length-c.few.Length), nil
	case "peak": // most packs in the places and one in work
		n, err := c.most(c.more, rest)
		return n + 1, err
	case "waiting":
		return c.most(c.more, rest)
	case "lead", "longest":
		return c.lead(kind, places, server)
	case "single": // of the run with the fewer carriers, which is one carrier alone
		return c.single(rest)
	}
	return 0, fmt.Errorf("no such measure: %q", words)
}

// clear is the length of a run without the time to its first release, which a tip without a swap makes one pack's time after the start.
func (c *cycle) clear(r *line.Record) (float64, error) {
	tip, err := stationOf(r, "tip")
	if err != nil {
		return 0, err
	}
	return seconds(r.Length) - seconds(tip.Servers[0].Times[measure.Processing])/float64(r.Packs), nil
}

func (c *cycle) inState(words string) (float64, error) {
	m := servers(words, false)
	a, err := m(c.few)
	if err != nil {
		return 0, err
	}
	b, err := m(c.more)
	return b*seconds(c.more.Length) - a*seconds(c.few.Length), err
}

// service is the time of one pack, from all of the run.
func (c *cycle) service(server string) (float64, error) {
	s, err := stationOf(c.more, server)
	if err != nil {
		return 0, err
	}
	return seconds(s.Servers[0].Times[measure.Processing]) / float64(s.Ended), nil
}

// single is the mean lead, or the peak, of one carrier alone.
func (c *cycle) single(words string) (float64, error) {
	if places, is := strings.CutPrefix(words, "peak "); is {
		n, err := c.most(c.few, places)
		return n + 1, err
	}
	if places, is := strings.CutPrefix(words, "waiting "); is {
		return c.most(c.few, places)
	}
	places, server, _ := strings.Cut(strings.TrimPrefix(words, "lead "), " / ")
	b, err := bufferOf(c.few, places)
	if err != nil {
		return 0, err
	}
	s, err := c.service(server)
	return b.Waits.Mean()/1e6 + s, err
}

// most is the most packs that waited in the places.
func (c *cycle) most(r *line.Record, places string) (float64, error) {
	b, err := bufferOf(r, places)
	if err != nil {
		return 0, err
	}
	return float64(b.Max), nil
}

// lead is the mean or longest time from release to exit: the wait in the places and the time of one pack.
func (c *cycle) lead(kind, places, server string) (float64, error) {
	few, err := bufferOf(c.few, places)
	if err != nil {
		return 0, err
	}
	more, err := bufferOf(c.more, places)
	if err != nil {
		return 0, err
	}
	s, err := c.service(server)
	if kind == "longest" {
		return seconds(more.Waits.Max()) + s, err
	}
	return seconds(more.Waits.Sum()-few.Waits.Sum())/float64(more.Waits.N()-few.Waits.N()) + s, err
}
