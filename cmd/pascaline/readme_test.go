package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pascaline/scenarios"
	"pascaline/sim/line"
)

var root = filepath.Join("..", "..")

// The two commands of the quick start: all the set-up there is.
const (
	quickStart = "go run ./cmd/pascaline run scenarios/examples/plain.yaml"
	quickTests = "go test ./..."
)

// block is a fenced block of the README.
type block struct {
	section, kind string
	line          int
	text          string
}

func (b block) lines() []string { return strings.Split(strings.TrimRight(b.text, "\n"), "\n") }

func readme(t *testing.T) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(root, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	return strings.ReplaceAll(string(b), "\r\n", "\n")
}

func blocks(t *testing.T, kind string) (list []block) {
	t.Helper()
	section, open := "", false
	for i, l := range strings.Split(readme(t), "\n") {
		switch {
		case strings.HasPrefix(l, "```") && open:
			open = false
		case strings.HasPrefix(l, "```"):
			open = true
			list = append(list, block{section, strings.TrimPrefix(l, "```"), i + 2, ""})
		case open:
			list[len(list)-1].text += l + "\n"
		case strings.HasPrefix(l, "## "):
			section = strings.TrimPrefix(l, "## ")
		}
	}
	if open {
		t.Fatal("README.md: a block is not closed")
	}
	list = slices.DeleteFunc(list, func(b block) bool { return b.kind != kind })
	if len(list) == 0 {
		t.Fatalf("README.md: no block of %s", kind)
	}
	return list
}

func TestQuickStartIsTwoCommands(t *testing.T) {
	var got []string
	for _, b := range blocks(t, "sh") {
		if b.section == "Quick start" {
			got = append(got, b.lines()...)
		}
	}
	if d := cmp.Diff([]string{quickStart, quickTests}, got); d != "" {
		t.Error(d)
	}
	ci, err := os.ReadFile(filepath.Join(root, ".ci", "run"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range got {
		if !strings.Contains(string(ci), c+"\n") {
			t.Errorf(".ci/run does not execute %q", c)
		}
	}
}

// Every command of the README is executed, in its order, in one folder, as a reader would; the quick start once more for real.
func TestCommandsOfTheReadme(t *testing.T) {
	dir := t.TempDir()
	for _, folder := range []string{"scenarios", "testdata/fit"} {
		if err := os.CopyFS(filepath.Join(dir, folder), os.DirFS(filepath.Join(root, folder))); err != nil {
			t.Fatal(err)
		}
	}
	seen := map[string]bool{}
	for _, b := range blocks(t, "sh") {
		for i, c := range b.lines() {
			if c == quickTests {
				continue
			}
			args := arguments(strings.TrimPrefix(c, "go run ./cmd/"))
			if args[0] != "pascaline" {
				t.Fatalf("README.md:%d: this test cannot execute %q", b.line+i, c)
			}
			seen[args[1]] = true
			if out, talk, err := pascaline(dir, args[1:]...); err != nil {
				t.Errorf("README.md:%d: %s: %v\n%s%s", b.line+i, c, err, out, talk)
			}
		}
	}
	for _, c := range rootCommand().Commands() {
		if !seen[c.Name()] || !strings.Contains(readme(t), "\n| `"+c.Name()+"` | ") {
			t.Errorf("README.md shows no use of %q, or its table of commands lacks it", c.Name())
		}
	}
}

// arguments splits a command as a shell does, by blanks and double quotes.
func arguments(c string) []string {
	args := regexp.MustCompile(`"[^"]*"|\S+`).FindAllString(c, -1)
	for i := range args {
		args[i] = strings.Trim(args[i], `"`)
	}
	return args
}

// pascaline starts this test binary as the program.
func pascaline(dir string, args ...string) (out, talk string, err error) {
	self, err := os.Executable()
	if err != nil {
		return "", "", err
	}
	var o, e bytes.Buffer
	c := exec.Command(self, args...)
	c.Dir, c.Stdout, c.Stderr = dir, &o, &e
	c.Env = append(os.Environ(), asProgram+"=1", "LC_ALL=C.UTF-8")
	err = c.Run()
	return o.String(), e.String(), err
}

func TestQuickStartForReal(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the program")
	}
	out := filepath.Join(t.TempDir(), "out")
	c := exec.Command("go", append(strings.Fields(quickStart)[1:], "--out", out)...)
	c.Dir = root
	if b, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, b)
	}
	for _, f := range []string{"results.json", "report.html"} {
		if info, err := os.Stat(filepath.Join(out, f)); err != nil || info.Size() == 0 {
			t.Errorf("%s: %v", f, err)
		}
	}
}

func TestScenariosOfTheReadme(t *testing.T) {
	for _, b := range blocks(t, "yaml") {
		path := filepath.Join(t.TempDir(), fmt.Sprintf("readme-line-%d.yaml", b.line))
		if err := os.WriteFile(path, []byte(b.text), 0o644); err != nil {
			t.Fatal(err)
		}
		s, faults, err := scenarios.Read(path, "")
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range faults {
			t.Errorf("README.md, block at line %d: %v", b.line, f)
		}
		if len(faults) > 0 {
			continue
		}
		if _, err := line.New(s); err != nil {
			t.Errorf("README.md, block at line %d: %v", b.line, err)
		}
		if out, talk, err := pascaline(t.TempDir(), "run", path, "--replications", "5"); err != nil || strings.Contains(out, "finishes nothing") {
			t.Errorf("README.md, block at line %d: %v\n%s%s", b.line, err, out, talk)
		}
	}
}

// The output shown is that of the quick start, up to its dots. Digits may differ, and with them the widths of columns.
func TestOutputOfTheReadme(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "scenarios"), os.DirFS(filepath.Join(root, "scenarios"))); err != nil {
		t.Fatal(err)
	}
	out, talk, err := pascaline(dir, arguments(strings.TrimPrefix(quickStart, "go run ./cmd/pascaline "))...)
	if err != nil {
		t.Fatalf("%v\n%s", err, talk)
	}
	b := blocks(t, "text")[0]
	shown, more := strings.CutSuffix(b.text, "...\n")
	if !more {
		t.Fatalf("README.md:%d: the output does not end with a line of three dots", b.line)
	}
	real := strings.SplitAfter(out, "\n")
	if *update {
		real = real[:min(len(real), 16)]
		text := strings.Replace(readme(t), b.text, strings.TrimRight(strings.Join(real, ""), "\n")+"\n...\n", 1)
		if err := os.WriteFile(filepath.Join(root, "README.md"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	real = real[:min(len(real), strings.Count(shown, "\n"))]
	if d := cmp.Diff(shapes(shown), shapes(strings.Join(real, ""))); d != "" {
		t.Errorf("README.md:%d: the output changed; if that is meant: go test ./cmd/pascaline -run README -update\n%s", b.line, d)
	}
}

var (
	digits = regexp.MustCompile(`[0-9][0-9.,]*`)
	bars   = regexp.MustCompile(`[#=*█▉▊▋▌▍▎▏▒░-]{2,}`)
	blanks = regexp.MustCompile(`\s+`)
)

// shapes are the lines with every number, bar and run of blanks made alike.
func shapes(text string) []string {
	list := strings.Split(strings.TrimSpace(text), "\n")
	for i, l := range list {
		l = digits.ReplaceAllString(l, "N")
		l = bars.ReplaceAllString(l, "~")
		list[i] = strings.TrimSpace(blanks.ReplaceAllString(l, " "))
	}
	return list
}
