package words_test

import (
	"strings"
	"testing"

	"pascaline/report/words"
	"pascaline/sim/result"
)

func TestSentencesOfABacktest(t *testing.T) {
	hours := []result.CountedIn{{Period: "Mon 2026-03-02 06:00", Counted: 1000, Mean: 1000, Inside: true}, {Period: "Mon 2026-03-02 07:00", Counted: 2500, Mean: 1000}}
	for _, c := range []struct {
		name string
		r    result.Backtest
		want string // in answer, says and where
	}{
		{"kept", result.Backtest{Accepted: true, Counted: 608280, Predicted: 601719, Bias: 0.0109, BiasLow: -0.0194, BiasHigh: 0.0412},
			"What was counted does not reject the model: 608,280 packs against 601,719 predicted, +1.1 % (95 % interval -1.9 to +4.1 %)."},
		{"rejected", result.Backtest{Bias: -0.1, BiasLow: -0.12, BiasHigh: -0.08}, "rejects the model: 0 packs against 0 predicted, -10.0 % (95 % interval -12.0 to -8.0 %)."},
		{"a bias of nothing has no sign", result.Backtest{Bias: -0.0001, BiasHigh: 0.0004}, "predicted, 0.0 % (95 % interval 0.0 to 0.0 %)"},
		{"how hard", result.Backtest{Units: 1, Unit: "day", Periods: hours, Detectable: 0.05, PowerAt5: 0.9, Inside: 1},
			"2 hours in 1 independent day. A bias of 5.0 % would have been shown by these data 9 times in 10; one of 5 % with a chance of 90 %. 1 of 2 hours lie within"},
		{"little", result.Backtest{Units: 2, Unit: "week"}, "2 weeks is little: count some more."},
		{"more scatter", result.Backtest{Scatter: result.ScatterMore, SpreadRatio: 2}, "scatters 2.0 times as much as the model: chance is missing"},
		{"less scatter", result.Backtest{Scatter: result.ScatterLess, SpreadRatio: 0.2}, "scatters only 0.2 times as much"},
		{"a loss", result.Backtest{Gaps: []result.GapLoss{{Cause: "loading", Times: 1.5, PacksPerH: 2000}}}, "to explain the gap alone is loading: 1.50 times what the model has (2,000 packs/h)."},
		{"no loss", result.Backtest{Gaps: []result.GapLoss{{Cause: "loading", Times: -1.5, PacksPerH: 200}}}, "No single loss of the model is great enough"},
		{"a time", result.Backtest{StandsOut: &result.StandsOut{At: "06:00", Bias: -0.4, Periods: 5}}, "The gap stands out at 06:00: -40.0 % over 5 hours."},
		{"one period", result.Backtest{Periods: hours}, "Furthest from its prediction is Mon 2026-03-02 07:00, by +1,500 packs."},
		{"none", result.Backtest{Periods: hours[:1]}, "No single hour stands out."},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.r.What, c.r.Per = "packs", "hour"
			words.FillBacktest(&c.r)
			holds(t, c.r.Answer+" "+strings.Join(c.r.Says, " ")+" "+c.r.Where, c.want)
		})
	}
}

func holds(t *testing.T, got, want string) {
	t.Helper()
	if !strings.Contains(got, want) {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// A loss is no explanation of a gap that was not shown.
func TestNothingIsExplainedWhereTheModelIsKept(t *testing.T) {
	r := result.Backtest{Accepted: true, Gaps: []result.GapLoss{{Cause: "loading", Times: 1.5, PacksPerH: 200}}}
	words.FillBacktest(&r)
	if got := strings.Join(r.Says, " "); strings.Contains(got, "loading") {
		t.Error(got)
	}
}

func TestSentencesOfTaskTimes(t *testing.T) {
	sure, wide := 1.0, 20.0
	good := result.FitTask{N: 20, MeanS: 100, HalfS: &sure}
	few := result.FitTask{N: 5, MeanS: 100, HalfS: &wide}
	odd := result.FitTask{N: 30, MeanS: 100, HalfS: &sure, Outliers: []result.Outlier{{}}}
	for _, c := range []struct {
		name string
		r    result.TimeFit
		want string // in rule and answer
	}{
		{"plain", result.TimeFit{Tasks: []result.FitTask{good}}, "no rating, no allowance. 1 task time from 20 readings: all means are within ± 5 %."},
		{"one of each", result.TimeFit{Tasks: []result.FitTask{good, few, odd}}, "3 task times from 55 readings: 1 needs more readings to be within ± 5 %; look at 1 before you use it."},
		{"two of each", result.TimeFit{Tasks: []result.FitTask{few, few, odd, odd}}, "2 need more readings to be within ± 5 %; look at 2 before you use them."},
		{"readings of their own", result.TimeFit{Tasks: []result.FitTask{{N: 30, MeanS: 100, HalfS: &sure, ReadingsS: []float64{1, 2}}}}, "look at 1 before"},
		{"allowance on work", result.TimeFit{Rating: 0.9, Allowance: 0.12, AllowanceOf: "work"}, "x rating (0.9 where the sheet says none) x (1 + 0.12): an allowance of 12 % of work time."},
		{"allowance of the shift", result.TimeFit{Allowance: 0.1, AllowanceOf: "shift"}, "x rating (1 where the sheet says none) / (1 - 0.1): an allowance of 10 % of shift time."},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.r.HalfShare = 0.05; c.r.Rating == 0 {
				c.r.Rating = 1
			}
			words.FillTimeFit(&c.r)
			holds(t, c.r.Rule+" "+c.r.Answer, c.want)
		})
	}
}

func TestSentencesOfStops(t *testing.T) {
	causes := []result.StopFitC{{Station: "dryer", Name: "jam", N: 1, Down: 0.5}, {Station: "tip", Name: "no carriers", N: 3, Down: 1.5, Outside: true}}
	for _, c := range []struct {
		name string
		r    result.StopFit
		want string // in what is counted, answer, short stops
	}{
		{"stops", result.StopFit{Causes: causes}, "4 stops of 2 causes stood for 2 h, 25 % of it by causes of the stations' own; most of it: no carriers at tip, 1.5 h."},
		{"no length", result.StopFit{Causes: []result.StopFitC{{Station: "dryer", Name: "jam", N: 1}}}, "1 stop of 1 cause stood for 0 h; most of it: jam at dryer, 0 h."},
		{"by the wall", result.StopFit{Clock: "calendar time"}, "nights and week-ends too"},
		{"on shift", result.StopFit{Clock: "on shift"}, "counted on shift, by the roster"},
		{"running hours", result.StopFit{Clock: "running"}, "counted in running hours, by the meter"},
		{"cycles", result.StopFit{Clock: "cycles"}, "counted in cycles, by the meter"},
		{"short stops", result.StopFit{Short: &result.Short{Station: "dryer", Share: 0.05, PerHour: 6, EachS: 30, Counted: 9500, Predicted: 10000}},
			"Estimate, not a reading: if the gap between 9,500 counted and 10,000 predicted is short stops of 30 s each at dryer that nobody writes down, there are 6 an hour, 5.0 % of its time."},
		{"no short stops", result.StopFit{Short: &result.Short{Counted: 101, Predicted: 100}}, "no short stops are missing"},
	} {
		t.Run(c.name, func(t *testing.T) {
			words.FillStopFit(&c.r)
			s := c.r.Counted + " " + c.r.Answer
			if c.r.Short != nil {
				s += " " + c.r.Short.Sentence
			}
			holds(t, s, c.want)
		})
	}
}
