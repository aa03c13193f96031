package scenarios

import "pascaline/scenarios/units"

// Pools of people in the order in which they are written.
type Pools []Pool

// Pool is a number of people who can do the same things.
type Pool struct {
	Name      string         `yaml:"-"`
	Heads     units.Count    `yaml:"heads" least:"1" most:"1000" noun:"people" doc:"how many, where no roster says so"`
	Serve     []units.Text   `yaml:"serve" doc:"stations in order of priority; stops means mending (default: in the order of the line, mending first)"`
	Walk      units.Duration `yaml:"walk" default:"0 s" doc:"time to walk from one station to another"`
	ShiftPace units.Share    `yaml:"shift_pace" default:"0 %" most:"50 %" doc:"how much one shift's pace differs from the next (standard deviation)"`
}

// Roster says when who is there.
type Roster struct {
	Days      units.Days  `yaml:"days" default:"every day" doc:"on which days"`
	Overnight units.Word  `yaml:"overnight" choices:"line run empty|packs stay on the line" default:"line run empty" doc:"what becomes of packs between two working days"`
	Shifts    Shifts      `yaml:"shifts" need:"yes" doc:"the shifts of a day"`
	Breaks    []BreakRule `yaml:"breaks" doc:"breaks"`
}

// Shifts in the order in which they are written.
type Shifts []Shift

// Shift is one shift of a day.
type Shift struct {
	Name        string         `yaml:"-"`
	Hours       units.Hours    `yaml:"hours" need:"yes" doc:"from and to, over midnight too"`
	StartUp     units.Duration `yaml:"start_up" default:"0 s" doc:"at the start: nothing runs yet"`
	WashDown    units.Duration `yaml:"wash_down" default:"0 s" doc:"at the end: nothing runs any more"`
	LastCarrier units.Duration `yaml:"last_carrier" default:"0 s" behind:"before the end|before end|before the wash-down|before wash-down|before wash_down" doc:"no carrier is begun later than this before the end of the shift, or before its wash-down"`
	People      Heads          `yaml:"people" doc:"how many of each pool"`
}

// Heads are numbers of people by pool, in the order in which they are written.
type Heads []Head

// Head is the number of people of one pool.
type Head struct {
	Pool  string
	Count units.Count
}

// BreakRule is one break, or several alike.
type BreakRule struct {
	Shift      units.Text     `yaml:"shift" need:"yes" doc:"which shift"`
	At         []units.Moment `yaml:"at" need:"yes" doc:"times of day at which it begins"`
	Length     units.Duration `yaml:"length" need:"yes" least:"1 s" doc:"how long it is"`
	Pools      []units.Text   `yaml:"pools" default:"all" doc:"who has it"`
	InGroups   units.Count    `yaml:"in_groups" default:"1" least:"1" most:"10" noun:"groups" doc:"groups that relieve each other, one after the other"`
	TaskInHand units.Word     `yaml:"task_in_hand" choices:"finished first|finished first, break cut short|paused" default:"finished first" doc:"the task is finished and the break is whole; or it ends on time; or the task waits"`
}

// In is how many people of a pool are there in a shift: as the shift says, else as the pool does.
func (p *Pool) In(s *Shift) units.Count {
	for _, h := range s.People {
		if h.Pool == p.Name {
			return h.Count
		}
	}
	return p.Heads
}

// MostHeads is the most people of a pool that are ever there.
func (s *Scenario) MostHeads(p *Pool) units.Count {
	most := p.Heads
	if s.Roster != nil {
		for i := range s.Roster.Shifts {
			most = max(most, p.In(&s.Roster.Shifts[i]))
		}
	}
	return most
}

// LastShift is the shift of the roster that ends latest, over midnight too, of those in which people of a pool are there, however they are listed; nil
// where there is none.
func (s *Scenario) LastShift(p *Pool) (last *Shift) {
	if s.Roster == nil {
		return nil
	}
	for i := range s.Roster.Shifts {
		if x := &s.Roster.Shifts[i]; p.In(x) > 0 && (last == nil || x.Hours.To > last.Hours.To) {
			last = x
		}
	}
	return last
}
