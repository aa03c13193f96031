package scenarios

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Put lays values into the text of a scenario file and leaves all else as it is, comments too. Fields that describe no
// distribution, such as per and by, stay as they were unless the new value has them. A byte order mark and the end of each line stay too.
// A value of a stop goes into the file's own list, or over the list of its base. The errors say what could not be placed; the text is nil
// then. The caller reads the result before it is kept.
func Put(name string, src []byte, values []Value) ([]byte, error) {
	text := splitText(src)
	for _, v := range values {
		var faults faultList
		s := newSource(name, name, text.join())
		tree := parse(s, &faults)
		if tree == nil || len(faults.faults) > 0 {
			return nil, fmt.Errorf("%s is not a scenario that can be read; \"pascaline check\" says what is wrong", name)
		}
		lines, err := putOne(s, tree, v)
		if err != nil {
			return nil, fmt.Errorf("%s: %s: %w", name, strings.Join(v.Path, "."), err)
		}
		text.become(lines)
	}
	return text.join(), nil
}

// putOne gives the lines of the file with one value in its place.
func putOne(s *source, tree *node, v Value) ([]string, error) {
	n, line := tree, 1
	for depth, key := range v.Path {
		last := depth+1 == len(v.Path)
		rest := Value{Path: v.Path[depth:], Text: v.Text, Because: v.Because}
		if n.kind == list {
			found := n.itemsNamed(key)
			switch {
			case len(found) == 0 && last:
				return addItem(s, n, v)
			case len(found) == 0:
				return nil, fmt.Errorf("the list on line %d has no %s", line, quote(key))
			case len(found) > 1 || last:
				return nil, fmt.Errorf("line %d has a %s already", n.items[found[0]].at.line, quote(key))
			}
			n = n.items[found[0]]
			line = n.at.line
			continue
		}
		p := n.get(key)
		if p == nil && depth == 1 && v.Path[0] == "stops" {
			_, name, _ := strings.Cut(key, "/")
			p = n.get(name) // over the list of the base the name alone may stand
		}
		switch {
		case p == nil && depth == 0:
			return addAtEnd(s, tree, v)
		case p == nil && last && v.WholeStop():
			return nil, errStopsOfBase
		case p == nil:
			return addUnder(s, n, line, rest)
		case last:
			return replace(s, p, v)
		}
		n, line = p.value, p.at.line
		if n.kind != group && n.kind != list {
			return nil, fmt.Errorf("line %d holds %s where a group is wanted", line, n.show())
		}
	}
	return nil, fmt.Errorf("the value has no path")
}

var errStopsOfBase = errors.New("the stops stand in the base, and a list here would replace them; put the new one into the base")

// addAtEnd puts a value behind all else, where the file says nothing of its section yet. A first stop begins the list.
func addAtEnd(s *source, tree *node, v Value) ([]string, error) {
	if !v.WholeStop() {
		return slices.Concat(trimEnd(s.lines), strings.Split(strings.TrimRight(Snippet([]Value{v}), "\n"), "\n"), []string{""}), nil
	}
	if inheritsStops(s, tree) {
		return nil, errStopsOfBase
	}
	return slices.Concat(trimEnd(s.lines), strings.Split(StopList([]Value{v}), "\n")), nil
}

// inheritsStops tells whether the base of a file has stops, or cannot be read.
func inheritsStops(s *source, tree *node) bool {
	if tree.get("base") == nil {
		return false
	}
	whole := newFileReader().load(s, nil)
	return whole == nil || whole.get("stops") != nil
}

// addItem puts a new item at the end of a list whose items stand on lines of their own.
func addItem(s *source, n *node, v Value) ([]string, error) {
	if n.flow || len(n.items) == 0 {
		return nil, fmt.Errorf("line %d: the list stands between brackets; put the new one in by hand", n.at.line)
	}
	last := n.items[len(n.items)-1].at
	dash := n.at.column - 1
	end := last.line
	for i := last.line + 1; i <= len(s.lines); i++ {
		l := strings.TrimLeft(s.line(i), " ")
		if l != "" && len(s.line(i))-len(l) <= dash {
			break
		}
		if l != "" {
			end = i
		}
	}
	indent := strings.Repeat(" ", max(0, dash))
	var add []string
	for _, c := range v.Because {
		add = append(add, indent+evidence(v.Path)+oneLine(c))
	}
	return slices.Concat(s.lines[:end], append(add, indent+"- "+v.Text), s.lines[end:]), nil
}

func trimEnd(lines []string) []string {
	for len(lines) > 0 && strings.TrimSpace(lines[len(lines)-1]) == "" {
		lines = lines[:len(lines)-1]
	}
	return slices.Clip(lines)
}

// addUnder puts a value at the end of a group that is there, so that comments stay with the fields under them. The line is that of its name.
func addUnder(s *source, group *node, line int, v Value) ([]string, error) {
	if group.flow {
		return addBetweenBraces(s, group, v)
	}
	if len(group.pairs) == 0 {
		return nil, fmt.Errorf("line %d is empty", line)
	}
	deep := group.pairs[0].at.column - 1
	end := group.pairs[len(group.pairs)-1].at.line
	for i := end + 1; i <= len(s.lines); i++ {
		l := strings.TrimLeft(s.line(i), " ")
		in := len(s.line(i)) - len(l)
		if l != "" && (in < deep || in == deep && l != "-" && !strings.HasPrefix(l, "- ")) {
			break
		}
		if l != "" {
			end = i
		}
	}
	var add []string
	for _, l := range strings.Split(strings.TrimRight(Snippet([]Value{v}), "\n"), "\n") {
		add = append(add, strings.Repeat(" ", deep)+l)
	}
	return slices.Concat(s.lines[:end], add, s.lines[end:]), nil
}

func addBetweenBraces(s *source, group *node, v Value) ([]string, error) {
	text := v.Text
	for i := len(v.Path) - 1; i > 0; i-- {
		text = "{" + nameText(v.Path[i]) + ": " + text + "}"
	}
	line := s.line(group.at.line)
	start := cutRunes(line, group.at.column)
	rest := line[len(start):]
	comma := ", "
	if strings.HasPrefix(strings.TrimLeft(rest, " "), "}") {
		comma = ""
	}
	return withComments(s.lines, group.at.line, group.at.line, start+nameText(v.Path[0])+": "+text+comma+rest, v), nil
}
