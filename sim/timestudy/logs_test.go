package timestudy

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pascaline/scenarios"
	"pascaline/scenarios/sheet"
	"pascaline/sim/result"
)

// near tells whether a value has the digits of a printed one.
func near(t *testing.T, what string, got, want, half float64) {
	t.Helper()
	if !(math.Abs(got-want) <= half) {
		t.Errorf("%s: %.10g, want %.10g ± %g", what, got, want, half)
	}
}

func studied(t *testing.T, text string, from, to time.Time, o StopOptions) *result.StopFit {
	t.Helper()
	l, faults := logOf(t, text, from, to)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return StudyStops("s.csv", l, o)
}

// A stop without an end had ended before its station stopped again, whatever the cause: it has no length. Only one after which its station never
// stopped again may still last. All lengths are 10 min; the log ends at 10:00 on the 6th.
func TestForgottenEndIsNoLength(t *testing.T) {
	const head = "station,start,end,cause\ntip,2026-03-02 10:00,2026-03-02 10:10,stuck\ntip,2026-03-03 10:00,,stuck\n"
	for _, c := range []struct {
		name, rows string
		down, mean float64 // hours stood; mean time to stop
		lost       bool
	}{
		// 50 min; to stop 24 h - 10 min, lost, 24 h - 10 min, and nothing after the last but its 10 min to 10:10 ... to 10:00: 23 h 50 min.
		{"the same cause follows", "tip,2026-03-04 10:00,2026-03-04 10:10,stuck\ntip,2026-03-05 10:00,2026-03-05 10:10,stuck\n", 0.5, (3*24 - 0.5) / 2, true},
		// Its end is not known: it has run at least since 10:00 on the 4th, so the times to stop are 23 h 50 min and more than 48 h.
		{"another cause follows", "tip,2026-03-04 10:00,2026-03-04 10:10,film\n", 1.0 / 6, 24 - 1.0/6 + 48, true},
		// Another station says nothing of it: it may still last, and stood for 72 h.
		{"another station follows", "dryer,2026-03-04 10:00,2026-03-04 10:10,stuck\n", 72 + 1.0/6, 24 - 1.0/6, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := studied(t, head+c.rows, time.Time{}, time.Date(2026, 3, 6, 10, 0, 0, 0, time.UTC), StopOptions{})
			got := r.Causes[slices.IndexFunc(r.Causes, func(c result.StopFitC) bool { return c.Station == "tip" && c.Name == "stuck" })]
			near(t, "hours stood", got.Down, c.down, 1e-7)
			near(t, "mean to stop", got.Mean, c.mean, 1e-7)
			near(t, "mean length", got.TakesMeanS, 600, 1e-7)
			warned := slices.ContainsFunc(r.Warnings, func(w result.Warning) bool { return w.Code == "ends missing" })
			if told := strings.Contains(strings.Join(got.Doubts, " "), "1 stop is without an end"); warned != c.lost || told != c.lost || got.Open != 1 {
				t.Errorf("warned %v, told %v, want %v; %d open", warned, told, c.lost, got.Open)
			}
			if strings.Contains(strings.Join(got.Doubts, " "), "at the same time as the one before") {
				t.Errorf("told as if it began before the one before it ended: %q", got.Doubts)
			}
		})
	}
}

