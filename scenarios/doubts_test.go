package scenarios

import (
	"slices"
	"strings"
	"testing"
)

func readText(t *testing.T, src string) *Scenario {
	t.Helper()
	s, faults := ReadBytes("f.yaml", []byte(src))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return s
}

// What is doubtful but possible is warned of, and what is not is not.
func TestWarnings(t *testing.T) {
	for _, c := range []struct{ name, src, code, says string }{
		{"fewer places than rate times travel", "dryer: {rate: 60/min, travel: 25 s, places: 20}", "belt places", "20 places are fewer than rate times travel, 25; a lane lets out at most 48 packs a minute"},
		{"as many places as rate times travel", "dryer: {rate: 60/min, travel: 25 s, places: 25}", "", ""},
		{"pool without a task", "packing: {time: 26 s}\npeople: {helpers: {heads: 2}}", "pool not used", "people.helpers"},
		{"belt without rate and places", "shaker: {travel: 20 s}", "endless belt", "any number of packs"},
		{"belt with places", "shaker: {travel: 20 s, places: 5}", "", ""},
		{"third person, time per carrier", "loading: {crew: 2 to 3 hands, hand_time: {per: carrier, mean: 2 s, as: constant}}\npeople: {hands: {heads: 3}}", "crew range", "measured with 2 at work"},
		{"number beside precision", "packing: {time: 26 s}\nrun: {replications: 20, precision: 2 %}", "precision not used", "20 replications"},
		{"carriers that nobody fills", "carriers: {owned: 8}\nvessel: {carriers_per_load: 4}", "carriers not used", "without loading"},
		{"short hold", "product: {hold: 30 s}\npacking: {time: 26 s}", "outside typical range", "the hold is 30 s; 60 to 360 s is usual (EFSA"},
		{"one person tips and packs", "tip: {by: 1 hand, swap: 10 s}\ntable: {places: 20}\npacking: {time: 26 s, crew: 1 hand}\npeople: {hands: {heads: 1}}", "people may wait for each other", "tip.by: all hands (1) can stand there and find no room, and then too few are left for packing.crew"},
		{"two people tip and pack", "tip: {by: 1 hand, swap: 10 s}\ntable: {places: 20}\npacking: {time: 3 s, crew: 1 hand}\npeople: {hands: {heads: 2}}", "", ""},
		{"one person feeds tubs back and packs", "product: {packs_per_case: 5}\ntable: {places: 20, tubs: {tubs: 2, packs_per_tub: 5, fed_back_below: 5, takes: 9 s, by: 1 hand}}\npacking: {time: 26 s, crew: 1 hand}\npeople: {hands: {heads: 1}}", "people may wait for each other", "table.tubs.by: all hands (1) can stand there"},
		{"one person tips, a machine packs", "tip: {by: 1 hand, swap: 10 s}\ntable: {places: 20}\npacking: {time: 3 s}\npeople: {hands: {heads: 1}}", "", ""},
		{"quick dryer", "dryer: {rate: 140/min, travel: 20 s}", "outside typical range", "140 packs/min; 30 to 120 packs/min is usual (common practice, no source)"},
		{"empty vessel", "product: {pack: {volume: 1 L}}\nvessel: {volume: 100 L}", "outside typical range", "fill ratio is 0.01"},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := readText(t, "scenario: x\n"+c.src+"\n").Warnings()
			if c.code == "" {
				if len(w) > 0 {
					t.Error(w)
				}
				return
			}
			i := slices.IndexFunc(w, func(w Warning) bool { return w.Code == c.code })
			if i < 0 || !strings.Contains(w[i].Text, c.says) {
				t.Errorf("no %q with %q: %v", c.code, c.says, w)
			}
		})
	}
}

