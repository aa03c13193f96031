package scenarios

import (
	"strings"
	"testing"
)

func TestPutKeepsTheRest(t *testing.T) {
	gamma := func(path string) Value {
		return Value{Path: path, Text: "{mean: 25 s, sd: 4 s, as: gamma}", Because: []string{"20 readings"}}
	}
	for _, c := range []struct{ name, before, want string }{
		{"one word, with a remark", "scenario: x\ntip:   # two of them\n  swap: 20 s   # by watch\n  per_pack: 0.1 s\n",
			"scenario: x\ntip:   # two of them\n  # fit swap: 20 readings\n  swap: {mean: 25 s, sd: 4 s, as: gamma}   # by watch\n  per_pack: 0.1 s\n"},
		{"between braces", "scenario: x\ntip: {swap: 20 s, per_pack: 0.1 s} # tip\n",
			"scenario: x\n# fit swap: 20 readings\ntip: {swap: {mean: 25 s, sd: 4 s, as: gamma}, per_pack: 0.1 s} # tip\n"},
		{"an old distribution", "scenario: x\ntip:\n  # fit swap: old\n  # ours\n  swap: {low: 1 s, high: 2 s}\n",
			"scenario: x\ntip:\n  # fit swap: old\n  # ours\n  # fit swap: 20 readings\n  swap: {mean: 25 s, sd: 4 s, as: gamma}\n"},
		{"old evidence goes", "scenario: x\ntip:\n  # fit swap: old\n  swap: {low: 1 s, high: 2 s}\n",
			"scenario: x\ntip:\n  # fit swap: 20 readings\n  swap: {mean: 25 s, sd: 4 s, as: gamma}\n"},
		{"over several lines", "scenario: x\ntip:\n  swap:\n    low: 1 s\n    high: 2 s\n  per_pack: 0.1 s\n",
			"scenario: x\ntip:\n  # fit swap: 20 readings\n  swap: {mean: 25 s, sd: 4 s, as: gamma}\n  per_pack: 0.1 s\n"},
		{"braces over two lines", "scenario: x\ntip:\n  swap: {low: 1 s,\n    high: 2 s}   # two\n  per_pack: 0.1 s\n",
			"scenario: x\ntip:\n  # fit swap: 20 readings\n  swap: {mean: 25 s, sd: 4 s, as: gamma}   # two\n  per_pack: 0.1 s\n"},
		{"not there, in a group", "scenario: x\ntip:\n  per_pack: 0.1 s\n",
			"scenario: x\ntip:\n  # fit swap: 20 readings\n  swap: {mean: 25 s, sd: 4 s, as: gamma}\n  per_pack: 0.1 s\n"},
		{"not there, between braces", "scenario: x\ntip: {per_pack: 0.1 s}\n",
			"scenario: x\n# fit swap: 20 readings\ntip: {swap: {mean: 25 s, sd: 4 s, as: gamma}, per_pack: 0.1 s}\n"},
		{"no such station yet", "scenario: x\n\n",
			"scenario: x\ntip:\n  # fit swap: 20 readings\n  swap: {mean: 25 s, sd: 4 s, as: gamma}\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Put("x.yaml", []byte(c.before), []Value{gamma("tip.swap")})
			if err != nil {
				t.Fatal(err)
			}
			if string(got) != c.want {
				t.Errorf("got\n%s\nwant\n%s", got, c.want)
			}
			again, err := Put("x.yaml", got, []Value{gamma("tip.swap")})
			if err != nil || string(again) != string(got) {
				t.Errorf("a second time it changes again: %v\n%s", err, again)
			}
		})
	}
}

// A file that was written on Windows is given back as one: only the lines that were asked for differ.
func TestPutKeepsMarkAndLineEnds(t *testing.T) {
	for _, c := range []struct{ name, before, want string }{
		{"line ends of Windows", "scenario: x\r\ntip:\r\n  swap: 20 s\r\n  per_pack: 0.1 s\r\n", "scenario: x\r\ntip:\r\n  swap: 25 s\r\n  per_pack: 0.1 s\r\n"},
		{"a byte order mark", "\ufeffscenario: x\ntip: {swap: 20 s}\n", "\ufeffscenario: x\ntip: {swap: 25 s}\n"},
		{"both, a new group", "\ufeffscenario: x\r\n", "\ufeffscenario: x\r\ntip:\r\n  swap: 25 s\r\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Put("x.yaml", []byte(c.before), []Value{{Path: "tip.swap", Text: "25 s"}})
			if err != nil || string(got) != c.want {
				t.Errorf("got %q, %v; want %q", got, err, c.want)
			}
		})
	}
}

// What stands beside the distribution, such as who does it, stays.
func TestPutKeepsWhatIsNoDistribution(t *testing.T) {
	got, err := Put("x.yaml", []byte("loading: {swap: {mean: 20 s, sd: 2 s, by: machine}}\n"), []Value{{Path: "loading.swap", Text: "{low: 1 s, likely: 2 s, high: 3 s}"}})
	if want := "loading: {swap: {by: machine, low: 1 s, likely: 2 s, high: 3 s}}\n"; err != nil || string(got) != want {
		t.Errorf("%v, got %q", err, got)
	}
}

func TestPutRefusesWhatItCannotPlace(t *testing.T) {
	for _, c := range []struct{ name, before, want string }{
		{"no scenario", "a: [", "not a scenario that can be read"},
		{"a word where a group is wanted", "tip: 20 s\n", "a group is wanted"},
		{"a comment inside", "tip:\n  swap:\n    low: 1 s # watch\n    high: 2 s\n", "comment inside"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Put("x.yaml", []byte(c.before), []Value{{Path: "tip.swap", Text: "25 s"}})
			if err == nil || !strings.Contains(err.Error(), c.want) || got != nil {
				t.Errorf("error %v, want one with %q", err, c.want)
			}
		})
	}
}

// Every field that is said to take a time takes one.
func TestTimeFieldsTakeTimes(t *testing.T) {
	fields := TimeFields()
	if len(fields) < 30 {
		t.Fatalf("only %d fields", len(fields))
	}
	for _, f := range fields {
		text := Snippet([]Value{{Path: f, Text: "{low: 1 s, likely: 2 s, high: 4 s}"}})
		_, faults := ReadBytes("x.yaml", []byte("scenario: x\n"+text))
		for _, x := range faults {
			if strings.HasPrefix(x.Path, f+".") || strings.Contains(x.Found, "unknown field") {
				t.Errorf("%s: %v", f, x)
			}
		}
	}
}
