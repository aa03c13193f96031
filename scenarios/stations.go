package scenarios

import (
	"slices"
	"strings"

	"pascaline/scenarios/units"
)

// station is one station of the line as a scenario may have it.
type station struct {
	name  string
	here  func(s *Scenario) bool
	fed   func(s *Scenario) *Feed // nil where nothing enters here from outside
	in    string                  // what enters it, as it is counted
	tasks bool                    // its work comes in tasks or cycles, which can be counted
}

// line lists all stations in the order in which packs meet them.
var line = []station{
	{"loading", func(s *Scenario) bool { return s.Loading != nil }, func(s *Scenario) *Feed { return s.Loading.Fed }, "packs", true},
	{"infeed", func(s *Scenario) bool { return s.Infeed != nil }, func(s *Scenario) *Feed { return s.Infeed.Fed }, "carriers", false},
	{"vessel", func(s *Scenario) bool { return s.Vessel != nil }, func(s *Scenario) *Feed { return s.Vessel.Fed }, "carriers", true},
	{"drain", func(s *Scenario) bool { return s.Drain != nil }, func(s *Scenario) *Feed { return s.Drain.Fed }, "carriers", false},
	{"tip", func(s *Scenario) bool { return s.Tip != nil }, func(s *Scenario) *Feed { return s.Tip.Fed }, "carriers", true},
	{"shaker", func(s *Scenario) bool { return s.Shaker != nil }, func(s *Scenario) *Feed { return s.Shaker.Fed }, "packs", false},
	{"dryer", func(s *Scenario) bool { return s.Dryer != nil }, func(s *Scenario) *Feed { return s.Dryer.Fed }, "packs", false},
	{"labeller", func(s *Scenario) bool { return s.Labeller != nil }, func(s *Scenario) *Feed { return s.Labeller.Fed }, "packs", true},
	{"checkweigher", func(s *Scenario) bool { return s.Checkweigher != nil }, func(s *Scenario) *Feed { return s.Checkweigher.Fed }, "packs", true},
	{"table", func(s *Scenario) bool { return s.Table != nil }, func(s *Scenario) *Feed { return s.Table.Fed }, "packs", false},
	{"packing", func(s *Scenario) bool { return s.Packing != nil }, func(s *Scenario) *Feed { return s.Packing.Fed }, "packs", true},
	{"sealer", func(s *Scenario) bool { return s.Sealer != nil }, func(s *Scenario) *Feed { return s.Sealer.Fed }, "cases", true},
	{"case_labeller", func(s *Scenario) bool { return s.CaseLabeller != nil }, func(s *Scenario) *Feed { return s.CaseLabeller.Fed }, "cases", true},
	{"palletiser", func(s *Scenario) bool { return s.Palletiser != nil }, func(s *Scenario) *Feed { return s.Palletiser.Fed }, "cases", true},
}

// Stations are the names of the stations that a scenario has, in the order of the line.
func (s *Scenario) Stations() []string {
	var names []string
	for _, st := range line {
		if st.here(s) {
			names = append(names, st.name)
		}
	}
	return names
}

// PacksIn is how many packs there are in one piece as it is counted: "packs", "carriers" or "cases".
func (p *Product) PacksIn(piece string) units.Count {
	switch piece {
	case "carriers":
		return p.PacksPerCarrier
	case "cases":
		return p.PacksPerCase
	}
	return 1
}

// EntersAs is how what comes into the line is counted: "packs", "carriers" or "cases".
func (s *Scenario) EntersAs() string {
	if i := slices.IndexFunc(line, func(st station) bool { return st.here(s) }); i >= 0 {
		return line[i].in
	}
	return "packs"
}

func stationNamed(name string) *station {
	for i := range line {
		if line[i].name == name {
			return &line[i]
		}
	}
	return nil
}

func stationNames() []string {
	var names []string
	for _, st := range line {
		names = append(names, st.name)
	}
	return names
}

// emptiedBy is the station that empties places.
var emptiedBy = map[string]string{"infeed": "vessel", "drain": "tip", "table": "packing"}

// emptied tells whether the station that empties these places comes next, in the same stretch.
func (s *Scenario) emptied(places string) bool {
	names := s.Stations()
	i := slices.Index(names, places) + 1
	return i > 0 && i < len(names) && names[i] == emptiedBy[places] && stationNamed(names[i]).fed(s) == nil
}

// machines are the stations that take one piece at a time, by name.
func (s *Scenario) machines() map[string]*Machine {
	return map[string]*Machine{
		"labeller": s.Labeller, "checkweigher": s.Checkweigher,
		"sealer": s.Sealer, "case_labeller": s.CaseLabeller, "palletiser": s.Palletiser,
	}
}

// Machine is the station of this name that takes one piece at a time, or nil; a name may have a blank in place of its underscore.
func (s *Scenario) Machine(name string) *Machine {
	return s.machines()[strings.ReplaceAll(name, " ", "_")]
}

// Belt is the belt of this name, or nil.
func (s *Scenario) Belt(name string) *Belt { return s.belts()[name] }

// belts are the belts, by name.
func (s *Scenario) belts() map[string]*Belt {
	return map[string]*Belt{"shaker": s.Shaker, "dryer": s.Dryer}
}

// feedEnds tells whether what a feed brings comes to an end.
func (f *Feed) feedEnds() bool {
	return f != nil && (f.Quantity > 0 || len(f.At) > 0 || len(f.Timetable) > 0)
}

// shortest is the least time that a station needs for one task, in seconds; 0 where that is not known.
func (s *Scenario) shortest(name string) float64 {
	switch name {
	case "loading":
		return s.shortestLoading()
	case "vessel":
		return s.shortestCycle()
	case "tip":
		return s.Tip.Swap.Law().Least() + float64(s.Product.PacksPerCarrier-1)*s.Tip.PerPack.Law().Least()
	case "packing":
		t := s.Packing.Time.Law().Least()
		if s.Packing.Time.Per == "pack" {
			t *= float64(s.Product.PacksPerCase)
		}
		return t + s.Packing.PerCase.Law().Least()
	}
	if m := s.machines()[name]; m != nil {
		if m.Rate != nil {
			return 1 / float64(*m.Rate)
		}
		if m.Time != nil {
			return m.Time.Law().Least()
		}
	}
	return 0
}

func (s *Scenario) shortestLoading() float64 {
	l, packs := s.Loading, float64(s.Product.PacksPerCarrier)
	t := l.HandTime.Law().Least()
	switch l.HandTime.Per {
	case "pack and person":
		t *= packs / float64(max(1, l.Crew.Most))
	case "pack":
		t *= packs
	case "case":
		t *= packs / float64(s.Product.PacksPerCase)
	}
	return t
}

func (s *Scenario) shortestCycle() float64 {
	sum := s.Product.Hold.Seconds()
	for _, t := range s.Vessel.Phases.all() {
		if t != nil {
			sum += t.Law().Least()
		}
	}
	return sum
}

func (p *Phases) all() []*Time {
	return []*Time{p.TransferIn, p.Transfer, p.Close, p.Prefill, p.ComeUp, p.Decompress, p.Open, p.Drain, p.TransferOut}
}

// last moment of a feed that states its times.
func (f *Feed) times() []units.Duration {
	times := append([]units.Duration(nil), f.At...)
	for _, a := range f.Timetable {
		times = append(times, a.At)
	}
	return times
}
