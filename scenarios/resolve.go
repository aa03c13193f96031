package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"pascaline/scenarios/units"
)

// lawful is a struct whose fields describe a distribution.
type lawful interface {
	resolve(r *reader, path string, n *node)
}

const knownWants = "one time as one word, or low and high, or low, likely and high, or mean and sd, or a file"

func (t *Time) resolve(r *reader, path string, n *node) {
	l := Law{Low: seconds(t.Low), Likely: seconds(t.Likely), High: seconds(t.High), Mean: seconds(t.Mean), SD: seconds(t.SD)}
	if !r.shape(path, n, &l, Shape(t.As), knownWants) {
		return
	}
	if l.Shape == Exponential && t.As == "" {
		r.add(n.get("mean").at, path, "a mean alone", "mean and sd, or low, likely and high",
			"add as: exponential if that is meant, or as: constant for one that is always the same")
		return
	}
	if l.Shape == Empirical {
		if l.Values = r.readings(path, n, string(t.Column)); l.Values == nil {
			return
		}
	}
	r.shapeTaken(path, &t.As, l.Shape)
	if r.lawFault(path, n, &l) {
		t.law = l
	}
}

// shapeTaken notes the shape that was taken where none was asked for.
func (r *reader) shapeTaken(path string, as *units.Word, shape Shape) {
	if *as == "" {
		*as = units.Word(shape)
		r.trail.defaults[join(path, "as")] = string(shape)
	}
}

func seconds(d *units.Duration) float64 {
	if d == nil {
		return 0
	}
	return d.Seconds()
}

// shape finds the shape that what is known describes; as is what was asked for.
func (r *reader) shape(path string, n *node, l *Law, as Shape, wants string) bool {
	known := n.lawKeys()
	for _, k := range known {
		if _, bad := r.badAt(join(path, k)); bad {
			return false
		}
	}
	shapes := lawShapes(known)
	at := n.at
	if len(known) == 0 {
		if r.faultsIn(path) {
			return false
		}
		r.add(at, path, nothingOf(wants), wants, "")
		return false
	}
	if shapes == nil {
		r.add(n.get(known[0]).at, path, strings.Join(known, ", "), wants, "")
		return false
	}
	if as == "" {
		l.Shape = shapes[0]
		return true
	}
	if !slices.Contains(shapes, as) {
		if p := n.get("as"); p != nil {
			at = p.value.at
		}
		r.add(at, join(path, "as"), quote(string(as)), orList(shapeNames(shapes))+" for "+strings.Join(known, " and "), "")
		return false
	}
	l.Shape = as
	return true
}

func shapeNames(shapes []Shape) []string {
	names := make([]string, len(shapes))
	for i, s := range shapes {
		names[i] = string(s)
	}
	return names
}

// badAt finds a fault that was told already at a path.
func (r *reader) badAt(path string) (Fault, bool) {
	for _, f := range r.faults {
		if f.Path == path {
			return f, true
		}
	}
	return Fault{}, false
}

func (r *reader) faultsIn(path string) bool {
	return slices.ContainsFunc(r.faults, func(f Fault) bool { return f.Path == path || strings.HasPrefix(f.Path, path+".") })
}

// lawFault reports what is wrong with the numbers, and makes a law without spread constant.
func (r *reader) lawFault(path string, n *node, l *Law) bool {
	if found, want, hint := l.fault(); found != "" {
		r.add(n.get(n.lawKeys()[0]).at, path, found, want, hint)
		return false
	}
	if l.Shape == Normal && l.negative() > normalWarned {
		r.trail.warn("normal clipped", fmt.Sprintf("%s: a normal time of mean %.4g s and sd %.4g s is negative in %.2g of 10,000 draws; "+
			"those are drawn again, so that the mean used is %.6g s", path, l.Mean, l.SD, 1e4*l.negative(), l.MeanUsed()))
	}
	switch {
	case l.Shape == Uniform && l.Low == l.High, (l.Shape == Triangular || l.Shape == PERT) && l.Low == l.High:
		*l = Law{Shape: Constant, Mean: l.Low}
	}
	return true
}

const everyWants = "an interval as one word, or low and high, or low, likely and high, or mean, or mean and sd"

func (e *Every) resolve(r *reader, path string, n *node) {
	l := Law{Low: value(e.Low), Likely: value(e.Likely), High: value(e.High), Mean: value(e.Mean), SD: value(e.SD)}
	if !r.shape(path, n, &l, Shape(e.As), everyWants) {
		return
	}
	if e.As == "" && l.Shape == Lognormal {
		l.Shape = Weibull
	}
	r.shapeTaken(path, &e.As, l.Shape)
	if !r.oneClock(path, n, e) || !r.lawFault(path, n, &l) {
		return
	}
	if l.Shape == Constant && l.Mean <= 0 || l.Shape != Constant && l.MeanUsed() <= 0 {
		r.add(n.at, path, "an interval of 0", "more than 0", "")
		return
	}
	e.law = l
}

func value(s *units.Span) float64 {
	if s == nil {
		return 0
	}
	return s.Value
}

// oneClock sees to it that all values of an interval are counted by one clock, which at least one of them names.
func (r *reader) oneClock(path string, n *node, e *Every) bool {
	spans := map[string]*units.Span{"low": e.Low, "likely": e.Likely, "high": e.High, "mean": e.Mean, "sd": e.SD}
	for _, k := range n.lawKeys() {
		s := spans[k]
		if s == nil || s.Clock == "" {
			continue
		}
		if e.clock != "" && e.clock != s.Clock {
			r.add(n.get(k).value.at, join(path, k), n.get(k).value.show(), fmt.Sprintf("%s, as before it", e.clock), "one interval has one clock")
			return false
		}
		e.clock = s.Clock
	}
	first := n.get(n.lawKeys()[0])
	if e.clock == "" {
		r.add(first.value.at, join(path, first.key), first.value.show(), new(units.Span).Wants(), errNoClock.Error())
		return false
	}
	if e.clock != units.Cycles && e.clock != units.Packs {
		return true
	}
	for _, k := range n.lawKeys() {
		if s := spans[k]; s != nil && s.Clock == "" {
			r.add(n.get(k).value.at, join(path, k), n.get(k).value.show(), fmt.Sprintf("a number of %s", e.clock), "one interval has one clock")
			return false
		}
	}
	return true
}
