package line

import (
	"slices"
	"strings"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// Film is what was seen of a line at every step of time: states, contents, people, what was finished. It is taken from outside by one slot
// of the calendar in the last phase of a tick, so a line that is not filmed pays nothing and a filmed one runs as it would have.
type Film struct {
	Step   clock.Tick
	Frames int // the last is the end of the replication, less than a step after the one before
	Tracks []Track
}

// A Track follows one thing. Values has one value for each frame.
type Track struct {
	Kind    TrackKind
	Name    string // of the server, the buffer, the pool, the stop
	Station string // it belongs to; of a buffer, the one that takes from it
	Piece   string // "packs", "carriers", "cases"
	Places  int64  // the most there can be, 0: as many as come
	Values  []int32
	read    func() int64
}

// TrackKind says what the values of a track are.
type TrackKind string

// Kinds of tracks.
const (
	ServerState TrackKind = "state"    // a number of FilmStates
	Inside      TrackKind = "inside"   // units in a server: packs on a lane, carriers in a vessel
	InBuffer    TrackKind = "buffer"   // units that wait
	PeopleBusy  TrackKind = "busy"     // people at work
	PeopleKept  TrackKind = "kept"     // free, but kept for a task that needs more people
	PeopleFree  TrackKind = "free"     // free
	PeopleAway  TrackKind = "away"     // on a break
	StopOn      TrackKind = "stop"     // 1 while the stop makes something stand
	Finished    TrackKind = "finished" // units finished so far at the end of the line, by piece
	CyclesSoFar TrackKind = "cycles"   // vessel cycles ended so far
	AsideSoFar  TrackKind = "aside"    // packs set aside so far
)

// FilmStates names the values of ServerState: the states, then the phases in which a vessel shows its processing.
func FilmStates() []string {
	var names []string
	for s := range measure.NStates {
		names = append(names, s.String())
	}
	return append(names, phaseNames[:]...)
}

// filming takes a film.
type filming struct {
	film Film
	l    *Line
	slot clock.Slot
}

// filmed begins a film with a frame every step.
func (l *Line) filmed(step clock.Tick) {
	f := &filming{film: Film{Step: step}, l: l}
	f.slot = l.cal.Add("film", f, 0)
	f.servers()
	f.buffers()
	f.people()
	f.counts()
	l.film = f
	l.cal.Set(f.slot, 0, clock.Last)
}

// Fire takes one frame.
func (f *filming) Fire(int) {
	f.frame()
	if next := f.l.cal.Now() + f.film.Step; next < f.l.end {
		f.l.cal.Set(f.slot, next, clock.Last)
	}
}

func (f *filming) frame() {
	for i := range f.film.Tracks {
		t := &f.film.Tracks[i]
		t.Values = append(t.Values, int32(t.read()))
	}
	f.film.Frames++
}

// Film is the film of a line that has run, with its end as the last frame; nil where none was taken.
func (l *Line) Film() *Film {
	if l.film == nil {
		return nil
	}
	l.film.frame()
	return &l.film.film
}

// Thin leaves out every second frame, but never the last.
func (f *Film) Thin() {
	for i := range f.Tracks {
		v := f.Tracks[i].Values
		thin := v[:0]
		for k, x := range v {
			if k%2 == 0 || k == len(v)-1 {
				thin = append(thin, x)
			}
		}
		f.Tracks[i].Values = thin
		f.Frames = len(thin)
	}
	f.Step *= 2
}

func (f *filming) add(t Track) { f.film.Tracks = append(f.film.Tracks, t) }

func (f *filming) servers() {
	for _, s := range f.l.stations {
		for _, o := range s.servers {
			f.server(s, o)
		}
	}
}

func (f *filming) server(s *station, o stander) {
	b := o.base()
	t := Track{Kind: ServerState, Name: b.name, Station: s.name, Piece: s.piece, read: func() int64 { return int64(b.st.Now()) }}
	switch o := o.(type) {
	case *vessel:
		t.read = func() int64 {
			if x := o.st.Now(); x != measure.Processing || !o.working {
				return int64(x)
			}
			return int64(measure.NStates) + int64(o.at)
		}
		f.add(t)
		f.add(Track{Kind: Inside, Name: b.name, Station: s.name, Piece: s.piece, Places: int64(o.c.load), read: func() int64 { return int64(len(o.inside)) }})
	case *lane:
		f.add(t)
		f.add(Track{Kind: Inside, Name: b.name, Station: s.name, Piece: s.piece, Places: int64(o.b.places), read: func() int64 { return int64(o.on.past) }})
	default:
		f.add(t)
	}
}

func (f *filming) buffers() {
	l := f.l
	for _, b := range l.buffers {
		t := Track{Kind: InBuffer, Name: b.name, Piece: b.piece, Places: b.places, read: b.level.Value}
		if i := slices.IndexFunc(l.stations, func(s *station) bool {
			return s.in != nil && s.in.level == b.level || strings.HasSuffix(b.name, " "+s.name)
		}); i >= 0 {
			t.Station = l.stations[i].name
		} else if len(l.stations) > 0 && l.empties != nil && b.level == l.empties.level {
			t.Station = l.stations[0].name
		}
		f.add(t)
	}
	if l.returns != nil {
		f.add(Track{Kind: InBuffer, Name: "on the way back", Piece: "carriers", Station: l.stations[0].name, read: func() int64 { return int64(len(l.returns.way)) }})
	}
}

func (f *filming) people() {
	for _, p := range f.l.pools {
		if p == nil {
			continue
		}
		count := func(is func(*person) bool) func() int64 {
			return func() int64 {
				n := int64(0)
				for i := range p.people {
					if is(&p.people[i]) {
						n++
					}
				}
				return n
			}
		}
		for _, k := range []struct {
			kind TrackKind
			is   func(*person) bool
		}{
			{PeopleBusy, func(h *person) bool { return h.is == busy || h.is == overtime && h.task != nil }},
			{PeopleKept, func(h *person) bool { return h.is == kept }},
			{PeopleFree, func(h *person) bool { return h.is == free || h.is == standing || h.is == overtime && h.task == nil }},
			{PeopleAway, func(h *person) bool { return h.is == away }},
		} {
			f.add(Track{Kind: k.kind, Name: p.name, Places: int64(len(p.people)), read: count(k.is)})
		}
	}
}

func (f *filming) counts() {
	l := f.l
	for _, s := range l.stops {
		f.add(Track{Kind: StopOn, Name: s.name, Station: s.label, read: func() int64 {
			if s.holding == measure.Processing {
				return 0
			}
			return 1
		}})
	}
	last := l.stretchs[len(l.stretchs)-1].store
	f.add(Track{Kind: Finished, Name: "finished", Piece: "packs", read: func() int64 { return last.packs }})
	f.add(Track{Kind: Finished, Name: "finished", Piece: "cases", read: func() int64 { return last.cases }})
	f.add(Track{Kind: Finished, Name: "finished", Piece: "carriers", read: func() int64 { return last.carriers }})
	f.add(Track{Kind: AsideSoFar, Name: "set aside", Piece: "packs", read: func() int64 { return l.aside }})
	if c := l.vessels; c != nil {
		f.add(Track{Kind: CyclesSoFar, Name: "vessel cycles", read: func() int64 {
			n := uint64(0)
			for _, v := range c.each {
				n += v.ended
			}
			return int64(n)
		}})
	}
}
