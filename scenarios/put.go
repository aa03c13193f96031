package scenarios

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
)

// Put lays values into the text of a scenario file and leaves all else as it is, comments too. Fields that describe no
// distribution, such as per and by, stay as they were unless the new value has them. A byte order mark and the line ends of Windows stay too.
// The errors say what could not be placed; the text is nil then. The caller reads the result before it is kept.
func Put(name string, src []byte, values []Value) ([]byte, error) {
	mark, windows := bytes.HasPrefix(src, []byte(byteOrderMark)), bytes.Contains(src, []byte("\r\n"))
	for _, v := range values {
		var faults faultList
		s := newSource(name, name, src)
		tree := parse(s, &faults)
		if tree == nil || len(faults.faults) > 0 {
			return nil, fmt.Errorf("%s is not a scenario that can be read; \"pascaline check\" says what is wrong", name)
		}
		lines, err := putOne(s, tree, v)
		if err != nil {
			return nil, fmt.Errorf("%s: %s: %w", name, v.Path, err)
		}
		src = []byte(strings.Join(lines, "\n"))
	}
	if windows {
		src = bytes.ReplaceAll(bytes.ReplaceAll(src, []byte("\r\n"), []byte("\n")), []byte("\n"), []byte("\r\n"))
	}
	if mark && !bytes.HasPrefix(src, []byte(byteOrderMark)) {
		src = append([]byte(byteOrderMark), src...)
	}
	return src, nil
}

// putOne gives the lines of the file with one value in its place.
func putOne(s *source, tree *node, v Value) ([]string, error) {
	names := strings.Split(v.Path, ".")
	n, depth := tree, 0
	var at *pair
	for depth < len(names) {
		if n.kind == list {
			item := itemNamed(n, names[depth])
			if item == nil {
				return addItem(s, n, v)
			}
			n, depth = item, depth+1
			continue
		}
		p := n.get(names[depth])
		if p == nil {
			break
		}
		at, n, depth = p, p.value, depth+1
		if n.kind != group && n.kind != list && depth < len(names) {
			return nil, fmt.Errorf("line %d holds %s where a group is wanted", p.at.line, n.show())
		}
	}
	switch {
	case depth == len(names):
		return replace(s, at, v)
	case at == nil && names[0] == "stops": // the one list that Put knows
		lines := append(trimEnd(s.lines), "stops:")
		for _, c := range v.Because {
			lines = append(lines, "  "+evidence(v.Path)+oneLine(c))
		}
		return append(lines, "  - "+v.Text, ""), nil
	case at == nil:
		return slices.Concat(trimEnd(s.lines), strings.Split(strings.TrimRight(Snippet([]Value{v}), "\n"), "\n"), []string{""}), nil
	}
	rest := Value{Path: strings.Join(names[depth:], "."), Text: v.Text, Because: v.Because}
	return addUnder(s, at, rest)
}

func itemNamed(n *node, name string) *node {
	i := slices.IndexFunc(n.items, func(x *node) bool { return nameOf(x) == name })
	if i < 0 {
		return nil
	}
	return n.items[i]
}

// addItem puts a new item at the end of a list whose items stand on lines of their own.
func addItem(s *source, n *node, v Value) ([]string, error) {
	if n.flow || len(n.items) == 0 {
		return nil, fmt.Errorf("line %d: the list stands between brackets; put the new one in by hand", n.at.line)
	}
	last := n.items[len(n.items)-1].at
	dash := strings.IndexByte(s.line(last.line), '-')
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
	return lines
}

// addUnder puts a value under a group that is there.
func addUnder(s *source, at *pair, v Value) ([]string, error) {
	group := at.value
	if !group.flow {
		if len(group.pairs) == 0 {
			return nil, fmt.Errorf("line %d is empty", at.at.line)
		}
		first := group.pairs[0].at
		indent := strings.Repeat(" ", first.column-1)
		var add []string
		for _, l := range strings.Split(strings.TrimRight(Snippet([]Value{v}), "\n"), "\n") {
			add = append(add, indent+l)
		}
		return slices.Concat(s.lines[:first.line-1], add, s.lines[first.line-1:]), nil
	}
	names := strings.Split(v.Path, ".")
	text := v.Text
	for i := len(names) - 1; i > 0; i-- {
		text = "{" + names[i] + ": " + text + "}"
	}
	line := s.line(group.at.line)
	start := cutRunes(line, group.at.column)
	rest := line[len(start):]
	comma := ", "
	if strings.HasPrefix(strings.TrimLeft(rest, " "), "}") {
		comma = ""
	}
	return withComments(s.lines, group.at.line, group.at.line, start+names[0]+": "+text+comma+rest, v), nil
}
