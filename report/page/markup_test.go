package page_test

import (
	"bytes"
	"html"
	"regexp"
	"strings"
	"testing"

	"pascaline/report/page"
	"pascaline/sim/result"
)

func draw(t *testing.T, r *result.Run) string {
	t.Helper()
	var b bytes.Buffer
	if err := page.Write(&b, r, page.Options{Command: "pascaline run plant.yaml --seed 20260301"}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

var (
	tagPattern    = regexp.MustCompile(`<(/?)([a-zA-Z][a-zA-Z0-9]*)((?:\s+[a-z-]+(?:="[^"<>]*")?)*)\s*>`)
	scriptPattern = regexp.MustCompile(`(?s)<script([^>]*)>(.*?)</script>`)
	stylePattern  = regexp.MustCompile(`(?s)<style>(.*?)</style>`)
	tablePattern  = regexp.MustCompile(`(?s)<table>\s*<caption><span>(.*?)</span></caption>(.*?)</table>`)
	rowPattern    = regexp.MustCompile(`(?s)<tr>(.*?)</tr>`)
	cellPattern   = regexp.MustCompile(`(?s)<t[hd][^>]*>(.*?)</t[hd]>`)
)

// markup is the page without what stands in scripts and styles.
func markup(p string) string {
	return stylePattern.ReplaceAllString(scriptPattern.ReplaceAllString(p, "<script$1></script>"), "<style></style>")
}

// words is the text of a piece of markup.
func words(m string) string {
	return strings.TrimSpace(html.UnescapeString(tagPattern.ReplaceAllString(m, "")))
}

// tables reads every table of the page: its caption, and its rows with the headings first.
func tables(p string) map[string][][]string {
	out := map[string][][]string{}
	for _, t := range tablePattern.FindAllStringSubmatch(markup(p), -1) {
		var rows [][]string
		for _, row := range rowPattern.FindAllStringSubmatch(t[2], -1) {
			var cells []string
			for _, c := range cellPattern.FindAllStringSubmatch(row[1], -1) {
				cells = append(cells, words(c[1]))
			}
			rows = append(rows, cells)
		}
		out[words(t[1])] = rows
	}
	return out
}

// unbalanced gives the first tag that is closed in the wrong order, or a < that is no tag at all; "" when there is none.
func unbalanced(p string) string {
	m := strings.Replace(markup(p), "<!doctype html>", "", 1)
	void := map[string]bool{"meta": true, "br": true, "img": true, "link": true, "input": true}
	var open []string
	for _, tag := range tagPattern.FindAllStringSubmatch(m, -1) {
		switch name := tag[2]; {
		case tag[1] == "" && !void[name]:
			open = append(open, name)
		case tag[1] != "" && (len(open) == 0 || open[len(open)-1] != name):
			return "</" + name + "> while open: " + strings.Join(open, " ")
		case tag[1] != "":
			open = open[:len(open)-1]
		}
	}
	if len(open) > 0 {
		return "never closed: " + strings.Join(open, " ")
	}
	if at := strings.IndexByte(tagPattern.ReplaceAllString(m, ""), '<'); at >= 0 {
		return "a bare < in the text"
	}
	return ""
}
