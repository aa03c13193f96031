package timestudy

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"pascaline/scenarios"
	"pascaline/sim/random"
)

// Whatever was read, the value that is written is one that the scenario reader takes, and its mean is near that of the readings.
func TestAnyReadingsGiveAValueThatIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.SampledFrom([]int{1, 2, 5, 6, 9, 12}).Draw(t, "n")
		scale := rapid.SampledFrom([]float64{0.001, 0.1, 10, 3000}).Draw(t, "scale")
		tk := Task{Name: "swap", Field: "tip.swap"}
		for range n {
			v := float64(rapid.IntRange(1, rapid.SampledFrom([]int{1, 3, 50, 10_000}).Draw(t, "most")).Draw(t, "v")) * scale
			tk.Readings = append(tk.Readings, Reading{Seconds: v, Place: "x"})
		}
		r := Study("t.csv", []Task{tk}, Options{HalfWidth: 0.05, Rules: Rules{Rating: 1}})
		one := r.Tasks[0]
		if one.Best == string(scenarios.Empirical) {
			if len(one.ReadingsS) != n {
				t.Fatalf("%d of %d readings are kept", len(one.ReadingsS), n)
			}
			return
		}
		s, faults := scenarios.ReadBytes("x", []byte("scenario: x\n"+r.Snippet))
		if len(faults) > 0 {
			t.Fatalf("%v\n%s", faults, r.Snippet)
		}
		law := s.Tip.Swap.Law()
		if _, err := random.NewLaw(law); err != nil {
			t.Fatalf("%v\n%s", err, r.Snippet)
		}
		if got := law.MeanUsed(); law.Shape == scenarios.Constant && math.Abs(got-one.MeanS) > 0.01*one.MeanS+1e-6 {
			t.Fatalf("mean %g, read back %g", one.MeanS, got)
		}
		for _, f := range one.Fits {
			if math.IsNaN(f.MeanS) || f.AIC != nil && math.IsNaN(*f.AIC) {
				t.Fatalf("%+v", f)
			}
		}
	})
}

// Whatever a log holds, its snippet is one that the scenario reader takes, and no stop is lost: each is under its cause.
func TestAnyLogGivesStopsThatAreRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := &Log{From: logFrom}
		at := logFrom
		n := rapid.SampledFrom([]int{1, 2, 4, 8, 15, 25}).Draw(t, "n")
		for i := range n {
			at = at.Add(time.Duration(rapid.IntRange(0, 3000).Draw(t, "gap")) * time.Minute)
			s := Stopped{Station: rapid.SampledFrom([]string{"tip", "dryer"}).Draw(t, "station"), Cause: rapid.SampledFrom([]string{"belt", "jam: film", "no carriers"}).Draw(t, "cause"),
				Start: at, End: at.Add(time.Duration(rapid.IntRange(0, 200).Draw(t, "length")) * time.Minute), Place: fmt.Sprint(i)}
			s.Open = rapid.IntRange(0, 9).Draw(t, "open") == 0
			s.origin("")
			l.Stops = append(l.Stops, s)
		}
		l.bound()
		roster := exampleRoster()
		if rapid.Bool().Draw(t, "always") {
			roster = nil
		}
		r := StudyStops("s.csv", l, StopOptions{Roster: roster})
		sum := 0
		for _, c := range r.Causes {
			sum += c.N
		}
		if sum != n {
			t.Fatalf("%d stops of %d", sum, n)
		}
		text := "scenario: x\ntip: {}\ndryer: {travel: 20 s}\nroster: {shifts: {early: {hours: 06:00 to 14:00}}}\n"
		_, faults := scenarios.ReadBytes("x", []byte(text+r.Snippet))
		for _, f := range faults {
			if !strings.Contains(f.Error(), "is never") {
				t.Fatalf("%v\n%s", f, r.Snippet)
			}
		}
	})
}
