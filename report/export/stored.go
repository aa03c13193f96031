package export

import (
	"archive/zip"
	"bytes"
	"io"
	"regexp"
	"strings"
)

// The spreadsheet library marks the value beside a formula as text, whatever it is, and stores no text; a number must be stored as one, and a word,
// which is the last that stands in quotes in the formula, as a word.
var (
	numberAsText = regexp.MustCompile(` t="str"(><f>[^<]*</f><v>-?[0-9][0-9.]*(?:[eE][+-]?[0-9]+)?</v>)`)
	wordMissing  = regexp.MustCompile(`( t="str"><f>[^<]*(?:"|&#34;|&quot;)([a-z -]+)(?:"|&#34;|&quot;)[^<"&]*</f>)(</c>)`)
)

// numbersStored takes the mark away from the numbers in all sheets of a file.
func numbersStored(data []byte) ([]byte, error) {
	in, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	to := zip.NewWriter(&out)
	for _, f := range in.File {
		from, err := f.Open()
		if err != nil {
			return nil, err
		}
		b, err := io.ReadAll(from)
		if err != nil {
			return nil, err
		}
		if strings.HasPrefix(f.Name, "xl/worksheets/") {
			b = storedIn(b)
		}
		part, err := to.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Deflate})
		if err != nil {
			return nil, err
		}
		if _, err := part.Write(b); err != nil {
			return nil, err
		}
	}
	if err := to.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func storedIn(sheet []byte) []byte {
	return wordMissing.ReplaceAll(numberAsText.ReplaceAll(sheet, []byte("$1")), []byte("$1<v>$2</v>$3"))
}