// Meters of different stations have nothing to do with each other: tip 8 h and 9 h, dryer 10 h and 12 h, alone or in one log.
func TestMetersOfStationsAreKeptApart(t *testing.T) {
	const tip = "tip,2026-01-05 09:00,2026-01-05 09:10,stuck,300\ntip,2026-01-06 09:00,2026-01-06 09:10,stuck,308\ntip,2026-01-07 09:00,2026-01-07 09:10,stuck,317\n"
	const dryer = "dryer,2026-01-05 08:00,2026-01-05 08:30,jam,12000\ndryer,2026-01-06 08:00,2026-01-06 08:30,jam,12010\ndryer,2026-01-07 08:00,2026-01-07 08:30,jam,12022\n"
	for name, rows := range map[string]string{"tip": tip, "both": tip + dryer, "one stop of another cause": tip + dryer + "dryer,2026-01-05 07:00,2026-01-05 07:10,film,11990\n"} {
		r := studied(t, "station,start,end,cause,running hours\n"+rows, time.Time{}, time.Time{}, StopOptions{})
		near(t, name+": mean of the tip", causeNamed(t, r, "stuck").Mean, 8.5, 1e-7)
		exposure := 17.0
		if name != "tip" {
			near(t, name+": mean of the dryer", causeNamed(t, r, "jam").Mean, 11, 1e-7)
			exposure = 22
		}
		if name == "one stop of another cause" { // censored from 11,990 to 12,022: one event in the 32 h of its own station
			near(t, name, causeNamed(t, r, "film").Mean, 32, 1e-7)
			exposure = 32
		}
		near(t, name+": in the log", r.Exposure, exposure, 1e-7)
	}
}

// A meter that was set to 0 between the third and fourth stop (300, 310, 322, 5, 18): what it had counted till then is not known, so
// the times to stop are 10, 12 and 13 h, and nothing after the last.
func TestMeterThatWasSetBack(t *testing.T) {
	text := "station,start,end,cause,running hours\n"
	for i, m := range []string{"300", "310", "322", "5", "18"} {
		day := time.Date(2026, 1, 5+i, 9, 0, 0, 0, time.UTC)
		text += "tip," + day.Format(stamp) + "," + day.Add(time.Minute).Format(stamp) + ",stuck," + m + "\n"
	}
	r := studied(t, text, time.Time{}, time.Time{}, StopOptions{})
	near(t, "mean", r.Causes[0].Mean, 35.0/3, 1e-7)
	near(t, "in the log", r.Exposure, 35, 1e-7)
	if !slices.ContainsFunc(r.Warnings, func(w result.Warning) bool { return w.Code == "meter" && strings.HasPrefix(w.Text, "1 meter reading") }) {
		t.Errorf("warnings %v", r.Warnings)
	}
}

// Time on shift is the same in whatever order shifts are written. From Monday 00:00 to Wednesday 00:00: early is 8 h on two days, night 22:00 to 06:00 of
// Monday 8 h and of Tuesday 2 h.
func TestTimeOnShiftInAnyOrder(t *testing.T) {
	const early, night = "early: {hours: 06:00 to 14:00}", "night: {hours: 22:00 to 06:00}"
	for _, c := range []struct {
		name, shifts string
		want         float64
	}{
		{"as they begin", early + ", " + night, 26}, {"night first", night + ", " + early, 26},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, faults := scenarios.ReadBytes("x", []byte("scenario: x\ntip: {fed: {every: 60 s}}\nroster: {days: Mon to Fri, shifts: {"+c.shifts+"}}\n"))
			if len(faults) > 0 {
				t.Fatal(faults)
			}
			monday := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)
			near(t, "hours", onShift(s.Roster, monday, monday.AddDate(0, 0, 2)).Hours(), c.want, 1e-12)
		})
	}
}

// Causes from outside are told by whole words.
func TestWordsOfCausesFromOutside(t *testing.T) {
	for cause, outside := range map[string]bool{
		"Gearbox breakdown": false, "belt breakage": false, "film break": false, "broken belt": false, "breaker tripped": false, "unblocked by hand": false, "material-handling arm": true,
		"break": true, "Break (early shift)": true, "lunch break": true, "tea-break": true, "coffee breaks": true, "operator on break": true,
		"no carriers": true, "No pack": true, "no packs": true, "waiting for packers": true, "starved": true, "no operator": true, "meeting": true, "immaterial": false,
	} {
		s := Stopped{Cause: cause}
		if s.origin(""); s.Outside != outside {
			t.Errorf("%q: outside %v", cause, s.Outside)
		}
	}
	s := Stopped{Cause: "lunch break"}
	if s.origin("own"); s.Outside {
		t.Error("what the log says goes before the words")
	}
}

