package timestudy

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pascaline/scenarios"
	"pascaline/scenarios/sheet"
	"pascaline/sim/result"
)

// read reads a sheet from text, and wants no fault.
func read(t *testing.T, text, unit string, r Rules) []Task {
	t.Helper()
	tasks, faults := tryRead(t, text, unit, r)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return tasks
}

func tryRead(t *testing.T, text, unit string, r Rules) ([]Task, []sheet.Fault) {
	t.Helper()
	table, faults, err := sheet.ReadBytes("t.csv", []byte(text), sheet.Options{})
	if err != nil {
		t.Fatal(err)
	}
	tasks, more := Times(table, unit, r)
	return tasks, append(faults, more...)
}

func secondsOf(tasks []Task) map[string][]float64 {
	m := map[string][]float64{}
	for _, t := range tasks {
		for _, r := range t.Readings {
			m[t.Name] = append(m[t.Name], math.Round(r.Seconds*1e9)/1e9)
		}
	}
	return m
}

func TestSheetsOfEveryForm(t *testing.T) {
	plain := Rules{Rating: 1}
	want := map[string][]float64{"tip": {4, 5}, "fill": {110}}
	for _, c := range []struct {
		name, text, unit string
		rules            Rules
		want             map[string][]float64
	}{
		{"long", "task,time (s)\ntip,4\nfill,110\ntip,5", "", plain, want},
		{"long, heading is the unit", "Task,Seconds\ntip,4\nfill,110\ntip,5", "", plain, want},
		{"long, unit said", "task,time\ntip,4\nfill,110\ntip,5", "s", plain, want},
		{"long, clock", "task,time (m:ss)\ntip,0:04\nfill,1:50\ntip,0:05", "", plain, want},
		{"long, another heading", "task,stopwatch (s)\ntip,4\nfill,110\ntip,5", "", plain, want},
		{"a column for each task", "tip (s),fill (min),note\n4,1.8333333333333333,x\n5,,", "", plain, want},
		{"side by side", "task,1,2\ntip,4,5\nfill,110,", "s", plain, want},
		{"side by side with units", "task,reading 1 (s),reading 2 (s)\ntip,4,5\nfill,110,", "", plain, want},
		{"no task named", "seconds\n4\n5", "", plain, map[string][]float64{"task": {4, 5}}},
		{"rating of all, allowance on work", "task,time (s)\ntip,100", "", Rules{Rating: 0.9, Allowance: 0.12}, map[string][]float64{"tip": {100.8}}},
		{"rating by column, allowance of the shift", "task,time (s),rating (%)\ntip,100,90", "", Rules{Rating: 1, Allowance: 0.1, OfShift: true}, map[string][]float64{"tip": {100}}},
		{"rating with a percent sign", "task,time (s),rating\ntip,100,95 %", "", plain, map[string][]float64{"tip": {95}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := cmp.Diff(c.want, secondsOf(read(t, c.text, c.unit, c.rules))); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestUnreadableReadingsAreNamed(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"no unit", "task,time\ntip,4", "unit into the heading"},
		{"zero", "task,time (s)\ntip,0", "above 0"},
		{"words", "task,time (s)\ntip,about 4", "t.csv:2:2"},
		{"no task", "task,time (s)\n,4", "name of the task"},
		{"bad packs", "task,time (s),packs\ntip,4,none", `"none"`},
		{"nothing", "task,time (s)\n", "no readings"},
		{"nothing beside the task", "task,1,2\ntip,,\nfill,3 s,", "readings beside"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := tryRead(t, c.text, "", Rules{Rating: 1})
			if len(faults) != 1 || !strings.Contains(faults[0].Error(), c.want) {
				t.Errorf("faults %v, want one with %q", faults, c.want)
			}
		})
	}
}

// A carrier of 148 packs filled by two people stays one reading of a carrier.
func TestReadingIsKeptAsItWasTaken(t *testing.T) {
	tasks := read(t, "task,time (s),packs,people\nfill,110,148,2\nfill,112,148,2\nfill,56,74,2\nfill,222,148,1\n", "", Rules{Rating: 1})
	r := Study("t.csv", tasks, Options{HalfWidth: 0.05, Fields: map[string]string{"fill": "loading.hand_time"}, Rules: Rules{Rating: 1}})
	got := r.Tasks[0]
	if got.Per != "carrier" || got.ReadingOf != "148 packs by 2 people" || got.LeastS != 110 || got.MostS != 112 {
		t.Errorf("per %q of %q, %g to %g s", got.Per, got.ReadingOf, got.LeastS, got.MostS)
	}
	if !strings.HasPrefix(got.Value, "{per: carrier, mean: 111.3 s, ") {
		t.Errorf("value %q", got.Value)
	}
}

func TestDoubtsAreTold(t *testing.T) {
	drifting, two, far := "seconds\n", "seconds\n", "seconds\n"
	for i := range 40 {
		wobble := float64((i*7)%5) / 4
		drifting += secondsPlain(40 - 0.4*float64(i) + wobble)
		two += secondsPlain([]float64{20, 35}[(i/3)%2] + wobble)
		far += secondsPlain(20 + wobble)
	}
	far += "400\n"
	for _, c := range []struct{ name, text, want string }{
		{"drift", drifting, "get shorter"},
		{"two kinds", two, "Two kinds"},
		{"far off", far, "Far from the others: 400 s (t.csv:42:1)"},
		{"one reading", "seconds\n20\n", "says nothing about chance"},
		{"few", "seconds\n20\n40\n30\n", "take"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Study("t.csv", read(t, c.text, "", Rules{Rating: 1}), Options{HalfWidth: 0.05, Rules: Rules{Rating: 1}})
			if all := strings.Join(r.Tasks[0].Doubts, "\n"); !strings.Contains(all, c.want) {
				t.Errorf("doubts %q, want %q", all, c.want)
			}
		})
	}
}

