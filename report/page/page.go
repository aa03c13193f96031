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

	"pascaline/report/words"
	"pascaline/sim/result"
)

// Options say what the results do not know.
type Options struct {
	Command string // how to run it again; "" leaves the line out
}

// Write writes the page of results of any kind. The same results and options give the same bytes. A number that is not finite is an error that
// names its field, and nothing is written then.
func Write(w io.Writer, r result.Results, o Options) error {
	d, err := documentOf(r)
	if err != nil {
		return fmt.Errorf("no page drawn: %w", err)
	}
	tables, err := d.csv()
	if err != nil {
		return fmt.Errorf("no page drawn: %w", err)
	}
	v := view{
		document: *d, Tables: tables, Head: *r.Top(), Command: o.Command, Policy: policy, Style: template.CSS(style), Library: template.JS(library), Boot: template.JS(boot),
	}
	var b bytes.Buffer
	if err := pageTemplate.Execute(&b, v); err != nil {
		return fmt.Errorf("no page drawn: %w", err)
	}
	_, err = w.Write(b.Bytes())
	return err
}

// documentOf makes the document of results: each kind has its own function and shares everything that draws.
func documentOf(r result.Results) (*document, error) {
	d, err := kindDocument(r)
	if err == nil && len(d.Cautions) == 0 { // every page carries them
		d.Cautions = words.Cautions()
	}
	return d, err
}

// kindDocument makes the document of one kind of results.
func kindDocument(r result.Results) (*document, error) {
	switch r := r.(type) {
	case *result.Run:
		return runDocument(r)
	case *result.Comparison:
		return comparisonDocument(r)
	case *result.Cycle:
		return cycleDocument(r)
	case *result.Claim:
		return claimDocument(r)
	case *result.Payback:
		return paybackDocument(r)
	case *result.Ordering:
		return orderDocument(r)
	case *result.TimeFit:
		return timeFitDocument(r)
	case *result.Sizing:
		return sizingDocument(r)
	case *result.StopFit:
		return stopFitDocument(r)
	case *result.Backtest:
		return backtestDocument(r)
	}
	return nil, fmt.Errorf("results of the kind %q have no page", r.Top().Kind)
}
