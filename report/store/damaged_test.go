package store_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"maps"
	"slices"
	"testing"

	"pascaline/report/internal/fixture"
	"pascaline/report/page"
	"pascaline/report/store"
	"pascaline/report/text"
	"pascaline/sim/result"
)

// each is how many of the ways to damage results are tried: every 23rd, since all of them take minutes; -each 1 tries them all.
var each = flag.Int("each", 23, "try one in so many ways to damage results")

// Results that somebody changed by hand are refused, or page and screen are drawn of them; nothing in between. Every value of results of every kind is taken
// away, emptied, shortened and made another, one at a time.
func TestDamagedResultsAreRefusedOrDrawn(t *testing.T) {
	all := map[string]result.Results{
		"run": fixture.Run(), "bare": fixture.Bare(), "comparison": fixture.Comparison(), "cycle": fixture.Cycle(), "claim": fixture.Claim(), "payback": fixture.Payback(),
		"sizing": fixture.Sizing(), "nothing": fixture.SizingOfNothing(),
	}
	for _, name := range fixture.Kept() {
		r, err := fixture.Keep(name)
		if err != nil {
			t.Fatal(err)
		}
		all[name] = r
	}
	for name, r := range all {
		t.Run(name, func(t *testing.T) {
			data, err := store.Encode(r)
			if err != nil {
				t.Fatal(err)
			}
			var tree any
			if err := json.Unmarshal(data, &tree); err != nil {
				t.Fatal(err)
			}
			n := 0
			damage(tree, func(v any) { tree = v }, name, func(what string) {
				if n++; n%*each != 0 {
					return
				}
				spoilt, err := json.Marshal(tree)
				if err != nil {
					t.Fatal(err)
				}
				drawsOrRefuses(t, what, spoilt)
			})
			if n < 30 {
				t.Errorf("only %d ways to damage it", n)
			}
		})
	}
}

// damage changes each value below v in turn, tells of it, and puts it back. Of a list it looks into the first two items.
func damage(v any, set func(any), path string, tell func(what string)) {
	change := func(what string, to any) { set(to); tell(path + " " + what); set(v) }
	change("is null", nil)
	switch v := v.(type) {
	case []any:
		if len(v) > 0 {
			change("is empty", []any{})
			change("lacks its last", v[:len(v)-1])
			change("has its first twice", append([]any{v[0]}, v...))
		}
		for i := range v[:min(2, len(v))] {
			damage(v[i], func(x any) { v[i] = x }, fmt.Sprintf("%s[%d]", path, i), tell)
		}
	case map[string]any:
		for _, key := range slices.Sorted(maps.Keys(v)) {
			old := v[key]
			delete(v, key)
			tell(path + "." + key + " is gone")
			v[key] = old
			damage(old, func(x any) { v[key] = x }, path+"."+key, tell)
		}
	case float64:
		change("is -1", -1.0)
		change("is 0", 0.0)
		change("is large", 1e9)
	case string:
		change("says nothing", "")
	case bool:
		change("is the other", !v)
	}
}

func drawsOrRefuses(t *testing.T, what string, data []byte) {
	t.Helper()
	defer func() {
		if p := recover(); p != nil {
			t.Errorf("%s: panic: %v", what, p)
		}
	}()
	r, err := store.Decode(bytes.Clone(data))
	if err != nil {
		return
	}
	_, _ = page.Contents(r)
	_ = text.Write(io.Discard, r, text.Options{})
}
