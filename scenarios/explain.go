package scenarios

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"unicode/utf8"
)

// Explain writes the scenario with its defaults filled in: YAML that reads back to the same scenario, with a note beside
// each line on where the value came from, and the assumptions behind it in sentences.
func (s *Scenario) Explain(w io.Writer) error {
	e := explainer{s: s}
	e.group(0, "", s.tree(), reflect.TypeFor[Scenario](), "")
	e.variants()
	var b bytes.Buffer
	fmt.Fprintf(&b, "# %s, with every default filled in. Beside each value stands where it came from.\n", s.title())
	width := 0
	for _, l := range e.lines {
		width = min(max(width, utf8.RuneCountInString(l.text)), widestText)
	}
	for _, l := range e.lines {
		if l.note == "" {
			fmt.Fprintln(&b, l.text)
			continue
		}
		fmt.Fprintf(&b, "%s%s  # %s\n", l.text, strings.Repeat(" ", max(0, width-utf8.RuneCountInString(l.text))), l.note)
	}
	s.explainAssumptions(&b)
	_, err := w.Write(b.Bytes())
	return err
}

func (s *Scenario) explainAssumptions(b *bytes.Buffer) {
	list := s.Assumptions()
	if len(list) == 0 {
		return
	}
	fmt.Fprintf(b, "\n# Assumptions\n")
	for _, a := range list {
		fmt.Fprintf(b, "# - %s\n", strings.ReplaceAll(a.Says, "\n", " "))
	}
}

// title is the name of the scenario and of the variant.
func (s *Scenario) title() string {
	if s.Trail != nil && s.Trail.variant != "" {
		return fmt.Sprintf("%s (variant: %s)", s.Name, s.Trail.variant)
	}
	return strings.ReplaceAll(string(s.Name), "\n", " ")
}

func (s *Scenario) tree() *node {
	if s.Trail == nil || s.Trail.tree == nil {
		return &node{kind: group}
	}
	return s.Trail.tree
}

const widestText = 56

type explainer struct {
	s     *Scenario
	lines []explainedLine
}

type explainedLine struct{ text, note string }

func (e *explainer) line(depth int, dash, text, note string) {
	e.lines = append(e.lines, explainedLine{strings.Repeat("  ", depth) + dash + text, note})
}

// group writes the fields of a struct; dash begins the first line where the struct is an item of a list.
func (e *explainer) group(depth int, path string, n *node, t reflect.Type, dash string) {
	for _, f := range fieldsOf(t) {
		before := len(e.lines)
		e.field(depth, join(path, f.name), n, f, dash)
		if len(e.lines) > before && dash != "" {
			dash = "  "
		}
	}
}

func (e *explainer) field(depth int, path string, n *node, f *field, dash string) {
	if p := n.get(f.name); p != nil {
		e.value(depth, path, f.name, p, f.typ, dash)
		return
	}
	if text, ok := e.s.defaultOf(path, n, f); ok {
		e.line(depth, dash, f.name+": "+scalar(text, false), "default")
		return
	}
	if f.typ.Kind() != reflect.Struct || f.need() {
		return
	}
	inner := explainer{s: e.s}
	inner.group(depth+1+len(dash)/2, path, &node{kind: group}, f.typ, "")
	if len(inner.lines) > 0 {
		e.line(depth, dash, f.name+":", "")
		e.lines = append(e.lines, inner.lines...)
	}
}

// defaultOf is the text of the default that a field has here, and whether it has one that may be written out.
func (s *Scenario) defaultOf(path string, n *node, f *field) (string, bool) {
	if !f.appliesTo(n) {
		return "", false
	}
	if s.Trail != nil {
		if text, ok := s.Trail.defaults[path]; ok {
			return text, true
		}
	}
	return f.byDefault(), f.byDefault() != ""
}

// appliesTo tells whether a field that only means something beside another one does so here.
func (f *field) appliesTo(n *node) bool {
	with := f.tag.Get("with")
	if with == "" {
		return true
	}
	name, text, exact := strings.Cut(with, ": ")
	p := n.get(name)
	return p != nil && (!exact || p.value.text == text)
}

