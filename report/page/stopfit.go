package page

import (
	"fmt"
	"strconv"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// stopFitDocument is the page of a stop log.
func stopFitDocument(r *result.StopFit) (*document, error) {
	snippet := r.Snippet
	r, err := number.Shown(r)
	if err != nil {
		return nil, err
	}
	n, down := 0, 0.0
	for _, c := range r.Causes {
		n += c.N
		down += c.Down
	}
	d := &document{
		Over: "Stops from the floor", Title: r.File, Tab: "Stops from " + r.File, Answer: r.Answer, Notes: notes(r.Warnings), Sure: r.Counted,
		Figures: []headFigure{
			{Value: number.Count(int64(n)), Says: "stops"},
			{Value: number.Figure(down, 3), Unit: "h", Says: "stood"},
			{Value: number.Figure(r.Exposure, 4), Unit: r.Unit, Says: inLog(r.Clock)},
		},
		Facts: []fact{{Name: "Log", Value: r.From + " to " + r.To}},
	}
	downs, err := downSection(r)
	if err != nil {
		return nil, err
	}
	d.Sections = append(d.Sections, *downs)
	if r.Short != nil {
		d.Sections = append(d.Sections, section{ID: "short", Title: "Short stops that the log misses: an estimate", Says: []string{r.Short.Sentence}})
	}
	for i, c := range r.Causes {
		d.Sections = append(d.Sections, causeSection(c, r, i+1))
	}
	d.Sections = append(d.Sections, section{ID: "snippet", Title: "For the scenario file", Text: plainLines(snippet),
		Says: []string{"Own causes as stops; what comes from outside the station stands in comments, because the line makes it itself."}})
	if len(r.LeftOut) > 0 {
		d.Sections = append(d.Sections, section{ID: "left-out", Title: "Rows that were left out", Says: r.LeftOut})
	}
	return d, nil
}

// inLog says what the hours, cycles or packs of a log are counted by.
func inLog(clock string) string {
	switch clock {
	case "calendar time", "on shift":
		return "in the log (" + clock + ")"
	}
	return "in the log (" + clock + ", the station with most)"
}

func downSection(r *result.StopFit) (*section, error) {
	t := table{Caption: "Causes of standing", Head: columns("Station and cause", "=origin", "stops", "stood, h", "mean to stop, "+r.Unit, "95 % interval", "mean length")}
	var names []string
	own, outside := series{ID: "loss-own", Name: "own cause"}, series{ID: "loss-outside", Name: "cause from outside"}
	for _, c := range r.Causes {
		origin := "own"
		if c.Outside {
			origin = "outside"
		}
		mean, within := "not known", "–"
		if c.Low != nil {
			mean, within = number.Figure(c.Mean, 3), number.Figure(*c.Low, 3)+" to "+number.Figure(*c.High, 3)
		}
		t.Rows = append(t.Rows, []string{c.Station + ": " + c.Name, origin, strconv.Itoa(c.N), number.Figure(c.Down, 3), mean, within, lengthOf(c)})
		if c.Down <= 0 {
			continue
		}
		names = append(names, c.Station+": "+c.Name)
		text, none := number.Figure(c.Down, 3)+" h", ""
		if c.Outside {
			own.Values, own.Texts = append(own.Values, 0), append(own.Texts, none)
			outside.Values, outside.Texts = append(outside.Values, c.Down), append(outside.Texts, text)
		} else {
			own.Values, own.Texts = append(own.Values, c.Down), append(own.Texts, text)
			outside.Values, outside.Texts = append(outside.Values, 0), append(outside.Texts, none)
		}
	}
	t.Foot = "Own causes are the station's; those from outside (no packs, no place, no people) the line makes itself. The interval is that of the shape that was taken."
	s := &section{ID: "causes", Title: "What stood, and for how long", Tables: []table{t}}
	if len(names) == 0 {
		return s, nil
	}
	c, err := draw(chart{ID: "causes", Draw: "losses", Rows: len(names), Label: "Bars: hours stood by station and cause. The table below has the figures.",
		Caption: "Hours that each station stood, by cause."}, bars(names, []series{own, outside}, 0))
	s.Charts = []chart{c}
	return s, err
}

// causeSection shows what was fitted for one cause.
func causeSection(c result.StopFitC, r *result.StopFit, no int) section {
	s := section{ID: fmt.Sprintf("cause-%d", no), Title: c.Station + ": " + c.Name, Says: c.Doubts}
	every, takes := "not known", "not known"
	if c.Low != nil {
		every = fmt.Sprintf("%s, mean %s %s", c.EveryBest, number.Figure(c.Mean, 3), r.Unit)
	}
	if c.TakesBest != "" {
		takes = c.TakesBest + ", mean " + lengthOf(c)
	}
	s.Says = append([]string{"Time to stop: " + every + ". Length: " + takes + "."}, s.Says...)
	if len(c.EveryFits) > 0 {
		s.Tables = append(s.Tables, stopTable("Time to stop, in "+r.Unit, c.EveryFits))
	}
	if len(c.TakesFits) > 0 {
		s.Tables = append(s.Tables, stopTable("Length, in seconds", c.TakesFits))
	}
	return s
}

// lengthOf is the mean length of a cause's stops.
func lengthOf(c result.StopFitC) string {
	if c.TakesBest == "" {
		return "not known"
	}
	return number.Duration(c.TakesMeanS)
}

func stopTable(caption string, fits []result.Fitted) table {
	t := table{Caption: caption, Head: columns("Distribution", "mean", "sd", "AIC", "Anderson-Darling", "at most (5 %)")}
	for _, f := range fits {
		ad, most := "–", "–"
		if f.Modified != nil {
			ad, most = number.Fixed(*f.Modified, 2), number.Fixed(*f.Critical, 2)
		}
		t.Rows = append(t.Rows, []string{f.Distribution, number.Figure(f.MeanS, 4), number.Figure(f.SDS, 4), number.Fixed(*f.AIC, 1), ad, most})
	}
	return t
}
