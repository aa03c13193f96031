package scenarios

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
)

// Trail says where every value of a scenario came from.
type Trail struct {
	tree     *node
	places   map[string]place // of what was written, by path
	defaults map[string]string
	sources  []*source
	variant  string
	variants *node   // of the file, by name
	reader   *reader // with which the scenario was read, to read it again with changes
	warnings []Warning
}

// Where is the file, line and column at which a field's value was written, such as roster.shifts.early.hours; ok is false
// where it was not written at all.
func (t *Trail) Where(path string) (file string, line, column int, ok bool) {
	if t == nil {
		return "", 0, 0, false
	}
	p, ok := t.places[path]
	if !ok || p.src == nil {
		return "", 0, 0, false
	}
	return p.src.name, p.line, p.column, true
}

func (t *Trail) written(path string) bool {
	_, ok := t.places[path]
	return ok
}

// nearest is the place of a field or, where it was not written, of what it belongs to.
func (t *Trail) nearest(path string) place {
	for {
		if p, ok := t.places[path]; ok {
			return p
		}
		i := strings.LastIndexAny(path, ".[")
		if i < 0 {
			return t.places[""]
		}
		path = path[:i]
	}
}

// Hash is the SHA-256 of all that the scenario was made from: its file, the files it is based on, the name of the
// variant, and the data files it names. Two scenarios with one hash are one scenario.
func (s *Scenario) Hash() string {
	h := sha256.New()
	if s.Trail != nil {
		for _, src := range s.Trail.sources {
			sum := sha256.Sum256(src.bytes)
			h.Write(sum[:])
		}
		h.Write([]byte(s.Trail.variant))
	}
	return hex.EncodeToString(h.Sum(nil))
}
