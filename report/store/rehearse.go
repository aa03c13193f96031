package store

import (
	"os"
	"path/filepath"
	"runtime"
)

// Rehearse tells whether the folders can be made and then files of these names written, before the work that fills them is begun. What it makes for that
// it takes away again; a file that is there is not touched. Errors are those of Folder and Write.
func Rehearse(folders, files []string) error {
	var made []string
	defer func() {
		for i := len(made) - 1; i >= 0; i-- {
			_ = os.Remove(made[i]) // one that somebody else has put something into meanwhile stays
		}
	}()
	for _, folder := range folders {
		made = append(made, missing(folder)...)
		if err := Folder(folder); err != nil {
			return err
		}
	}
	for _, file := range files {
		if err := rehearse(file); err != nil {
			return err
		}
	}
	return nil
}

// missing are the folders that have to be made for path, the outermost first.
func missing(path string) (all []string) {
	for path = filepath.Clean(path); ; path = filepath.Dir(path) {
		if _, err := os.Lstat(path); err == nil || path == filepath.Dir(path) {
			return all
		}
		all = append([]string{path}, all...)
	}
}

// rehearse does what Write does, up to the point at which there is something to write.
func rehearse(path string) error {
	path, straight, err := target(path)
	if err != nil || straight {
		return err
	}
	f, err := beside(path)
	if err != nil {
		return remedy(path, err)
	}
	_ = f.Close()
	if err := os.Remove(f.Name()); err != nil {
		return remedy(path, err)
	}
	return remedy(path, replaceable(path, runtime.GOOS))
}

// replaceable tells whether a file that is there can be replaced: Windows refuses it while another program, such as a spreadsheet, has it open.
func replaceable(path, system string) error {
	if system != "windows" {
		return nil
	}
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if os.IsNotExist(err) {
		return nil
	}
	if err == nil {
		err = f.Close()
	}
	return err
}
