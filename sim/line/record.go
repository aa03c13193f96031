package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// Record is what one replication showed, in whole ticks and counts.
type Record struct {
	Number    int
	Length    clock.Tick
	Rostered  clock.Tick // hours of the roster in it; the length where there is none
	Packs     int64      // finished at the end of the line
	Cases     int64
	Carriers  int64
	In        int64 // over all stretches
	Finished  int64
	Aside     int64
	OnLine    int64
	Stations  []StationRecord
	Vessel    *VesselRecord
	Charges   []Charge
	Held      clock.Tick // some station held the line, by its active period
	Buffers   []BufferRecord
	Pools     []PoolRecord
	Shifts    []ShiftRecord
	Stops     []StopRecord
	Stretches []StretchRecord
	Start     measure.Tally // packs: time since the start of their carrier
	Out       measure.Tally // packs: time since they left the vessel
	Steps     []int64       // packs finished in each step of time
	Step      clock.Tick
	Lots      []LotRecord
	Changes   []ChangeRecord
	Warnings  []Warning
	Fired     uint64 // entries of the calendar carried out
}

// StationRecord is one station.
type StationRecord struct {
	Name, Piece string
	Side        bool // beside the line: wiping, tubs
	Servers     []ServerRecord
	Ended       int64 // tasks, loads or packs ended
	Handled     int64 // pieces handed on
	Asides      int64
	Waits       measure.Tally
	Lost        clock.Tick // work that was done again
	Sole        clock.Tick // it held the line alone
	Shifting    clock.Tick // the hold was passing to it or from it
	Lacked      clock.Tick // starved for want of an empty carrier, part of starved
}

// ServerRecord is one server.
type ServerRecord struct {
	Name    string
	Times   [measure.NStates]clock.Tick
	Active  clock.Tick
	Periods int64
}

// VesselRecord is all vessels together.
type VesselRecord struct {
	Cycles, Part, Repeated, Aside int64
	Carriers                      int64 // in all loads ended
	PacksOut                      int64
	CycleSum                      clock.Tick // from taking a load to the end of its cycle
	SlowLost, SlowShared          clock.Tick // come-up that took longer: intensifiers were lost, the flow was shared
	PhaseSum                      []clock.Tick
	PhaseN                        []int64
	Ends                          []clock.Tick // of cycles, if kept
	Outs                          []int64      // packs finished by then, or carriers where the line ends with them
}

// PumpsPhase is the number of the phase in which a vessel waits for the pumps.
const PumpsPhase = int(phPumps)

// PhaseNames are the phases of VesselRecord, in order.
func PhaseNames() []string { return phaseNames[:] }

// Charge is vessel time lost to a station or cause.
type Charge struct {
	Way   measure.State // starved or blocked
	To    string        // station or cause
	State measure.State // what that station did
	Time  clock.Tick
}

// BufferRecord is one place where units wait.
type BufferRecord struct {
	Name, Piece string
	Places      int64
	Mean        float64
	Max         int64
	Full        clock.Tick
	Steps, Most []float64
	Waits       measure.Tally
}

// PoolRecord is one pool of people. Times are person-ticks.
type PoolRecord struct {
	Name                                       string
	People                                     int
	Busy, Free, Kept, Away, Overtime, OffShift clock.Tick
	Standing                                   clock.Tick // on shift during start-up and wash-down
	Walking                                    clock.Tick
	BusyAt, WaitSum                            []clock.Tick // by station; the last is mending
	WaitN                                      []int64
	Longest                                    clock.Tick
	ByShift                                    []PoolShift
}

// PoolShift is a pool in one shift.
type PoolShift struct {
	Heads      int
	Busy, Free clock.Tick   // free and kept
	Longest    clock.Tick   // longest stretch without a pause that ended in this shift
	Waited     []clock.Tick // tasks waited for people, by station; the last is mending
}

// ShiftRecord is one shift of the roster.
type ShiftRecord struct {
	Name, Hours string
	Packs       []int64 // finished, each time it was on
	Overtime    clock.Tick
}

// StopRecord is one cause of standing at one station.
type StopRecord struct {
	Station, Name string
	Planned       bool
	Slows         bool // intensifiers are lost and nothing stands
	Times         int64
	Down, Waited  clock.Tick
}

// StretchRecord is what left one stretch.
type StretchRecord struct {
	From, To, Piece string
	Pieces, Packs   int64
	Start           measure.Tally
}