func secondsPlain(s float64) string { return strings.TrimSuffix(secondsText(s), " s") + "\n" }

// As many readings as are said to be needed bring the half width to what was asked for.
func TestEnoughReadings(t *testing.T) {
	for _, c := range []struct{ mean, sd, share float64 }{{20, 3, 0.05}, {20, 3, 0.01}, {110, 14, 0.05}, {4, 2, 0.1}} {
		n := enough(c.mean, c.sd, c.share, 0)
		half := func(n int) float64 { return student(n-1) * c.sd / math.Sqrt(float64(n)) / c.mean }
		if half(n) > c.share*1.001 || n > 2 && half(n-1) < c.share {
			t.Errorf("%v: %d readings give %.4f, one fewer %.4f", c, n, half(n), half(n-1))
		}
	}
}

// The snippet is read back by the scenario reader as what was fitted, and the example sheet finds its truth.
func TestSnippetReadsBack(t *testing.T) {
	path := golden(t, "times.csv", []byte(timesExample()))
	table, faults, err := sheet.Read(path, sheet.Options{DecimalComma: true})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	tasks, faults := Times(table, "", Rules{Rating: 1})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	r := Study("times.csv", tasks, Options{HalfWidth: 0.05, Pool: "loaders", Rules: Rules{Rating: 1}})
	folder := t.TempDir()
	base := "scenario: base\nloading: {crew: 2 loaders, hand_time: {per: carrier, low: 1 s, likely: 2 s, high: 3 s}}\nproduct: {packs_per_carrier: 148, packs_per_case: 12}\n" +
		"vessel: {phases: {close: 25 s}}\ntip: {}\ndryer:\n  travel: 20 s\n  wet: {share: 8 %, then: wiped by hand, by: 1 packer, takes: 4 s}\n" +
		"packing: {time: 20 s, crew: 1 packer}\npeople:\n  loaders: {heads: 2}\n  packers: {heads: 3}\n"
	base = strings.Replace(base, "time: 20 s, crew: 1 packer}", "time: {mean: 20 s, sd: 2 s}, crew: 1 packer}", 1)
	write(t, filepath.Join(folder, "base.yaml"), base)
	write(t, filepath.Join(folder, "close-readings.csv"), "seconds\n25\n38\n")
	write(t, filepath.Join(folder, "line.yaml"), "base: base.yaml\n"+r.Snippet)
	s, sf, err := scenarios.Read(filepath.Join(folder, "line.yaml"), "")
	if err != nil || len(sf) > 0 {
		t.Fatal(err, sf, r.Snippet)
	}
	for _, x := range []struct {
		name string
		law  scenarios.Law
	}{{"fill carrier", s.Loading.HandTime.Law()}, {"tip swap", s.Tip.Swap.Law()}, {"come up", s.Vessel.Phases.ComeUp.Law()}, {"fill case", s.Packing.Time.Law()}} {
		one := taskNamed(t, r, x.name)
		if string(x.law.Shape) != one.Best || math.Abs(x.law.MeanUsed()-one.MeanS) > 0.02*one.MeanS {
			t.Errorf("%s: read back %s of mean %.4g, fitted %s of mean %.4g", x.name, x.law.Shape, x.law.MeanUsed(), one.Best, one.MeanS)
		}
	}
	if math.Abs(float64(s.People[0].ShiftPace)-r.Pace.Share) > 0.001 || r.Pace.Low > truthPace || r.Pace.High < truthPace {
		t.Errorf("pace read back %v, found %v, truth %v", s.People[0].ShiftPace, r.Pace, truthPace)
	}
	if x := taskNamed(t, r, "close"); x.TwoKinds == nil || math.Abs(x.TwoKinds.LowS-25) > 1 || math.Abs(x.TwoKinds.HighS-38) > 1 {
		t.Errorf("two kinds: %+v", x.TwoKinds)
	}
	if got := Unlike(s, r); len(got) != 0 {
		t.Errorf("said to be unlike the scenario: %v", got)
	}
}

