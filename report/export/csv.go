package export

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"

	"pascaline/report/grid"
	"pascaline/report/store"
	"pascaline/sim/result"
)

// CSV writes results as a folder of CSV files, which is made unless it is there: one file for each table, the answer, the assumptions with
// the seed, every value in full, and contents.csv, which says what each holds. Tables that
// an earlier export into the folder has left and this one has not are taken away. The files are UTF-8 with a mark at the begin, their lines end as RFC 4180 has it.
// command is how to run it again; "" leaves it out. Errors name the file and say what to do.
func CSV(folder string, r result.Results, command string) error {
	b, err := bookOf(r, command)
	if err != nil {
		return err
	}
	if err := store.Folder(folder); err != nil {
		return err
	}
	old := tablesOf(folder)
	contents := grid.Grid{Head: contentsHead}
	put := func(name, section, caption, foot string, g grid.Grid) error {
		contents.Rows = append(contents.Rows, []grid.Cell{{Text: name}, {Text: section}, {Text: caption}, {Text: foot}})
		return writeCSV(filepath.Join(folder, name), g)
	}
	if err := put("answer.csv", answerName, "The answer, how sure it is, warnings and cautions", "", pairGrid(b.answer)); err != nil {
		return err
	}
	if err := put("seed.csv", assumptionsName, "What is needed to get the same again", "", pairGrid(b.grounds)); err != nil {
		return err
	}
	all := append(append([]table{}, b.assumptions...), b.tables...)
	for i, t := range all {
		name := fmt.Sprintf("%02d-%s.csv", i+1, slug(t.caption))
		if err := put(name, t.title, t.caption, t.foot, t.Grid); err != nil {
			return err
		}
	}
	if err := put("values.csv", valuesName, b.values.caption, "", b.values.Grid); err != nil {
		return err
	}
	for _, row := range contents.Rows {
		delete(old, row[0].Text)
	}
	for name := range old {
		if err := store.Remove(filepath.Join(folder, name)); err != nil {
			return err
		}
	}
	return writeCSV(filepath.Join(folder, contentsName), contents)
}

// contentsName is the table of all tables of a folder.
const contentsName = "contents.csv"

// ownTable is what a table of an export may be called.
var ownTable = regexp.MustCompile(`^[a-z0-9-]+\.csv$`)

// tablesOf are the tables that an earlier export into the folder has written, as its contents.csv names them: beside those of other results they would
// mislead. Files that it does not name are somebody's own.
func tablesOf(folder string) map[string]bool {
	all := map[string]bool{}
	b, err := os.ReadFile(filepath.Join(folder, contentsName))
	if err != nil {
		return all
	}
	rows, err := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(b, []byte("\ufeff")))).ReadAll()
	if err != nil || len(rows) == 0 || !slices.Equal(rows[0], contentsHead) {
		return all
	}
	for _, row := range rows[1:] {
		if ownTable.MatchString(row[0]) {
			all[row[0]] = true
		}
	}
	return all
}

var contentsHead = []string{"file", "section", "table", "remark"}

func pairGrid(all []pair) grid.Grid {
	g := grid.Grid{Head: []string{"what", "value"}}
	for _, p := range all {
		g.Rows = append(g.Rows, []grid.Cell{{Text: p.name}, {Text: p.value}})
	}
	return g
}

func writeCSV(path string, g grid.Grid) error {
	data, err := g.CSV()
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	return store.Write(path, data)
}
