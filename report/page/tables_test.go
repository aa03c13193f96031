package page_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pascaline/report/internal/fixture"
	"pascaline/report/number"
	"pascaline/report/page"
	"pascaline/sim/result"
)

// checker sets a table's cells against the results.
type checker struct {
	t       *testing.T
	caption string
	rows    [][]string
}

func (c *checker) words(row, column int, want string) {
	c.t.Helper()
	if got := c.rows[row+1][column]; got != want {
		c.t.Errorf("%s, row %d, column %d: %q, want %q", c.caption, row, column, got, want)
	}
}

var figurePattern = regexp.MustCompile(`^-?[0-9][0-9,]*(\.[0-9]+)?`)

// number wants the first figure of a cell within half of its last place.
func (c *checker) number(row, column int, want float64) {
	c.t.Helper()
	cell := c.rows[row+1][column]
	if strings.HasPrefix(cell, "<0.1") && want > 0 && want < 0.05 {
		return
	}
	printed := figurePattern.FindString(cell)
	got, err := strconv.ParseFloat(strings.ReplaceAll(printed, ",", ""), 64)
	_, fraction, _ := strings.Cut(printed, ".")
	if place := math.Pow10(-len(fraction)); err != nil || math.Abs(got-want) > 0.5001*place {
		c.t.Errorf("%s, row %d, column %d: %q, the results have %v", c.caption, row, column, cell, want)
	}
}

// table finds a table by the begin of its caption and wants so many rows.
func table(t *testing.T, all map[string][][]string, begin string, rows int) *checker {
	t.Helper()
	for caption, got := range all {
		if strings.HasPrefix(caption, begin) {
			if len(got)-1 != rows {
				t.Fatalf("%s: %d rows, want %d", caption, len(got)-1, rows)
			}
			return &checker{t, caption, got}
		}
	}
	t.Fatalf("no table %q", begin)
	return nil
}

func TestTablesOfTheLineEqualTheResults(t *testing.T) {
	r := fixture.Run()
	all := tables(draw(t, r))
	states, through := table(t, all, "Time of each station", len(r.Stations)), table(t, all, "What went through", len(r.Stations))
	for i, s := range r.Stations {
		states.words(i, 0, s.Name)
		states.number(i, 1, float64(s.Servers))
		states.number(i, 2, s.BaseH)
		for k, share := range s.Shares {
			states.number(i, 3+k, 100*share.Share)
		}
		through.number(i, 1, s.Handled.Mean)
		through.words(i, 3, number.Duration(s.WaitMeanS))
		through.number(i, 5, s.SetAside)
		through.number(i, 6, s.OffH)
		through.number(i, 7, s.PlannedH)
	}
	each := table(t, all, "Servers of Dryer", 2)
	for i, e := range r.Stations[4].Each {
		each.words(i, 0, e.Name)
		for k, share := range e.Shares {
			each.number(i, 2+k, 100*share)
		}
	}
	limits := table(t, all, "Views of the bottleneck", len(r.Bottleneck.Rows))
	for i, l := range r.Bottleneck.Rows {
		limits.words(i, 0, l.Station)
		limits.number(i, 1, 100*l.VesselHeldPct)
		limits.number(i, 2, 100*l.ActiveShare)
		limits.words(i, 3, number.Duration(l.MeanActiveS))
		limits.number(i, 4, 100*l.SoleShare)
		limits.number(i, 5, 100*l.ShiftingShare)
	}
	checkWaterfall(t, all, r)
}

// checkWaterfall also wants the steps to add up as they are printed.
func checkWaterfall(t *testing.T, all map[string][][]string, r *result.Run) {
	t.Helper()
	losses := table(t, all, "Loss waterfall", len(r.Waterfall))
	left := 0.0
	for i, l := range r.Waterfall {
		losses.words(i, 0, l.Cause)
		losses.number(i, 1, l.PacksPerH)
		if l.Kind != "finished" {
			left += l.PacksPerH
		}
		losses.number(i, 2, left)
		losses.number(i, 3, l.PacksPerH*r.Contribution.PerPack)
	}
	if math.Abs(left-r.Headline.PacksPerH.Mean) > 1e-6 {
		t.Errorf("the steps end at %v", left)
	}
}

func TestTablesOverTimeEqualTheResults(t *testing.T) {
	r := fixture.Run()
	all := tables(draw(t, r))
	profile := table(t, all, "Finished packs per hour", len(r.Profile.PacksPerH))
	profile.words(0, 0, "Mon 06:00")
	profile.words(5, 0, "Mon 07:15")
	for i := range r.Profile.PacksPerH {
		profile.number(i, 1, r.Profile.PacksPerH[i])
		profile.number(i, 2, r.Profile.P10[i])
		profile.number(i, 3, r.Profile.P90[i])
	}
	buffers := table(t, all, "What waits where", len(r.Buffers))
	for i, b := range r.Buffers {
		buffers.words(i, 0, b.Name)
		buffers.number(i, 3, b.Mean)
		buffers.number(i, 4, b.Max)
		if b.Places > 0 {
			buffers.number(i, 2, float64(b.Places))
			buffers.number(i, 5, 100*b.Full)
		} else {
			buffers.words(i, 2, "no limit")
		}
		buffers.words(i, 7, number.Duration(b.WaitP95S))
	}
	phases := table(t, all, "Phases of Vessel", 9)
	for i, p := range r.Stations[1].Phases {
		phases.words(i, 1, number.Duration(p.MeanS))
		phases.number(i, 2, 100*p.Share)
	}
	vessel := table(t, all, "What the vessels did", 10)
	vessel.number(0, 1, r.Vessel.CycleS.Mean)
	vessel.number(2, 1, r.Vessel.Cycles.Mean)
	vessel.number(5, 1, r.Vessel.Repeated.Mean)
	vessel.number(7, 1, r.Headline.CyclesPerH.Mean)
	vessel.number(8, 1, r.Vessel.Fill*r.Vessel.MeanLoadShare*r.Headline.CyclesPerH.Mean)
}

