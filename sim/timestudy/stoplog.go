package timestudy

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"pascaline/scenarios/sheet"
)

// Stopped is one row of a stop log.
type Stopped struct {
	Station, Cause string
	Start, End     time.Time
	Open           bool // no end in the log; End is then the end of the log or, where its station stopped again later, the start of that stop
	Lost           bool // no end in the log, though it had ended before the station's next stop began: when is not known
	Outside, Said  bool // the cause lies outside the station; the log says which
	Meter          float64
	ran            float64 // what the station's meter has counted since its first row
	set            int     // how often it had gone back before
	Place          string
}

// Log is a stop log in order of time.
type Log struct {
	Stops    []Stopped
	From, To time.Time
	Meter    string // "" without a meter, else "running", "cycles" or "packs"
	Doubts   []string
}

// Names by which columns of a stop log are known.
var (
	stationNames = []string{"station", "machine", "where", "equipment"}
	causeNames   = []string{"cause", "reason", "what", "fault", "stop"}
	startNames   = []string{"start", "from", "began", "stopped at", "down at"}
	endNames     = []string{"end", "to", "until", "ended", "running again"}
	lengthNames  = []string{"duration", "length", "minutes", "down"}
	originNames  = []string{"own or outside", "origin", "kind"}
	meterNames   = []string{"running hours", "hour meter", "cycles", "packs"}
)

// IsStopLog tells a stop log from a stopwatch sheet by its columns.
func IsStopLog(t *sheet.Table) bool {
	return t.Column(startNames...) >= 0 && t.Column(stationNames...) >= 0
}

// outsideWords are how people write down that a station stood for want of something from outside, as whole words, alone or in the plural.
var outsideWords = []string{"starved", "blocked", "no pack", "no carrier", "no product", "no people", "no operator", "waiting for", "upstream", "downstream", "lunch", "meeting", "material"}

// breakOf are the words before "break" that make it one of people; a "film break" is the film's.
var breakOf = []string{"", "tea", "coffee", "meal", "dinner", "breakfast", "rest", "smoke", "cigarette", "staff", "crew", "people", "operator", "operators", "shift", "early", "late",
	"night", "morning", "afternoon", "first", "second", "third", "long", "short", "planned", "scheduled", "legal", "on", "at", "for", "in", "the", "a", "and", "during"}

// ReadLog reads a stop log: station, start, end (or a length), cause, and where they are there whether the cause is own or outside, and a meter
// of running hours, cycles or packs. from and to bound the log; zero times take the first start and the last end. Every row that cannot be
// read is a fault.
func ReadLog(t *sheet.Table, from, to time.Time) (*Log, []sheet.Fault) {
	l := &Log{From: from, To: to}
	if i := t.Column(meterNames...); i >= 0 {
		l.Meter = map[string]string{"running hours": "running", "hour meter": "running", "cycles": "cycles", "packs": "packs"}[t.Head[i].Name()]
	}
	var faults []sheet.Fault
	for _, row := range t.Rows {
		s, f := l.row(t, row)
		if f != nil {
			faults = append(faults, *f)
			continue
		}
		l.Stops = append(l.Stops, s)
	}
	slices.SortStableFunc(l.Stops, func(a, b Stopped) int { return a.Start.Compare(b.Start) })
	faults = append(faults, l.twice()...)
	l.bound()
	return l, faults
}

// row reads one stop.
func (l *Log) row(t *sheet.Table, row sheet.Row) (s Stopped, f *sheet.Fault) {
	station, start := row.At(t.Column(stationNames...)), row.At(t.Column(startNames...))
	s.Place = start.Place()
	if s.Station = strings.ToLower(oneLine(station.Text)); s.Station == "" {
		return s, faultOf(station, "the station that stood")
	}
	if s.Cause = oneLine(row.At(t.Column(causeNames...)).Text); s.Cause == "" {
		s.Cause = "not said"
	}
	if s.Start, f = t.Moment(start); f != nil {
		return s, f
	}
	if f = s.readEnd(t, row); f != nil {
		return s, f
	}
	switch {
	case !l.From.IsZero() && s.Start.Before(l.From), !l.To.IsZero() && s.Start.After(l.To):
		return s, faultOf(start, "a start within the log, which is from "+l.From.Format(stamp)+" to "+l.To.Format(stamp))
	}
	s.origin(row.At(t.Column(originNames...)).Text)
	if i := t.Column(meterNames...); i >= 0 {
		if s.Meter, f = numberIn(t, row.At(i), 0, mostCount); f != nil {
			return s, f
		}
	}
	return s, nil
}

// oneLine is a name without the line breaks that cells of a spreadsheet may have.
func oneLine(name string) string { return strings.Join(strings.Fields(name), " ") }

const stamp = "2006-01-02 15:04"