// Where the log has no time beside the one stop, nothing is known of the time to the next, and nothing is written of it.
func TestOneStopInALogWithoutBounds(t *testing.T) {
	for name, text := range map[string]string{
		"with an end":    "station,start,end,cause\ntip,2026-01-05 09:00,2026-01-05 09:30,stuck\n",
		"without an end": "station,start,end,cause\ntip,2026-01-05 09:00,,stuck\n",
		"with a meter":   "station,start,end,cause,cycles\ntip,2026-01-05 09:00,2026-01-05 09:30,stuck,400\n",
	} {
		r := studied(t, text, time.Time{}, time.Time{}, StopOptions{})
		if c := r.Causes[0]; c.Every != "" || c.Mean != 0 || c.Low != nil || c.High != nil || strings.Contains(r.Snippet, "stops:") || !strings.Contains(r.Snippet, "# tip stuck: 1 stop") {
			t.Errorf("%s: %+v\n%s", name, c, r.Snippet)
		}
	}
	// With bounds: one stop of half an hour in 24 h is one in 23.5 h.
	day := time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)
	r := studied(t, "station,start,end,cause\ntip,2026-01-05 09:00,2026-01-05 09:30,stuck\n", day, day.AddDate(0, 0, 1), StopOptions{})
	near(t, "mean", r.Causes[0].Mean, 23.5, 1e-7)
}

// Jam at 10:00, 15:00 and 22:00 for an hour each, the log ends at 04:00: 4 h and 6 h to stop, and 5 h more without one. 15 h and two stops: mean 7.5 h, 95 %
// interval 2 x 15/14.449 (chi-square with 6 degrees, 97.5 %) to 2 x 15/0.4844 (4 degrees, 2.5 %), by printed tables.
func TestMeanToStopByHand(t *testing.T) {
	text := "station,start,end,cause\ntip,2026-01-05 10:00,2026-01-05 11:00,jam\ntip,2026-01-05 15:00,2026-01-05 16:00,jam\ntip,2026-01-05 22:00,2026-01-05 23:00,jam\n"
	r := studied(t, text, time.Time{}, time.Date(2026, 1, 6, 4, 0, 0, 0, time.UTC), StopOptions{})
	c := r.Causes[0]
	near(t, "mean", c.Mean, 7.5, 1e-7)
	near(t, "low", *c.Low, 2.0763, 1e-4)
	near(t, "high", *c.High, 61.93, 0.01)
	if c.Every != "{mean: 7.5 h calendar time, as: exponential}" {
		t.Error(c.Every)
	}
}

// Stops at random need the least to be known: another shape must be better by more than 2.
func TestShapeOfTimesToStopMustBeBetterBy2(t *testing.T) {
	for _, c := range []struct {
		aic    float64
		remark string
		want   int
	}{{99, "", 1}, {98.1, "", 1}, {97.9, "", 0}, {97.9, "not used", 1}} {
		a, b := c.aic, 100.0
		all := []fitted{{Fitted: result.Fitted{Distribution: string(scenarios.Weibull), AIC: &a, Remark: c.remark}}, {Fitted: result.Fitted{Distribution: string(scenarios.Exponential), AIC: &b}}}
		if got := steady(all); got != c.want {
			t.Errorf("AIC %g against 100 %s: took %d", c.aic, c.remark, got)
		}
	}
}

