package timestudy

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/scenarios"
	"pascaline/scenarios/sheet"
	"pascaline/sim/random"
	"pascaline/sim/result"
)

// logTruth is what the example log is drawn from: mean times to stop in hours on shift, mean lengths in minutes.
var logTruth = []struct {
	station, cause, origin string
	every                  distribution
	takes                  distribution
}{
	{"vessel", "seal", "own", distuv.Weibull{K: 2.57, Lambda: 67.57}, lognormalOf(50, 20)},
	{"dryer", "belt", "own", distuv.Exponential{Rate: 1.0 / 16}, lognormalOf(12, 6)},
	{"tip", "no carriers", "outside", distuv.Exponential{Rate: 1.0 / 24}, distuv.Exponential{Rate: 1.0 / 4}},
}

var (
	logFrom = time.Date(2026, 3, 2, 6, 0, 0, 0, time.UTC)
	logTo   = time.Date(2026, 6, 26, 22, 0, 0, 0, time.UTC)
)

// wall is the moment at which so many hours on shift have passed: two shifts of 8 h from 06:00, Monday to Friday.
func wall(onShift float64) time.Time {
	day := int(onShift / 16)
	return logFrom.AddDate(0, 0, day/5*7+day%5).Add(time.Duration((onShift - 16*float64(day)) * float64(time.Hour)))
}

// stopsExample writes a log as people keep one: in order of time, the last stop still open, one without its end.
func stopsExample() string {
	type row struct {
		at   time.Time
		text string
	}
	var rows []row
	for _, x := range logTruth {
		s := random.Named(2, 0, "log of "+x.cause)
		total := onShift(exampleRoster(), logFrom, logTo).Hours()
		at := 0.0
		for n := uint64(0); ; n += 2 {
			at += x.every.Quantile(s.At(n))
			length := x.takes.Quantile(s.At(n+1)) / 60
			if at+length > total {
				break
			}
			start, end := wall(at).Truncate(time.Minute), wall(at+length).Truncate(time.Minute)
			rows = append(rows, row{start, fmt.Sprintf("%s,%s,%s,%s,%s\n", x.station, start.Format(stamp), end.Format(stamp), x.cause, x.origin)})
			at += length
		}
	}
	open := logTo.Add(-20 * time.Minute)
	rows = append(rows, row{open, fmt.Sprintf("dryer,%s,,belt,own\n", open.Format(stamp))})
	slices.SortStableFunc(rows, func(a, b row) int { return a.at.Compare(b.at) })
	text := "station,start,end,cause,origin\n"
	for _, r := range rows {
		text += r.text
	}
	return text
}

func exampleRoster() *scenarios.Roster {
	s, faults := scenarios.ReadBytes("x", []byte("scenario: x\ntip: {fed: {every: 60 s}}\nroster: {days: Mon to Fri, shifts: {early: {hours: 06:00 to 14:00}, late: {hours: 14:00 to 22:00}}}\n"))
	if len(faults) > 0 {
		return nil
	}
	return s.Roster
}

func logOf(t *testing.T, text string, from, to time.Time) (*Log, []sheet.Fault) {
	t.Helper()
	table, faults, err := sheet.ReadBytes("s.csv", []byte(text), sheet.Options{})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	if !IsStopLog(table) {
		t.Fatal("not taken for a stop log")
	}
	return ReadLog(table, from, to)
}

func causeNamed(t *testing.T, r *result.StopFit, name string) result.StopFitC {
	t.Helper()
	for _, c := range r.Causes {
		if c.Name == name {
			return c
		}
	}
	t.Fatalf("no cause %q in %+v", name, r.Causes)
	return result.StopFitC{}
}