// readEnd reads the end of a stop, or its length; a row with neither is open.
func (s *Stopped) readEnd(t *sheet.Table, row sheet.Row) (f *sheet.Fault) {
	if c := row.At(t.Column(endNames...)); c.Text != "" {
		if s.End, f = t.Moment(c); f != nil {
			return f
		}
		if s.End.Before(s.Start) {
			return faultOf(c, "an end after the start, "+s.Start.Format(stamp))
		}
		if s.End.Sub(s.Start).Seconds() > longest {
			return faultOf(c, "an end within a year of the start, "+s.Start.Format(stamp))
		}
		return nil
	}
	i := t.Column(lengthNames...)
	if i < 0 || row.At(i).Text == "" {
		s.Open = true
		return nil
	}
	length, f := lasting(t, row.At(i), t.Head[i].TimeUnit(), leastTime)
	if f != nil {
		return f
	}
	s.End = s.Start.Add(time.Duration(length * float64(time.Second)))
	return nil
}

func faultOf(c sheet.Cell, want string) *sheet.Fault {
	f := c.Fault(want, "")
	return &f
}

// origin tells own causes from outside ones: as the log says, or by the words of the cause.
func (s *Stopped) origin(said string) {
	switch strings.ToLower(said) {
	case "own":
		s.Said = true
	case "outside":
		s.Said, s.Outside = true, true
	default:
		s.Outside = fromOutside(s.Cause)
	}
}

// fromOutside tells by its words that a cause lies outside the station.
func fromOutside(cause string) bool {
	words := strings.FieldsFunc(strings.ToLower(cause), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	text := " " + strings.Join(words, " ") + " "
	if slices.ContainsFunc(outsideWords, func(w string) bool { return strings.Contains(text, " "+w+" ") || strings.Contains(text, " "+w+"s ") }) {
		return true
	}
	before := ""
	for _, w := range words {
		if (w == "break" || w == "breaks") && slices.Contains(breakOf, before) {
			return true
		}
		before = w
	}
	return false
}

// twice refuses rows that stand twice.
func (l *Log) twice() []sheet.Fault {
	var faults []sheet.Fault
	var kept []Stopped
	for _, s := range l.Stops {
		same := slices.IndexFunc(kept, func(k Stopped) bool {
			return k.Station == s.Station && k.Cause == s.Cause && k.Start.Equal(s.Start) && k.End.Equal(s.End) && k.Open == s.Open
		})
		if same >= 0 {
			faults = append(faults, sheet.Fault{Place: s.Place, Found: "a stop that stands twice", Want: "each stop once", Hint: "first at " + kept[same].Place})
			continue
		}
		kept = append(kept, s)
	}
	l.Stops = kept
	return faults
}

// bound finds the ends of the log where they were not said, follows the meters, and closes what is open.
func (l *Log) bound() {
	l.unroll()
	if len(l.Stops) == 0 {
		return
	}
	if l.From.IsZero() {
		l.From = l.Stops[0].Start
		l.Doubts = append(l.Doubts, "The log is taken to begin with its first stop; say when it really began (--from), or times to stop come out short.")
	}
	if l.To.IsZero() {
		l.To = l.Stops[0].Start
		for _, s := range l.Stops {
			l.To = later(l.To, later(s.Start, s.End))
		}
		l.Doubts = append(l.Doubts, "The log is taken to end with its last stop; say when it really ended (--to): the quiet time after the last stop counts.")
	}
	for i := range l.Stops {
		s := &l.Stops[i]
		if !s.Open {
			continue
		}
		s.End = l.To
		for _, n := range l.Stops[i+1:] {
			if n.Station == s.Station && n.Start.After(s.Start) {
				s.End, s.Lost = n.Start, true // what stopped again had run before
				break
			}
		}
	}
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// overlaps counts stops that begin while another of the same station lasts.
func (l *Log) overlaps() int {
	n := 0
	until := map[string]time.Time{}
	for _, s := range l.Stops {
		if s.Start.Before(until[s.Station]) {
			n++
		}
		until[s.Station] = later(until[s.Station], s.End)
	}
	return n
}

// causes are the stations and causes of a log, the one with most stops first.
func (l *Log) causes() [][]Stopped {
	var all [][]Stopped
	for _, s := range l.Stops {
		i := slices.IndexFunc(all, func(g []Stopped) bool { return g[0].Station == s.Station && strings.EqualFold(g[0].Cause, s.Cause) })
		if i < 0 {
			all = append(all, nil)
			i = len(all) - 1
		}
		all[i] = append(all[i], s)
	}
	slices.SortStableFunc(all, func(a, b []Stopped) int {
		return cmp.Or(cmp.Compare(len(b), len(a)), cmp.Compare(a[0].Station, b[0].Station))
	})
	return all
}

// clockShifts warns of the nights in which clocks are put forward or back in many countries: naive times then lose or repeat an hour.
func (l *Log) clockShifts() string {
	for d := l.From; !d.After(l.To); d = d.AddDate(0, 0, 1) {
		if d.Weekday() == time.Sunday && d.AddDate(0, 0, 7).Month() != d.Month() && (d.Month() == time.March || d.Month() == time.October) {
			return fmt.Sprintf("The log spans the night to %s, in which clocks change in many countries: an hour may be missing or there twice.", d.Format("2006-01-02"))
		}
	}
	return ""
}