func TestAssumptions(t *testing.T) {
	s := readText(t, `scenario: x
labeller: {rate: 60/min}
stops:
  - {station: labeller, name: a, every: 20 h running, takes: {mean: 5 min, sd: 1 min}}
  - {station: labeller, name: b, every: {mean: 30 h running}, takes: 1 min, work: repeat}
  - {station: labeller, name: c, every: 40 h running, takes: 1 min}
`)
	all := s.Assumptions()
	for _, c := range []struct{ where, value, origin, says string }{
		{"product.hold", "180 s", "EFSA", "validated process"},
		{"product.pressure", "600 MPa", "EFSA", "validated process"},
		{"supply", "without end", "default", "what enters the first station"},
		{"stops[1, 3].work", "continue", "default", "stops[1, 3].work is not stated; taken as: continue"},
		{"stops[1].takes.as", "lognormal", "default", "lognormal"},
		{"stops[2].every.as", "exponential", "default", "exponential"},
		{"run.starts", "Mon 00:00", "default", "Mon 00:00"},
	} {
		i := slices.IndexFunc(all, func(a Assumption) bool { return a.Where == c.where })
		if i < 0 {
			t.Errorf("nothing on %s", c.where)
			continue
		}
		if a := all[i]; a.Value != c.value || !strings.Contains(a.Origin, c.origin) || !strings.Contains(a.Says, c.says) {
			t.Errorf("%+v", a)
		}
	}
	for _, a := range all {
		if strings.HasSuffix(a.Where, ".load") || strings.HasSuffix(a.Where, "run.at_most") {
			t.Errorf("said of something that does not apply: %+v", a)
		}
	}
}

// Explain says of every value where it came from.
func TestExplainSaysWhereValuesCameFrom(t *testing.T) {
	s, _, err := ReadExample("wider-dryer", "third lane")
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := s.Explain(&b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"(variant: third lane)", "lanes: 3 ", "# variant third lane, line 13", "rate: 42/min ", "# line 7\n", "owned: 18 ", "# plain.yaml line 22", "blocking: after ", "# default\n",
		"# - dryer.leakers is not stated; taken as: 0 %",
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q", want)
		}
	}
}

// Where nothing is said, a run begins with the first shift of the first day.
func TestRunStartsWithTheFirstShift(t *testing.T) {
	roster := "scenario: x\npacking: {time: 26 s}\nroster: {days: Tue to Fri, shifts: {late: {hours: 14:00 to 22:00}, early: {hours: 06:00 to 14:00}}}\n"
	for src, want := range map[string]string{
		roster:                                 "Tue 06:00",
		roster + "run: {starts: 14:00}\n":      "Tue 14:00",
		roster + "run: {starts: Wed 05:00}\n":  "Wed 05:00",
		"scenario: x\npacking: {time: 26 s}\n": "Mon 00:00",
	} {
		if got := readText(t, src).Run.Starts.At.String(); got != want {
			t.Errorf("%s: %s, want %s", src, got, want)
		}
	}
}

func TestPoolsAreNamedAsUnderPeople(t *testing.T) {
	s := readText(t, `scenario: x
loading: {crew: 2 fitters, hand_time: {per: carrier, mean: 120 s, as: constant}}
packing: {crew: 1 packer, time: 26 s}
people: {packers: {heads: 2}, fitter: {heads: 2}}
roster: {shifts: {early: {hours: 06:00 to 14:00}}, breaks: [{shift: early, at: [08:30], length: 15 min}]}
`)
	if s.Loading.Crew.Pool != "fitter" || s.Packing.Crew.Pool != "packers" {
		t.Error(s.Loading.Crew, s.Packing.Crew)
	}
	if p := s.Roster.Breaks[0].Pools; len(p) != 2 || p[0] != "packers" || p[1] != "fitter" {
		t.Error("a break that names nobody is for all:", p)
	}
}

func TestZeroPlacesAndPlacesWithoutEnd(t *testing.T) {
	s := readText(t, "scenario: x\ninfeed: {places: 0}\nvessel: {}\ndrain: {}\nlabeller: {rate: 60/min, places_before: without end}\n")
	if !s.Infeed.None || s.Drain.None || !s.Labeller.Endless || s.Labeller.PlacesBefore != 0 {
		t.Error(s.Infeed, s.Drain, s.Labeller)
	}
}

// The hold that each product states itself is no assumption; that of one product is, as long as another goes by the default.
func TestHoldOfEachProductIsNoAssumption(t *testing.T) {
	for _, c := range []struct {
		name, juice string
		want        bool
	}{
		{"each states it", "{hold: 200 s}", false},
		{"one does not", "{group: juice}", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, faults := ReadBytes("x.yaml", []byte("scenario: x\nproducts:\n  juice: "+c.juice+"\n  dip: {hold: 210 s}\nlots: [{lot: 1, product: juice, quantity: 10}, {lot: 2, product: dip, quantity: 10}]\nvessel: {carriers_per_load: 1}\n"))
			if len(faults) > 0 {
				t.Fatal(faults)
			}
			if got := slices.ContainsFunc(s.Assumptions(), func(a Assumption) bool { return a.Where == "product.hold" }); got != c.want {
				t.Errorf("product.hold is an assumption: %v, want %v", got, c.want)
			}
		})
	}
}
