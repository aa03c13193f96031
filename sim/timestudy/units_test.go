package timestudy

import (
	"math"
	"strings"
	"testing"
	"time"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

// rostered is a plant of two shifts on five days, and a night where it is asked for; run says how long a replication is.
func rostered(t *testing.T, night, run string) *scenarios.Scenario {
	t.Helper()
	s, faults := scenarios.ReadBytes("x", []byte("scenario: x\npacking: {time: {mean: 36 s, sd: 10 s}}\nroster: {days: Mon to Fri, shifts: {early: {hours: 06:00 to 14:00}, late: {hours: 14:00 to 22:00}"+night+"}}\nrun: {"+run+"}\n"))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return s
}

// A period that goes on after the replication is refused: what is made in a part would be held against the whole.
func TestPeriodBeyondTheReplicationIsRefused(t *testing.T) {
	const night = ", night: {hours: 22:00 to 06:00}"
	for _, c := range []struct{ name, night, run, sheet, refused string }{
		{"4.3 days against a day", "", "one_replication: day", "hour,to,packs\n2026-03-02 06:00,2026-03-06 14:00,4300\n", "lasts to 104 h"},
		{"to the end of the day", "", "one_replication: day", "hour,to,packs\n2026-03-02 06:00,2026-03-03 06:00,1600\n", ""},
		{"an hour more", "", "one_replication: day", "hour,to,packs\n2026-03-02 06:00,2026-03-03 07:00,1600\n", "lasts to 25 h"},
		{"the last hour of the first shift", "", "one_replication: 8 h", "hour,packs\n2026-03-02 13:00,100\n", ""},
		{"over its end", "", "one_replication: 8 h", "hour,packs\n2026-03-02 13:30,100\n", "lasts to 8.5 h"},
		{"the first shift", "", "one_replication: 8 h", "date,shift,packs\n2026-03-02,early,800\n", ""},
		{"a shift that is simulated in part", "", "one_replication: 6 h", "date,shift,packs\n2026-03-02,early,800\n", "lasts to 8 h"},
		{"a day of which a shift is simulated", "", "one_replication: 8 h", "date,packs\n2026-03-02,1600\n", "lasts to 16 h"},
		{"a day of two shifts", "", "one_replication: 16 h", "date,packs\n2026-03-02,1600\n", ""},
		{"a night that is simulated", night, "one_replication: day", "date,shift,packs\n2026-03-02,night,800\n", ""},
		{"a night that is cut", night, "one_replication: day, starts: Mon 00:00", "date,shift,packs\n2026-03-02,night,800\n", "lasts to 30 h"},
		{"a day with its night", night, "one_replication: day", "date,packs\n2026-03-02,2400\n", ""},
		{"an hour after the end", "", "one_replication: 8 h", "hour,packs\n2026-03-02 14:00,100\n", "within the 8 h that are simulated"},
		{"over the end of the week", "", "one_replication: week", "hour,to,packs\n2026-03-06 06:00,2026-03-09 08:00,2400\n", "lasts to 170 h"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := rostered(t, c.night, c.run)
			counts, faults := countsOf(t, c.sheet, s)
			if (len(faults) > 0) != (c.refused != "") || len(faults) > 0 && !strings.Contains(faults[0].Error(), c.refused) {
				t.Errorf("faults %v, want one with %q", faults, c.refused)
			}
			if c.refused == "" && len(counts.All) != 1 {
				t.Errorf("%d periods", len(counts.All))
			}
		})
	}
}

// A list that is done when it is done is not cut: nothing more is made after it.
func TestPeriodBeyondAListThatIsDone(t *testing.T) {
	m, s := modelOf(t, "scenario: x\npacking: {time: {mean: 36 s, sd: 10 s}, fed: {quantity: 200 packs}}\nrun: {one_replication: until finished}\n")
	run, p := predictOf(t, m, 1, 20)
	c, faults := countsOf(t, "hour,packs\n2026-03-02 00:00,100\n2026-03-02 01:00,100\n", s)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if r, err := hold(run, p, c, 1); err != nil || len(r.Periods) != 2 {
		t.Error(err)
	}
}

