package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pascaline/report/words"
	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

func TestTerminalIsWhereAPersonReads(t *testing.T) {
	null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer null.Close()
	file, err := os.Create(filepath.Join(t.TempDir(), "out"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if isTerminal(null) {
		t.Error("the null device is taken for a terminal")
	}
	if isTerminal(file) || isTerminal(new(bytes.Buffer)) {
		t.Error("a file or a buffer is taken for a terminal")
	}
	if p := newProgress(null); p.w != nil {
		t.Error("progress is told to the null device")
	}
}

// A file that cannot be written after the run loses nothing else: results, page and screen are there, and the error says where.
func TestFailedExportLosesNothing(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	cmd := runCommand()
	var screen bytes.Buffer
	cmd.SetOut(&screen)
	err := conclude(cmd, fixtureRun(t), out, "pascaline run line.yaml", false, true, func() error { return errors.New("the workbook is open") })
	var e *exitError
	if !errors.As(err, &e) || e.code != exitFailed || !strings.Contains(err.Error(), "the workbook is open\nThe results are in "+filepath.Join(out, "results.json")) {
		t.Errorf("got %v", err)
	}
	for _, name := range []string{"results.json", "report.html"} {
		if _, err := os.Stat(filepath.Join(out, name)); err != nil {
			t.Error(err)
		}
	}
	if !strings.Contains(screen.String(), "packs per hour") {
		t.Errorf("printed was %q", &screen)
	}
}

// fixtureRun is a short run of one bench.
func fixtureRun(t *testing.T) *result.Run {
	t.Helper()
	path := filepath.Join(t.TempDir(), "line.yaml")
	if err := os.WriteFile(path, []byte("scenario: line\npacking: {time: 2 s}\nrun: {one_replication: 1 h}\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	s, faults, err := scenarios.Read(path, "")
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	m, err := line.New(s)
	if err != nil {
		t.Fatal(err)
	}
	r, err := study.Run(t.Context(), m, study.Options{Seed: 1, Replications: 2, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	sign(r)
	words.Fill(r)
	return r
}
