package store

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"pascaline/sim/result"
)

// maxBytes is more than any results file has; what is larger is not one.
const maxBytes = 512 << 20

// Load reads results of any kind. It refuses what is not such a file, each with what is wrong and what to do: foreign JSON, a file
// that is cut off, another schema version, an unknown kind, fields it does not know, lists that do not fit together.
func Load(path string) (result.Results, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil && errors.Is(err, os.ErrNotExist):
		return nil, fmt.Errorf("%s does not exist; check the name, or make it with pascaline run", path)
	case err == nil && info.IsDir():
		return nil, fmt.Errorf("%s is a folder; name the results file in it (results.json)", path)
	case err == nil && info.Size() > maxBytes:
		return nil, fmt.Errorf("%s is too large to be a results file; name a results.json written by pascaline run", path)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", path, err)
	}
	r, err := Decode(data)
	if err != nil {
		return nil, fmt.Errorf("%s %w", path, err)
	}
	return r, nil
}

// Decode reads results from the bytes of their file; its errors are the rest of a sentence that begins with the file's name.
func Decode(data []byte) (result.Results, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if err := whole(data); err != nil {
		return nil, err
	}
	r, err := ours(data)
	if err != nil {
		return nil, err
	}
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(r); err != nil {
		return nil, misfit(err)
	}
	if err := fits(r); err != nil {
		return nil, fmt.Errorf("does not fit together: %w; it was changed by hand or damaged: run the scenario again", err)
	}
	return r, nil
}

// whole tells a file that is empty, cut off, or not JSON.
func whole(data []byte) error {
	if len(bytes.TrimSpace(data)) == 0 {
		return errors.New("is empty: run the scenario again")
	}
	dec := json.NewDecoder(bytes.NewReader(data))
	var raw json.RawMessage
	err := dec.Decode(&raw)
	var syntax *json.SyntaxError
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF):
		return fmt.Errorf("is cut off: it ends in the middle, after %d bytes; run the scenario again or copy the file again", len(data))
	case errors.As(err, &syntax):
		return fmt.Errorf("is not a results file: %s at byte %d; name a results.json written by pascaline run", syntax, syntax.Offset)
	case err != nil:
		return fmt.Errorf("is not a results file: %w", err)
	}
	if _, err := dec.Token(); err != io.EOF {
		return fmt.Errorf("goes on after its end, at byte %d: it was changed or joined with another file; run the scenario again", dec.InputOffset())
	}
	return nil
}

// ours tells a JSON file of another program, of an unknown kind or of another version, and gives empty results of its kind.
func ours(data []byte) (result.Results, error) {
	var head struct {
		SchemaVersion json.Number `json:"schema_version"`
		Kind          string      `json:"kind"`
		Program       string      `json:"program"`
	}
	if err := json.Unmarshal(data, &head); err != nil || head.SchemaVersion == "" || head.Kind == "" || head.Program != "pascaline" {
		return nil, errors.New("is JSON, but no results of pascaline: name a results.json written by pascaline run")
	}
	version, err := head.SchemaVersion.Int64()
	switch {
	case err != nil || version < 1:
		return nil, fmt.Errorf("has the schema version %s, which never was: run the scenario again", head.SchemaVersion)
	case version > result.SchemaVersion:
		return nil, fmt.Errorf("was written by a newer pascaline (schema version %d, this one reads %d): use that one, or run the scenario again", version, result.SchemaVersion)
	case version < result.SchemaVersion:
		return nil, fmt.Errorf("was written by an older pascaline (schema version %d, this one reads %d): run the scenario again", version, result.SchemaVersion)
	}
	r := result.Of(head.Kind)
	if r == nil {
		return nil, fmt.Errorf("holds results of the kind %q, which this pascaline does not know: name a results.json that it wrote", head.Kind)
	}
	return r, nil
}

