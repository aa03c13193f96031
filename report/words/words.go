// Package words puts results into sentences: the answer that stands first on every page and screen, what holds the line, what the hand
// check says. The same sentence is used everywhere.
package words

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// Fill writes the sentences of a run into it, once, before it is saved: what is saved reads as what was shown.
func Fill(r *result.Run) {
	r.Cautions = Cautions()
	r.Replications.Length = length(r)
	r.HandCheck.Sentence = handCheck(r)
	r.Bottleneck.Sentence, r.Bottleneck.Method = bottleneck(r), methods(r)
	if r.Gains != nil {
		r.Gains.Sentence, r.Gains.Method = gains(r.Gains), gainMethods(r.Gains)
	}
	if r.Carriers != nil {
		r.Carriers.Sentence = carriers(r.Carriers)
	}
	if r.Lots != nil {
		r.Lots.Sentence = sentence("The line " + lots(r))
	}
	r.Answer = answer(r)
}

// sentence ends with a full stop.
func sentence(s string) string { return s + "." }

// length says what one replication was.
func length(r *result.Run) string {
	s := number.Duration(r.Replications.LengthH * 3600)
	if r.Profile.Roster {
		s += " from " + number.Clock(r.Profile.StartMin)
	}
	return s
}

// answer is the first sentence: what the line makes, how sure that is, what holds it.
func answer(r *result.Run) string {
	h := r.Headline
	what, e := "packs", h.PacksPerH
	if h.CarriersPerH != nil && h.CasesPerH == nil {
		what, e = "carriers", *h.CarriersPerH
	}
	per := Hour(r)
	if e.Mean == 0 {
		return fmt.Sprintf("%s finishes nothing in %s.", name(r), r.Replications.Length)
	}
	s := fmt.Sprintf("%s finishes %s per %s", name(r), number.PlusMinus(e, what), per)
	if r.Steady != nil {
		s += " in steady state"
	}
	if r.Lots != nil {
		s = name(r) + " " + lots(r)
	}
	if limit, _, ok := Limit(r); ok {
		s += "; " + the(limit) + " holds it back most"
		if plural(r, limit) {
			s = strings.TrimSuffix(s, " holds it back most") + " hold it back most"
		}
		if r.Gains != nil {
			s += alsoNear(r.Gains)
		}
	}
	return s + "."
}

func name(r *result.Run) string {
	if r.Scenario == "" {
		return "The line"
	}
	if r.Variant != "" {
		return number.Plain(r.Scenario) + " (" + number.Plain(r.Variant) + ")"
	}
	return number.Plain(r.Scenario)
}

// Variants says which variant of a file was run, and how to have the others.
func Variants(this string, others []string) string {
	if len(others) == 0 {
		return fmt.Sprintf("%q, the only one; compare instead of run sets it beside the file as it stands", this)
	}
	names := make([]string, len(others))
	for i, n := range others {
		names[i] = strconv.Quote(n)
	}
	return fmt.Sprintf("%q; others by --variant: %s; compare instead of run sets all beside the file as it stands", this, strings.Join(names, ", "))
}

// the gives a station as it is called in a sentence.
func the(station string) string {
	switch station {
	case "loading", "packing", "carriers", "supply", "wiping":
		return station
	}
	return "the " + station
}

func plural(r *result.Run, limit string) bool {
	return limit == "carriers" || slices.ContainsFunc(r.People, func(p result.Pool) bool { return p.Name == limit && strings.HasSuffix(limit, "s") })
}

// vesselRules is the share of its time up to which a vessel that is held by others still counts as what limits the line.
const vesselRules = 0.10

// Limit is what holds the line back most: the vessel when little of its time is lost to others, else what it lost most time to; in a
// line without a vessel the station that is most at work. Where gains were worked out, the greatest decides. Others is what comes next.
func Limit(r *result.Run) (limit string, others []result.Limit, ok bool) {
	if r.Gains != nil && r.Gains.Rows[0].Shown {
		return r.Gains.Rows[0].Candidate, r.Bottleneck.Rows, true
	}
	return heldMost(r)
}

