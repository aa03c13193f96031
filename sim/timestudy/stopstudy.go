package timestudy

import (
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/gonum/stat/distuv"

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
	r.Clock, r.Unit, r.Exposure = x.clock, x.unit, round(x.exposure())
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
	over, outside := 0, 0
	for _, s := range x.l.Stops {
		if on := onShift(x.roster, s.Start, s.End); x.roster != nil && on < s.End.Sub(s.Start) {
			over++
			if on == 0 {
				outside++
			}
		}
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

// between is the time of the clock from the end of one stop to the start of the next.
func (x *stopStudy) between(a, b Stopped) float64 {
	if x.l.Meter != "" {
		return b.Meter - a.Meter
	}
	return onShift(x.roster, a.End, b.Start).Hours()
}

// exposure is all the time of the clock in the log.
func (x *stopStudy) exposure() float64 {
	if x.l.Meter == "" {
		return onShift(x.roster, x.l.From, x.l.To).Hours()
	}
	low, high := math.Inf(1), 0.0
	for _, s := range x.l.Stops {
		low, high = math.Min(low, s.Meter), math.Max(high, s.Meter)
	}
	return math.Max(0, high-low)
}

// intervals are the times to stop of a cause: between stops, and censored from the last to the end of the log. The time before the first is left out:
// nobody knows how old it was.
func (x *stopStudy) intervals(c []Stopped) (s Sample, backward int) {
	for i := 1; i < len(c); i++ {
		switch v := x.between(c[i-1], c[i]); {
		case v > 0:
			s.Exact = append(s.Exact, v)
		default:
			backward++
		}
	}
	last := c[len(c)-1]
	v := 0.0
	if x.l.Meter == "" && last.End.Before(x.l.To) {
		v = onShift(x.roster, last.End, x.l.To).Hours()
	} else if x.l.Meter != "" {
		for _, o := range x.l.Stops {
			v = math.Max(v, o.Meter-last.Meter)
		}
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
	for _, s := range c {
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
	r.Down = round(r.Down)
	to, backward := x.intervals(c)
	x.every(&r, to)
	lengths(&r, takes)
	if backward > 0 {
		r.Doubts = append(r.Doubts, fmt.Sprintf("%s at the same time as the one before, or before its end: they are counted, their times to stop are not.", count(backward, "stop begins", "stops begin")))
	}
	if r.Outside && !r.Said {
		r.Doubts = append(r.Doubts, "By its words the cause lies outside the station, so that the line makes it itself: it is not in the snippet. A column \"origin\" (own, outside) says otherwise.")
	}
	return r
}

// every fits the time to stop. The mean's interval is that of events at random (chi-square with two degrees for each; Epstein 1954).
func (x *stopStudy) every(r *result.StopFitC, s Sample) {
	time, events := sum(s.Exact)+sum(s.Censored), float64(len(s.Exact))
	if events == 0 {
		events, time = float64(r.N), x.exposure()
	}
	r.Mean = round(time / events)
	low := round(2 * time / distuv.ChiSquared{K: 2*events + 2}.Quantile(0.975))
	high := round(2 * time / distuv.ChiSquared{K: 2 * events}.Quantile(0.025))
	r.Low, r.High = &low, &high
	r.EveryBest, r.EveryFits = string(scenarios.Exponential), []result.Fitted{}
	r.Every = "{mean: " + x.spanText(r.Mean) + ", as: exponential}"
	switch {
	case r.N == 1:
		r.Doubts = append(r.Doubts, "One stop: the time to the next is little more than a guess.")
	case len(s.Exact) < 8:
		r.Doubts = append(r.Doubts, fmt.Sprintf("%s to stop: too few to tell a shape; stops at random (exponential) are assumed.", count(len(s.Exact), "time", "times")))
	}
	if len(s.Exact) < 8 || spread(s.Exact) == 0 {
		return
	}
	all := fitAll(s, forCensored)
	best := steady(all)
	for _, f := range all {
		r.EveryFits = append(r.EveryFits, f.Fitted)
	}
	f := all[best]
	r.EveryBest, r.Mean = f.Distribution, f.MeanS
	r.Every = "{mean: " + x.spanText(f.MeanS) + ", as: exponential}"
	if f.Distribution != string(scenarios.Exponential) {
		r.Every = "{mean: " + x.spanText(f.MeanS) + ", sd: " + x.sdText(f.SDS) + ", as: " + f.Distribution + "}"
	}
}

// steady is the index of the best fit of times to stop: the exponential unless another that can be used is better by 2 in AIC, because a stop
// that has no age needs the least to be known.
func steady(all []fitted) int {
	best := 0
	for i, f := range all {
		if f.Distribution == string(scenarios.Exponential) {
			best = i
		}
	}
	for i, f := range all {
		if f.Remark == "" && *f.AIC < *all[best].AIC-2 {
			return i
		}
	}
	return best
}

// spanText is a mean time to stop as a scenario reads it.
func (x *stopStudy) spanText(v float64) string {
	if x.unit != "h" {
		return fmt.Sprintf("%.0f %s", math.Max(1, v), x.unit)
	}
	return hours(v) + " " + x.clock
}

func (x *stopStudy) sdText(v float64) string {
	if x.unit != "h" {
		return fmt.Sprintf("%.0f %s", math.Max(1, v), x.unit)
	}
	return hours(v)
}

func hours(v float64) string {
	p := math.Pow10(max(0, 3-int(math.Floor(math.Log10(math.Max(v, 1e-6))))))
	return strconv.FormatFloat(math.Round(v*p)/p, 'f', -1, 64) + " h"
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
		all = fitAll(s, forCensored)
		best = choose(all, 0)
	}
	for _, f := range all {
		r.TakesFits = append(r.TakesFits, f.Fitted)
	}
	if best < 0 {
		r.TakesBest, r.Takes = string(scenarios.Lognormal), "{mean: "+secondsText(r.TakesMeanS)+", sd: "+secondsText(stdDev(v))+", as: lognormal}"
		if v[0] == v[n-1] {
			r.TakesBest, r.Takes = string(scenarios.Constant), secondsText(r.TakesMeanS)
		}
		r.Doubts = append(r.Doubts, fmt.Sprintf("%s: too few, or too far apart, to tell a shape of the length.", count(n, "length", "lengths")))
		return
	}
	r.TakesBest, r.TakesMeanS = all[best].Distribution, all[best].MeanS
	r.Takes = braces("", lawText(all[best])...)
}