// misfit puts a decoding error in words.
func misfit(err error) error {
	var kind *json.UnmarshalTypeError
	if errors.As(err, &kind) {
		return fmt.Errorf("has a %s in the field %s where %s is wanted: it was changed by hand or damaged; run the scenario again", kind.Value, kind.Field, kind.Type)
	}
	if name, found := strings.CutPrefix(err.Error(), "json: unknown field "); found {
		return fmt.Errorf("has a field %s that this pascaline does not know: it was changed by hand or written by a newer one; use that one, or run the scenario again", name)
	}
	return fmt.Errorf("cannot be read: %w; run the scenario again", err)
}

// fits checks lists against each other, so that a report cannot show half of one.
func fits(r result.Results) error {
	switch r := r.(type) {
	case *result.Run:
		return fitsRun(r)
	case *result.Comparison:
		return fitsComparison(r)
	case *result.Payback:
		return fitsPayback(r)
	case *result.Ordering:
		return fitsOrdering(r)
	case *result.TimeFit:
		return fitsTimeFit(r)
	case *result.Sizing:
		return fitsSizing(r)
	case *result.Cycle:
		return fitsCycle(r)
	case *result.StopFit:
		return fitsStopFit(r)
	case *result.Backtest:
		return fitsBacktest(r)
	}
	return nil
}

func fitsRun(r *result.Run) error {
	steps := len(r.Profile.PacksPerH)
	switch {
	case r.Replications.N < 1:
		return errors.New("it has no replication")
	case len(r.PerReplication) != r.Replications.N:
		return fmt.Errorf("it says %d replications and lists %d", r.Replications.N, len(r.PerReplication))
	case len(r.Profile.P10) != steps || len(r.Profile.P90) != steps:
		return errors.New("the profile's lists differ in length")
	case steps > 0 && !(r.Profile.StepS > 0):
		return errors.New("the profile has no step")
	}
	for _, b := range r.Buffers {
		if len(b.Steps) != steps || len(b.StepsMax) != steps {
			return fmt.Errorf("buffer %q has not one value a step of the profile", b.Name)
		}
	}
	for _, s := range r.Stations {
		for _, e := range s.Each {
			if len(e.Shares) != len(result.States) {
				return fmt.Errorf("%q of station %q has not one share a state", e.Name, s.Name)
			}
		}
	}
	if err := cmp.Or(fitsLots(r.Lots), fitsGains(r.Gains)); err != nil {
		return err
	}
	for i := range r.Replays {
		if err := fitsReplay(&r.Replays[i], r.Replications.N); err != nil {
			return err
		}
	}
	return nil
}

func fitsReplay(p *result.Replay, replications int) error {
	const most = 1 << 20
	if p.Frames < 1 || p.Frames > most || !(p.StepS > 0) || p.Replication < 1 || p.Replication > replications {
		return errors.New("a replay has no frames, no step or no replication")
	}
	for i := range p.Tracks {
		values, err := p.Tracks[i].Values(p.Frames)
		if err != nil {
			return err
		}
		if p.Tracks[i].Kind == "state" && int(slices.Max(values)) >= len(p.States) || slices.Min(values) < 0 {
			return fmt.Errorf("track %q of the replay has a value that means nothing", p.Tracks[i].Name)
		}
	}
	return nil
}

func fitsPayback(r *result.Payback) error {
	if len(r.Options) == 0 {
		return errors.New("it has no option, not even to do nothing")
	}
	for _, o := range r.Options {
		if len(o.Band) != len(o.Lines) || len(o.Lines) > 0 && len(o.Lines) != o.Buy.Years+1 {
			return fmt.Errorf("option %q has not one line a year", o.Name)
		}
		if o.Cost == nil {
			return fmt.Errorf("option %q has no cost", o.Name)
		}
	}
	return nil
}

func fitsCycle(r *result.Cycle) error {
	switch {
	case len(r.Phases) == 0 || !(r.CycleS > 0):
		return errors.New("it has no phases")
	case r.ComeUp.UsedS > 0 && len(r.Curve) < 2:
		return errors.New("it has a come-up and no curve")
	}
	return nil
}
