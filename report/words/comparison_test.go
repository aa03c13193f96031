package words_test

import (
	"strings"
	"testing"

	"pascaline/report/words"
	"pascaline/sim/result"
)

// heads is a comparison with these differences in packs/h from a base that makes 4,000.
func heads(n int, list ...result.Difference) *result.Comparison {
	c := &result.Comparison{Measures: []result.Measure{{Name: "packs/h", Unit: "packs/h"}}, Scenarios: []result.Compared{{Name: "the plant"}}, Replications: result.Replications{N: n, LengthH: 8}}
	for _, d := range list {
		c.Scenarios = append(c.Scenarios, result.Compared{Name: d.Scenario})
		d.Measure, d.Unit, d.Share = "packs/h", "packs/h", d.Mean/4000
		c.Differences = append(c.Differences, d)
	}
	return c
}

func diff(name string, mean, half float64) result.Difference {
	low, high := mean-half, mean+half
	d := result.Difference{Scenario: name, Mean: mean, Low: &low, High: &high, Shown: low > 0 || high < 0, Level: 0.95, Above: 1}
	if mean == 0 && half == 0 {
		d.Above = 0
	}
	return d
}

func TestAnswerOfAComparison(t *testing.T) {
	for _, c := range []struct {
		name string
		c    *result.Comparison
		want string
	}{
		{"more", heads(20, diff("B", 400, 21)), "B finishes 400 ± 21 packs per rostered hour more than the plant (+10.0 %)."},
		{"less", heads(20, diff("B", -400, 21)), "B finishes 400 ± 21 packs per rostered hour less than the plant (-10.0 %)."},
		{"none shown", heads(20, diff("B", 12, 40)), "No difference shown between B and the plant: +12 ± 40 packs/h, interval -28 to +52."},
		{"itself", heads(20, diff("B", 0, 0)), "B finishes exactly as much as the plant, in every replication: the difference is 0."},
		{"one replication", heads(1, result.Difference{Scenario: "B", Mean: 120, Above: 1}), "B finished 120 packs per rostered hour more than the plant in one replication; whether that is more than chance is not known."},
		{"ranked", heads(20, diff("B", 100, 20), diff("C", 400, 20), diff("D", -50, 20), diff("E", 3, 20)),
			"C finishes most: 400 ± 20 packs per rostered hour more than the plant (+10.0 %); also more: B; less than the plant: D; no difference shown for E."},
		{"not told apart", heads(20, diff("B", 390, 20), diff("C", 400, 20)), "C finishes most: 400 ± 20 packs per rostered hour more than the plant (+10.0 %), not told apart from B."},
		{"none of several", heads(20, diff("B", 3, 20), diff("C", 0, 0)), "No difference shown for B and C."},
		{"several, once", heads(1, result.Difference{Scenario: "B", Mean: 1, Above: 1}, result.Difference{Scenario: "C", Mean: 2, Above: 1}), "One replication of 2 scenarios beside the plant: how they differ is not known beyond chance."},
	} {
		t.Run(c.name, func(t *testing.T) {
			words.FillComparison(c.c, nil)
			if c.c.Answer != c.want {
				t.Errorf("got  %s\nwant %s", c.c.Answer, c.want)
			}
		})
	}
}

func TestSentenceOfGains(t *testing.T) {
	g := func(name, kind, change string, mean, half float64, near bool) result.Gain {
		low, high := mean-half, mean+half
		return result.Gain{Candidate: name, Kind: kind, Change: change, Mean: mean, Low: &low, High: &high, Share: mean / 4000, Shown: low > 0, NotToldApart: near}
	}
	for _, c := range []struct {
		name string
		rows []result.Gain
		want string
	}{
		{"a station", []result.Gain{g("loading", "station", "10 % faster", 400, 40, false), g("roster", "roster", "breaks 10 % shorter", 120, 10, false)},
			"Loading limits the line: were it 10 % faster, the line would finish 400 ± 40 packs/h more (+10.0 %). Next comes the roster: with breaks 10 % shorter, 120 ± 10 packs/h more."},
		{"people", []result.Gain{g("packers", "people", "one more of them", 400, 40, false)},
			"The packers limit the line: with one more of them, the line would finish 400 ± 40 packs/h more (+10.0 %). Nothing else shows a gain by itself."},
		{"not told apart", []result.Gain{g("loading", "station", "10 % faster", 400, 40, false), g("vessel", "station", "10 % faster", 390, 40, true)},
			"Loading limits the line: were it 10 % faster, the line would finish 400 ± 40 packs/h more (+10.0 %); not told apart from the vessel (10 % faster: 390 ± 40 packs/h)."},
		{"nothing shown", []result.Gain{g("loading", "station", "10 % faster", 4, 40, false)},
			"No single change brings a gain that is more than chance: the greatest would be 4 ± 40 packs/h (were it 10 % faster), interval -36 to +44."},
		{"one replication", []result.Gain{{Candidate: "loading", Mean: 3}}, "One replication tells no gain from chance."},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := &result.Run{Replications: result.Replications{N: 20, LengthH: 8}, Gains: &result.Gains{N: 20, Level: 0.99, Unit: "packs/h", Rows: c.rows}}
			words.Fill(r)
			if r.Gains.Sentence != c.want {
				t.Errorf("got  %s\nwant %s", r.Gains.Sentence, c.want)
			}
			if strings.Contains(strings.Join(r.Bottleneck.Method, " "), "--gains") {
				t.Error("it says how to get what is there")
			}
		})
	}
}
