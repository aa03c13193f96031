package store

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"runtime"
	"syscall"
)

// remedy says in words what to do about err, an error on writing path. Nil stays nil.
func remedy(path string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("cannot write %s: %s (%w)", path, advice(path, err, runtime.GOOS), err)
}

// Windows' own error numbers, which the syscall package names only when it is built there.
const (
	winSharingViolation = syscall.Errno(32)
	winLockViolation    = syscall.Errno(33)
	winHandleDiskFull   = syscall.Errno(39)
	winDiskFull         = syscall.Errno(112)
)

// advice is the remedy on the given operating system.
func advice(path string, err error, system string) string {
	var code syscall.Errno
	errors.As(err, &code)
	windows := system == "windows"
	switch {
	case windows && (code == winSharingViolation || code == winLockViolation):
		return "the file is open in another program; close it there and try again"
	case errors.Is(err, syscall.ENOSPC), windows && (code == winDiskFull || code == winHandleDiskFull):
		return "the disk is full; free some space and try again"
	case errors.Is(err, syscall.ENAMETOOLONG):
		return "the name is too long; choose a shorter one"
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Sprintf("the folder %s does not exist; make it first", filepath.Dir(path))
	case errors.Is(err, syscall.ENOTDIR):
		return fmt.Sprintf("%s is not a folder; choose another place", filepath.Dir(path))
	case windows && errors.Is(err, fs.ErrPermission):
		return "the file is open in another program, or it may not be changed; close it there or choose another place"
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return "you may not write there; choose another place"
	}
	return "check the place and try again"
}