// heldMost is what holds the line back most by what its stations did.
func heldMost(r *result.Run) (limit string, others []result.Limit, ok bool) {
	if p, ok := shortPool(r); ok {
		return p, r.Bottleneck.Rows, true
	}
	rows := slices.Clone(r.Bottleneck.Rows)
	rows = slices.DeleteFunc(rows, func(x result.Limit) bool { return x.Station == "end of the day" })
	if len(rows) == 0 {
		return "", nil, false
	}
	byActive := func(a, b result.Limit) int { return cmp.Compare(b.ActiveShare, a.ActiveShare) }
	byHeld := func(a, b result.Limit) int { return cmp.Compare(b.VesselHeldPct, a.VesselHeldPct) }
	if r.Vessel == nil {
		slices.SortStableFunc(rows, byActive)
		if paced(r) {
			return "supply", rows, true
		}
		return rows[0].Station, rows[1:], true
	}
	held := 0.0
	for _, x := range rows {
		held += x.VesselHeldPct
	}
	slices.SortStableFunc(rows, byHeld)
	if held < vesselRules || rows[0].VesselHeldPct == 0 {
		return "vessel", rows, true
	}
	return rows[0].Station, rows[1:], true
}

// fullyBusy is the share of their time from which on people are taken for the limit themselves.
const fullyBusy = 0.9

// paced tells whether the line makes what comes in, which is less than any station could do: a belt is never empty of slowly coming packs, and that
// does not make it the limit.
func paced(r *result.Run) bool {
	return r.Vessel == nil && r.HandCheck.By == "supply" && r.HandCheck.Share >= allThatComes
}

// allThatComes is the share of what comes in from which on a line is taken to make all of it: the rest is on its way.
const allThatComes = 0.97

// shortPool is the pool that the hand check names as the limit and that was in fact busy nearly all the time.
func shortPool(r *result.Run) (string, bool) {
	for _, p := range r.People {
		if p.Name == r.HandCheck.By && p.Busy.Mean >= fullyBusy {
			return p.Name, true
		}
	}
	return "", false
}

// bottleneck says what holds the line and what it costs.
func bottleneck(r *result.Run) string {
	if name, ok := shortPool(r); ok {
		for _, p := range r.People {
			if p.Name == name {
				return fmt.Sprintf("The %s were busy for %s of their time, and by hand their work allows %s packs/h: people hold the line, whatever station waits for them.",
					name, number.Percent(p.Busy.Mean), number.Fixed(r.HandCheck.BoundPacksPerH, 0))
			}
		}
	}
	limit, others, ok := heldMost(r)
	if !ok {
		return "There is no station to compare."
	}
	if paced(r) {
		return fmt.Sprintf("The line makes %s of what comes in, %s packs/h, and every station could do more: what comes in sets the pace. The station most at work, %s, was so for %s of its time.",
			number.Percent(min(1, r.HandCheck.Share)), number.Fixed(r.HandCheck.BoundPacksPerH, 0), the(others[0].Station), number.Percent(others[0].ActiveShare))
	}
	row := find(r, limit)
	if r.Vessel == nil {
		s := fmt.Sprintf("%s was at work or under repair for %s of its time, more than any other station.", upper(the(limit)), number.Percent(row.ActiveShare))
		if len(others) > 0 {
			s += fmt.Sprintf(" Next comes %s (%s).", the(others[0].Station), number.Percent(others[0].ActiveShare))
		}
		return s
	}
	if limit == "vessel" {
		s := fmt.Sprintf("The vessel was at work or under repair for %s of its time: it sets the pace.", number.Percent(row.ActiveShare))
		if len(others) > 0 && others[0].VesselHeldPct > 0 {
			s += fmt.Sprintf(" What it lost to others it lost first to %s (%s).", the(others[0].Station), number.Percent(others[0].VesselHeldPct))
		}
		return s
	}
	s := fmt.Sprintf("%s held the vessel for %s of its time", upper(the(limit)), number.Percent(row.VesselHeldPct))
	if row.ActiveShare > 0 {
		s += fmt.Sprintf(" and was itself at work or under repair for %s", number.Percent(row.ActiveShare))
	}
	s += "."
	if len(others) > 0 && others[0].VesselHeldPct > 0 {
		s += fmt.Sprintf(" Next comes %s (%s).", the(others[0].Station), number.Percent(others[0].VesselHeldPct))
	}
	return s
}

