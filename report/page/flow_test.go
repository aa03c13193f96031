package page

import (
	"strings"
	"testing"

	"pascaline/report/internal/fixture"
	"pascaline/report/words"
	"pascaline/sim/result"
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

// Times of a run that goes on for weeks are told apart: 144 h after Mon 06:00 it is Sun 06:00, 168 h after it Mon 06:00 of week 2.
func TestStepsOfLaterWeeks(t *testing.T) {
	r := fixture.Run()
	r.Profile.StepS, r.Profile.Shaded = 12*3600, []result.Span{{What: "not rostered", FromS: 170 * 3600, ToS: 171 * 3600}}
	n := 336 / 12
	r.Profile.PacksPerH, r.Profile.P10, r.Profile.P90 = make([]float64, n), make([]float64, n), make([]float64, n)
	s, err := profileSection(r)
	if err != nil {
		t.Fatal(err)
	}
	rows := s.Tables[0].Rows
	for i, want := range map[int]string{0: "Mon 06:00", 12: "Sun 06:00", 14: "week 2 Mon 06:00", 27: "week 2 Sun 18:00"} {
		if rows[i][0] != want {
			t.Errorf("row %d is %q, want %q", i+1, rows[i][0], want)
		}
	}
	seen := map[string]bool{}
	for _, row := range rows {
		if seen[row[0]] {
			t.Errorf("%q stands there twice", row[0])
		}
		seen[row[0]] = true
	}
	if c := s.Charts[0].Caption; !strings.Contains(c, "not rostered 08:00 to 09:00.") {
		t.Errorf("a shaded time has its day or week: %s", c)
	}
}

// Without a roster every hour counts, and the page does not speak of rostered ones.
func TestPageWithoutARoster(t *testing.T) {
	r := fixture.Run()
	r.Profile.Roster, r.Profile.Plan = false, 0
	words.Fill(r)
	d, err := runDocument(r)
	if err != nil {
		t.Fatal(err)
	}
	if f := d.Figures[0].Says; f != "finished per hour" {
		t.Errorf("the first figure is %q", f)
	}
	for _, s := range d.Sections {
		for _, x := range s.Tables {
			if strings.Contains(x.Caption+x.Foot, "per rostered hour") {
				t.Errorf("%s: %s %s", s.ID, x.Caption, x.Foot)
			}
		}
		for _, c := range s.Charts {
			if strings.Contains(c.Caption, "per rostered hour") {
				t.Errorf("%s: %s", s.ID, c.Caption)
			}
		}
	}
}
