package page

import (
	"fmt"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// mostBuffers is how many buffers are drawn; the table has them all.
const mostBuffers = 8

// bufferSection shows what waits where.
func bufferSection(r *result.Run) (*section, error) {
	if len(r.Buffers) == 0 && r.Carriers == nil {
		return nil, nil
	}
	s := &section{ID: "buffers", Title: "Buffers and carriers", Small: true}
	if r.Carriers != nil && r.Carriers.Sentence != "" {
		s.Says = append(s.Says, r.Carriers.Sentence)
	}
	for i, b := range drawn(r) {
		c, err := bufferChart(r.Profile, b, fmt.Sprintf("buffer-%d", i+1))
		if err != nil {
			return nil, err
		}
		s.Charts = append(s.Charts, c)
	}
	if len(r.Buffers) > 0 {
		s.Tables = append(s.Tables, bufferTable(r.Buffers))
	}
	return s, nil
}

// drawn are the buffers with a limit that anything came to; where no buffer has one, all that anything came to.
func drawn(r *result.Run) []result.Buffer {
	var limited, free []result.Buffer
	for _, b := range r.Buffers {
		switch {
		case b.Max <= 0 || len(b.Steps) == 0:
		case b.Places > 0:
			limited = append(limited, b)
		default:
			free = append(free, b)
		}
	}
	if len(limited) == 0 {
		limited = free
	}
	return limited[:min(len(limited), mostBuffers)]
}

func bufferChart(p result.Profile, b result.Buffer, id string) (chart, error) {
	p.Shaded = nil
	line := timeChart(p)
	addSteps(line, p, "most", "greatest", b.StepsMax, "")
	addSteps(line, p, "mean", "mean", b.Steps, "")
	if b.Places > 0 {
		last := &line.MultiSeries[len(line.MultiSeries)-1]
		charts.WithMarkLineNameYAxisItemOpts(opts.MarkLineNameYAxisItem{Name: "limit " + number.Count(b.Places), YAxis: b.Places})(last)
	}
	caption := fmt.Sprintf("Mean %s %s, greatest %s", number.Figure(b.Mean, 3), b.Piece, number.Fixed(b.Max, 0))
	if b.Places > 0 {
		caption += fmt.Sprintf("; full for %s of the time (limit %s)", number.Percent(b.Full), number.Count(b.Places))
	}
	return draw(chart{
		ID: id, Draw: "buffer", Title: b.Name, Caption: caption + ".",
		Label: fmt.Sprintf("Step lines of the content of %s over the run, mean and greatest, with its limit.", b.Name),
	}, line)
}

func bufferTable(buffers []result.Buffer) table {
	t := table{Caption: "What waits where", Head: columns("Buffer", "=pieces", "places", "mean", "greatest", "share of time full", "wait, mean", "wait, P95"),
		Foot: "Charts: the strong line is the mean over replications, the thin one the greatest content in any of them; the broken line is the limit."}
	for _, b := range buffers {
		places := "no limit"
		full := "–"
		if b.Places > 0 {
			places, full = number.Count(b.Places), number.Percent(b.Full)
		}
		t.Rows = append(t.Rows, []string{b.Name, b.Piece, places, number.Figure(b.Mean, 3), number.Fixed(b.Max, 0), full,
			number.Duration(b.WaitMeanS), number.Duration(b.WaitP95S)})
	}
	return t
}
