package line

import "pascaline/sim/clock"

// LotRecord is one lot in one replication.
type LotRecord struct {
	Name    string
	Packs   int64 // to be treated
	Out     int64 // finished
	Aside   int64
	Ready   clock.Tick
	Begun   clock.Tick // below 0 where it was not begun
	Done    clock.Tick // below 0 where it was not finished
	Over    int64      // packs out of the chilled store beyond the limit
	Longest clock.Tick
	Legs    []LegRecord
}

// LegRecord is a lot's way through one station. Means are over its packs, in ticks since the lot was begun.
type LegRecord struct {
	Station         string
	In, Gone        int64
	First, Last     clock.Tick // when the first pack came in and the last went out
	MeanIn, MeanOut clock.Tick
}

// ChangeRecord is the changeovers at one station.
type ChangeRecord struct {
	Station string
	Times   int64
	Stood   clock.Tick // the station stood
	Waited  clock.Tick // of that, for people
}

func (l *Line) recordLots(r *Record) {
	if l.lots == nil {
		return
	}
	for i := range l.lots.list {
		x := &l.lots.list[i]
		rec := LotRecord{Name: x.name, Packs: x.packs, Out: x.out, Aside: x.aside, Ready: x.ready, Begun: x.begun, Done: x.done, Over: x.over, Longest: x.longest}
		for k, t := range l.lots.turns {
			g := &x.legs[k]
			rec.Legs = append(rec.Legs, LegRecord{Station: t.name, In: g.in, Gone: g.gone, First: g.first, Last: g.last,
				MeanIn: tickOf(g.sumIn, g.in), MeanOut: tickOf(g.sumOut, g.gone)})
		}
		r.Lots = append(r.Lots, rec)
	}
	for _, t := range l.lots.turns {
		if c := t.change; c != nil {
			r.Changes = append(r.Changes, ChangeRecord{Station: t.name, Times: c.times, Stood: c.stood, Waited: c.waited})
		}
	}
}