// The example log gives back what it was drawn from, each truth within the interval that is printed, and its snippet is read by the scenario reader.
func TestExampleLogGivesItsTruth(t *testing.T) {
	golden(t, "stops.csv", []byte(stopsExample()))
	l, faults := logOf(t, stopsExample(), logFrom, logTo)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	r := StudyStops("stops.csv", l, StopOptions{Roster: exampleRoster()})
	for _, x := range logTruth {
		c := causeNamed(t, r, x.cause)
		if *c.Low > x.every.Mean() || *c.High < x.every.Mean() || c.Outside != (x.origin == "outside") {
			t.Errorf("%s: interval %.3g to %.3g h, truth %.3g h; outside %v", x.cause, *c.Low, *c.High, x.every.Mean(), c.Outside)
		}
		if se := x.takes.StdDev() * 60 / math.Sqrt(float64(c.N)); math.Abs(c.TakesMeanS-60*x.takes.Mean()) > 3.5*se {
			t.Errorf("%s: length %.4g s, truth %.4g s", x.cause, c.TakesMeanS, 60*x.takes.Mean())
		}
	}
	if c := causeNamed(t, r, "belt"); c.Open != 1 {
		t.Errorf("%d open stops of the belt", c.Open)
	}
	if strings.Contains(strings.Split(r.Snippet, "\n# ")[0], "no carriers,") {
		t.Errorf("an outside cause is in the snippet:\n%s", r.Snippet)
	}
	base := "scenario: x\nvessel: {}\ndryer: {travel: 20 s}\nroster: {shifts: {early: {hours: 06:00 to 14:00}}}\n"
	s, sf := scenarios.ReadBytes("line.yaml", []byte(base+r.Snippet))
	if len(sf) > 0 {
		t.Fatal(sf, r.Snippet)
	}
	for _, stop := range s.Stops {
		if c := causeNamed(t, r, string(stop.Name)); math.Abs(stop.Every.Law().MeanUsed()/3600-c.Mean) > 0.01*c.Mean {
			t.Errorf("%s: read back every %g h, fitted %g h", stop.Name, stop.Every.Law().MeanUsed()/3600, c.Mean)
		}
	}
}

// Every stop is put into a scenario: where it is by station and name, else as a new one.
func TestStopsGoIntoAScenario(t *testing.T) {
	path := filepath.Join("..", "..", "testdata", "fit", "plant.yaml")
	s, faults, err := scenarios.Read(path, "")
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	l, _ := logOf(t, stopsExample()+"packing,2026-06-01 10:00,2026-06-01 10:20,tape,own\n", logFrom, logTo)
	r := StudyStops("stops.csv", l, StopOptions{Roster: s.Roster})
	src := "scenario: x\nvessel: {}\ndryer: {travel: 20 s}\npacking: {time: 20 s}\nroster: {shifts: {early: {hours: 06:00 to 14:00}}}\nstops:   # ours\n" +
		"  - {station: vessel, name: seal, every: {mean: 500 h running, as: exponential}, takes: 60 min}   # guessed\n"
	values := func(s *scenarios.Scenario) []scenarios.Value {
		all, missing, otherwise := StopValues(r, s)
		if len(missing)+len(otherwise) > 0 {
			t.Errorf("left out: %v %v", missing, otherwise)
		}
		return all
	}
	before, bf := scenarios.ReadBytes("x", []byte(src))
	if len(bf) > 0 {
		t.Fatal(bf)
	}
	got, err := scenarios.Put("x", []byte(src), values(before))
	if err != nil {
		t.Fatal(err)
	}
	after, af := scenarios.ReadBytes("x", got)
	if len(af) > 0 {
		t.Fatalf("%v\n%s", af, got)
	}
	if len(after.Stops) != 3 || !strings.Contains(string(got), "# guessed") || !strings.Contains(string(got), "# ours") {
		t.Errorf("%d stops:\n%s", len(after.Stops), got)
	}
	none, nf := scenarios.ReadBytes("x", []byte("scenario: x\nvessel: {}\ndryer: {travel: 20 s}\npacking: {time: 20 s}\nroster: {shifts: {early: {hours: 06:00 to 14:00}}}\n"))
	if len(nf) > 0 {
		t.Fatal(nf)
	}
	got, err = scenarios.Put("x", []byte("scenario: x\nvessel: {}\ndryer: {travel: 20 s}\npacking: {time: 20 s}\nroster: {shifts: {early: {hours: 06:00 to 14:00}}}\n"), values(none))
	if err != nil {
		t.Fatal(err)
	}
	if s, f := scenarios.ReadBytes("x", got); len(f) > 0 || len(s.Stops) != 3 {
		t.Errorf("%v\n%s", f, got)
	}
}

