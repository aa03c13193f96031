package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
)

// stations in the order of the line, with the word before what their tasks take, and with the section that says how many places are before.
var stations = []struct{ section, word, places string }{
	{"loading", "hand_time", ""}, {"tip", "swap", "drain"}, {"labeller", `\btime`, "labeller"}, {"checkweigher", `\btime`, "checkweigher"},
	{"packing", `\btime`, "table"}, {"sealer", `\btime`, "sealer"}, {"case_labeller", `\btime`, "case_labeller"}, {"palletiser", `\btime`, "palletiser"},
}

// aLine is a row of single servers that block after service: the law of each, and the places before it.
type aLine struct {
	serve  []law
	places []int
}

// lineOf reads a scenario; it is not ok where there is a vessel, several servers or a stop.
func lineOf(text string) (l aLine, ok bool) {
	section := func(name string) string { return found(text, `(?m)^`+name+`: (.*)$`) }
	for _, s := range stations {
		if x := section(s.section); x != "" {
			l.serve = append(l.serve, lawAfter(x, s.word))
			l.places = append(l.places, number(section(s.places), `places(?:_before)?`, 0))
		}
	}
	return l, found(text, `(vessel:|stops:|(?:heads|stations|benches): [2-9])`) == ""
}

// departures gives when the last station is left for the n-th time. A piece leaves a station once it is done there and the piece that is
// places+1 before it has left the next.
func (l *aLine) departures(r *rand.Rand, n int) []float64 {
	k := len(l.serve)
	out := make([][]float64, k)
	for j := range out {
		out[j] = make([]float64, n+1)
	}
	for i := 1; i <= n; i++ {
		at := 0.0
		for j := range k {
			at = max(at, out[j][i-1]) + l.serve[j](r)
			if j+1 < k && i-l.places[j+1]-1 >= 1 {
				at = max(at, out[j+1][i-l.places[j+1]-1])
			}
			out[j][i] = at
		}
	}
	return out[k-1]
}

// avar is the throughput X, and the limit of t times the variance of the packs a unit of time over a time t: X^3 times the variance of the time
// of a departure, for each.
func (l *aLine) avar(unit float64) (x, avar float64) {
	const n, warm = 6000, 1500
	var sum, squares float64
	for i := range runs * 4 {
		d := l.departures(rand.New(rand.NewPCG(uint64(i), 7)), n)
		v := (d[n] - d[warm]) / unit
		sum += v
		squares += v * v
	}
	mean := sum / (runs * 4)
	x = (n - warm) / mean
	return x, x * x * x * (squares/(runs*4) - mean*mean) / (n - warm)
}

// lines prints, for each throughput of a table of lines, what stands there and what comes out here.
func lines(table string) error {
	rows, err := read(table)
	if err != nil {
		return err
	}
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	for _, row := range rows[1:] {
		text, err := os.ReadFile("testdata/published/" + row[at["scenario"]] + ".yaml")
		if err != nil {
			return err
		}
		l, ok := lineOf(string(text))
		if !ok || row[at["quantity"]] != "throughput" {
			continue
		}
		x, avar := l.avar(seconds(row[at["unit"]]))
		was, _ := strconv.ParseFloat(row[at["avar"]], 64)
		fmt.Printf("%s: throughput %s, here %.4f; avar %s, here %.3g, %.2f of it\n", row[at["id"]], row[at["value"]], x, strings.TrimSpace(row[at["avar"]]), avar, avar/was)
	}
	return nil
}
