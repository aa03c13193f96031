package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Every command has its help in testdata/help, word for word, so that a change of a flag or of its text is seen.
func TestHelp(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range append(rootCommand().Commands(), rootCommand()) {
		name := c.Name()
		t.Run(name, func(t *testing.T) {
			args := []string{name, "--help"}
			if name == "pascaline" {
				args = args[1:]
			}
			root := rootCommand()
			var b, talk bytes.Buffer
			root.SetOut(&b)
			root.SetErr(&talk)
			root.SetArgs(args)
			if err := root.Execute(); err != nil || talk.Len() > 0 {
				t.Fatalf("%v, and on stderr %q", err, &talk)
			}
			got := b.String()
			golden := filepath.Join("testdata", "help", name+".txt")
			seen[name+".txt"] = true
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); d != "" {
				t.Errorf("the help of %s changed; if that is meant: go test ./cmd/pascaline -update\n%s", name, d)
			}
		})
	}
	files, err := os.ReadDir(filepath.Join("testdata", "help"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !seen[f.Name()] {
			t.Errorf("testdata/help/%s is of no command; delete it", f.Name())
		}
	}
}
