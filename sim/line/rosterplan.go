package line

import (
	"cmp"
	"slices"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/clock"
	"pascaline/sim/random"
)

// plan works the roster out for a replication that begins at tick start of the plant week and is end long.
func (r *roster) plan(s *scenarios.Roster, pools scenarios.Pools, start, end clock.Tick) {
	r.stays = s.Overnight == "packs stay on the line"
	for i := range s.Shifts {
		r.shifts = append(r.shifts, r.shiftPlan(&s.Shifts[i], pools))
	}
	firstDay := start/clock.Day - 2
	for day := firstDay; day*clock.Day < start+end; day++ {
		if !s.Days[((day%7)+7)%7] {
			continue
		}
		midnight := day*clock.Day - start
		for i := range s.Shifts {
			r.planShift(&s.Shifts[i], i, midnight, end)
			r.planBreaks(s, i, midnight, end)
		}
	}
	slices.SortStableFunc(r.events, func(a, b rosterEvent) int {
		return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.kind, b.kind))
	})
	r.joinShifts()
}

func (r *roster) shiftPlan(s *scenarios.Shift, pools scenarios.Pools) shiftPlan {
	p := shiftPlan{
		name: s.Name, hours: hoursText(clock.Tick(s.Hours.From), clock.Tick(s.Hours.To)),
		heads: make([]int, len(r.l.pools)), startUp: clock.Tick(s.StartUp), wash: clock.Tick(s.WashDown), last: clock.Tick(s.LastCarrier),
	}
	for i := range pools {
		for k, q := range r.l.pools {
			if q != nil && q.name == pools[i].Name {
				p.heads[k] = int(pools[i].In(s))
			}
		}
	}
	return p
}

// planShift adds one turn of a shift; one that began before the replication is joined late, without start-up.
func (r *roster) planShift(s *scenarios.Shift, i int, midnight, end clock.Tick) {
	from, to := midnight+clock.Tick(s.Hours.From), midnight+clock.Tick(s.Hours.To)
	if to <= 0 || from >= end {
		return
	}
	add := func(at clock.Tick, kind rosterKind, more bool) {
		if at >= 0 && at <= end {
			r.events = append(r.events, rosterEvent{at: at, kind: kind, shift: i, more: more})
		}
	}
	p := &r.shifts[i]
	r.hours = append(r.hours, span{max(from, 0), min(to, end)})
	add(max(from, 0), shiftStarts, from < 0)
	add(from+p.startUp, lineReady, false)
	if p.last > 0 || p.wash > 0 {
		add(to-p.wash-p.last, lastCarrier, false)
	}
	if p.wash > 0 {
		add(to-p.wash, washDown, false)
	}
	add(to, shiftEnds, false)
}

func (r *roster) planBreaks(s *scenarios.Roster, shift int, midnight, end clock.Tick) {
	for k := range s.Breaks {
		b := &s.Breaks[k]
		sh := &s.Shifts[shift]
		if string(b.Shift) != sh.Name {
			continue
		}
		for _, m := range b.At {
			at := midnight + clock.Tick(m.At)%clock.Day
			if clock.Tick(m.At)%clock.Day < clock.Tick(sh.Hours.From) { // after midnight
				at += clock.Day
			}
			for g := range int(b.InGroups) {
				begins := at + clock.Tick(g)*clock.Tick(b.Length)
				if begins < 0 || begins >= end {
					continue
				}
				r.events = append(r.events, rosterEvent{
					at: begins, kind: breakBegins, shift: shift, group: g, groups: int(b.InGroups), pools: r.poolsOf(b),
					pause: &pause{end: begins + clock.Tick(b.Length), length: clock.Tick(b.Length), rule: breakRuleOf(string(b.TaskInHand))},
				})
			}
		}
	}
}

func breakRuleOf(word string) breakRule {
	switch word {
	case "paused":
		return pauseTask
	case "finished first, break cut short":
		return finishShort
	}
	return finishFirst
}

func (r *roster) poolsOf(b *scenarios.BreakRule) (pools []*pool) {
	for _, p := range r.l.pools {
		if p == nil {
			continue
		}
		if slices.ContainsFunc(b.Pools, func(n units.Text) bool { return string(n) == p.name || string(n) == "all" }) {
			pools = append(pools, p)
		}
	}
	return pools
}

// joinShifts marks ends that another start follows at the same tick.
func (r *roster) joinShifts() {
	for i := range r.events {
		e := &r.events[i]
		if e.kind != shiftEnds {
			continue
		}
		for j := i + 1; j < len(r.events) && r.events[j].at == e.at; j++ {
			if r.events[j].kind == shiftStarts {
				e.more, r.events[j].more = true, true
			}
		}
	}
}

// StartOf is when in the plant week a scenario's replication begins, and whether it has a roster that gives this a meaning.
func StartOf(s *scenarios.Scenario) (start clock.Tick, rostered bool) {
	return clock.Tick(s.Run.Starts.At.At), s.Roster != nil
}

// pacesOf is the factor of a shift's pace: lognormal with mean 1, so that quick and slow shifts do not change the mean work.
func pacesOf(share float64, s random.Stream, name string) (random.Draw, error) {
	law, err := random.NewLaw(scenarios.Law{Shape: scenarios.Lognormal, Mean: 1, SD: share})
	if err != nil {
		return random.Draw{}, err
	}
	return random.NewDraw(law, s, name), nil
}

// Longest is how long a replication of a scenario is, or at most is where it goes on until all is finished.
func Longest(s *scenarios.Scenario) (most clock.Tick, untilFinished bool) {
	one := s.Run.OneReplication
	switch {
	case one.UntilFinished && s.Run.AtMost != nil:
		return clock.Tick(*s.Run.AtMost), true
	case one.UntilFinished:
		return 28 * clock.Day, true
	case one.For == 0:
		return clock.Day, false
	}
	return clock.Tick(one.For), false
}

// Span is a stretch of a replication, and what is in it: a shift, or why the line is not rostered.
type Span struct {
	From, To clock.Tick
	What     string
}

// planned is the roster of a scenario that has one, without a line.
func planned(s *scenarios.Scenario, length clock.Tick) *roster {
	start, _ := StartOf(s)
	r := &roster{l: &Line{}}
	r.plan(s.Roster, s.People, start, length)
	return r
}

// ShiftHours lists when which shift is on within a replication of the given length.
func ShiftHours(s *scenarios.Scenario, length clock.Tick) (spans []Span) {
	if s.Roster == nil {
		return nil
	}
	r := planned(s, length)
	for _, e := range r.events {
		switch {
		case e.kind == shiftStarts && e.at < length:
			spans = append(spans, Span{e.at, length, r.shifts[e.shift].name})
		case e.kind == shiftEnds:
			for i := range spans {
				if spans[i].What == r.shifts[e.shift].name && spans[i].To == length {
					spans[i].To = e.at
				}
			}
		}
	}
	return spans
}

// OffHours lists when a scenario's line is not rostered within a replication of the given length.
func OffHours(s *scenarios.Scenario, length clock.Tick) []Span {
	if s.Roster == nil {
		return nil
	}
	r := planned(s, length)
	var spans []Span
	on, since := 0, clock.Tick(0)
	for _, e := range r.events {
		switch e.kind {
		case shiftStarts:
			if on == 0 && e.at > since {
				spans = append(spans, Span{since, e.at, "off shift"})
			}
			on++
		case shiftEnds:
			on--
			since = e.at
		}
	}
	if on == 0 && since < length {
		spans = append(spans, Span{since, length, "off shift"})
	}
	return spans
}