// An hour is of the day whose shifts it follows: Saturday 02:00 is the night of Friday, Monday 05:00 the one of Sunday.
func TestHourOfADayThatIsNotWorked(t *testing.T) {
	s := rostered(t, ", night: {hours: 22:00 to 06:00}", "one_replication: day")
	for hour, worked := range map[string]bool{"2026-03-06 06:00": true, "2026-03-07 02:00": true, "2026-03-07 06:00": false, "2026-03-08 12:00": false, "2026-03-09 05:00": false, "2026-03-09 06:00": true} {
		_, faults := countsOf(t, "hour,packs\n"+hour+",100\n", s)
		if (len(faults) == 0) != worked {
			t.Errorf("%s: faults %v, worked %v", hour, faults, worked)
		}
	}
}

// A unit begins when the replication does: the last night of a week is of this week, though it is of the next by the calendar.
func TestUnitOfAPeriod(t *testing.T) {
	const monSix, tueTen = 6 * 60, 34 * 60
	at := func(day, hour int) time.Time { return time.Date(2026, 3, day, hour, 0, 0, 0, time.UTC) } // the 2nd is a Monday of week 10
	for _, c := range []struct {
		name  string
		from  time.Time
		what  string
		start int
		whole bool
		want  string
	}{
		{"the first hour of the week", at(2, 6), "week", monSix, false, "2026 week 10"},
		{"its last hour", at(9, 5), "week", monSix, false, "2026 week 10"},
		{"the first of the next", at(9, 6), "week", monSix, false, "2026 week 11"},
		{"a Monday as a whole", at(9, 0), "week", monSix, true, "2026 week 11"},
		{"a week from Tuesday", at(3, 10), "week", tueTen, false, "2026 week 10"},
		{"its last hour, on Tuesday", at(10, 9), "week", tueTen, false, "2026 week 10"},
		{"a Monday of a week from Tuesday", at(9, 0), "week", tueTen, true, "2026 week 10"},
		{"an hour of a night", at(4, 5), "day", monSix, false, "2026-03-03"},
		{"a day as a whole", at(4, 0), "day", monSix, true, "2026-03-04"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := (Count{From: c.from, To: c.from.Add(time.Hour)}).unitOf(c.what, c.start, c.whole); got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
		})
	}
	week := map[string]bool{}
	for h := range 168 {
		week[Count{From: at(2, 6+h), To: at(2, 7+h)}.unitOf("week", monSix, false)] = true
	}
	if len(week) != 1 {
		t.Errorf("one week of hours from Monday 06:00 is %v", week)
	}
}

// The last step ends with the replication. 85 min in steps of 10 min, 10 packs in each and 5 in the last 5 min: 60 to 85 min is 25 packs.
func TestLastStepIsCutWithTheReplication(t *testing.T) {
	p := &predicted{steps: [][]int64{{10, 10, 10, 10, 10, 10, 10, 10, 5}}, stepS: 600, endS: []float64{85 * 60}, scale: 1}
	near(t, "60 to 85 min", p.in(0, 3600, 85*60), 25, 1e-9)
	near(t, "to 24 h", p.in(0, 0, 24*3600), 85, 1e-9)
	near(t, "half of the last step", p.in(0, 80*60, 82.5*60), 2.5, 1e-9)
}

// Two days that four replications predict with 90, 110, 90 and 110 packs: variance 400/3 each, and the mean of the replications has an error of its own that is the same
// in both, (2 sqrt(400/3))^2/4 = 400/3. Together 400, so the sd is 20 packs, a tenth of the 200 that are predicted. Counted 120 on each: z = 2, a bias of 20 ± 19.6 %,
// each day sqrt(3) of its own sd away. 5 % is half a sd: Phi(0.5 - 1.96) + Phi(-0.5 - 1.96) = 0.0721 + 0.0069 (printed tables).
func TestVerdictByHand(t *testing.T) {
	sums := []float64{90, 110, 90, 110}
	r := &result.Backtest{}
	if err := judgeUnits(r, []*unit{{counted: 120, sums: sums}, {counted: 120, sums: sums}}, 4); err != nil {
		t.Fatal(err)
	}
	near(t, "z", r.Z, 2, 1e-9)
	near(t, "bias", r.Bias, 0.2, 1e-9)
	near(t, "bias, low", r.BiasLow, 0.0040036, 1e-6)
	near(t, "bias, high", r.BiasHigh, 0.3959964, 1e-6)
	near(t, "detectable", r.Detectable, 0.1959964+0.1281552, 1e-6)
	near(t, "power at 5 %", r.PowerAt5, 0.0790, 2e-4)
	near(t, "spread ratio", r.SpreadRatio, math.Sqrt(3), 1e-9)
	if r.Accepted || r.Units != 2 {
		t.Errorf("accepted %v, %d units", r.Accepted, r.Units)
	}
}
