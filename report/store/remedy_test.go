package store

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

func TestAdviceBySystem(t *testing.T) {
	for _, c := range []struct {
		name, system, want string
		err                error
	}{
		{"open elsewhere on Windows", "windows", "open in another program; close it there", winSharingViolation},
		{"locked on Windows", "windows", "open in another program; close it there", winLockViolation},
		{"refused on Windows may mean open", "windows", "open in another program, or it may not be changed", fs.ErrPermission},
		{"disk full on Windows", "windows", "the disk is full", winDiskFull},
		{"the same number elsewhere is something else", "linux", "check the place", winSharingViolation},
		{"disk full", "linux", "the disk is full; free some space", &os.PathError{Op: "write", Err: syscall.ENOSPC}},
		{"read-only disk", "linux", "you may not write there", syscall.EROFS},
		{"no right", "darwin", "you may not write there", fs.ErrPermission},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := advice("x/results.json", c.err, c.system); !strings.Contains(got, c.want) {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

// A disk that is full at the write must not leave the part file.
func TestFillReportsWhatFails(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x")
	if err := os.WriteFile(path, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(path) // for reading only: the write fails
	if err != nil {
		t.Fatal(err)
	}
	if err := fill(f, []byte("data")); err == nil {
		t.Error("a failed write was not reported")
	}
}
