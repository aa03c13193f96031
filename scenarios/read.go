// Package scenarios reads what the user writes: a scenario of an HPP line, one YAML file that a plant engineer can read
// aloud. It is strict: every quantity has its unit, every fault of a file is told at once with its place, and nothing
// that could be misread is let through.
package scenarios

import (
	"embed"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

//go:embed examples/*.yaml
var examples embed.FS

const examplesFolder = "examples"

// reader reads one scenario with all the files it is made of.
type reader struct {
	faultList
	open    func(path string) ([]byte, error) // nil where no other file may be read
	join    func(elem ...string) string
	dir     func(path string) string
	trail   *Trail
	sources []*source
	own     bool // the line of one of several products is read
}

// Read reads a scenario file, with a variant of it by name or "" for the file as it stands. The faults are all that is
// wrong with it, in order of place; the scenario is nil if there are any. The error is for a file that cannot be opened.
func Read(path, variant string) (*Scenario, []Fault, error) {
	b, err := readFile(path)
	if err != nil {
		return nil, nil, err
	}
	s, faults := newFileReader().scenario(newSource(path, path, b), variant)
	return s, faults, nil
}

func newFileReader() *reader { return &reader{open: readFile, join: filepath.Join, dir: filepath.Dir} }

// ReadBytes reads a scenario from memory: without a base, without data files. The name stands in its faults.
func ReadBytes(name string, src []byte) (*Scenario, []Fault) {
	return (&reader{}).scenario(newSource(name, name, src), "")
}

// ReadExample reads one of the examples that are part of the program, by its name with or without .yaml.
func ReadExample(name, variant string) (*Scenario, []Fault, error) {
	file := strings.TrimSuffix(name, ".yaml") + ".yaml"
	b, err := Example(name)
	if err != nil {
		return nil, nil, err
	}
	r := &reader{open: func(p string) ([]byte, error) { return examples.ReadFile(p) }, join: path.Join, dir: path.Dir}
	s, faults := r.scenario(newSource(file, examplesFolder+"/"+file, b), variant)
	return s, faults, nil
}

// Example is the text of an example, by its name with or without .yaml.
func Example(name string) ([]byte, error) {
	b, err := examples.ReadFile(examplesFolder + "/" + strings.TrimSuffix(name, ".yaml") + ".yaml")
	if err != nil {
		return nil, fmt.Errorf("no example %q: there are %s", name, strings.Join(Examples(), ", "))
	}
	return b, nil
}

// Examples are the names of the examples, in order of the alphabet.
func Examples() []string {
	entries, err := examples.ReadDir(examplesFolder)
	if err != nil {
		return nil
	}
	var names []string
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), ".yaml"))
	}
	return names
}

// Variants are the names of a file's variants, in the order in which they are written.
func Variants(path string) ([]string, []Fault, error) {
	b, err := readFile(path)
	if err != nil {
		return nil, nil, err
	}
	r := &reader{}
	tree := parse(newSource(path, path, b), &r.faultList)
	var names []string
	if p := tree.get("variants"); p != nil {
		for _, v := range p.value.pairs {
			names = append(names, v.key)
		}
	}
	return names, inOrder(path, r.faults), nil
}

// mostData is the largest file that is read at all; scenario files have a smaller limit of their own.
const mostData = 32 << 20

func readFile(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s is not a file", path)
	case info.Size() > mostData:
		return nil, &tooLarge{path}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, mostData+1))
	if err == nil && len(b) > mostData { // it has grown meanwhile
		return nil, &tooLarge{path}
	}
	return b, err
}

// tooLarge refuses a file of which only the beginning would be read.
type tooLarge struct{ path string }

func (e *tooLarge) Error() string {
	return fmt.Sprintf("%s is larger than %d MiB; a scenario and its tables are far smaller", e.path, mostData>>20)
}

// scenario reads the file, merges its base and the variants on the tree, and reads the result as one file.
func (r *reader) scenario(src *source, variants ...string) (*Scenario, []Fault) {
	s := &Scenario{}
	r.trail = &Trail{places: map[string]place{}, defaults: map[string]string{}, variant: strings.Join(variants, ", ")}
	s.Trail = r.trail
	tree := r.load(src, nil)
	if p := tree.get("variants"); p != nil && p.value.kind == group {
		r.trail.variants = p.value
	}
	r.trail.reader = r
	if tree != nil {
		tree = r.vary(tree, variants)
	}
	if tree != nil {
		tree = r.lotTable(tree)
		r.trail.tree = tree
		r.fillScenario(tree, s)
		r.check(s)
		r.products(tree, s)
		r.trail.sources = r.sources
	}
	if len(r.faults) > 0 {
		return nil, inOrder(src.name, r.faults)
	}
	return s, nil
}

// beside opens a file that another one names, by a relative path.
func (r *reader) beside(at place, path string, n *node) *source {
	want := "the path of a file, from the folder of this one"
	switch {
	case r.open == nil:
		r.add(n.at, path, n.show(), "no other files, since this text is not a file", "")
		return nil
	case filepath.IsAbs(n.text) || strings.HasPrefix(n.text, "/") || strings.Contains(n.text, ":"):
		r.add(n.at, path, n.show(), want, "a path that begins at the root is another one on another machine")
		return nil
	}
	b, err := r.open(r.join(r.dir(at.src.path), n.text))
	if err != nil {
		r.add(n.at, path, n.show(), want, cannotOpen(err))
		return nil
	}
	return newSource(r.shown(at.src, n.text), r.join(r.dir(at.src.path), n.text), b)
}

// shown is how a file beside another one is called in messages.
func (r *reader) shown(src *source, name string) string { return r.join(r.dir(src.name), name) }

func cannotOpen(err error) string {
	if errors.Is(err, os.ErrNotExist) {
		return "there is no such file"
	}
	var large *tooLarge
	if errors.As(err, &large) {
		return fmt.Sprintf("it is larger than %d MiB; keep only the rows and columns that are needed", mostData>>20)
	}
	var p *os.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return "it cannot be read"
}

func (r *reader) sourceSeen(chain []*source, src *source) bool {
	return slices.ContainsFunc(chain, func(s *source) bool { return s.path == src.path })
}
