package scenarios

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// faultList collects what is wrong.
type faultList struct{ faults []Fault }

func (l *faultList) add(at place, path, found, want, hint string) {
	f := Fault{Line: at.line, Column: at.column, Path: path, Found: found, Want: want, Hint: hint}
	if at.src != nil {
		f.File, f.Excerpt = at.src.name, strings.ToValidUTF8(at.src.line(at.line), "\ufffd")
	}
	l.faults = append(l.faults, f)
}

// parser turns goccy's tree into ours, and refuses what a scenario must not contain.
type treeMaker struct {
	*faultList
	src *source
}

// parse reads one file as YAML. The node is nil where nothing could be made of it.
func parse(src *source, faults *faultList) *node {
	m := treeMaker{faults, src}
	top := place{src: src, line: 1, column: 1}
	if len(src.bytes) > mostBytes {
		m.add(top, "", fmt.Sprintf("%d bytes", len(src.bytes)), "a file of at most 1 MiB", "")
		return nil
	}
	if m.otherLetters() {
		return nil
	}
	if n := strings.Count(src.text(), ":"); n > mostColons {
		m.add(top, "", fmt.Sprintf("%d fields", n), fmt.Sprintf("at most %d fields", mostColons), "")
		return nil
	}
	if line, column, deep := tooDeep(src.lines); deep {
		m.add(place{src: src, line: line, column: column}, "", "fields nested too deep",
			fmt.Sprintf("at most %d levels", mostLevels), "")
		return nil
	}
	file, err := parseSafely(src.text())
	if err != nil {
		m.syntax(err)
		return nil
	}
	return m.document(file, top)
}

// otherLetters tells a text that was not saved as UTF-8: as UTF-16, which some shells of Windows write, or in an old code page.
func (m treeMaker) otherLetters() bool {
	const want, how = "a text in UTF-8", "save it again in an editor, with the encoding UTF-8"
	if b := m.src.bytes; bytes.HasPrefix(b, []byte("\xff\xfe")) || bytes.HasPrefix(b, []byte("\xfe\xff")) {
		m.faults = append(m.faults, Fault{File: m.src.name, Line: 1, Column: 1, Found: "a text in UTF-16", Want: want, Hint: how}) // its lines cannot be shown
		return true
	}
	for i, l := range m.src.lines {
		if utf8.ValidString(l) {
			continue
		}
		column := 1
		for r, n := utf8.DecodeRuneInString(l); r != utf8.RuneError || n != 1; r, n = utf8.DecodeRuneInString(l) {
			l, column = l[n:], column+1
		}
		m.add(place{src: m.src, line: i + 1, column: column}, "", "a character that is not UTF-8", want, how)
		return true
	}
	return false
}

// parseSafely keeps a fault of the YAML parser from ending the program: what it cannot take apart is no scenario.
func parseSafely(text string) (f *ast.File, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("text that cannot be taken apart: %v", r)
		}
	}()
	return parser.ParseBytes([]byte(text), 0, parser.AllowDuplicateMapKey())
}

func (m treeMaker) syntax(err error) {
	at, message := place{src: m.src, line: 1, column: 1}, err.Error()
	var s *yaml.SyntaxError
	if errors.As(err, &s) {
		message = s.Message
		if s.Token != nil && s.Token.Position != nil {
			at.line, at.column = max(1, s.Token.Position.Line), max(1, s.Token.Position.Column)
		}
	}
	m.add(at, "", "a fault in the YAML", "a file that can be read as YAML", explainSyntax(message, m.src.line(at.line)))
}

var colonTwice = regexp.MustCompile(`: .*: `)

// explainSyntax adds to the parser's words what a plant engineer can do about it.
func explainSyntax(message, line string) string {
	message, _, _ = strings.Cut(message, "\n")
	switch {
	case strings.Contains(line, "\t"):
		return message + "; indent with spaces, not tabs"
	case strings.Contains(message, "mapping value is not allowed") && colonTwice.MatchString(line):
		return message + `; put a text that contains ": " in quotes`
	}
	return message
}

func (m treeMaker) document(f *ast.File, top place) *node {
	var body ast.Node
	for _, d := range f.Docs {
		if dir, ok := d.Body.(*ast.DirectiveNode); ok {
			m.add(m.place(dir.GetToken()), "", "a YAML directive", "a scenario without one", "take the line out")
			continue
		}
		if body != nil {
			at := top
			if d.Start != nil {
				at = m.place(d.Start)
			}
			m.add(at, "", "a second document", "one scenario to a file", "")
			continue
		}
		body = d.Body
	}
	if body == nil {
		m.add(top, "", "an empty file", "a scenario", "pascaline new writes one to begin with")
		return nil
	}
	n := m.node("", body)
	if n.kind != group {
		if n.kind != refused {
			m.add(n.at, "", n.show(), "a scenario: fields with their values", "pascaline new writes one to begin with")
		}
		return nil
	}
	return n
}

func (m treeMaker) place(tk *token.Token) place {
	p := place{src: m.src, line: 1, column: 1}
	if tk != nil && tk.Position != nil {
		p.line, p.column = max(1, tk.Position.Line), max(1, tk.Position.Column)
	}
	return p
}

