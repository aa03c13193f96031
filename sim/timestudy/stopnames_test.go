package timestudy

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

const twoJams = `scenario: two
tip: {fed: {every: 60 s}}
dryer: {travel: 25 s}
stops:
  - {station: dryer, name: jam, every: {mean: 40 h calendar time}, takes: 1 min}
  - {station: tip, name: jam, every: {mean: 90 h calendar time}, takes: 2 min}
`

// jamsOf is a study of a log in which each of the stations and causes stops a few times for as many minutes as it stands in the list.
func jamsOf(t *testing.T, names ...[2]string) *result.StopFit {
	l := &Log{From: logFrom, To: logTo}
	for i, n := range names {
		for day := range 4 {
			at := logFrom.AddDate(0, 0, day).Add(time.Duration(i) * time.Hour)
			l.Stops = append(l.Stops, Stopped{Station: n[0], Cause: n[1], Start: at, End: at.Add(time.Duration(10*(i+1)) * time.Minute)})
		}
	}
	return StudyStops("log.csv", l, StopOptions{})
}

// into puts a study into a scenario and reads it again.
func into(t *rapid.T, src string, r *result.StopFit) (string, *scenarios.Scenario) {
	before, faults := scenarios.ReadBytes("x", []byte(src))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	values, missing, otherwise := StopValues(r, before)
	got, err := scenarios.Put("x", []byte(src), values)
	if err != nil || len(missing)+len(otherwise) > 0 {
		t.Fatal(err, missing, otherwise, src)
	}
	s, faults := scenarios.ReadBytes("x", got)
	if len(faults) > 0 {
		t.Fatalf("%v\n%s", faults, got)
	}
	return string(got), s
}

// Two stations may have a stop of one name: each gets its own values, in either order, and a stop that is not in the log keeps its own.
func TestStopsOfOneNameGetTheirOwnValues(t *testing.T) {
	dryer, tip := [2]string{"dryer", "jam"}, [2]string{"tip", "jam"}
	bare := strings.Split(twoJams, "stops:")[0]
	for _, c := range []struct {
		name, src  string
		log        [][2]string
		dryer, tip float64 // seconds of standing
	}{
		{"the second alone", twoJams, [][2]string{tip}, 60, 600},
		{"the first alone", twoJams, [][2]string{dryer}, 600, 120},
		{"both", twoJams, [][2]string{dryer, tip}, 600, 1200},
		{"both, the second first", twoJams, [][2]string{tip, dryer}, 1200, 600},
		{"neither is there", bare, [][2]string{dryer, tip}, 600, 1200},
		{"in capital letters in the log", twoJams, [][2]string{{"tip", "Jam"}}, 60, 600},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, faults := scenarios.ReadBytes("x", []byte(c.src))
			if len(faults) > 0 {
				t.Fatal(faults)
			}
			r := jamsOf(t, c.log...)
			values, missing, otherwise := StopValues(r, before)
			got, err := scenarios.Put("x", []byte(c.src), values)
			if err != nil || len(missing)+len(otherwise) > 0 {
				t.Fatal(err, missing, otherwise)
			}
			s, faults := scenarios.ReadBytes("x", got)
			if len(faults) > 0 || len(s.Stops) != 2 {
				t.Fatalf("%v\n%s", faults, got)
			}
			for _, x := range s.Stops {
				if want := map[string]float64{"dryer": c.dryer, "tip": c.tip}[string(x.Station)]; x.Takes.Law().MeanUsed() != want {
					t.Errorf("%s at %s takes %g s, want %g s\n%s", x.Name, x.Station, x.Takes.Law().MeanUsed(), want, got)
				}
			}
		})
	}
}

// A stop by chance or at stated times keeps that, since a log tells an interval: only its length is put in, and a sentence says so.
func TestStopsThatAreNoIntervalKeepTheirWay(t *testing.T) {
	for _, c := range []struct{ name, way, want string }{
		{"by chance", "chance: 2 %", "when stops.tip/jam begins is by chance there"},
		{"at stated times", "at: [1 h, 2 h]", "when stops.tip/jam begins is at stated times there"},
	} {
		t.Run(c.name, func(t *testing.T) {
			src := "scenario: x\ntip: {fed: {every: 60 s}}\nstops:\n  - {station: tip, name: jam, " + c.way + ", takes: 1 min}\n"
			s, faults := scenarios.ReadBytes("x", []byte(src))
			if len(faults) > 0 {
				t.Fatal(faults)
			}
			values, missing, otherwise := StopValues(jamsOf(t, [2]string{"tip", "jam"}), s)
			if len(values) != 1 || len(missing) != 0 || len(otherwise) != 1 || !strings.Contains(otherwise[0], c.want) || !strings.Contains(otherwise[0], `"every: {mean: `) {
				t.Fatal(values, missing, otherwise)
			}
			got, err := scenarios.Put("x", []byte(src), values)
			if err != nil || !strings.Contains(string(got), c.way+", takes: 600 s}") {
				t.Errorf("%v\n%s", err, got)
			}
		})
	}
}

// Whatever a cause is called, it goes in under that name, is found there again, and the snippet has the same name.
func TestAnyNameGoesIntoAScenarioAndIsFoundAgain(t *testing.T) {
	letter := rapid.RuneFrom([]rune(`ab19 .,:;'"\/{}[]#&*!|>%@` + "`~-?=+é漢"))
	rapid.Check(t, func(rt *rapid.T) {
		var names [][2]string
		for i := range rapid.IntRange(1, 3).Draw(rt, "causes") {
			name := oneLine(rapid.StringOfN(letter, 1, 8, -1).Draw(rt, fmt.Sprint("name ", i)))
			if name == "" {
				return
			}
			names = append(names, [2]string{rapid.SampledFrom([]string{"tip", "dryer"}).Draw(rt, fmt.Sprint("station ", i)), name})
		}
		r := jamsOf(t, names...)
		once, s := into(rt, twoJams, r)
		twice, again := into(rt, once, r)
		if len(again.Stops) != len(s.Stops) {
			rt.Fatalf("%d stops, and after a second time %d\n%s", len(s.Stops), len(again.Stops), twice)
		}
		read, faults := scenarios.ReadBytes("x", []byte(strings.Split(twoJams, "stops:")[0]+r.Snippet))
		if len(faults) > 0 || len(read.Stops) != len(r.Causes) {
			rt.Fatalf("%v\n%s", faults, r.Snippet)
		}
		for _, c := range r.Causes {
			if stopOf(s, c) == nil || stopOf(read, c) == nil {
				rt.Fatalf("%q at %s is not found\n%s%s", c.Name, c.Station, once, r.Snippet)
			}
		}
	})
}