// No two tasks share a file for their readings, whatever letters their names have, and each value names its own.
func TestReadingsOfEachTaskHaveAFileOfTheirOwn(t *testing.T) {
	for _, c := range []struct {
		name        string
		tasks, want []string
	}{
		{"plain", []string{"close", "tip swap"}, []string{"close-readings.csv", "tip-swap-readings.csv"}},
		{"letters of another alphabet", []string{"Закрыть", "Открыть", "閉"}, []string{"task-readings.csv", "task-2-readings.csv", "task-3-readings.csv"}},
		{"alike but for marks", []string{"fill (a)", "fill a", "fill  a!"}, []string{"fill--a-readings.csv", "fill-a-readings.csv", "fill--a-2-readings.csv"}},
		{"one that is called like a number of another", []string{"a", "a-2", "a!"}, []string{"a-readings.csv", "a-2-readings.csv", "a-3-readings.csv"}},
		{"long names that begin alike", []string{strings.Repeat("x", 300) + "1", strings.Repeat("x", 300) + "2"},
			[]string{strings.Repeat("x", 60) + "-readings.csv", strings.Repeat("x", 60) + "-2-readings.csv"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var tasks []Task
			for i, name := range c.tasks {
				one := Task{Name: name}
				for k := range 60 {
					one.Readings = append(one.Readings, Reading{Seconds: float64((i+1)*20+20*(k%2)) + 0.1*float64(k%5)})
				}
				tasks = append(tasks, one)
			}
			r := Study("t.csv", tasks, Options{HalfWidth: 0.05, Rules: Rules{Rating: 1}})
			for i, one := range r.Tasks {
				if one.ReadingsFile != c.want[i] || one.Value != fmt.Sprintf("{file: %q, as: empirical}", c.want[i]) {
					t.Errorf("%.20s: %s, %s; want %s", one.Name, one.ReadingsFile, one.Value, c.want[i])
				}
			}
		})
	}
}

func TestTwoTasksGoIntoOneField(t *testing.T) {
	tasks := []Task{{Name: "tip swap"}, {Name: "old way"}}
	o := Options{Fields: map[string]string{"old way": "tip.swap"}}
	if err := o.Known(tasks); err == nil || !strings.Contains(err.Error(), `tasks "tip swap" and "old way" both go into tip.swap, which takes one of them`) {
		t.Error(err)
	}
	if err := o.Known(append(tasks[1:], Task{Name: "nowhere"}, Task{Name: "nor this"})); err != nil {
		t.Error(err)
	}
}

func taskNamed(t *testing.T, r *result.TimeFit, name string) result.FitTask {
	t.Helper()
	for _, x := range r.Tasks {
		if x.Name == name {
			return x
		}
	}
	t.Fatalf("no task %q", name)
	return result.FitTask{}
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

// Readings that alternate do not resemble each other: a mean of them is surer than one of readings taken apart, not less sure.
func TestNeighboursAreToldByTheirSign(t *testing.T) {
	for _, c := range []struct{ name, readings, want, not string }{
		{"alternating", "20 30 20.5 29 21 30.5 19 31 20 29.5 21.5 30", "tends to follow a short one", "resemble"},
		{"in waves", "20 21 20 19 30 31 30 29 20 21 19 20 30 31 29 30 20 21", "resemble each other", "tends to follow"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Study("t.csv", read(t, "tip swap (s)\n"+strings.ReplaceAll(c.readings, " ", "\n")+"\n", "", Rules{Rating: 1}), Options{HalfWidth: 0.05, Rules: Rules{Rating: 1}})
			all := strings.Join(r.Tasks[0].Doubts, "\n")
			if !strings.Contains(all, c.want) || strings.Contains(all, c.not) {
				t.Errorf("correlation %v: %s", r.Tasks[0].NextR, all)
			}
		})
	}
}
