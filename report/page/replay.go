package page

import (
	"encoding/json"
	"fmt"
	"html/template"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// replay is the drawn line that plays a replication. Its data are drawn by assets/replay.js.
type replay struct {
	Data    template.JS
	Choices []string // one for each replay, in order
	Printed string   // what stands beside the picture on paper
}

// film is what the script gets.
type film struct {
	StartS  float64         `json:"start_s"` // of the plant week; -1: counted from the start
	Replays []result.Replay `json:"replays"`
}

// replaySection plays replications that were run again with a recorder.
func replaySection(r *result.Run) (*section, error) {
	if len(r.Replays) == 0 {
		return nil, nil
	}
	f := film{StartS: -1, Replays: r.Replays}
	if r.Profile.Roster {
		f.StartS = 60 * float64(r.Profile.StartMin)
	}
	data, err := json.Marshal(f) // <, > and & become escapes, so that no name can end the element that carries it
	if err != nil {
		return nil, fmt.Errorf("replay: %w", err)
	}
	s := &section{ID: "replay", Title: "The line at work: a replay", Replay: &replay{Data: template.JS(data)},
		Says: []string{"Choose a replication and play it: the very run that was counted was run again and seen every " +
			number.Figure(r.Replays[0].StepS, 1) + " s. Below the line stands what each server did around the time shown."}}
	t := table{Caption: "What the replays come to, counted from their pictures, and what was counted when they were run first",
		Head: columns("Replay", "replication", "packs/h", "packs, replay", "packs, counted", "cases, replay", "cases, counted", "cycles, replay", "cycles, counted"), Folded: true}
	for i := range r.Replays {
		p := &r.Replays[i]
		was, ok := replicationOf(r, p.Replication)
		if !ok {
			return nil, fmt.Errorf("replay: there is no replication %d", p.Replication)
		}
		s.Replay.Choices = append(s.Replay.Choices, fmt.Sprintf("%s: replication %d, %s packs/h", p.Which, p.Replication, number.Fixed(was.PacksPerH, 0)))
		row := []string{p.Which, number.Count(int64(p.Replication)), number.Fixed(was.PacksPerH, 0)}
		for _, c := range []struct {
			kind, piece string
			was         int64
		}{{"finished", "packs", was.Packs}, {"finished", "cases", was.Cases}, {"cycles", "", was.Cycles}} {
			n, err := endOf(p, c.kind, c.piece)
			if err != nil {
				return nil, err
			}
			row = append(row, number.Count(n), number.Count(c.was))
		}
		t.Rows = append(t.Rows, row)
	}
	s.Tables = []table{t}
	return s, nil
}

func replicationOf(r *result.Run, no int) (result.Replication, bool) {
	for _, p := range r.PerReplication {
		if p.Number == no {
			return p, true
		}
	}
	return result.Replication{}, false
}

// endOf is the last value of a track, 0 where there is none.
func endOf(p *result.Replay, kind, piece string) (int64, error) {
	for i := range p.Tracks {
		if t := &p.Tracks[i]; t.Kind == kind && t.Piece == piece {
			v, err := t.Values(p.Frames)
			if err != nil {
				return 0, err
			}
			return int64(v[len(v)-1]), nil
		}
	}
	return 0, nil
}
