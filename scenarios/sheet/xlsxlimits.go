package sheet

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// Limits of a workbook: it is packed, so its size says little about what comes out of it.
const (
	mostUnpacked  = 64 << 20  // bytes of all its parts
	mostBookCells = 1_000_000 // in all its sheets, empty ones too: the library holds them all
	mostBareRows  = 10_000    // that have no number, as no program writes them: each takes the library a walk through the sheet
)

// lookOver refuses a workbook that would take far more memory than its file, and names the cells, of whatever sheet, that have a formula which was never
// worked out. The library that reads it makes all cells of a row before it hands any on, cannot tell such a formula from one that gives an empty text,
// and takes a part that ends too early for one that is whole. So the marks are looked at beforehand, one after another; what else is broken the
// library tells itself.
func lookOver(name string, b []byte) (unworked map[string]bool, err error) {
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return nil, nil
	}
	c := counter{name: name, left: mostUnpacked, unworked: map[string]bool{}}
	for _, f := range z.File {
		if err := c.part(f); err != nil {
			return nil, err
		}
	}
	return c.unworked, nil
}

// counter counts what is in the parts of a workbook.
type counter struct {
	name     string
	left     int64 // bytes that may still be unpacked
	cells    int
	row      int // that is read
	beside   int // cells in it so far
	bare     int // rows without a number
	unworked map[string]bool

	ref            string // of the cell that is read
	text           bool   // its value is a text
	formula, value bool   // it has one
	inV            bool
}

func (c *counter) part(f *zip.File) error {
	r, err := f.Open()
	if err != nil {
		return nil
	}
	defer r.Close()
	c.row = 0
	limited := &io.LimitedReader{R: r, N: c.left + 1}
	if strings.HasSuffix(strings.ToLower(f.Name), ".xml") {
		err = c.marks(xml.NewDecoder(limited))
	}
	if _, unread := io.Copy(io.Discard, limited); unread != nil && err == nil {
		return nil
	}
	if c.left = limited.N - 1; c.left < 0 {
		return fmt.Errorf("%s is larger than %d MiB when it is unpacked; keep only the rows and columns that are needed", c.name, mostUnpacked>>20)
	}
	return err
}

// marks counts the cells of a sheet; other parts have none.
func (c *counter) marks(d *xml.Decoder) error {
	for depth := 0; ; {
		t, err := d.RawToken()
		if syntax := new(xml.SyntaxError); errors.As(err, &syntax) || err == io.EOF && depth != 0 {
			return damaged(c.name)
		}
		if err != nil {
			return nil
		}
		switch t := t.(type) {
		case xml.StartElement:
			depth++
			c.begin(t)
		case xml.EndElement:
			depth--
			c.end(t.Name.Local)
		case xml.CharData:
			c.value = c.value || c.inV && len(bytes.TrimSpace(t)) > 0
		}
		if c.cells > mostBookCells || c.beside > mostBeside {
			return fmt.Errorf("%s has more than %d cells, or more than %d in a row; keep only the rows and columns that are needed", c.name, mostBookCells, mostBeside)
		}
		if c.bare > mostBareRows {
			return damaged(c.name)
		}
	}
}

func (c *counter) begin(e xml.StartElement) {
	switch e.Name.Local {
	case "row":
		c.row++
		if n, err := strconv.Atoi(attr(e, "r")); err == nil {
			c.row = n
		} else {
			c.bare++
		}
		c.beside = 0
	case "c":
		c.cells++
		c.beside++
		if c.ref = attr(e, "r"); c.ref == "" {
			c.ref = Cell{Row: c.row, Column: c.beside}.ref()
		}
		c.text, c.formula, c.value = attr(e, "t") == "str", false, false
	case "f":
		c.formula = true
	case "v":
		c.inV, c.value = true, c.text
	}
}

func (c *counter) end(mark string) {
	switch {
	case mark == "v":
		c.inV = false
	case mark == "c" && c.formula && !c.value:
		c.unworked[c.ref] = true
	}
}

// attr is an attribute by its name; "" where it is missing.
func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}
