package timestudy

import (
	"fmt"
	"math"
	"strings"
	"time"

	"pascaline/scenarios"
	"pascaline/scenarios/sheet"
	"pascaline/scenarios/units"
	"pascaline/sim/clock"
	"pascaline/sim/line"
)

// Count is what was counted in one period.
type Count struct {
	Label string
	From  time.Time
	To    time.Time
	Until time.Time // to when it is worked in this period: a replication that ends before does not predict it; zero where no roster says so
	N     float64
	Place string
}

// Counts is a sheet of counts.
type Counts struct {
	What string // "packs", "cases" or "cycles"
	Per  string // "hour", "shift" or "day"
	All  []Count
}

// ReadCounts reads counts per hour (a column "hour" with date and time, and "to" where it is not an hour), per shift (date and shift) or per day
// (date). The line's roster says when a shift is; packs that come out after its end and before the next belong to it. Every row that cannot be
// read is a fault.
func ReadCounts(t *sheet.Table, s *scenarios.Scenario) (*Counts, []sheet.Fault) {
	c := &Counts{}
	value := -1
	for _, what := range []string{"packs", "cases", "cycles"} {
		if i := t.Column(what); i >= 0 && value < 0 {
			value, c.What = i, what
		}
	}
	hour, date, shift := t.Column("hour", "from", "start"), t.Column(dateNames...), t.Column(shiftNames...)
	switch {
	case hour >= 0:
		c.Per = "hour"
	case date >= 0 && shift >= 0:
		c.Per = "shift"
	case date >= 0:
		c.Per = "day"
	}
	if value < 0 || c.Per == "" {
		return c, []sheet.Fault{{Place: t.File + ":1:1", Found: "other headings", Want: `"packs", "cases" or "cycles", and "hour" (date and time), or "date" and "shift", or "date"`}}
	}
	var faults []sheet.Fault
	seen := map[string]string{}
	for _, row := range t.Rows {
		one, f := c.period(t, row, s, hour, date, shift)
		if f == nil {
			if one.N, f = t.Number(row.At(value)); f == nil && one.N < 0 {
				f = faultOf(row.At(value), "a count of 0 or more")
			} else if f == nil && one.N > mostCount {
				f = faultOf(row.At(value), "a count of at most "+plain(mostCount))
			}
		}
		if f == nil && seen[one.Label] != "" {
			f = &sheet.Fault{Place: one.Place, Found: "a period that stands twice", Want: "each period once", Hint: "first at " + seen[one.Label]}
		}
		if f != nil {
			faults = append(faults, *f)
			continue
		}
		seen[one.Label] = one.Place
		c.All = append(c.All, one)
	}
	return c, faults
}

// period reads when a row was counted.
func (c *Counts) period(t *sheet.Table, row sheet.Row, s *scenarios.Scenario, hour, date, shift int) (one Count, f *sheet.Fault) {
	cell := row.At(max(hour, date))
	if hour >= 0 {
		cell = row.At(hour)
	}
	one.Place = cell.Place()
	if one.From, f = t.Moment(cell); f != nil {
		return one, f
	}
	switch c.Per {
	case "hour":
		one.To = one.From.Add(time.Hour)
		if i := t.Column("to", "end", "until"); i >= 0 && row.At(i).Text != "" {
			if one.To, f = t.Moment(row.At(i)); f != nil {
				return one, f
			}
			if !one.To.After(one.From) {
				return one, faultOf(row.At(i), "an end after the beginning")
			}
		}
		one.Label, one.Until = one.From.Format("Mon "+stamp), one.To
	case "shift":
		name := row.At(shift)
		from, to, until, ok := shiftHours(s.Roster, name.Text)
		if !ok {
			return one, faultOf(name, "a shift of the scenario's roster: "+strings.Join(shiftsOf(s.Roster), ", "))
		}
		day := one.From.Truncate(24 * time.Hour)
		one.From, one.To, one.Until, one.Label = day.Add(from), day.Add(to), day.Add(until), day.Format("Mon 2006-01-02 ")+name.Text
	default:
		one.From = one.From.Truncate(24 * time.Hour)
		one.To, one.Label = one.From.Add(24*time.Hour), one.From.Format("Mon 2006-01-02")
		if r := s.Roster; r != nil {
			for _, sh := range r.Shifts {
				one.Until = later(one.Until, one.From.Add(time.Duration(sh.Hours.To)*time.Microsecond))
			}
		}
	}
	if r := s.Roster; r != nil && !r.Days[(int(one.dayOf(c.Per, r).Weekday())+6)%7] {
		return one, faultOf(cell, "a day of the scenario's roster")
	}
	return one, one.covered(s, c.Per == "day", cell)
}