func (m treeMaker) node(path string, n ast.Node) *node {
	if n == nil {
		return &node{at: place{src: m.src, line: 1, column: 1}}
	}
	at := m.place(n.GetToken())
	switch x := n.(type) {
	case *ast.NullNode:
		return &node{kind: nothing, text: nullText(x), at: at}
	case *ast.AnchorNode:
		return m.refuse(at, path, "an anchor")
	case *ast.AliasNode:
		return m.refuse(at, path, "an alias")
	case *ast.TagNode:
		return m.refuse(at, path, "a tag")
	case *ast.MappingNode:
		return m.group(path, at, x.Values, x.IsFlowStyle)
	case *ast.MappingValueNode:
		return m.group(path, at, []*ast.MappingValueNode{x}, false)
	case *ast.SequenceNode:
		return m.list(path, at, x)
	case *ast.LiteralNode:
		return &node{kind: word, text: x.Value.Value, quoted: true, at: at}
	case *ast.CommentGroupNode:
		return &node{kind: nothing, at: at}
	case ast.ScalarNode:
		return m.word(path, at, x.GetToken())
	}
	return m.refuse(at, path, "a piece of YAML that a scenario has no use for")
}

func nullText(n *ast.NullNode) string {
	if tk := n.GetToken(); tk.Type == token.NullType {
		return tk.Value
	}
	return ""
}

func (m treeMaker) refuse(at place, path, what string) *node {
	m.add(at, path, what, "the value itself, written out", "")
	return &node{kind: refused, at: at}
}

// word keeps a scalar as it was written: 010, 1_000, 0x10 and .nan arrive as they stand in the file.
func (m treeMaker) word(path string, at place, tk *token.Token) *node {
	if tk.Type == token.MergeKeyType {
		return m.refuse(at, path, "a merge key")
	}
	quoted := tk.Type == token.SingleQuoteType || tk.Type == token.DoubleQuoteType
	return &node{kind: word, text: tk.Value, quoted: quoted, at: at}
}

func (m treeMaker) list(path string, at place, x *ast.SequenceNode) *node {
	n := &node{kind: list, at: at, flow: x.IsFlowStyle}
	for i, v := range x.Values {
		item := m.node(fmt.Sprintf("%s[%d]", path, i+1), v)
		if x.IsFlowStyle {
			item = m.rejoin(item)
		}
		n.items = append(n.items, item)
	}
	return n
}

// rejoin makes one word again of 08:30 between square brackets, which the parser takes for a group with the field 08.
func (m treeMaker) rejoin(n *node) *node {
	if n.kind != group || n.flow || len(n.pairs) != 1 {
		return n
	}
	p := n.pairs[0]
	v := p.value
	if v.kind != word || v.quoted || v.at.line != p.at.line || v.at.column != p.at.column+len([]rune(p.key))+1 {
		return n
	}
	return &node{kind: word, text: p.key + ":" + v.text, at: p.at}
}

func (m treeMaker) group(path string, at place, values []*ast.MappingValueNode, flow bool) *node {
	n := &node{kind: group, at: at, flow: flow}
	for _, v := range values {
		m.pair(path, n, v)
	}
	if !flow && len(n.pairs) > 0 {
		n.at = n.pairs[0].at
	}
	return n
}

func (m treeMaker) pair(path string, n *node, v *ast.MappingValueNode) {
	tk := v.Key.GetToken()
	at := m.place(tk)
	if _, ok := v.Key.(*ast.MergeKeyNode); ok {
		m.refuse(at, path, "a merge key")
		return
	}
	key := tk.Value
	switch v.Key.(type) {
	case *ast.StringNode, *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode:
	default:
		m.add(at, path, fmt.Sprintf("%q as the name of a field", key), "a plain name", "")
		return
	}
	if m.comma(path, n, v, at) {
		return
	}
	sub := join(path, key)
	if before := n.get(key); before != nil {
		m.add(at, sub, fmt.Sprintf("%q a second time", key), "each field once", fmt.Sprintf("first on line %d", before.at.line))
		return
	}
	n.pairs = append(n.pairs, &pair{key: key, at: at, value: m.node(sub, v.Value)})
}

var (
	afterComma  = regexp.MustCompile(`^[0-9]+( .*)?$`)
	threeDigits = regexp.MustCompile(`^[0-9]{3}( .*)?$`)
	onlyDigits  = regexp.MustCompile(`^[0-9]+$`)
)

// comma finds a number that was torn apart between braces: {every: 3,000 cycles} is every: 3 and a field "000 cycles".
func (m treeMaker) comma(path string, n *node, v *ast.MappingValueNode, at place) bool {
	null, ok := v.Value.(*ast.NullNode)
	if !ok || null.GetToken().Type == token.NullType || !n.flow || len(n.pairs) == 0 {
		return false
	}
	last := n.pairs[len(n.pairs)-1]
	rest := v.Key.GetToken().Value
	if last.value.kind != word || !onlyDigits.MatchString(last.value.text) || !afterComma.MatchString(rest) {
		return false
	}
	what, right := "a decimal comma", last.value.text+"."+rest
	if threeDigits.MatchString(rest) {
		what, right = "a thousands comma", last.value.text+rest
	}
	m.add(last.value.at, join(path, last.key), quote(last.value.text+","+rest), "a number without a comma",
		fmt.Sprintf("%s: between braces it ends the entry; write %s", what, right))
	last.value = &node{kind: refused, at: last.value.at}
	return true
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}