func find(r *result.Run, station string) result.Limit {
	for _, x := range r.Bottleneck.Rows {
		if x.Station == station {
			return x
		}
	}
	return result.Limit{Station: station}
}

// Hour is what rates of a run are counted by: the rostered hour, or any where there is no roster.
func Hour(r *result.Run) string { return HourOf(r.Profile.Roster) }

// HourOf is the same for other results, by whether there is a roster.
func HourOf(rostered bool) string {
	if rostered {
		return "rostered hour"
	}
	return "hour"
}

func upper(s string) string {
	if s == "" {
		return s
	}
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// methods says what each view of the bottleneck is.
func methods(r *result.Run) []string {
	m := []string{
		"Active share: the share of its time in which a station processed, was changed over or under repair. A high share is a sign, no proof: a station can be busy and hold nobody.",
		"Mean active period: how long a server of the station works without being starved, blocked or waiting for people (after Roser, Nakano and Tanaka 2001). It favours the ends of a line.",
		"Holds alone, holds shifting: at each moment the line is held by the server whose uninterrupted active period is longest, the part still to come included; where it overlaps the period of the next holder, the hold is shifting (after Roser, Nakano and Tanaka 2002). Shares of the time in which any station was active. A belt is active while any pack rides on it.",
	}
	if r.Gains == nil {
		m = append(m, "What the line would gain if one thing were better was not worked out here: pascaline run with --gains does, in some ten times the time.")
	} else {
		m = append(m, "What the line would gain if one thing were better is the answer, these views explain it.")
	}
	if r.Vessel != nil {
		m = append([]string{"Vessel time lost: every second in which a vessel was starved or blocked is charged to the nearest station that was not itself starved or blocked."}, m...)
	}
	return m
}

// handCheck sets the simulated rate beside what the rates alone allow.
func handCheck(r *result.Run) string {
	h := r.HandCheck
	if h.BoundPacksPerH == 0 {
		return "No station has a rate that could be worked out by hand."
	}
	s := fmt.Sprintf("By mean times alone, %s would allow %s packs/h", the(h.By), number.Fixed(h.BoundPacksPerH, 0))
	switch {
	case h.Share > 1.02:
		return s + fmt.Sprintf("; the simulated rate is %s of that. Work outside rostered hours can explain it, see the loss waterfall.", number.Percent(h.Share))
	case h.Share < 0.9:
		return s + fmt.Sprintf("; the line makes %s of that. The loss waterfall says where the rest went: breaks, stops, waiting.", number.Percent(h.Share))
	}
	return s + fmt.Sprintf("; the line makes %s of that.", number.Percent(h.Share))
}

// carriers says whether their number matters.
func carriers(c *result.Carriers) string {
	switch {
	case c.Owned == 0:
		return "There are as many carriers as wanted; their number was not looked at."
	case c.Short > 0.01:
		return fmt.Sprintf("Loading waited for an empty carrier %s of its time: with %d carriers their number is a limit of its own.", number.Percent(c.Short), c.Owned)
	}
	return fmt.Sprintf("%d carriers are enough: loading hardly ever waited for one; %s stood empty on average.", c.Owned, number.Fixed(c.MeanEmpty, 1))
}
