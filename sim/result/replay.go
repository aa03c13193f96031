package result

import (
	"fmt"
	"strconv"
	"strings"
)

// Replay is one replication of a run, run again and seen at every step of time: what a drawn line plays. It is the very replication that was
// counted, by its number and the run's seed.
type Replay struct {
	Which       string   `json:"which"`       // "typical", "worst", "best", or "only" where there is one replication
	Replication int      `json:"replication"` // its number in per_replication
	StepS       float64  `json:"step_s"`      // between frames
	Frames      int      `json:"frames"`      // the last is the end of the replication
	LengthS     float64  `json:"length_s"`
	States      []string `json:"states"` // what the values of a track of kind "state" mean
	Tracks      []Track  `json:"tracks"` // in the order of the line
}

// Track follows one thing through all frames of a replay.
type Track struct {
	Kind    string `json:"kind"` // "state", "inside", "buffer", "busy", "kept", "free", "away", "stop", "finished", "aside", "cycles"
	Name    string `json:"name"`
	Station string `json:"station,omitempty"`
	Piece   string `json:"piece,omitempty"`
	Places  int64  `json:"places,omitempty"` // 0: as many as come
	Sum     bool   `json:"sum,omitempty"`    // the values are what was added since the frame before
	Runs    string `json:"runs"`             // values by frame; "3*12" is 12 frames of 3
}

// Runs writes values as a track carries them; with sum, what is added from each to the next.
func Runs(values []int32, sum bool) string {
	var b strings.Builder
	at := func(i int) int32 {
		if sum && i > 0 {
			return values[i] - values[i-1]
		}
		return values[i]
	}
	for i := 0; i < len(values); {
		v, n := at(i), 1
		for i+n < len(values) && at(i+n) == v {
			n++
		}
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(strconv.Itoa(int(v)))
		if n > 1 {
			b.WriteString("*" + strconv.Itoa(n))
		}
		i += n
	}
	return b.String()
}

// Values reads a track back: one value for each of the frames, summed up where the track says so. An error says what does not fit.
func (t *Track) Values(frames int) ([]int32, error) {
	out := make([]int32, 0, max(0, min(frames, 1<<20)))
	total := 0
	for _, word := range strings.Fields(t.Runs) {
		value, times, repeated := strings.Cut(word, "*")
		v, err := strconv.ParseInt(value, 10, 32)
		n := 1
		if err == nil && repeated {
			n, err = strconv.Atoi(times)
		}
		if err != nil || n < 1 || n > frames-len(out) {
			return nil, fmt.Errorf("track %q of the replay does not fit at %.20q", t.Name, word)
		}
		for range n {
			if t.Sum {
				total += int(v)
			} else {
				total = int(v)
			}
			out = append(out, int32(total))
		}
	}
	if len(out) != frames {
		return nil, fmt.Errorf("track %q of the replay has %d values for %d frames", t.Name, len(out), frames)
	}
	return out, nil
}
