package scenarios

import (
	"strings"
	"testing"
)

func TestPutKeepsTheRest(t *testing.T) {
	gamma := func(path string) Value {
		return Value{Path: FieldPath(path), Text: "{mean: 25 s, sd: 4 s, as: gamma}", Because: []string{"20 readings"}}
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
			"scenario: x\ntip:\n  per_pack: 0.1 s\n  # fit swap: 20 readings\n  swap: {mean: 25 s, sd: 4 s, as: gamma}\n"},
		{"not there, in a group with comments", "scenario: x\ntip:\n  # by watch\n  per_pack: 0.1 s   # ours\n\n# and so on\ndryer: {travel: 1 s}\n",
			"scenario: x\ntip:\n  # by watch\n  per_pack: 0.1 s   # ours\n  # fit swap: 20 readings\n  swap: {mean: 25 s, sd: 4 s, as: gamma}\n\n# and so on\ndryer: {travel: 1 s}\n"},
		{"not there, under a field of its own group", "scenario: x\ntip:\n  per_pack:\n    low: 1 s\n    high: 2 s\n  # fed: later\nrun: {}\n",
			"scenario: x\ntip:\n  per_pack:\n    low: 1 s\n    high: 2 s\n  # fit swap: 20 readings\n  swap: {mean: 25 s, sd: 4 s, as: gamma}\n  # fed: later\nrun: {}\n"},
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
		{"one line of Windows", "scenario: x\r\ntip:\n  swap: 20 s\n  per_pack: 0.1 s\n", "scenario: x\r\ntip:\n  swap: 25 s\n  per_pack: 0.1 s\n"},
		{"the line of Windows is the one that changes", "scenario: x\ntip:\n  swap: 20 s\r\n  per_pack: 0.1 s\n", "scenario: x\ntip:\n  swap: 25 s\n  per_pack: 0.1 s\n"},
		{"one line of Windows, a new group", "scenario: x\nnote: y\r\n", "scenario: x\nnote: y\r\ntip:\n  swap: 25 s\n"},
		{"no end of the last line", "scenario: x\r\ntip: {swap: 20 s}", "scenario: x\r\ntip: {swap: 25 s}"},
		{"no end of the last line, a new group", "scenario: x\r\nnote: y", "scenario: x\r\nnote: y\r\ntip:\r\n  swap: 25 s\r\n"},
		{"both, a new group", "\ufeffscenario: x\r\n", "\ufeffscenario: x\r\ntip:\r\n  swap: 25 s\r\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Put("x.yaml", []byte(c.before), []Value{{Path: FieldPath("tip.swap"), Text: "25 s"}})
			if err != nil || string(got) != c.want {
				t.Errorf("got %q, %v; want %q", got, err, c.want)
			}
		})
	}
}

