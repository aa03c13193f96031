package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"pascaline/report/store"
	"pascaline/sim/result"
	"pascaline/sim/timestudy"
)

// newFile is a file that goes with a change of a scenario, under a name that nobody had before.
type newFile struct {
	path string
	text []byte
}

// withFiles writes files and does what needs them; where either fails, those written are taken away again.
func withFiles(files []newFile, do func() error) (err error) {
	var written []string
	defer func() {
		if err != nil {
			for _, path := range written {
				err = errors.Join(err, os.Remove(path))
			}
		}
	}()
	for _, f := range files {
		if err := store.Write(f.path, f.text); err != nil {
			return notDone(err)
		}
		written = append(written, f.path)
	}
	return do()
}

// readingsText is a file with the readings of a task.
func readingsText(t result.FitTask) []byte {
	var b strings.Builder
	b.WriteString("seconds\n")
	for _, s := range t.ReadingsS {
		b.WriteString(strconv.FormatFloat(s, 'f', -1, 64) + "\n")
	}
	return []byte(b.String())
}

// readingsUnused refuses a folder for results in which readings would be written over that a scenario there goes by.
func readingsUnused(folder string, r *result.TimeFit) error {
	scenarios, err := filepath.Glob(filepath.Join(folder, "*.y*ml"))
	if err != nil {
		return nil // a folder with signs of a pattern in its name: nothing is known of it
	}
	for _, t := range r.Tasks {
		there, err := os.ReadFile(filepath.Join(folder, t.ReadingsFile))
		if t.ReadingsS == nil || err != nil || bytes.Equal(there, readingsText(t)) {
			continue
		}
		for _, path := range scenarios {
			text, err := os.ReadFile(path)
			if filepath.Base(path) != snippet && err == nil && bytes.Contains(text, []byte(t.ReadingsFile)) {
				return &exitError{exitFailed, fmt.Errorf("%s goes by the readings in %s, which would be written over; choose another folder with --out", path, t.ReadingsFile)}
			}
		}
	}
	return nil
}

// writeReadings writes a file for each task whose readings stand for themselves, beside the snippet that names them.
func writeReadings(folder string, r *result.TimeFit) error {
	for _, t := range r.Tasks {
		if t.ReadingsS == nil {
			continue
		}
		if err := store.Write(filepath.Join(folder, t.ReadingsFile), readingsText(t)); err != nil {
			return notDone(err)
		}
	}
	return nil
}

// freshReadings gives the readings that go beside a scenario names that are free in its folder, since files that are there may hold values of this
// scenario or another. A file with the same readings will do as it is. The files are those still to be written.
func freshReadings(folder string, r *result.TimeFit) (*result.TimeFit, []newFile, error) {
	fresh := *r
	fresh.Tasks = slices.Clone(r.Tasks)
	var files []newFile
	for i := range fresh.Tasks {
		t := &fresh.Tasks[i]
		if t.ReadingsS == nil || t.Field == "" {
			continue
		}
		text := readingsText(*t)
		for n, name := 2, t.ReadingsFile; ; n, name = n+1, timestudy.NumberedFile(t.ReadingsFile, n) {
			path := filepath.Join(folder, name)
			there, err := os.ReadFile(path)
			taken := slices.ContainsFunc(files, func(f newFile) bool { return strings.EqualFold(f.path, path) })
			if err != nil && !errors.Is(err, fs.ErrNotExist) {
				return nil, nil, err
			}
			if taken || err == nil && !bytes.Equal(there, text) {
				continue
			}
			timestudy.KeepIn(t, name)
			if err != nil {
				files = append(files, newFile{path, text})
			}
			break
		}
	}
	return &fresh, files, nil
}
