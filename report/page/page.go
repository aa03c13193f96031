// Package page draws results as one HTML file that needs nothing else: no network, no folder beside it. The file opens with the answer, then says how
// sure it is, why, and on what it rests. Every chart stands beside its table, and a reader without scripts, colours or eyes
// gets the same figures.
//
// The charting library's options are built with go-echarts and travel as JSON; its renderer and its page are never used, because
// they load scripts from elsewhere and run text that stands in a title. Two scripts may run, ours and the library, both by hash.
package page

import (
	"bytes"
	"fmt"
	"html/template"
	"io"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// Options say what the results do not know.
type Options struct {
	Command string // how to run it again; "" leaves the line out
}

// Run writes the page of one run. The same results and options give the same bytes. A number that is not finite is an error that
// names its field, and nothing is written then.
func Run(w io.Writer, r *result.Run, o Options) error {
	r, err := number.Shown(r)
	if err != nil {
		return fmt.Errorf("no page drawn: %w", err)
	}
	v := view{
		Run: r, Command: o.Command, Policy: policy, Style: template.CSS(style), Library: template.JS(library), Boot: template.JS(boot),
		Figures: headlineFigures(r), Sure: howSure(r), Notes: notes(r),
	}
	for _, build := range sections {
		s, err := build(r)
		if err != nil {
			return fmt.Errorf("no page drawn: %w", err)
		}
		if s != nil {
			v.Sections = append(v.Sections, *s)
		}
	}
	var b bytes.Buffer
	if err := pageTemplate.Execute(&b, v); err != nil {
		return fmt.Errorf("no page drawn: %w", err)
	}
	_, err = w.Write(b.Bytes())
	return err
}

// sections in the order of the page; one gives nil where its results are absent.
var sections = []func(*result.Run) (*section, error){
	statesSection, bottleneckSection, lossSection, profileSection, bufferSection, vesselSection, peopleSection, stopSection,
	coldSection, handSection, replicationSection, balanceSection, assumptionSection,
}
