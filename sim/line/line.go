package line

import (
	"fmt"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// Line is one line in one replication.
type Line struct {
	cal      *clock.Calendar
	chain    *chain // nil: nobody goes ahead
	ahead    bool   // just now somebody does
	agenda   *agenda
	boxes    boxes
	end      clock.Tick // of the replication
	step     clock.Tick // of pictures over time
	stations []*station // in the order of the line
	stretchs []*stretch
	pools    []*pool // by node
	written  []*pool // the same in the order of the file
	back     *alarm
	blame    *blame
	moving   *measure.Moving
	roster   *roster
	stops    []*stop
	vessels  *chambers // nil where there is none
	returns  *returns  // nil where as many carriers as wanted are there
	empties  *inbox
	buffers  []*buffer
	lots     *lots // nil where there are none
	carriers int64 // owned, 0: as many as wanted
	outside  int64 // carriers that came full from outside and are still here

	in       int64 // packs that entered
	finished int64
	aside    int64
	closed   bool  // nothing comes in any more before the shift ends
	inBefore int64 // packs that had come in when that began or ended
	still    bool  // the whole line stands: start-up, wash-down, night
	off      bool  // nobody is rostered
	until    bool  // the replication ends when everything is finished
	doneAt   clock.Tick
	film     *filming // nil: none is taken
	warnings []Warning
	err      error
}

// Warning is a doubt about a run.
type Warning struct{ Code, Text string }

// station is one station as people see it: what it is called and its servers.
type station struct {
	l       *Line
	no      int
	name    string
	section string // of the scenario file
	side    bool   // beside the line: wiping, tubs
	piece   string // what it handles
	stretch *stretch
	servers []stander
	in      *inbox
	node    int
	out     taker // takes what is set aside here
	asides  int64
	bench   *bench
	turn    *turn // nil where there are no lots
	inside  bool  // what it hands on stays within its section: tubs
	before  *turn // of the places before it, where lots are kept apart there
}

// A holder knows how many units it has in hand and before it that will go on.
type holder interface{ holds() int64 }

// stretch is a run of stations between what comes in and the store.
type stretch struct {
	feed    *feed
	store   *store
	loading *filling
	nodes   []int // of holders, upstream first
	holders []holder
}

func (b *bench) holds() int64 {
	n := int64(b.busyPlaces())
	if b.in != nil && b.in != b.l.empties {
		n += b.in.held()
	}
	return n
}

func (p *passage) holds() int64 { return p.in.held() }

// dry tells whether nothing more will come to node: its stretch takes nothing more in and everything before it is empty.
func (l *Line) dry(node int) bool {
	for _, s := range l.stretchs {
		first := s.nodes[0]
		if node < first || node > s.nodes[len(s.nodes)-1] {
			continue
		}
		if !s.feed.done() && !l.closed {
			return false
		}
		for i, h := range s.holders {
			if s.nodes[i] < node && h.holds() > 0 {
				return false
			}
		}
		return true
	}
	return false
}

// close begins or ends the time in which nothing comes into the line any more.
func (l *Line) close(closed bool) {
	l.blame.settle(l.cal.Now())
	if l.closed && l.in != l.inBefore {
		l.fail("line", fmt.Sprintf("%d packs came in when nothing was to be begun any more", l.in-l.inBefore))
	}
	l.closed, l.inBefore = closed, l.in
	l.pace()
}

// closingChanged lets everybody look again: a last load or a last case may be due.
func (l *Line) closingChanged() { l.agenda.pokeAll() }

// closing tells whether some stretch takes nothing more in.
func (l *Line) closing() bool {
	if l.closed {
		return true
	}
	for _, s := range l.stretchs {
		if s.feed.done() {
			return true
		}
	}
	return false
}

// onLine is the number of packs between the store they came from and the store they go to.
func (l *Line) onLine() int64 { return l.in - l.finished - l.aside }

// leaves counts packs that are finished.
func (l *Line) leaves(packs int64, now clock.Tick) {
	l.finished += packs
	l.emptier(now)
}

// emptier looks whether the line is empty and somebody waits for that.
func (l *Line) emptier(now clock.Tick) {
	if l.onLine() != 0 {
		return
	}
	if l.roster != nil {
		l.agenda.poke(l.roster.node)
	}
	if l.until && l.allDone() {
		l.doneAt = now
		l.cal.Halt()
	}
}

func (l *Line) allDone() bool {
	for _, s := range l.stretchs {
		if !s.feed.done() {
			return false
		}
	}
	return true
}

// finishedHere is what the end of the line has finished: packs, or carriers where it ends with them.
func (l *Line) finishedHere() int64 {
	s := l.stretchs[len(l.stretchs)-1].store
	if s.piece == "carriers" {
		return s.carriers
	}
	return s.packs
}

// setAside takes a unit's packs out of the line at a station.
func (l *Line) setAside(s *station, u unit) {
	l.aside += int64(u.n)
	s.asides += int64(u.n)
	if u.lot != 0 {
		l.lots.setAside(s.turn, u, l.cal.Now())
	}
	if u.box != none {
		l.boxes.close(u.box)
	}
	if l.closing() {
		l.closingChanged()
	}
	l.emptier(l.cal.Now())
}

// carrierBack brings an emptied carrier back to loading, or out of the line where it came from outside.
func (l *Line) carrierBack(u unit) {
	if l.returns == nil {
		l.outside--
		return
	}
	l.returns.put(unit{no: u.no, box: none, out: none})
}

// lingers tells whether people stay on after the end of their shift, until the line is empty and washed.
func (l *Line) lingers() bool { return l.roster != nil && l.roster.lingering }

// warn remembers a doubt once.
func (l *Line) warn(code, text string) {
	for _, w := range l.warnings {
		if w.Code == code && w.Text == text {
			return
		}
	}
	l.warnings = append(l.warnings, Warning{code, text})
}

// An Imbalance is a fault of this program: what must hold at every moment did not.
type Imbalance struct {
	Station string
	Tick    clock.Tick
	What    string
}

// Error names the station, the simulated time in seconds and what did not hold.
func (e *Imbalance) Error() string {
	return fmt.Sprintf("internal error at %s, simulated time %.6f s: %s", e.Station, float64(e.Tick)/1e6, e.What)
}

// fail stops the run: a fault of this program, never printed as a result.
func (l *Line) fail(station, what string) {
	if l.err == nil {
		l.err = &Imbalance{station, l.cal.Now(), what}
	}
	l.cal.Halt()
}

// Run lets the line run to its end.
func (l *Line) Run() error {
	defer l.cal.Close()
	if err := l.cal.Run(l.end); err != nil {
		return l.named(err)
	}
	if l.err != nil {
		return l.err
	}
	l.finish()
	return l.balance()
}

// finish brings all accounts up to the end.
func (l *Line) finish() {
	now := l.cal.Now()
	l.blame.settle(now)
	for _, s := range l.stations {
		if s.bench != nil {
			for _, p := range s.bench.places {
				p.lack(false)
			}
		}
	}
	for _, p := range l.pools {
		if p != nil {
			p.settle()
		}
	}
	if l.roster != nil {
		l.roster.finish(now)
	}
	for _, s := range l.stations {
		if a, ok := s.servers[0].(*lane); ok && a.b.wedged() {
			l.warn("wet packs wait for each other", fmt.Sprintf("at the end the %s could take nothing more, its first pack was wet, and no place to wait for another round was free: nothing moves on any more; give wet packs more places", s.name))
		}
	}
	if l.until && l.doneAt == 0 && l.onLine() > 0 {
		l.warn("unfinished", fmt.Sprintf("%d packs were not finished when the longest time allowed was over", l.onLine()))
		l.entangled("at the end", false)
	} else {
		l.entangled("at the end", true)
	}
	if n := l.onLine(); n > 0 && l.allDone() && !l.until {
		if len(l.cal.Parked()) > 0 && l.quiet() {
			l.warn("left over", fmt.Sprintf("%d packs can never move on: nothing more comes and no load or case is complete", n))
		}
	}
}
