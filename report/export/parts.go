package export

import (
	"fmt"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"

	"pascaline/report/grid"
)

// inParts gives a row as it fits into a spreadsheet, whose cells hold 32,767 characters (two for one beyond the basic plane): a longer text goes on in rows
// below, each named after the first cell with the number of the part. Nothing is cut off.
func inParts(cells []grid.Cell) [][]grid.Cell {
	texts, most := make([][]string, len(cells)), 1
	for i, c := range cells {
		texts[i] = pieces(c.Text, excelize.TotalCellChars)
		most = max(most, len(texts[i]))
	}
	if most == 1 {
		return [][]grid.Cell{cells}
	}
	rows := make([][]grid.Cell, most)
	for k := range rows {
		rows[k] = make([]grid.Cell, len(cells))
		for i, c := range cells {
			switch {
			case c.Number && k == 0:
				rows[0][i] = c
			case i == 0 && len(texts[0]) == 1:
				rows[k][0] = grid.Cell{Text: fmt.Sprintf("%s (part %d of %d)", c.Text, k+1, most)}
			case k < len(texts[i]):
				rows[k][i] = grid.Cell{Text: texts[i][k]}
			}
		}
	}
	return rows
}

// pieces cuts a text so that none has more than so many characters as spreadsheets count them.
func pieces(s string, most int) (all []string) {
	from, n := 0, 0
	for i, r := range s {
		size := max(1, utf16.RuneLen(r))
		if n+size > most {
			all, from, n = append(all, s[from:i]), i, 0
		}
		n += size
	}
	return append(all, s[from:])
}
