package selftest

import (
	"math"
	"strconv"
	"testing"
)

// changed is a value as far away as a check must notice: half a tolerance beyond the tolerance, on the side where what was got is not, or where
// there is no tolerance the next number that the table could hold.
func changed(c Check) float64 {
	away := math.Copysign(1.5*c.Tolerance, c.Expected-c.Got)
	if c.Tolerance == 0 {
		away = max(1e-9*math.Abs(c.Expected), 1e-9)
	}
	return c.Expected + away
}

// fails runs a table with every value changed, one way and the other: every check fails, and what was got stays what it was. So nothing is
// compared with itself, and no row passes whatever it says.
func fails(t *testing.T, x *table, only func(Case) bool) {
	t.Helper()
	rows, err := valueRows(x.file)
	if err != nil {
		t.Fatal(err)
	}
	for _, right := range x.casesOf(rows) {
		if only(right) {
			t.Run(x.group+"/"+right.Name, func(t *testing.T) { t.Parallel(); failsWhenChanged(t, x, rows, right) })
		}
	}
}

func failsWhenChanged(t *testing.T, x *table, rows []valueRow, right Case) {
	checks, err := right.run(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	was := map[string]Check{}
	for _, c := range checks {
		was[c.Name] = c
	}
	var other []valueRow
	for _, row := range rows {
		if row["scenario"] != right.Name {
			continue
		}
		y := valueRow{}
		for k, v := range row {
			y[k] = v
		}
		c, ok := was[row["id"]]
		if !ok {
			t.Fatalf("%s is compared with nothing", row["id"])
		}
		y["value"] = strconv.FormatFloat(changed(c), 'g', -1, 64)
		other = append(other, y)
	}
	for _, c := range x.casesOf(other) {
		checks, err := c.run(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range checks {
			if before := was[c.Name]; c.Pass || c.Got != before.Got || !before.Pass {
				t.Errorf("%s: got %.9g, which is met by %.9g (%v) and by %.9g (%v) within %.3g; with that value %.9g was got",
					c.Name, before.Got, before.Expected, before.Pass, c.Expected, c.Pass, c.Tolerance, c.Got)
			}
		}
	}
}

// Every value that is worked out without a simulation. Those of simulations: TestAllTablesFailWhenChanged.
func TestFormulasFailWhenChanged(t *testing.T) {
	for _, x := range tables() {
		if x.group == "statistics" || x.group == "economics" || x.group == "vessel" {
			fails(t, &x, func(Case) bool { return true })
		}
	}
}