// The interval beside a mean is that of the shape whose mean it is. For the lognormal the mean of the logs and their spread part: with the logs
// -2a, -a, 0, a, 2a the likeliest mean is exp(a^2) (spread 10 a^2 over 5, halved), the interval holds it, and it does not move with the scale.
func TestIntervalIsThatOfTheShape(t *testing.T) {
	of := func(scale, a float64) Sample {
		var s Sample
		for i := -2.0; i <= 2; i++ {
			s.Exact = append(s.Exact, scale*math.Exp(i*a))
		}
		return s
	}
	for _, a := range []float64{0.01, 0.3} {
		d := fitLognormal(of(1, a))
		near(t, "mean", d.Mean(), math.Exp(a*a), 1e-9)
		low, high := meanWithin(of(1, a), d)
		if low >= d.Mean() || high <= d.Mean() {
			t.Errorf("mean %g outside %g to %g", d.Mean(), low, high)
		}
		low10, high10 := meanWithin(of(10, a), fitLognormal(of(10, a)))
		near(t, "low of ten times as long", low10/low, 10, 1e-4)
		near(t, "high of ten times as long", high10/high, 10, 1e-4)
	}
	// With so little spread half the variance of the logs hardly moves: the centre of the logs is 0 ± t s/sqrt n = 2.7764 x 0.01 sqrt(2.5)/sqrt(5) = 0.01963, and
	// there half the variance (by n, about that centre) is (2 + 2.7764^2/4 x 2)/2 x 0.01^2 = 0.00029.
	low, high := meanWithin(of(1, 0.01), fitLognormal(of(1, 0.01)))
	near(t, "low", low, math.Exp(-0.01963+0.00029), 2e-5)
	near(t, "high", high, math.Exp(0.01963+0.00029), 2e-5)
}

// A log whose times to stop have little spread: Weibull with its own interval, in which the mean lies, far narrower than that of stops at random.
func TestMeanLiesInItsInterval(t *testing.T) {
	text := "station,start,end,cause\n"
	at := time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)
	for _, h := range []float64{90, 100, 110, 104, 96, 99, 101, 93, 107, 100, 98, 102} {
		at = at.Add(time.Duration(h * float64(time.Hour)))
		text += "tip," + at.Format(stamp) + "," + at.Add(6*time.Minute).Format(stamp) + ",jam\n"
		at = at.Add(6 * time.Minute)
	}
	c := studied(t, text, time.Time{}, at, StopOptions{}).Causes[0]
	// t with 10 degrees is 2.228; 11 times to stop with a standard deviation near 5 h: ± 3.4 h.
	if c.EveryBest == string(scenarios.Exponential) || *c.Low > c.Mean || *c.High < c.Mean || *c.Low < 95 || *c.High > 105 {
		t.Errorf("%s: mean %g, %g to %g", c.EveryBest, c.Mean, *c.Low, *c.High)
	}
}

// What no time or count of a plant is, is refused where it stands.
func TestNumbersBeyondReasonAreRefusedAtTheirCell(t *testing.T) {
	const log = "station,start,end,cause,cycles\ntip,2026-01-05 09:00,2026-01-05 09:30,stuck,"
	for name, c := range map[string]struct{ text, want string }{
		"a meter without bound":    {log + "1e308\n", "s.csv:2:5"},
		"a meter below 0":          {log + "-1\n", "s.csv:2:5"},
		"a reading without length": {"task,time (s)\nswap,1e-320\n", "s.csv:2:2"},
		"a reading of a year":      {"task,time\nswap,99999999:00:00\n", "s.csv:2:2"},
		"packs without bound":      {"task,time (s),packs\nswap,12,1e308\n", "s.csv:2:3"},
		"people without bound":     {"task,time (s),people\nswap,12,1e300\n", "s.csv:2:3"},
		"a rating of nothing":      {"task,time (s),rating\nswap,12,1e-300\n", "s.csv:2:3"},
		"a stop of many years":     {"station,start,duration (h:mm),cause\ntip,2026-01-05 09:00,99999999999999:00,stuck\n", "s.csv:2:3"},
	} {
		t.Run(name, func(t *testing.T) {
			table, faults, err := sheet.ReadBytes("s.csv", []byte(c.text), sheet.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if IsStopLog(table) {
				_, more := ReadLog(table, time.Time{}, time.Time{})
				faults = append(faults, more...)
			} else {
				_, more := Times(table, "", Rules{Rating: 1})
				faults = append(faults, more...)
			}
			if len(faults) == 0 || faults[0].Place != c.want {
				t.Errorf("faults %v, want one at %s", faults, c.want)
			}
		})
	}
	_, s := modelOf(t, small)
	if _, faults := countsOf(t, "date,packs\n2026-03-02,1e308\n", s); len(faults) != 1 {
		t.Errorf("a count without bound: %v", faults)
	}
}
