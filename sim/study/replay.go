package study

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/result"
)

// What a replay takes in files and pages is bounded twice: by its frames (5 s apart for a day, 60 s for a week) and, for lines of many servers, by
// the letters of its tracks. Three of them and the rest of the page stay under 3 MB.
const (
	mostFrames  = 18000
	mostLetters = 400_000
)

// replays runs the typical, the worst and the best replication again, each filmed. What they finish must be what was counted. Fewer are given
// where ctx is cancelled.
func replays(ctx context.Context, m *line.Model, o Options, each []result.Replication) ([]result.Replay, error) {
	var out []result.Replay
	list := chosen(each)
	_, err := inOrder(ctx, o.Workers, len(list), func(_ context.Context, n int) (result.Replay, error) {
		return replayed(m, o.Seed, list[n-1].which, each[list[n-1].at])
	}, func(p result.Replay) bool {
		out = append(out, p)
		return true
	})
	return out, err
}

// replayed runs one replication again.
func replayed(m *line.Model, seed uint64, which string, was result.Replication) (result.Replay, error) {
	r, film, err := filmed(m, line.Options{Seed: seed, Replication: was.Number, Film: stepFor(clock.Tick(was.LengthH * float64(clock.Hour)))})
	if err != nil {
		return result.Replay{}, err
	}
	if r.Packs != was.Packs || r.Cases != was.Cases {
		return result.Replay{}, &RunError{string(m.Scenario().Name), seed, was.Number,
			fmt.Errorf("run again it finished %d packs and %d cases, not %d and %d", r.Packs, r.Cases, was.Packs, was.Cases)}
	}
	one, letters := replayOf(which, r, film)
	for letters > mostLetters && film.Frames > 2 {
		film.Thin()
		one, letters = replayOf(which, r, film)
	}
	return one, nil
}

// choice is a replication to be shown, by its place in the list.
type choice struct {
	which string
	at    int
}

// chosen are the replication in the middle by finished packs per hour, the lowest and the highest; of equals the first.
func chosen(each []result.Replication) []choice {
	switch len(each) {
	case 0:
		return nil
	case 1:
		return []choice{{"only", 0}}
	}
	order := make([]int, len(each))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(each[a].PacksPerH, each[b].PacksPerH) })
	best := len(order) - 1
	for best > 0 && each[order[best-1]].PacksPerH == each[order[best]].PacksPerH {
		best--
	}
	out := []choice{{"typical", order[(len(order)-1)/2]}}
	if each[order[0]].PacksPerH < each[order[best]].PacksPerH {
		out = append(out, choice{"worst", order[0]}, choice{"best", order[best]})
	}
	return out
}

// stepFor is the time between frames for a replication of this length.
func stepFor(length clock.Tick) clock.Tick {
	for _, s := range []clock.Tick{1, 2, 5, 10, 15, 20, 30, 60, 120, 300, 600, 900, 1800} {
		if length/(s*clock.Second) <= mostFrames {
			return s * clock.Second
		}
	}
	return clock.Hour
}

// filmed is One with a film.
func filmed(m *line.Model, o line.Options) (r *line.Record, f *line.Film, err error) {
	l, err := m.Line(o)
	if err == nil {
		err = l.Run()
	}
	if err != nil {
		return nil, nil, &RunError{string(m.Scenario().Name), o.Seed, o.Replication, err}
	}
	return l.Record(o.Replication), l.Film(), nil
}

// replayOf is the replay of a film, and how many letters its tracks take.
func replayOf(which string, r *line.Record, f *line.Film) (out result.Replay, size int) {
	out = result.Replay{Which: which, Replication: r.Number, StepS: seconds(f.Step), Frames: f.Frames, LengthS: seconds(r.Length), States: line.FilmStates()}
	for _, t := range f.Tracks {
		if idle(t) {
			continue
		}
		x := result.Track{Kind: string(t.Kind), Name: t.Name, Station: t.Station, Piece: t.Piece, Places: t.Places}
		switch t.Kind {
		case line.Finished, line.AsideSoFar, line.CyclesSoFar:
			x.Sum = true
		}
		x.Runs = result.Runs(t.Values, x.Sum)
		size += len(x.Runs)
		out.Tracks = append(out.Tracks, x)
	}
	return out, size
}

// idle tells a buffer without limit that nothing ever came to, and counts of what does not come out of this line.
func idle(t line.Track) bool {
	if t.Kind != line.InBuffer && t.Kind != line.Finished || t.Places > 0 || t.Kind == line.Finished && t.Piece == "packs" {
		return false
	}
	return !slices.ContainsFunc(t.Values, func(v int32) bool { return v != 0 })
}
