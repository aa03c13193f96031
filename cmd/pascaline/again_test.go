package main

import (
	"os/exec"
	"strings"
	"testing"
)

// quotedCases are names and how each stands in a command.
var quotedCases = []struct{ name, in, want string }{
	{"plain", "line.yaml", "line.yaml"},
	{"a path", "out/line-2_b.yaml", "out/line-2_b.yaml"},
	{"another script", "упаковка.yaml", "упаковка.yaml"},
	{"blanks", "my line.yaml", `"my line.yaml"`},
	{"percent", "5 %", `"5 %"`},
	{"one stroke", `a\b c.yaml`, `"a\b c.yaml"`},
	{"signs", "a|b<c>d;e&f*g?h#i~j=k,l", `"a|b<c>d;e&f*g?h#i~j=k,l"`},
	{"an apostrophe", "o'clock", `"o'clock"`},
	{"nothing", "", `""`},
	{"dollar", "US$.yaml", "'US$.yaml'"},
	{"history", "now!.yaml", "'now!.yaml'"},
	{"backticks", "a`touch pwned`", "'a`touch pwned`'"},
	{"dollar and apostrophe", "a'$(touch pwned)", `"a'?(touch pwned)"`},
	{"quote marks", `a"$(touch pwned)"`, `"a??(touch pwned)?"`},
	{"variable of the prompt", "%PATH% x", `"?PATH? x"`},
	{"line break", "a\ntouch pwned", `"a?touch pwned"`},
}

func TestQuoted(t *testing.T) {
	for _, c := range quotedCases {
		t.Run(c.name, func(t *testing.T) {
			if got := quoted(c.in); got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
		})
	}
}

// A Unix shell gives back what was quoted, letter by letter, and does nothing of what it says.
func TestShellReadsWhatWasQuoted(t *testing.T) {
	sh, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("no shell here")
	}
	for _, c := range quotedCases {
		t.Run(c.name, func(t *testing.T) {
			cmd := exec.Command(sh, "-c", "printf %s "+quoted(c.in))
			cmd.Dir = t.TempDir()
			out, err := cmd.CombinedOutput()
			want := c.in
			if strings.HasPrefix(c.want, `"`) && strings.Contains(c.want, "?") && !strings.Contains(c.in, "?") {
				want = strings.Trim(c.want, `"`) // signs that no quoting holds
			}
			if err != nil || string(out) != want {
				t.Errorf("%v: %q, want %q", err, out, want)
			}
		})
	}
}
