package scenarios

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the messages of testdata/bad anew")

// Every file of testdata/bad breaks one rule, which its first line names, and has its exact message beside it.
func TestBadFiles(t *testing.T) {
	t.Chdir(filepath.Join("..", "testdata", "bad"))
	files, err := filepath.Glob("*.yaml")
	if err != nil || len(files) < 40 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(file, func(t *testing.T) {
			got := messages(t, file)
			golden := strings.TrimSuffix(file, ".yaml") + ".txt"
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(string(want), got); d != "" {
				t.Error(d)
			}
		})
	}
}

func messages(t *testing.T, file string) string {
	src, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(strings.TrimPrefix(string(src), "\ufeff"), "# ") {
		t.Error("the first line does not say the rule")
	}
	variants, _, err := Variants(file)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, v := range append([]string{""}, variants...) {
		_, faults, err := Read(file, v)
		if err != nil {
			t.Fatal(err)
		}
		if v != "" && len(faults) > 0 {
			fmt.Fprintf(&b, "variant %s\n", v)
		}
		for _, f := range faults {
			fmt.Fprintln(&b, f)
		}
	}
	if b.Len() == 0 {
		t.Error("no fault was found")
	}
	return b.String()
}
