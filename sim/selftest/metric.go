package selftest

import (
	"fmt"
	"strings"

	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/measure"
)

// A metric reads one number off a replication. Times are in seconds.
type metric func(*line.Record) (float64, error)

// metricNamed reads how a table of published values names what is measured, such as "wait before labeller" or "share labeller blocked".
func metricNamed(words string) (metric, error) {
	kind, rest, _ := strings.Cut(words, " ")
	switch kind {
	case "wait":
		return bufferMetric(rest, func(b *line.BufferRecord) float64 { return b.Waits.Mean() / 1e6 }), nil
	case "level":
		return bufferMetric(rest, func(b *line.BufferRecord) float64 { return b.Mean }), nil
	case "sojourn":
		return func(r *line.Record) (float64, error) { return r.Start.Mean() / 1e6, nil }, nil
	case "beyond":
		return func(r *line.Record) (float64, error) {
			return float64(r.Start.Over()) / float64(max(1, r.Start.N())), nil
		}, nil
	case "rate":
		return rateOf(rest), nil
	case "content":
		return contentOf(rest), nil
	case "count":
		return servers(rest, false), nil
	case "share":
		return servers(rest, true), nil
	case "running":
		return availability(strings.TrimPrefix(rest, "of busy ")), nil
	case "stops":
		return func(r *line.Record) (float64, error) { n, _ := stopsOf(r); return float64(n) / seconds(r.Length), nil }, nil
	case "down":
		return func(r *line.Record) (float64, error) { n, d := stopsOf(r); return d / float64(max(1, n)), nil }, nil
	case "idle":
		return idleOf(rest), nil
	}
	return nil, fmt.Errorf("no such measure: %q", words)
}

func seconds(t clock.Tick) float64 { return float64(t) / float64(clock.Second) }

func bufferMetric(name string, of func(*line.BufferRecord) float64) metric {
	return func(r *line.Record) (float64, error) {
		b, err := bufferOf(r, name)
		if err != nil {
			return 0, err
		}
		return of(b), nil
	}
}

func bufferOf(r *line.Record, name string) (*line.BufferRecord, error) {
	for i := range r.Buffers {
		if r.Buffers[i].Name == name {
			return &r.Buffers[i], nil
		}
	}
	return nil, fmt.Errorf("no places %q", name)
}

func stationOf(r *line.Record, name string) (*line.StationRecord, error) {
	for i := range r.Stations {
		if r.Stations[i].Name == name {
			return &r.Stations[i], nil
		}
	}
	return nil, fmt.Errorf("no station %q", name)
}

// inStates is the mean number of a station's servers in any of some states.
func inStates(r *line.Record, station string, states ...measure.State) (float64, int, error) {
	s, err := stationOf(r, station)
	if err != nil {
		return 0, 0, err
	}
	var sum clock.Tick
	for i := range s.Servers {
		for _, x := range states {
			sum += s.Servers[i].Times[x]
		}
	}
	return float64(sum) / float64(r.Length), len(s.Servers), nil
}

// servers is the mean number, or share, of a station's servers in a state. "down" is under repair or waiting for it.
func servers(words string, share bool) metric {
	station, state, _ := strings.Cut(words, " ")
	states := []measure.State{}
	for x := measure.State(0); x < measure.NStates; x++ {
		if x.String() == state || state == "down" && (x == measure.UnderRepair || x == measure.WaitRepair) {
			states = append(states, x)
		}
	}
	return func(r *line.Record) (float64, error) {
		if len(states) == 0 {
			return 0, fmt.Errorf("no state %q", state)
		}
		n, k, err := inStates(r, station, states...)
		if share {
			n /= float64(max(1, k))
		}
		return n, err
	}
}

// availability is the share of the time with a piece in hand in which it is really worked on.
func availability(station string) metric {
	return func(r *line.Record) (float64, error) {
		up, _, err := inStates(r, station, measure.Processing)
		if err != nil {
			return 0, err
		}
		down, _, err := inStates(r, station, measure.UnderRepair, measure.WaitRepair)
		return up / (up + down), err
	}
}

// rateOf is the number of tasks ended in a second.
func rateOf(station string) metric {
	return func(r *line.Record) (float64, error) {
		s, err := stationOf(r, station)
		if err != nil {
			return 0, err
		}
		return float64(s.Ended) / seconds(r.Length), nil
	}
}

// contentOf is the mean number of pieces at a station and before it: "labeller", "checkweigher and labeller blocked" (a finished piece that
// still stands at the station before counts too), or that "over rate": the mean time there by Little's law.
func contentOf(words string) metric {
	words, over := strings.CutPrefix(words, "over rate ")
	station, before, _ := strings.Cut(words, " and ")
	return func(r *line.Record) (float64, error) {
		n, _, err := inStates(r, station, measure.Processing, measure.Blocked)
		if err != nil {
			return 0, err
		}
		for i := range r.Buffers {
			b := &r.Buffers[i]
			if b.Name == "before "+station || b.Name == "store before "+station || b.Name == "table" && station == "packing" {
				n += b.Mean
			}
		}
		if before, held := strings.CutSuffix(before, " blocked"); held {
			k, _, err := inStates(r, before, measure.Blocked)
			if err != nil {
				return 0, err
			}
			n += k
		}
		if over {
			x, err := rateOf(station)(r)
			return n / x, err
		}
		return n, nil
	}
}

func stopsOf(r *line.Record) (n int64, down float64) {
	for i := range r.Stops {
		n += r.Stops[i].Times
		down += seconds(r.Stops[i].Down)
	}
	return n, down
}

func idleOf(pool string) metric {
	return func(r *line.Record) (float64, error) {
		for i := range r.Pools {
			if p := &r.Pools[i]; p.Name == pool {
				free := p.Free + p.Kept
				return float64(free) / float64(p.Busy+free), nil
			}
		}
		return 0, fmt.Errorf("no pool %q", pool)
	}
}
