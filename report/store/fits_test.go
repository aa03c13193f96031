package store_test

import (
	"strings"
	"testing"

	"pascaline/report/internal/fixture"
	"pascaline/report/store"
	"pascaline/sim/result"
)

// kept are results of a kind that are kept as a file, to be spoilt.
func kept[T result.Results](t *testing.T, name string, spoil func(T)) result.Results {
	t.Helper()
	r, err := fixture.Keep(name)
	if err != nil {
		t.Fatal(err)
	}
	spoil(r.(T))
	return r
}

// What page and screen take as given is told where it is not so.
func TestListsThatDoNotFit(t *testing.T) {
	gains := fixture.Run()
	gains.Gains.Rows[0].High = nil
	twice := fixture.Comparison()
	twice.Differences = append(twice.Differences, twice.Differences[0])
	strange := fixture.Comparison()
	strange.Differences[0].Scenario = "nobody"
	for _, c := range []struct {
		name, want string
		r          result.Results
	}{
		{"no lots", "it has lots and lists none", kept(t, "lots", func(r *result.Run) { r.Lots.Each = nil })},
		{"a lot without stations", "has not one time for each station", kept(t, "lots", func(r *result.Run) { r.Lots.Each[0].Legs = nil })},
		{"a lot with a station less", "has not one time for each station", kept(t, "lots", func(r *result.Run) { r.Lots.Each[1].Legs = r.Lots.Each[1].Legs[1:] })},
		{"due, and not how often late", "has a due time and not how often it is late", kept(t, "lots", func(r *result.Run) { r.Lots.Each[0].Late = nil })},
		{"the same of an order listed", "has a due time and not how often it is late", kept(t, "order", func(r *result.Ordering) { r.Listed.Lots[0].Late = nil })},
		{"the same of an order suggested", "has a due time and not how often it is late", kept(t, "order", func(r *result.Ordering) { r.Suggested.Lots[0].Late = nil })},
		{"a stop's fit without AIC", "has no AIC", kept(t, "stops", func(r *result.StopFit) { r.Causes[0].EveryFits[0].AIC = nil })},
		{"a stop's fit without critical value", "has no critical value", kept(t, "stops", func(r *result.StopFit) { r.Causes[0].TakesFits[0].Critical = nil })},
		{"a task's fit without critical value", "has no critical value", kept(t, "fit", func(r *result.TimeFit) { r.Tasks[0].Fits[0].Critical = nil })},
		{"a histogram alone", "no readings in order", kept(t, "fit", func(r *result.TimeFit) { r.Tasks[0].Quantiles = nil })},
		{"half an interval of a gain", "has half an interval", gains},
		{"a difference twice", "is there twice, or of no scenario", twice},
		{"a difference of nobody", "is there twice, or of no scenario", strange},
	} {
		t.Run(c.name, func(t *testing.T) {
			data, err := store.Encode(c.r)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := store.Decode(data); err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "run the scenario again") {
				t.Errorf("got %v, want %q", err, c.want)
			}
		})
	}
}
