package timestudy

import (
	"fmt"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

// StopOptions of a study of stops.
type StopOptions struct {
	Roster *scenarios.Roster // who is there when; nil: the line always runs
}

// stopStudy is a log while it is studied.
type stopStudy struct {
	l      *Log
	roster *scenarios.Roster
	clock  string
	unit   string
}

// StudyStops fits the time to a stop and its length for every cause of a log.
func StudyStops(file string, l *Log, o StopOptions) *result.StopFit {
	x := &stopStudy{l: l, roster: o.Roster, clock: "calendar time", unit: "h"}
	r := &result.StopFit{Head: result.NewHead(result.KindStopFit), File: file, From: l.From.Format(stamp), To: l.To.Format(stamp)}
	switch {
	case l.Meter == "running":
		x.clock = l.Meter
	case l.Meter != "":
		x.clock, x.unit = l.Meter, l.Meter
	case o.Roster != nil:
		x.clock = "on shift"
	}
	r.Clock, r.Unit, r.Exposure = x.clock, x.unit, round(x.exposure(""))
	for _, c := range l.causes() {
		r.Causes = append(r.Causes, x.cause(c))
	}
	for _, d := range l.Doubts {
		r.Warnings = append(r.Warnings, result.Warning{Code: "log", Text: d})
	}
	x.warn(r)
	r.Snippet = stopSnippet(r)
	return r
}

// warn tells what is odd about the log as a whole.
func (x *stopStudy) warn(r *result.StopFit) {
	say := func(code, text string) {
		r.Warnings = append(r.Warnings, result.Warning{Code: code, Text: text})
	}
	if n := x.l.overlaps(); n > 0 {
		say("overlaps", fmt.Sprintf("%s while another of the same station lasts; each keeps its own length.", count(n, "stop begins", "stops begin")))
	}
	if n := x.l.setBack(); n > 0 {
		say("meter", fmt.Sprintf("%s: replaced, or set to 0? The times to stop over it are not known, and are left out.", count(n, "meter reading is below the one before it at its station", "meter readings are below the one before them at their station")))
	}
	over, outside, lost := 0, 0, 0
	for _, s := range x.l.Stops {
		if s.Lost {
			lost++
			continue
		}
		if on := onShift(x.roster, s.Start, s.End); x.roster != nil && on < s.End.Sub(s.Start) {
			over++
			if on == 0 {
				outside++
			}
		}
	}
	if lost > 0 {
		say("ends missing", fmt.Sprintf("%s without an end, though the station stopped again later: the length is not known, and is not in the hours stood.", count(lost, "stop is", "stops are")))
	}
	if over > 0 {
		say("over shift ends", fmt.Sprintf("%s over the end of a shift: only the time on shift counts as standing.", count(over, "stop lasts", "stops last")))
	}
	if outside > 0 {
		say("off shift", fmt.Sprintf("%s wholly off shift: is the roster the right one?", count(outside, "stop lies", "stops lie")))
	}
	if text := x.l.clockShifts(); text != "" {
		say("clocks change", text)
	}
}

// between is the time of the clock from the end of one stop to the start of the next; known is false where the log does not say it.
func (x *stopStudy) between(a, b Stopped) (v float64, known bool) {
	if x.l.Meter != "" {
		return b.ran - a.ran, a.set == b.set
	}
	return onShift(x.roster, a.End, b.Start).Hours(), !a.Lost
}

// exposure is all the time of the clock that the log has of a station.
func (x *stopStudy) exposure(station string) float64 {
	if x.l.Meter != "" {
		return x.l.metered(station)
	}
	return onShift(x.roster, x.l.From, x.l.To).Hours()
}

// intervals are the times to stop of a cause: between stops, and censored from the last to the end of the log, or to the last reading of the station's meter.
// The time before the first is left out: nobody knows how old it was.
func (x *stopStudy) intervals(c []Stopped) (s Sample, backward int) {
	for i := 1; i < len(c); i++ {
		switch v, known := x.between(c[i-1], c[i]); {
		case !known:
		case v > 0:
			s.Exact = append(s.Exact, v)
		default:
			backward++
		}
	}
	last := c[len(c)-1]
	v := 0.0
	if x.l.Meter != "" {
		v = x.l.metered(last.Station) - last.ran
	} else if last.End.Before(x.l.To) { // where its end is not known, from the next stop of the station: it has run at least since then
		v = onShift(x.roster, last.End, x.l.To).Hours()
	}
	if v > 0 {
		s.Censored = append(s.Censored, v)
	}
	return s, backward
}

// cause studies one cause.
func (x *stopStudy) cause(c []Stopped) result.StopFitC {
	r := result.StopFitC{Station: c[0].Station, Name: c[0].Cause, Outside: c[0].Outside, Said: c[0].Said, N: len(c)}
	var takes Sample
	lost := 0
	for _, s := range c {
		if s.Lost {
			lost++
			continue
		}
		d := onShift(x.roster, s.Start, s.End).Seconds()
		r.Down += d / 3600
		switch {
		case s.Open:
			r.Open++
			if d > 0 {
				takes.Censored = append(takes.Censored, d)
			}
		case d > 0:
			takes.Exact = append(takes.Exact, d)
		}
	}
	r.Down, r.Open = round(r.Down), r.Open+lost
	to, backward := x.intervals(c)
	x.every(&r, to)
	x.tooSeldom(&r)
	lengths(&r, takes)
	if lost > 0 {
		r.Doubts = append(r.Doubts, fmt.Sprintf("%s without an end, though %s stopped again later: how long is not known, so it is in no length and not in the hours stood.", count(lost, "stop is", "stops are"), r.Station))
	}
	if backward > 0 {
		r.Doubts = append(r.Doubts, fmt.Sprintf("%s at the same time as the one before, or before its end: they are counted, their times to stop are not.", count(backward, "stop begins", "stops begin")))
	}
	if r.Outside && !r.Said {
		r.Doubts = append(r.Doubts, "By its words the cause lies outside the station, so that the line makes it itself: it is not in the snippet. A column \"origin\" (own, outside) says otherwise.")
	}
	return r
}

// lengths fits how long a stop takes.
func lengths(r *result.StopFitC, s Sample) {
	r.TakesFits = []result.Fitted{}
	n := len(s.Exact)
	if n == 0 {
		r.TakesBest, r.Takes = "", ""
		r.Doubts = append(r.Doubts, "No stop has a length: write takes yourself.")
		return
	}
	r.TakesMeanS = round(mean(s.Exact))
	v := sorted(s.Exact)
	var all []fitted
	best := -1
	if n >= fewestForShape && v[0] < v[n-1] {
		all = fitAll(s, forCensored, writtenSeconds)
		best = choose(all, 0)
	}
	for _, f := range all {
		r.TakesFits = append(r.TakesFits, f.Fitted)
	}
	if best < 0 {
		r.TakesBest, r.Takes = string(scenarios.Lognormal), "{mean: "+secondsText(r.TakesMeanS)+", sd: "+secondsText(stdDev(v))+", as: lognormal}"
		if !takesSpread(r.TakesMeanS, stdDev(v)) {
			r.TakesBest, r.Takes = string(scenarios.Constant), secondsText(r.TakesMeanS)
		}
		r.Doubts = append(r.Doubts, fmt.Sprintf("%s: too few, or too far apart, to tell a shape of the length.", count(n, "length", "lengths")))
		return
	}
	r.TakesBest, r.TakesMeanS = all[best].Distribution, all[best].MeanS
	r.Takes = braces("", lawText(all[best])...)
}
