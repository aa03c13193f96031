package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
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
