// Package store keeps results in files. A file is whole or it is not there: it is written beside its place, forced to the
// disk and renamed, so that a full disk, a crash or Ctrl-C never leaves half of one.
package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"

	"pascaline/report/number"
)

// Write puts data in the file at path. It replaces an existing file in one step and leaves nothing behind when it fails. A path that
// is a device or a pipe is written straight. Errors name the path and say what to do.
func Write(path string, data []byte) error {
	path, straight, err := target(path)
	switch {
	case err != nil:
		return err
	case straight:
		return remedy(path, os.WriteFile(path, data, 0o666))
	}
	f, err := beside(path)
	if err != nil {
		return remedy(path, err)
	}
	if err := errors.Join(likeBefore(f, path), fill(f, data)); err != nil {
		return remedy(path, errors.Join(err, os.Remove(f.Name())))
	}
	if err := os.Rename(f.Name(), path); err != nil {
		return remedy(path, errors.Join(err, os.Remove(f.Name())))
	}
	syncFolder(filepath.Dir(path))
	return nil
}

// likeBefore gives a new file the permissions of the one that it replaces, if there is one.
func likeBefore(f *os.File, path string) error {
	before, err := os.Stat(path)
	if err != nil {
		return nil // there is none
	}
	if now, err := f.Stat(); err == nil && now.Mode().Perm() == before.Mode().Perm() {
		return nil // also where the disk knows no permissions
	}
	return f.Chmod(before.Mode().Perm())
}

// target is what is written for path: what a link points to, not the link; straight tells a device or a pipe. A folder is an error, and a file
// that its owner made read-only, or that the user may not write.
func target(path string) (real string, straight bool, err error) {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return path, false, nil
	case err != nil:
		return path, false, remedy(path, err)
	case info.IsDir():
		return path, false, fmt.Errorf("cannot write %s: it is a folder; name a file", path)
	case info.Mode().IsRegular():
		return path, false, writable(path, info)
	}
	return path, !info.Mode().IsRegular(), nil
}

// writable tells whether a file that is there may be written: replacing it would go past its own permissions.
func writable(path string, info os.FileInfo) error {
	if info.Mode().Perm()&0o222 == 0 {
		return fmt.Errorf("cannot write %s: it is read-only; make it writable or choose another name", path)
	}
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return remedy(path, err)
	}
	return remedy(path, f.Close())
}

// Folder makes the folder at path, and those above it, unless it is there. Errors name the path and say what to do.
func Folder(path string) error {
	if info, err := os.Stat(path); err == nil && !info.IsDir() {
		return fmt.Errorf("cannot make the folder %s: a file of this name is there; choose another name", path)
	}
	return remedy(path, os.MkdirAll(path, 0o777))
}

// Remove takes a file away; one that is not there is none. Errors name the path and say what to do.
func Remove(path string) error {
	err := os.Remove(path)
	if err == nil || errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return fmt.Errorf("cannot take %s away, which is of an earlier export: %s (%w)", path, advice(path, err, runtime.GOOS), err)
}

// Save writes v as indented JSON with a newline at the end. A number that is not finite is an error that names the field.
func Save(path string, v any) error {
	data, err := Encode(v)
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	return Write(path, data)
}

// Encode gives the bytes that Save writes: the same value, the same bytes.
func Encode(v any) ([]byte, error) {
	if err := number.Finite(v); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// beside opens a new file in the folder of path, with the permissions that the user's own files get.
func beside(path string) (*os.File, error) {
	folder, name := filepath.Split(path)
	for range 100 {
		f, err := os.OpenFile(filepath.Join(folder, fmt.Sprintf(".%s.%08x.part", short(name), rand.Uint32())), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
	return nil, fs.ErrExist
}

// short keeps the name of the part file within what file systems allow.
func short(name string) string { return name[:min(len(name), 60)] }

func fill(f *os.File, data []byte) error {
	_, err := f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// syncFolder makes the rename itself last. Some systems cannot sync a folder; the file is whole either way.
func syncFolder(folder string) {
	if d, err := os.Open(folder); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}