func TestTablesOfPeopleEqualTheResults(t *testing.T) {
	r := fixture.Run()
	all := tables(draw(t, r))
	pools := table(t, all, "Pools of people", len(r.People))
	tasks := 0
	for i, p := range r.People {
		pools.words(i, 0, p.Name)
		pools.number(i, 2, p.RosterH)
		pools.number(i, 3, 100*p.Busy.Mean)
		pools.number(i, 5, 100*p.KeptShare)
		pools.number(i, 6, 100*p.FreeShare)
		pools.number(i, 8, p.OvertimeH)
		if heads, err := strconv.ParseFloat(p.Heads, 64); err == nil {
			pools.number(i, 10, heads*p.Busy.Mean)
		}
		tasks += len(p.Tasks)
	}
	table(t, all, "What each pool did", tasks)
	staff := table(t, all, "People by shift", len(r.Staffing))
	for i, s := range r.Staffing {
		staff.words(i, 1, s.Shift)
		staff.number(i, 2, float64(s.People))
		staff.number(i, 3, 100*s.Busy)
		staff.words(i, 4, number.Duration(s.LongestS))
	}
	staff.words(2, 5, "Packing 1.3 h, Wiping 0.2 h")
	staff.words(4, 5, "hardly anything")
	stops := table(t, all, "Stops per replication", len(r.Stops))
	for i, s := range []int{2, 3, 0, 1, 4, 5, 6} { // the dearest first
		stops.words(i, 0, r.Stops[s].Name)
		stops.words(i, 3, r.Stops[s].From)
		stops.words(i, 5, number.Duration(3600*r.Stops[s].DownH))
		stops.number(i, 7, r.Stops[s].Lost)
	}
	cold := table(t, all, "Time until the chilled store", 2)
	cold.words(0, 2, number.Duration(r.ColdChain.FromStart.MeanS))
	cold.words(1, 4, number.Duration(r.ColdChain.FromVessel.MaxS))
	brought := table(t, all, "What each shift brought", len(r.Shifts))
	brought.words(0, 2, number.PlusMinus(r.Shifts[0].Packs, ""))
}

func TestTablesOfGroundsEqualTheResults(t *testing.T) {
	r := fixture.Run()
	all := tables(draw(t, r))
	hand := table(t, all, "What each station could do", len(r.HandCheck.Rows)+1)
	for i, h := range r.HandCheck.Rows {
		hand.number(i, 1, h.PacksPerH)
		hand.words(i, 2, h.How)
	}
	runs := table(t, all, "Replications", len(r.PerReplication))
	for i, p := range r.PerReplication {
		for k, want := range []float64{float64(p.Number), p.PacksPerH, float64(p.Packs), float64(p.Cases), float64(p.Carriers), float64(p.Cycles), p.LengthH} {
			runs.number(i, k, want)
		}
	}
	balance := table(t, all, "Packs, mean per replication", 4)
	for i, want := range []float64{r.Balance.In, r.Balance.Finished, r.Balance.SetAside, r.Balance.OnLine} {
		balance.number(i, 1, want)
	}
	open, stated := table(t, all, "Values that the scenario does not state", 5), table(t, all, "Values that the scenario states", 3)
	open.words(0, 3, r.Assumptions[0].Says)
	stated.words(0, 1, r.Assumptions[4].Value)
}

func TestReplaysEndWithTheCounts(t *testing.T) {
	r := fixture.Run()
	rows := table(t, tables(draw(t, r)), "What the replays come to", len(r.Replays))
	for i, p := range r.Replays {
		was := r.PerReplication[p.Replication-1]
		for k, want := range []int64{was.Packs, was.Packs, was.Cases, was.Cases, was.Cycles, was.Cycles} {
			rows.number(i, 3+k, float64(want))
		}
	}
}

// A name that begins with = is a name, not a mark of ours: it stands in the heading as it is, over figures.
func TestNamesOfScenariosInHeadings(t *testing.T) {
	c := fixture.Comparison()
	for i := range c.Scenarios {
		for k := range c.Differences {
			if c.Differences[k].Scenario == c.Scenarios[i].Name {
				c.Differences[k].Scenario = "=" + c.Scenarios[i].Name
			}
		}
		c.Scenarios[i].Name = "=" + c.Scenarios[i].Name
	}
	b, err := page.Contents(c)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range b.Sheets {
		if strings.HasSuffix(s.Caption, " of each replication") {
			if s.Grid.Head[1] != c.Scenarios[0].Name || !s.Grid.Rows[0][1].Number {
				t.Errorf("heading %q over %+v, want %q over a number", s.Grid.Head[1], s.Grid.Rows[0][1], c.Scenarios[0].Name)
			}
			return
		}
	}
	t.Error("no table of each replication")
}
