package timestudy

import "math"

// unroll follows the meter of each station over its own rows, in order of time: what it has counted since the first of them. Stations
// have meters of their own, so that those of others say nothing of it. A meter that goes back was replaced or set to 0; what it had counted till then is
// not known.
func (l *Log) unroll() {
	if l.Meter == "" {
		return
	}
	last := map[string]int{}
	for i := range l.Stops {
		s := &l.Stops[i]
		if k, ok := last[s.Station]; ok {
			b := l.Stops[k]
			s.ran, s.set = b.ran+math.Max(0, s.Meter-b.Meter), b.set
			if s.Meter < b.Meter {
				s.set++
			}
		}
		last[s.Station] = i
	}
}

// setBack counts how often meters went back.
func (l *Log) setBack() int {
	most := map[string]int{}
	n := 0
	for _, s := range l.Stops {
		n += s.set - most[s.Station]
		most[s.Station] = s.set
	}
	return n
}

// metered is what the meter of a station counted over its rows; of "" the most that one of them counted.
func (l *Log) metered(station string) float64 {
	most := 0.0
	for _, s := range l.Stops {
		if station == "" || s.Station == station {
			most = math.Max(most, s.ran)
		}
	}
	return most
}
