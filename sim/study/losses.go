package study

import (
	"cmp"
	"slices"

	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/measure"
	"pascaline/sim/press"
	"pascaline/sim/random"
	"pascaline/sim/result"

	"pascaline/scenarios"
)

// idealCycle is the mean time of a vessel cycle that is not held by anything, in seconds.
func idealCycle(s *scenarios.Scenario) float64 {
	v := s.Vessel
	p := press.Phases(s)
	sum := float64(s.Product.Hold+s.Product.GasWait) / 1e6
	times := []*scenarios.Time{p.Close, p.Prefill, p.ComeUp, p.Decompress, p.Open, p.Drain}
	if v.Unloading == "push_through" {
		times = append(times, p.Transfer)
	} else {
		times = append(times, p.TransferIn, p.TransferOut)
	}
	if v.Started != nil {
		times = append(times, &v.Started.Takes)
	}
	for _, t := range times {
		sum += meanOf(t)
	}
	return sum
}

// meanOf is the mean of a time in seconds, 0 where there is none.
func meanOf(t *scenarios.Time) float64 {
	if t == nil {
		return 0
	}
	x, err := random.NewLaw(t.Law())
	if err != nil {
		return 0 // a law that cannot be drawn from was refused before
	}
	return x.Mean()
}

// vesselTime is the station of the vessels, all of them, and what their time is worth: packs per rostered hour at the ideal rate. Nil where there is no
// vessel, or no cycle that takes time.
func (t *total) vesselTime() (v *stationTotal, packs func(clock.Tick) float64) {
	if t.last.Vessel == nil || t.rostered == 0 {
		return nil, nil
	}
	s := t.m.Scenario()
	mixed := mixOf(s)
	if mixed.cycle == 0 {
		return nil, nil
	}
	full, h := float64(s.Vessel.CarriersPerLoad)*mixed.packs, hours(t.rostered)
	for i := range t.stations {
		if t.stations[i].name == "vessel" {
			v = &t.stations[i]
		}
	}
	return v, func(time clock.Tick) float64 { return seconds(time) / mixed.cycle * full / h }
}

// waterfall goes from what the vessels could bring in rostered hours to what was finished, in packs per rostered hour. Vessel time is
// turned into packs at the ideal rate; it adds up by construction, since every vessel second is in exactly one row.
func (t *total) waterfall() []result.Loss {
	s := t.m.Scenario()
	v, packs := t.vesselTime()
	if v == nil {
		return nil
	}
	mixed := mixOf(s)
	full := float64(s.Vessel.CarriersPerLoad) * mixed.packs
	h := hours(t.rostered)
	vessels := clock.Tick(len(v.each))
	w := &fall{}
	w.row("vessel without pause", packs(t.rostered*vessels), "ideal", "", "rostered hours at the mean cycle with full loads")
	on := baseOf(&v.times) + v.times[measure.PlannedStop]
	w.change("hours beyond the roster", packs(on-t.rostered*vessels), "outside", "cycles that were finished after the shift, or hours before it was on")
	w.change("planned stops", -packs(v.times[measure.PlannedStop]), "own", "start-up, wash-down and planned stops of the vessel")
	w.change("under repair", -packs(v.times[measure.UnderRepair]), "own", "")
	w.change("waiting for repair", -packs(v.times[measure.WaitRepair]), "own", "")
	w.change("changeover", -packs(v.times[measure.Changeover]), "own", "")
	w.change("waiting for operator", -packs(v.times[measure.WaitOperator]), "outside", "nobody free to start or empty the vessel")
	t.chargeRows(w, packs)
	pumps := t.pumpRows(w, packs)
	ended := float64(t.vessel.cycleCount) * full / h
	w.change("cycles longer than the mean, repeated or unfinished", ended-packs(v.times[measure.Processing])+pumps, "own", "repeated loads, drawing out, a cycle in hand at the end")
	brought := float64(t.vessel.carriers) * mixed.packs / h
	w.change("part loads", brought-ended, "outside", "loads with fewer carriers than fit")
	out := float64(t.vessel.packsOut) / h
	w.change("part carriers, loads set aside, loads still in the vessel", out-brought, "own", "")
	finished := 0.0
	for _, x := range t.packs {
		finished += x
	}
	finished /= h
	w.change("taken out after the vessel or still on the line", finished-out, "outside", "leakers, rejects, packs between vessel and store at the end")
	w.row("finished", finished, "finished", "", "")
	return w.rows
}

// pumpRows adds what cycles lost to the pumps, and gives the packs per hour that they add up to.
func (t *total) pumpRows(w *fall, packs func(clock.Tick) float64) float64 {
	x := &t.vessel
	waited := x.phaseSum[line.PumpsPhase]
	w.change("waiting for the pumps", -packs(waited), "own", "they were at work on another vessel, or no intensifier was left")
	w.change("flow shared between vessels", -packs(x.slowShared), "own", "come-ups that took longer")
	w.change("intensifiers lost", -packs(x.slowLost), "own", "come-ups that took longer")
	return packs(waited) + packs(x.slowShared) + packs(x.slowLost)
}

// fall collects rows that matter.
type fall struct{ rows []result.Loss }

func (f *fall) row(cause string, x float64, kind, from, detail string) {
	f.rows = append(f.rows, result.Loss{Cause: cause, PacksPerH: x, Kind: kind, From: from, Detail: detail})
}

func (f *fall) change(cause string, x float64, from, detail string) {
	switch {
	case x < 0:
		f.row(cause, x, "loss", from, detail)
	case x > 0:
		f.row(cause, x, "gain", from, detail)
	}
}

// chargeRows adds vessel time that was starved or blocked, by the station that held it, the greatest loss first.
func (t *total) chargeRows(w *fall, packs func(clock.Tick) float64) {
	type held struct {
		way  measure.State
		to   string
		time clock.Tick
	}
	var list []held
	for _, c := range t.charges {
		i := slices.IndexFunc(list, func(h held) bool { return h.way == c.Way && h.to == c.To })
		if i < 0 {
			list = append(list, held{way: c.Way, to: c.To})
			i = len(list) - 1
		}
		list[i].time += c.Time
	}
	slices.SortStableFunc(list, func(a, b held) int { return cmp.Compare(b.time, a.time) })
	for _, h := range list {
		w.change(h.way.String()+": "+h.to, -packs(h.time), "outside", "")
	}
}

// bottleneck sets stations side by side by what they did with their time and by how much vessel time they cost.
func (t *total) bottleneck() result.Bottleneck {
	b := result.Bottleneck{}
	var vessel clock.Tick
	for i := range t.stations {
		if t.stations[i].name == "vessel" {
			vessel = baseOf(&t.stations[i].times)
		}
	}
	lost := func(name string) (sum clock.Tick) {
		for _, c := range t.charges {
			if c.To == name {
				sum += c.Time
			}
		}
		return sum
	}
	for i := range t.stations {
		x := &t.stations[i]
		if x.side {
			continue
		}
		b.Rows = append(b.Rows, result.Limit{Station: x.name, ActiveShare: x.activeShare(), MeanActiveS: x.meanActive(),
			SoleShare: per(float64(x.sole), float64(t.held)), ShiftingShare: per(float64(x.shifting), float64(t.held)), VesselHeldPct: per(float64(lost(x.name)), float64(vessel))})
	}
	for _, name := range []string{"carriers", "supply", "end of the day"} {
		if d := lost(name); d > 0 {
			b.Rows = append(b.Rows, result.Limit{Station: name, VesselHeldPct: per(float64(d), float64(vessel))})
		}
	}
	return b
}