// dayOf is the day whose shifts a period belongs to: hours before the first shift begins are the night of the day before.
func (p Count) dayOf(per string, r *scenarios.Roster) time.Time {
	if per != "hour" {
		return p.From
	}
	first := 24 * time.Hour
	for _, s := range r.Shifts {
		first = min(first, time.Duration(s.Hours.From)*time.Microsecond)
	}
	return p.From.Add(-first)
}

func shiftsOf(r *scenarios.Roster) []string {
	if r == nil {
		return []string{"it has none"}
	}
	var names []string
	for _, s := range r.Shifts {
		names = append(names, s.Name)
	}
	return names
}

// shiftHours is when a shift begins, when the next begins that day or the first of the next day, and when it ends itself.
func shiftHours(r *scenarios.Roster, name string) (from, to, until time.Duration, ok bool) {
	if r == nil {
		return 0, 0, 0, false
	}
	const us = time.Microsecond
	for _, s := range r.Shifts {
		if strings.EqualFold(s.Name, name) {
			from, until, ok = time.Duration(s.Hours.From)*us, time.Duration(s.Hours.To)*us, true
		}
	}
	to = from + 24*time.Hour
	for _, s := range r.Shifts {
		for _, next := range []time.Duration{time.Duration(s.Hours.From) * us, time.Duration(s.Hours.From)*us + 24*time.Hour} {
			if next > from && next < to {
				to = next
			}
		}
	}
	return from, to, until, ok
}

// lasts is how long a replication is, in seconds; 0 where it goes on until all is finished, after which nothing more is made.
func lasts(s *scenarios.Scenario) float64 {
	most, untilFinished := line.Longest(s)
	if untilFinished {
		return 0
	}
	return float64(most) / float64(clock.Second)
}

// covered refuses a period that begins or goes on after what is simulated: what is made of it would be held against the whole. A whole day is done 24 h
// after it begins.
func (p Count) covered(s *scenarios.Scenario, whole bool, cell sheet.Cell) *sheet.Fault {
	l := lasts(s)
	if l == 0 {
		return nil
	}
	startMin := int(s.Run.Starts.At.At / units.Minute)
	from, _, err := p.window(startMin, l/3600, whole)
	end := from
	switch {
	case err != nil:
		end = math.Inf(1)
	case p.Until.IsZero():
	case whole:
		end += math.Min(24*3600, p.Until.Sub(p.From).Seconds()-float64(startMin%1440*60))
	default:
		end += p.Until.Sub(p.From).Seconds()
	}
	if end <= l+1 {
		return nil
	}
	hint := "count a shorter one, or simulate a longer time (run.one_replication)"
	if err == nil {
		hint = fmt.Sprintf("it lasts to %.4g h: ", end/3600) + hint
	}
	f := cell.Fault(fmt.Sprintf("a period within the %.4g h that are simulated", l/3600), hint)
	return &f
}

// daysApart tells whether a replication is longer than a day, so that its days are told apart by weekday.
func daysApart(lengthH float64) bool { return lengthH > 24 }

// window is a period in seconds from the start of a replication that begins at startMin of the week and lasts lengthH hours. A replication of
// more than a day is matched by weekday, a shorter one by time of day. A whole day begins when the replication does, so that a night shift is not cut.
func (p Count) window(startMin int, lengthH float64, whole bool) (from, to float64, err error) {
	const day = 24 * 3600.0
	startDay, weekday := startMin/1440, (int(p.From.Weekday())+6)%7
	at := float64(p.From.Hour()*3600+p.From.Minute()*60+p.From.Second()) - float64(startMin%1440*60)
	cycle := day
	if whole {
		at = 0
	}
	if daysApart(lengthH) {
		at += float64(day * float64(weekday-startDay))
		cycle = 7 * day
	}
	for at < 0 {
		at += cycle
	}
	to = at + p.To.Sub(p.From).Seconds()
	if at >= lengthH*3600 {
		return 0, 0, fmt.Errorf("%s is not in the time that is simulated (%.4g h from the start)", p.Label, lengthH)
	}
	return at, to, nil
}
