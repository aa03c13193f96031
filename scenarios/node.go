package scenarios

import (
	"slices"
	"strconv"
	"strings"

	"pascaline/scenarios/sheet"
)

// node is a piece of a scenario file: one word, a group of named fields, a list, or nothing.
type node struct {
	kind   kind
	text   string  // of a word, as it was written
	quoted bool    // of a word
	pairs  []*pair // of a group, in their order
	items  []*node // of a list
	flow   bool    // a group between braces
	at     place
}

type pair struct {
	key   string
	at    place // of the key
	value *node
}

type kind int

const (
	nothing kind = iota
	word
	group
	list
	refused // a fault was reported already
)

// place is where something was written.
type place struct {
	src          *source
	line, column int
	variant      string // the variant that wrote it, if one did
}

// source is a file that was read.
type source struct {
	name  string // for people
	path  string // for opening what lies beside it
	bytes []byte
	lines []string
	base  bool // not the file that was asked for
}

// byteOrderMark is what editors and spreadsheets on Windows put before a text.
const byteOrderMark = "\ufeff"

func newSource(name, path string, b []byte) *source {
	text := strings.TrimPrefix(string(b), byteOrderMark)
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	return &source{name: name, path: path, bytes: b, lines: strings.Split(text, "\n")}
}

func (s *source) text() string { return strings.Join(s.lines, "\n") }

func (s *source) line(n int) string {
	if n < 1 || n > len(s.lines) {
		return ""
	}
	return s.lines[n-1]
}

// get is the pair of this name, or nil.
func (n *node) get(key string) *pair {
	if n == nil {
		return nil
	}
	i := slices.IndexFunc(n.pairs, func(p *pair) bool { return p.key == key })
	if i < 0 {
		return nil
	}
	return n.pairs[i]
}

func (n *node) without(keys ...string) *node {
	c := *n
	c.pairs = slices.DeleteFunc(slices.Clone(n.pairs), func(p *pair) bool { return slices.Contains(keys, p.key) })
	return &c
}

// lawKeys are the fields of a group that describe a time or an interval.
func (n *node) lawKeys() (keys []string) {
	for _, p := range n.pairs {
		if slices.Contains(lawFields, p.key) {
			keys = append(keys, p.key)
		}
	}
	return keys
}

// show says in a message what a node is.
func (n *node) show() string {
	switch n.kind {
	case word:
		return quote(n.text)
	case group:
		return "a group of fields"
	case list:
		return "a list"
	}
	return "nothing"
}

// quote puts what somebody wrote into a message, as messages about sheets do.
func quote(text string) string { return sheet.Quote(text) }

// find is the node that was written under a path, or nil.
func (n *node) find(path string) *node {
	for path != "" && n != nil {
		var head string
		i := strings.IndexAny(path, ".[")
		switch {
		case i < 0:
			head, path = path, ""
		case path[i] == '[' && i == 0:
			j := strings.IndexByte(path, ']')
			k, err := strconv.Atoi(path[1:j])
			if err != nil || k < 1 || k > len(n.items) {
				return nil
			}
			n, path = n.items[k-1], strings.TrimPrefix(path[j+1:], ".")
			continue
		default:
			head, path = path[:i], strings.TrimPrefix(path[i:], ".")
		}
		p := n.get(head)
		if p == nil {
			return nil
		}
		n = p.value
	}
	return n
}
