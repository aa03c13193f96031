package sheet

import (
	"encoding/xml"
	"path"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// open reads what the cells of all sheets share, and gives the sheets in their order.
func (w *workbook) open() ([]bookSheet, error) {
	main := "xl/workbook.xml"
	links, err := w.links("")
	for _, l := range links {
		if l.is("officeDocument") {
			main = l.target
		}
	}
	if err == nil {
		links, err = w.links(main)
	}
	if err != nil {
		return nil, err
	}
	sheets, err := w.sheets(main, links)
	if err != nil {
		return nil, err
	}
	for _, l := range links {
		switch {
		case l.is("sharedStrings"):
			err = w.each(l.target, (&textsReader{w: w}).token)
		case l.is("styles"):
			err = w.each(l.target, (&stylesReader{w: w, own: map[int]shown{}}).token)
		}
		if err != nil {
			return nil, err
		}
	}
	return sheets, nil
}

// sheets are those that hold cells.
func (w *workbook) sheets(main string, links []link) ([]bookSheet, error) {
	var sheets []bookSheet
	err := w.each(main, func(t xml.Token) error {
		e, ok := t.(xml.StartElement)
		switch {
		case ok && e.Name.Local == "workbookPr":
			w.from1904 = attr(e, "date1904") == "1" || attr(e, "date1904") == "true"
		case ok && e.Name.Local == "sheet":
			for _, l := range links {
				if id := attr(e, "id"); l.id == id && l.is("worksheet") {
					sheets = append(sheets, bookSheet{attr(e, "name"), l.target})
				}
			}
		}
		return nil
	})
	return sheets, err
}

// link is how one part of a workbook names another (ECMA-376 part 2, 9.3).
type link struct{ id, kind, target string }

func (l link) is(kind string) bool { return strings.HasSuffix(l.kind, "/"+kind) }

// links are those of a part; none where it has none. "" is the workbook as a whole.
func (w *workbook) links(part string) ([]link, error) {
	folder, file := path.Split(part)
	from := folder + "_rels/" + file + ".rels"
	if w.parts[partName(from)] == nil {
		return nil, nil
	}
	var all []link
	err := w.each(from, func(t xml.Token) error {
		if e, ok := t.(xml.StartElement); ok && e.Name.Local == "Relationship" {
			target := strings.ReplaceAll(attr(e, "Target"), `\`, "/")
			if !strings.HasPrefix(target, "/") {
				target = path.Join(folder, target)
			}
			all = append(all, link{attr(e, "Id"), attr(e, "Type"), strings.TrimPrefix(target, "/")})
		}
		return nil
	})
	return all, err
}

// textsReader reads the texts that cells share.
type textsReader struct {
	w    *workbook
	text richText
}

func (r *textsReader) token(t xml.Token) error {
	r.text.token(t)
	switch t := t.(type) {
	case xml.StartElement:
		if t.Name.Local == "si" {
			r.text = richText{}
		}
	case xml.EndElement:
		if t.Name.Local == "si" {
			r.w.texts = append(r.w.texts, r.text.String())
		}
	}
	return nil
}

// richText gathers the runs of a text, without the signs above them that say how they are spoken.
type richText struct {
	b      []byte
	in     bool // between <t> and </t>
	spoken bool
}

func (r *richText) token(t xml.Token) {
	switch t := t.(type) {
	case xml.StartElement:
		r.in, r.spoken = t.Name.Local == "t" && !r.spoken, r.spoken || t.Name.Local == "rPh"
	case xml.EndElement:
		r.in, r.spoken = false, r.spoken && t.Name.Local != "rPh"
	case xml.CharData:
		if r.in && len(r.b) <= mostCell {
			r.b = append(r.b, t...)
		}
	}
}

func (r *richText) String() string { return unescaped(string(r.b)) }

var escaped = regexp.MustCompile(`_x[0-9A-Fa-f]{4}_`)

// unescaped gives back the characters that XML cannot hold: _x000D_ is the end of a line (ECMA-376 part 1, 22.9.2.19).
func unescaped(text string) string {
	if !strings.Contains(text, "_x") {
		return text
	}
	return escaped.ReplaceAllStringFunc(text, func(s string) string {
		n, err := strconv.ParseUint(s[2:6], 16, 32)
		if err != nil || !utf8.ValidRune(rune(n)) {
			return s
		}
		return string(rune(n))
	})
}
