package study

import (
	"strings"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
	"pascaline/sim/result"
)

// lostToStops says what each stop cost in vessel output. Of a stop of the vessel it is its standing time; of a stop elsewhere, the vessel
// time that was starved or blocked by that station while it was down; of lost intensifiers, what come-ups took longer. Where a station has several stops, they share that by how long each stood.
func (t *total) lostToStops(stops []result.Stop) {
	v, packs := t.vesselTime()
	if v == nil {
		return
	}
	for i := range stops {
		s := &stops[i]
		s.From = "outside"
		if ofStation(s.Station, "vessel") {
			s.From = "own"
		}
		var time clock.Tick
		switch {
		case s.Slows:
			time = t.vessel.slowLost
		case s.From == "own" && s.Planned:
			time = clock.Tick(s.DownH * float64(t.n) * float64(clock.Hour))
		case s.From == "own":
			time = v.times[measure.UnderRepair] + v.times[measure.WaitRepair]
		case !s.Planned:
			time = t.heldDown(s.Station)
		}
		s.Lost = packs(time)
		if !s.Planned || s.Slows {
			s.Lost *= share(stops, i)
		}
	}
}

// ofStation tells whether a stop of what the scenario calls label is one of the station: of all of it, or of one of its servers.
func ofStation(label, station string) bool {
	return label == station || strings.HasPrefix(label, station+",") || strings.HasPrefix(label, station+" ")
}

// heldDown is the vessel time that was starved or blocked by a station that was down.
func (t *total) heldDown(label string) (sum clock.Tick) {
	for _, c := range t.charges {
		if ofStation(label, c.To) && (c.State == measure.UnderRepair || c.State == measure.WaitRepair) {
			sum += c.Time
		}
	}
	return sum
}

// share is stop i's part of the time that the unplanned stops of its station stood, or of that in which intensifiers were lost if it is such a one.
func share(stops []result.Stop, i int) float64 {
	sum := 0.0
	for _, s := range stops {
		stands := !s.Planned && !s.Slows && !stops[i].Slows && s.Station == stops[i].Station
		if stands || s.Slows && stops[i].Slows {
			sum += s.DownH
		}
	}
	return per(stops[i].DownH, sum)
}
