package line

import (
	"errors"
	"fmt"

	"pascaline/sim/clock"
)

// What happens at one tick beyond this has no end, in looks around that follow each other (patience) as in entries of the calendar
// (clock.DefaultBudget). The busiest tick of a plant has a few thousand. Who acts is counted only in the last of it (lookBack).
const (
	patience = clock.DefaultBudget
	lookBack = 10_000
)

// acts counts who acted, in order of their first act.
type acts struct {
	names []string
	times map[string]int
}

func (a *acts) add(name string) {
	if a.times == nil {
		a.times = map[string]int{}
	}
	if a.times[name] == 0 {
		a.names = append(a.names, name)
	}
	a.times[name]++
}

// most is who acted most often; of several, the first.
func (a *acts) most() string {
	best := ""
	for _, n := range a.names {
		if t := a.times[n]; t > a.times[best] {
			best = n
		}
	}
	return best
}

// Restless says that something goes on and on without time passing. It names the station that keeps acting: nothing there takes time,
// or this program is at fault.
type Restless struct {
	Station string
	Tick    clock.Tick
}

// Error names the station, the simulated time in seconds, and what to look for.
func (e *Restless) Error() string {
	return fmt.Sprintf("%s, simulated time %.6f s: it keeps acting and time does not move on; give something there a time, a rate or a number of places", e.Station, float64(e.Tick)/1e6)
}

// named says of an error of the calendar which station keeps acting, if it is that: everybody is counted while it goes on for a little.
func (l *Line) named(err error) error {
	var b *clock.BudgetError
	if !errors.As(err, &b) {
		return err
	}
	var entries acts
	l.cal.Trace(func(_ int64, name string, _ int) { entries.add(name) })
	l.agenda.acts, l.agenda.patience = acts{}, lookBack
	l.cal.Budget += lookBack
	_ = l.cal.Run(l.end) // ends as before
	who := entries.most()
	if who == agendaName && l.agenda.acts.times != nil {
		who = l.agenda.acts.most()
	}
	return &Restless{who, b.Tick}
}

// watch counts a node of the last looks around, and says whether there may be more of them.
func (a *agenda) watch(n node, left int) bool {
	a.acts.add(a.l.nameOf(n))
	if left > 0 {
		return true
	}
	a.l.giveUp(a.acts.most())
	return false
}

// giveUp ends a run in which a station keeps acting.
func (l *Line) giveUp(station string) {
	if l.err == nil {
		l.err = &Restless{station, l.cal.Now()}
	}
	l.cal.Halt()
}

// flooded ends a run in which a supply without end met nothing that takes time or room: it runs dry.
func (f *feed) flooded(n int64) {
	if now := f.l.cal.Now(); now != f.at {
		f.at, f.atOnce = now, 0
	}
	f.atOnce += n
	if f.atOnce <= patience {
		return
	}
	f.endless = false
	f.l.giveUp(f.name)
}

// nameOf is what people call a node.
func (l *Line) nameOf(n node) string {
	switch n := n.(type) {
	case *bench:
		return n.station.name
	case *belt:
		return n.station.name
	case *chambers:
		return n.station.name
	case *feed:
		return n.name
	case *pool:
		return n.name
	case *passage:
		return n.in.name
	case *roster:
		return "roster"
	}
	return "line"
}