// Record sums up a line that has run.
func (l *Line) Record(number int) *Record {
	last := l.stretchs[len(l.stretchs)-1].store
	r := &Record{
		Number: number, Length: l.cal.Now(), Rostered: l.cal.Now(), Packs: last.packs, Cases: last.cases, Carriers: last.carriers,
		In: l.in, Finished: l.finished, Aside: l.aside, OnLine: l.onLine(), Start: last.start, Out: last.vessel,
		Steps: last.steps.Values(), Step: l.step, Warnings: l.warnings, Fired: l.cal.Fired(),
	}
	if l.roster != nil {
		r.Rostered = l.roster.rostered(r.Length)
		for i := range l.roster.shifts {
			s := &l.roster.shifts[i]
			r.Shifts = append(r.Shifts, ShiftRecord{s.name, s.hours, s.packs, s.overtime})
		}
	}
	for _, s := range l.stations {
		r.Stations = append(r.Stations, s.record(r.Length))
	}
	for _, s := range l.stretchs {
		r.Stretches = append(r.Stretches, StretchRecord{s.store.from, s.store.to, s.store.piece, s.store.pieces, s.store.packs, s.store.start})
	}
	sole, shifting, held := l.moving.Close(r.Length)
	r.Held = held
	for i := range sole {
		r.Stations[i].Sole, r.Stations[i].Shifting = sole[i], shifting[i]
	}
	l.recordVessel(r)
	l.recordBuffers(r)
	l.recordPeople(r)
	l.recordLots(r)
	return r
}

func (s *station) record(now clock.Tick) StationRecord {
	r := StationRecord{Name: s.name, Piece: s.piece, Side: s.side, Asides: s.asides}
	for _, o := range s.servers {
		b := o.base()
		x := ServerRecord{Name: b.name, Times: b.st.Close(now)}
		x.Active, x.Periods = b.st.Active()
		r.Servers = append(r.Servers, x)
		r.Ended += int64(b.ended)
		if p, ok := o.(*place); ok {
			r.Lost += p.lost
		}
	}
	if s.bench != nil {
		r.Lacked = s.bench.lacked
	}
	r.Handled = r.Ended
	if s.l.vessels != nil && s == s.l.vessels.station {
		r.Handled = s.l.vessels.carriers
	}
	if s.in != nil {
		r.Waits = s.in.waits
	}
	return r
}

func (l *Line) recordVessel(r *Record) {
	c := l.vessels
	if c == nil {
		return
	}
	v := &VesselRecord{Part: c.part, Repeated: c.repeated, Aside: c.aside, Carriers: c.carriers, PacksOut: c.packsOut, CycleSum: c.cycleSum,
		SlowLost: c.slowLost, SlowShared: c.slowShared, PhaseSum: c.phaseSum[:], PhaseN: c.phaseN[:], Ends: c.ends, Outs: c.outs}
	for _, x := range c.each {
		v.Cycles += int64(x.ended)
	}
	r.Vessel = v
	for _, x := range l.blame.rows {
		r.Charges = append(r.Charges, Charge{x.key.way, l.causeName(x.key.station), x.key.state, x.time})
	}
}

func (l *Line) causeName(station int) string {
	switch station {
	case ofSupply:
		return "supply"
	case ofCarrier:
		return "carriers"
	case ofClosing:
		return "end of the day"
	case ofStore:
		return "vessel"
	}
	return l.stations[station].name
}

func (l *Line) recordBuffers(r *Record) {
	for _, b := range l.buffers {
		x := BufferRecord{Name: b.name, Piece: b.piece, Places: b.places, Mean: b.level.Mean(r.Length), Max: b.level.Max(), Full: b.level.Full(r.Length), Waits: *b.waits}
		x.Steps, x.Most = b.level.Steps(r.Length)
		r.Buffers = append(r.Buffers, x)
	}
}

func (l *Line) recordPeople(r *Record) {
	for _, p := range l.written {
		t := p.shares()
		x := PoolRecord{Name: p.name, People: len(p.people), Busy: t[busy], Free: t[free], Kept: t[kept], Away: t[away], Overtime: t[overtime],
			OffShift: t[offShift], Standing: t[standing], Walking: p.walking, BusyAt: p.busyAt, WaitSum: p.waitSum, WaitN: p.waitN, Longest: p.longest}
		for i, row := range p.byShift {
			s := PoolShift{Heads: len(p.people), Busy: row[busy], Free: row[free] + row[kept], Longest: p.longestIn[i], Waited: p.waitedIn[i]}
			if l.roster != nil && i < len(l.roster.shifts) {
				s.Heads = l.roster.shifts[i].heads[p.node]
			}
			x.ByShift = append(x.ByShift, s)
		}
		r.Pools = append(r.Pools, x)
	}
	for _, s := range l.stops {
		r.Stops = append(r.Stops, StopRecord{s.label, s.name, s.planned, s.loses > 0, s.times, s.down, s.waited})
	}
}
