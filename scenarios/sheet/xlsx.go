package sheet

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
)

// Limits of a workbook: it is packed, so its size says little about what comes out of it.
const (
	mostUnpacked = 64 << 20   // bytes of all that is read of it
	mostElements = 10_000_000 // marks in all that is read of it; a filled cell has two or three
)

// readXLSX reads the values that are stored in a sheet, never those that are shown: a time shown as 0:01 may be 65 s. A cell whose number
// format is a date or a time is written out as one, because the stored value is days; a formula without a stored value is refused. Only what
// is needed is unpacked, and nothing is held but the table and the texts that cells share.
func readXLSX(name string, b []byte, o Options) (*Table, []Fault, error) {
	w := &workbook{name: name, parts: map[string]*zip.File{}, left: mostUnpacked, elements: mostElements}
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return nil, nil, w.unreadable(err)
	}
	for _, f := range z.File {
		w.parts[partName(f.Name)] = f
	}
	sheets, err := w.open()
	if err != nil {
		return nil, nil, err
	}
	s, err := sheetOf(sheets, name, o.Sheet)
	if err != nil {
		return nil, nil, err
	}
	x := &sheetRows{w: w, o: o, t: &Table{File: name, Sheet: s.name, DecimalComma: o.DecimalComma}}
	if err := w.each(s.part, x.token); err != nil {
		return nil, nil, err
	}
	return build(x.t, o, x.rows, x.faults)
}

// workbook is a packed workbook while it is read.
type workbook struct {
	name     string
	parts    map[string]*zip.File
	left     int64 // bytes that may still be unpacked
	elements int   // marks that may still be read
	texts    []string
	styles   []shown // by the number that a cell carries
	from1904 bool
}

// bookSheet is a sheet of a workbook and the part in which it is kept.
type bookSheet struct{ name, part string }

func sheetOf(all []bookSheet, name, asked string) (bookSheet, error) {
	var names []string
	for _, s := range all {
		if asked == "" || strings.EqualFold(s.name, asked) {
			return s, nil
		}
		names = append(names, s.name)
	}
	if len(all) == 0 {
		return bookSheet{}, fmt.Errorf("%s has no sheet", name)
	}
	return bookSheet{}, fmt.Errorf("%s has no sheet %q; there are: %s", name, asked, Harmless(strings.Join(names, ", ")))
}

func (w *workbook) unreadable(err error) error {
	return fmt.Errorf("%s cannot be read as a workbook: %w; save it as .xlsx again, or as CSV", w.name, err)
}

func (w *workbook) tooLarge() error {
	return fmt.Errorf("%s is larger than %d MiB when it is unpacked; keep only the rows and columns that are needed", w.name, mostUnpacked>>20)
}

// partName is the name of a part as it is looked up: without a stroke before it, in lower case, as writers differ in both.
func partName(name string) string {
	return strings.ToLower(strings.TrimPrefix(path.Clean(strings.ReplaceAll(name, `\`, "/")), "/"))
}

// errEnough ends the reading of a part before its end.
var errEnough = errors.New("enough was read")

// each hands on the marks and texts of a part, in their order.
func (w *workbook) each(part string, visit func(xml.Token) error) error {
	f := w.parts[partName(part)]
	if f == nil {
		return w.unreadable(fmt.Errorf("there is no %s in it", part))
	}
	r, err := f.Open()
	if err != nil {
		return w.unreadable(err)
	}
	defer r.Close()
	limited := &io.LimitedReader{R: r, N: w.left + 1}
	d := xml.NewDecoder(limited)
	for {
		t, err := d.RawToken()
		w.elements--
		switch {
		case limited.N <= 0 || w.elements < 0:
			return w.tooLarge()
		case err == io.EOF:
			w.left = limited.N - 1
			return nil
		case err != nil:
			return w.unreadable(err)
		}
		if err := visit(t); err == errEnough {
			w.left = limited.N - 1
			return nil
		} else if err != nil {
			return err
		}
	}
}

// attr is an attribute by its name, without regard to its space; "" where it is missing.
func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}