func TestLogsAreReadAsTheyAre(t *testing.T) {
	l, faults := logOf(t, "station,start,end,cause\nDryer,2026-03-02 13:50,2026-03-03 06:20,belt\ndryer,2026-03-02 13:55,2026-03-02 13:58,jam\ndryer,2026-03-04 08:00,,belt\n", logFrom, logTo)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	r := StudyStops("s.csv", l, StopOptions{Roster: exampleRoster()})
	// 13:50 to 22:00 and 06:00 to 06:20: 8.5 h of two shifts a day.
	c := causeNamed(t, r, "belt")
	if got := c.Down - onShift(exampleRoster(), l.Stops[2].Start, logTo).Hours(); math.Abs(got-8.5) > 1e-9 || c.Open != 1 {
		t.Errorf("stood %g h, open %d", got, c.Open)
	}
	var codes []string
	for _, w := range r.Warnings {
		codes = append(codes, w.Code)
	}
	if !slices.Contains(codes, "overlaps") || !slices.Contains(codes, "over shift ends") || !slices.Contains(codes, "clocks change") {
		t.Errorf("warnings %v", codes)
	}
}

func TestRowsOfALogThatAreRefused(t *testing.T) {
	for _, c := range []struct{ name, row, want string }{
		{"end before start", "dryer,2026-03-02 10:00,2026-03-02 09:00,belt", "an end after the start"},
		{"no station", ",2026-03-02 10:00,2026-03-02 11:00,belt", "the station that stood"},
		{"no date", "dryer,10:00,11:00,belt", "a date and time"},
		{"before the log", "dryer,2026-01-02 10:00,2026-01-02 11:00,belt", "within the log"},
		{"twice", "dryer,2026-03-02 10:00,2026-03-02 11:00,belt\ndryer,2026-03-02 10:00,2026-03-02 11:00,belt", "each stop once"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := logOf(t, "station,start,end,cause\n"+c.row+"\n", logFrom, logTo)
			if len(faults) != 1 || !strings.Contains(faults[0].Error(), c.want) {
				t.Errorf("faults %v, want one with %q", faults, c.want)
			}
		})
	}
}

// A meter of cycles gives times to stop in cycles, whatever the hours were.
func TestMeterIsUsed(t *testing.T) {
	text := "station,start,end,cause,cycles\n"
	for i := range 12 {
		at := logFrom.AddDate(0, 0, i)
		text += fmt.Sprintf("vessel,%s,%s,seal,%d\n", at.Format(stamp), at.Add(time.Hour).Format(stamp), 1000*i+10*(i%3))
	}
	l, faults := logOf(t, text, time.Time{}, time.Time{})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	r := StudyStops("s.csv", l, StopOptions{})
	if c := r.Causes[0]; r.Clock != "cycles" || math.Abs(c.Mean-1000) > 20 || !strings.Contains(c.Every, "cycles") {
		t.Errorf("clock %s, mean %g, every %s", r.Clock, c.Mean, c.Every)
	}
	src := "scenario: x\nvessel: {}\n" + r.Snippet
	if _, f := scenarios.ReadBytes("x", []byte(src)); len(f) > 0 {
		t.Errorf("%v\n%s", f, src)
	}
}

// Short stops: 5 % of 3600 s by stops of 30 s each are 6 an hour.
func TestShortStopsComeFromTheGap(t *testing.T) {
	s := EstimateShort("dryer", 95, 100, 30)
	if math.Abs(s.PerHour-6) > 1e-9 {
		t.Errorf("%+v", s)
	}
	if s := EstimateShort("dryer", 101, 100, 30); s.Share != 0 || s.PerHour != 0 {
		t.Errorf("%+v", s)
	}
}
