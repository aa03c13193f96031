package selftest

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
)

// A table is a CSV file of testdata/published and how what its rows name is measured.
type table struct {
	group, file string
	run         func(r *Runner, scenario string, rows []valueRow) ([]Check, error)
}

// tables are all tables, in the order in which their checks are reported.
func tables() []table {
	return []table{
		// Lines that never stop: one station after another, saturated, with few places or none between them and blocking after service. Stations
		// are those of the product: loading, vessel and tip with one carrier to a load, machines, packing with one pack to a case.
		{"serial lines", "serial.csv", linesOf},
		// Lines whose stations stop, by a clock that runs with them or by the calendar, with menders of their own or one for all. Each first stop
		// comes at a random age, so the lines are in their long-run state from the start but for the packs on them.
		{"unreliable lines", "unreliable.csv", linesOf},
		{"queues", "queues.csv", queueChecks},
		{"pulses", "pulses.csv", pulseChecks},
		{"statistics", "statistics.csv", statisticChecks},
		{"economics", "economics.csv", economicChecks},
		{"vessel", "vessel.csv", vesselChecks},
	}
}

// cases are those of a table as it stands.
func (t *table) cases() []Case {
	rows, err := valueRows(t.file)
	if err != nil {
		return []Case{{Group: t.group, Name: t.file, Quick: true, Run: func(*Runner) ([]Check, error) { return nil, err }}}
	}
	return t.casesOf(rows)
}

// casesOf makes a case of all rows that name the same scenario and follow each other. It is quick if one of them says so.
func (t *table) casesOf(rows []valueRow) []Case {
	var list []Case
	for len(rows) > 0 {
		n := 1
		for n < len(rows) && rows[n]["scenario"] == rows[0]["scenario"] {
			n++
		}
		of, scenario := rows[:n], rows[0]["scenario"]
		rows = rows[n:]
		c := Case{Group: t.group, Name: scenario, Run: func(r *Runner) ([]Check, error) { return t.run(r, scenario, of) }}
		for _, x := range of {
			c.Quick = c.Quick || x["quick"] == "quick"
		}
		list = append(list, c)
	}
	return list
}

// valueRow is one line of a CSV file of testdata/published, by the names of its columns.
type valueRow map[string]string

// valueRows reads a CSV file of testdata/published.
func valueRows(name string) ([]valueRow, error) {
	b, err := publishedFile(name)
	if err != nil {
		return nil, err
	}
	all, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	var list []valueRow
	for _, line := range all[1:] {
		x := valueRow{}
		for i, column := range all[0] {
			x[column] = line[i]
		}
		list = append(list, x)
	}
	return list, nil
}

// number reads a column as a number; an empty one is 0.
func (x valueRow) number(column string) (float64, error) {
	if x[column] == "" {
		return 0, nil
	}
	v, err := strconv.ParseFloat(x[column], 64)
	if err != nil {
		return 0, fmt.Errorf("%s of %s: %w", column, x["id"], err)
	}
	return v, nil
}
