package scenarios

import (
	"fmt"
	"strings"
	"testing"
)

// One rule each: where the first fault lies, or nowhere.
func TestWhatYAMLIsReadAndRefused(t *testing.T) {
	for _, c := range yamlCases() {
		t.Run(c.name, func(t *testing.T) {
			_, faults := ReadBytes("f", []byte(c.src))
			got := ""
			if len(faults) > 0 {
				got = fmt.Sprintf("%d:%d", faults[0].Line, faults[0].Column)
			}
			if got != c.want {
				t.Errorf("got %q, want %q: %v", got, c.want, faults)
			}
		})
	}
}

type yamlCase struct{ name, src, want string }

func yamlCases() []yamlCase {
	base := "scenario: x\npacking: {time: 26 s}\n"
	run := base + "run:\n  seed: "
	return []yamlCase{
		{"plain", run + "3\n", ""},
		{"byte order mark", "\ufeff" + base, ""},
		{"windows line ends", strings.ReplaceAll(run+"3\n", "\n", "\r\n"), ""},
		{"old line ends", strings.ReplaceAll(run+"3\n", "\n", "\r"), ""},
		{"no newline at the end", run + "3", ""},
		{"document start", "---\n" + base, ""},
		{"document end", base + "...\n", ""},
		{"comment", run + "3 # luck\n", ""},
		{"quoted number is the same word", run + "\"3\"\n", ""},
		{"quoted name is the same name", base + "\"run\": {'seed': 3}\n", ""},
		{"underscore", run + "1_000\n", "4:9"},
		{"hexadecimal", run + "0x10\n", "4:9"},
		{"octal", run + "0o17\n", "4:9"},
		{"leading zero", run + "010\n", "4:9"},
		{"plus", run + "+3\n", "4:9"},
		{"tilde", run + "~\n", "4:3"},
		{"null", run + "null\n", "4:3"},
		{"blank", run + "\n", "4:3"},
		{"quoted blank", run + "''\n", "4:9"},
		{"infinite", run + ".inf\n", "4:9"},
		{"true", run + "true\n", "4:9"},
		{"exponent", run + "1e3\n", "4:9"},
		{"list", run + "[3]\n", "4:9"},
		{"group", run + "{a: 3}\n", "4:9"},
		{"anchor", run + "&a 3\n", "4:9"},
		{"tag", run + "!!int 3\n", "4:9"},
		{"number as a name", base + "3: x\n", "3:1"},
		{"name twice in quotes", base + "\"scenario\": y\n", "3:1"},
		{"merge key", base + "<<: {note: x}\n", "3:1"},
		{"complex name", "? [a]\n: 3\n", "2:1"},
		{"name with a question mark", base + "? note\n: x\n", "3:1"},
		{"list at the top", "- a\n- b\n", "1:1"},
		{"word at the top", "hello\n", "1:1"},
		{"only a comment", "# nothing\n", "1:1"},
		{"second document", base + "---\nscenario: y\n", "3:1"},
		{"empty second document", base + "---\n", "3:1"},
		{"tab", "scenario: x\n\tnote: y\n", "2:1"},
		{"bracket not closed", "scenario: [x\n", "1:11"},
		{"text over lines", "scenario: |\n  two\n  lines\npacking: {time: 26 s}\n", ""},
		{"yes is a word", "scenario: yes\npacking: {time: 26 s}\n", ""},
		{"007 is a word", "scenario: 007\npacking: {time: 26 s}\n", ""},
		{"clock times between brackets", base + "roster: {shifts: {a: {hours: 06:00 to 14:00}}, breaks: [{shift: a, at: [08:30, 12:00], length: 5 min}]}\n", ""},
		{"second of many clock times", base + "roster: {shifts: {a: {hours: 06:00 to 14:00}}, breaks: [{shift: a, at: [08:30, 99:00], length: 5 min}]}\n", "3:80"},
		{"after wide letters", "scenario: x\nnote: ÄÖÜ\npacking: {time: 26 s, crëw: x}\n", "3:23"},
		{"64 levels", base + "note: " + strings.Repeat("[", 63) + "x" + strings.Repeat("]", 63) + "\n", "3:7"},
		{"brackets in a text", base + "note: \"" + strings.Repeat("[", 100) + "\"\n", ""},
		{"brackets in a comment", base + "note: x # " + strings.Repeat("[", 100) + "\n", ""},
		{"too deep", base + "note: " + strings.Repeat("[", 64) + "x" + strings.Repeat("]", 64) + "\n", "3:70"},
		{"too large", base + "# " + strings.Repeat("x", 1<<20) + "\n", "1:1"},
	}
}

func TestFaultShowsItsPlace(t *testing.T) {
	f := Fault{File: "plain.yaml", Line: 12, Column: 9, Path: "loading.crew", Found: `"1.5 loaders"`, Want: "people", Hint: "whole ones", Excerpt: "  crew: 1.5 loaders"}
	want := `plain.yaml:12:9: loading.crew: found "1.5 loaders", want people (whole ones)
  12 |   crew: 1.5 loaders
     |         ^`
	if f.Error() != want || f.String() != want {
		t.Errorf("got\n%s\nwant\n%s", f, want)
	}
	f.Excerpt = "\tä: x"
	f.Column = 5
	if !strings.HasSuffix(f.Error(), "\n     | \t   ^") {
		t.Errorf("the caret does not stand under the x:\n%s", f)
	}
	f.Excerpt = strings.Repeat("x", 1000)
	f.Column = 700
	lines := strings.Split(f.Error(), "\n")
	if len(lines[1]) > 300 || strings.Index(lines[2], "^") > 80 {
		t.Errorf("a long line is not cut:\n%s", f)
	}
}

func TestDidYouMean(t *testing.T) {
	words := []string{"packing", "benches", "push_through", "drain", "dryer"}
	for written, want := range map[string]string{
		"packng": "packing", "packking": "packing", "pakcing": "packing", "pecking": "packing", "Packing": "packing",
		"push-through": "push_through", "push through": "push_through", "bench": "benches", "drier": "dryer", "xyz": "", "": "",
		strings.Repeat("x", 100): "",
	} {
		if got := nearest(written, words); got != want {
			t.Errorf("%q: %q, want %q", written, got, want)
		}
	}
}

// Text in another encoding than UTF-8 is named as what it is, with what to do.
func TestOtherEncodings(t *testing.T) {
	for _, c := range []struct{ name, src, want string }{
		{"UTF-16, as some shells of Windows write", "\xff\xfes\x00c\x00e\x00n\x00a\x00r\x00i\x00o\x00:\x00 \x00x\x00",
			"x.yaml:1:1: found a text in UTF-16, want a text in UTF-8 (save it again in an editor, with the encoding UTF-8)"},
		{"an old code page", "scenario: x\nnote: S\xfcd\n",
			"x.yaml:2:8: found a character that is not UTF-8, want a text in UTF-8 (save it again in an editor, with the encoding UTF-8)\n   2 | note: S\ufffdd\n     |        ^"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := ReadBytes("x.yaml", []byte(c.src))
			if len(faults) != 1 || faults[0].Error() != c.want {
				t.Errorf("got %v, want %s", faults, c.want)
			}
		})
	}
}