func (e *explainer) value(depth int, path, key string, p *pair, t reflect.Type, dash string) {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	n := p.value
	head := nameText(key) + ":"
	switch n.kind {
	case word:
		text := n.text
		if key == "file" {
			text = e.fromHere(n)
		}
		e.line(depth, dash, head+" "+scalar(text, false), e.origin(n.at))
	case group:
		e.line(depth, dash, head, "")
		before := len(e.lines)
		if e.inside(depth+1+len(dash)/2, path, n, t); len(e.lines) == before { // written empty, and nothing in it has a default
			e.lines[before-1].text += " {}"
		}
	case list:
		if len(n.items) > 0 && n.items[0].kind == word {
			e.line(depth, dash, head+" "+flowList(n), e.origin(n.at))
			return
		}
		e.line(depth, dash, head, "")
		for i, item := range n.items {
			e.group(depth+1+len(dash)/2, fmt.Sprintf("%s[%d]", path, i+1), item, t.Elem(), "- ")
		}
	}
}

// inside writes what stands in a group: the fields of a struct, or the named ones of a list that is written by names.
func (e *explainer) inside(depth int, path string, n *node, t reflect.Type) {
	switch {
	case t == reflect.TypeFor[ProductLine]():
		e.asWritten(depth, n)
		return
	case t.Kind() == reflect.Struct:
		e.group(depth, path, n, t, "")
		return
	}
	for _, p := range n.pairs {
		e.value(depth, join(path, p.key), p.key, p, t.Elem(), "")
	}
}

// asWritten writes a product's own values as they stand: its defaults are those of the common line.
func (e *explainer) asWritten(depth int, n *node) {
	for _, p := range n.pairs {
		head := nameText(p.key) + ":"
		switch {
		case p.value.kind == group:
			e.line(depth, "", head, "")
			e.asWritten(depth+1, p.value)
		case p.value.kind == list:
			e.line(depth, "", head+" "+flowList(p.value), e.origin(p.value.at))
		case p.key == "file":
			e.line(depth, "", head+" "+scalar(e.fromHere(p.value), false), e.origin(p.value.at))
		default:
			e.line(depth, "", head+" "+scalar(p.value.text, false), e.origin(p.value.at))
		}
	}
}

// fromHere is the path of a data file from the folder of the scenario, also where its base lies elsewhere.
func (e *explainer) fromHere(n *node) string {
	main := e.s.Trail.sources[0]
	if n.at.src == nil || n.at.src == main {
		return n.text
	}
	full := filepath.Join(filepath.Dir(n.at.src.path), n.text)
	if rel, err := filepath.Rel(filepath.Dir(main.path), full); err == nil {
		return filepath.ToSlash(rel)
	}
	return n.text
}

// origin says where a value was written.
func (e *explainer) origin(at place) string {
	if at.src == nil {
		return ""
	}
	switch {
	case at.variant != "":
		return fmt.Sprintf("variant %s, line %d", at.variant, at.line)
	case at.src.base:
		return fmt.Sprintf("%s line %d", at.src.name, at.line)
	}
	return fmt.Sprintf("line %d", at.line)
}

func flowList(n *node) string {
	items := make([]string, len(n.items))
	for i, item := range n.items {
		items[i] = scalar(item.text, true)
	}
	return "[" + strings.Join(items, ", ") + "]"
}

var (
	plainText = regexp.MustCompile(`^[\pL\pN][\pL\pN .,/%_()+-]*$`)
	clockText = regexp.MustCompile(`^([A-Z][a-z]+ )?[0-9]{2}:[0-9]{2}( to [0-9]{2}:[0-9]{2})?$`)
	special   = regexp.MustCompile(`(?i)^(null|true|false|y|n|yes|no|on|off|nan|inf)$`)
)

// scalar writes a word so that it is read as the same word, in quotes where it could be taken for something else.
func scalar(text string, inFlow bool) string {
	if clockText.MatchString(text) || text == "yes" || text == "no" {
		return text
	}
	safe := plainText.MatchString(text) && !special.MatchString(text) && strings.TrimSpace(text) == text
	if safe && !(inFlow && strings.ContainsAny(text, ",")) {
		return text
	}
	return quoteYAML(text)
}

func nameText(name string) string {
	if plainText.MatchString(name) && !special.MatchString(name) {
		return name
	}
	return quoteYAML(name)
}

var escapes = strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\t", `\t`, "\r", `\r`)

func quoteYAML(text string) string { return `"` + escapes.Replace(text) + `"` }