// A value of a stop goes to the stop of that station, whatever others are called, and wherever the list stands.
func TestPutFindsStopsByStationAndName(t *testing.T) {
	const two = "stops:\n  - {station: dryer, name: jam, every: 1 h running, takes: 1 s}   # theirs\n  - {station: tip, name: jam, every: 1 h running, takes: 2 s}\n"
	for _, c := range []struct{ name, before, stop, field, want string }{
		{"the second of one name", two, "tip/jam", "takes",
			"stops:\n  - {station: dryer, name: jam, every: 1 h running, takes: 1 s}   # theirs\n  # fit takes: read\n  - {station: tip, name: jam, every: 1 h running, takes: 9 s}\n"},
		{"what was written of the whole stop before goes", "stops:\n  # ours\n  # fit jam: old\n  - {station: tip, name: jam, takes: 2 s}\n", "tip/jam", "takes",
			"stops:\n  # ours\n  # fit takes: read\n  - {station: tip, name: jam, takes: 9 s}\n"},
		{"a name with a dot", "stops:\n  - {station: tip, name: pos.3 jam, takes: 2 s}\n", "tip/pos.3 jam", "takes",
			"stops:\n  # fit takes: read\n  - {station: tip, name: pos.3 jam, takes: 9 s}\n"},
		{"a field after others in quotes", "stops:\n  - {station: tip, name: \"a \\\"b\\\", c\", takes: 2 s}\n", "tip/a \"b\", c", "takes",
			"stops:\n  # fit takes: read\n  - {station: tip, name: \"a \\\"b\\\", c\", takes: 9 s}\n"},
		{"the first field of an item over several lines", "stops:\n  - takes:\n      low: 1 s\n      high: 2 s\n    station: tip\n    name: jam\n", "tip/jam", "takes",
			"stops:\n  # fit takes: read\n  - takes: 9 s\n    station: tip\n    name: jam\n"},
		{"a field that the item does not have", "stops:\n  - station: tip\n    name: jam\n  - station: dryer\n    name: jam\n", "tip/jam", "takes",
			"stops:\n  - station: tip\n    name: jam\n    # fit takes: read\n    takes: 9 s\n  - station: dryer\n    name: jam\n"},
		{"a stop of the base", "base: b.yaml\n", "tip/pos.3 jam", "takes", "base: b.yaml\nstops:\n  tip/pos.3 jam:\n    # fit takes: read\n    takes: 9 s\n"},
		{"a stop of the base that is changed already", "base: b.yaml\nstops:\n  jam:\n    takes: 3 s\n", "tip/jam", "takes",
			"base: b.yaml\nstops:\n  jam:\n    # fit takes: read\n    takes: 9 s\n"},
		{"another stop of the base", "base: b.yaml\nstops:\n  tip/jam:\n    takes: 3 s\n", "dryer/jam", "takes",
			"base: b.yaml\nstops:\n  tip/jam:\n    takes: 3 s\n  dryer/jam:\n    # fit takes: read\n    takes: 9 s\n"},
		{"a new stop beside one of its name", two, "sealer/jam", "", two + "  # fit jam: read\n  - 9 s\n"},
		{"a new stop beside one that its name begins with", "stops:\n- {station: tip, name: pos, takes: 2 s}\nrun: {}\n", "tip/pos.3 jam", "",
			"stops:\n- {station: tip, name: pos, takes: 2 s}\n# fit pos.3 jam: read\n- 9 s\nrun: {}\n"},
		{"the first stop", "scenario: x\n", "tip/jam", "", "scenario: x\nstops:\n  # fit jam: read\n  - 9 s\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := []string{"stops", c.stop}
			if c.field != "" {
				path = append(path, c.field)
			}
			got, err := Put("x.yaml", []byte(c.before), []Value{{Path: path, Text: "9 s", Because: []string{"read"}}})
			if err != nil || string(got) != c.want {
				t.Errorf("%v\n%s\nwant\n%s", err, got, c.want)
			}
		})
	}
}

// What would replace, hide or double a stop is refused.
func TestPutRefusesStopsThatItCannotPlace(t *testing.T) {
	for _, c := range []struct{ name, src, stop, want string }{
		{"there already", "stops:\n  - {station: tip, name: jam}\n", "tip/jam", `x.yaml: stops.tip/jam: line 2 has a "tip/jam" already`},
		{"between brackets", "stops: [{station: tip, name: jam}]\n", "tip/pin", "put the new one in by hand"},
		{"the list is the base's", "base: b.yaml\nscenario: x\n", "tip/pin", "the stops stand in the base"},
		{"the base's list is changed", "base: b.yaml\nstops: {tip/jam: {takes: 2 s}}\n", "tip/pin", "the stops stand in the base"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := folder(t, "x.yaml", c.src, "b.yaml", "stops:\n  - {station: tip, name: jam}\n")
			got, err := Put(path, []byte(c.src), []Value{{Path: []string{"stops", c.stop}, Text: "{}"}})
			if err == nil || got != nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v, want %s\n%s", err, c.want, got)
			}
		})
	}
}

// What stands beside the distribution, such as who does it, stays.
func TestPutKeepsWhatIsNoDistribution(t *testing.T) {
	got, err := Put("x.yaml", []byte("loading: {swap: {mean: 20 s, sd: 2 s, by: machine}}\n"), []Value{{Path: FieldPath("loading.swap"), Text: "{low: 1 s, likely: 2 s, high: 3 s}"}})
	if want := "loading: {swap: {by: machine, low: 1 s, likely: 2 s, high: 3 s}}\n"; err != nil || string(got) != want {
		t.Errorf("%v, got %q", err, got)
	}
	got, err = Put("x.yaml", []byte("loading: {swap: {by: 2 Jo's, note: \"a, \\\" }b\", mean: 20 s}}\n"), []Value{{Path: FieldPath("loading.swap"), Text: "{low: 1 s}"}})
	if want := "loading: {swap: {note: \"a, \\\" }b\", by: \"2 Jo's\", low: 1 s}}\n"; err != nil || string(got) != want {
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
			got, err := Put("x.yaml", []byte(c.before), []Value{{Path: FieldPath("tip.swap"), Text: "25 s"}})
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
		text := Snippet([]Value{{Path: FieldPath(f), Text: "{low: 1 s, likely: 2 s, high: 4 s}"}})
		_, faults := ReadBytes("x.yaml", []byte("scenario: x\n"+text))
		for _, x := range faults {
			if strings.HasPrefix(x.Path, f+".") || strings.Contains(x.Found, "unknown field") {
				t.Errorf("%s: %v", f, x)
			}
		}
	}
}
