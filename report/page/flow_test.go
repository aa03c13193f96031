package page

import (
	"strings"
	"testing"

	"pascaline/report/internal/fixture"
)

// The plan and the crews stand over the chart of the run, and are drawn in it; without a plan nothing is said of one.
func TestPlanAndCrewsOverTheRun(t *testing.T) {
	r := fixture.Run()
	s, err := profileSection(r)
	if err != nil {
		t.Fatal(err)
	}
	if says := strings.Join(s.Says, " "); !strings.Contains(says, "Planned are 4,600 packs per rostered hour; the line makes 95.8 % of that.") || !strings.Contains(says, "early") {
		t.Errorf("says %q", says)
	}
	drawn := string(s.Charts[0].Options)
	for _, want := range []string{`"plan 4,600"`, `"yAxis":4600`, `"name":"late"`} {
		if !strings.Contains(drawn, want) {
			t.Errorf("the chart lacks %s", want)
		}
	}
	r.Profile.Plan, r.Profile.Shifts = 0, nil
	s, err = profileSection(r)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(strings.Join(s.Says, " "), "lanned") || strings.Contains(string(s.Charts[0].Options), "markLine") {
		t.Error("a plan that nobody stated is shown")
	}
}
