package scenarios

import (
	"bytes"
	"slices"
	"strings"
)

// fileText is a file in lines, each with its own end, so that lines that nobody asked to change stay as they are to the byte.
type fileText struct {
	mark        bool // begins with a byte order mark
	lines, ends []string
}

func splitText(src []byte) *fileText {
	t := &fileText{mark: bytes.HasPrefix(src, []byte(byteOrderMark))}
	rest := strings.TrimPrefix(string(src), byteOrderMark)
	for {
		i := strings.IndexAny(rest, "\r\n")
		if i < 0 {
			t.lines, t.ends = append(t.lines, rest), append(t.ends, "")
			return t
		}
		end := rest[i : i+1]
		if strings.HasPrefix(rest[i:], "\r\n") {
			end = "\r\n"
		}
		t.lines, t.ends, rest = append(t.lines, rest[:i]), append(t.ends, end), rest[i+len(end):]
	}
}

func (t *fileText) join() []byte {
	var b bytes.Buffer
	if t.mark {
		b.WriteString(byteOrderMark)
	}
	for i, l := range t.lines {
		b.WriteString(l + t.ends[i])
	}
	return b.Bytes()
}

// become takes over changed lines. What is alike at the beginning and the end keeps its line ends; new lines get the one that most lines have.
func (t *fileText) become(lines []string) {
	first, last := 0, 0
	for first < min(len(lines), len(t.lines)) && lines[first] == t.lines[first] {
		first++
	}
	for last < min(len(lines), len(t.lines))-first && lines[len(lines)-1-last] == t.lines[len(t.lines)-1-last] {
		last++
	}
	usual := t.usualEnd()
	ends := slices.Clone(t.ends[:first])
	for len(ends) < len(lines)-last {
		ends = append(ends, usual)
	}
	ends = append(ends, t.ends[len(t.ends)-last:]...)
	for i := range ends {
		if i < len(ends)-1 && ends[i] == "" {
			ends[i] = usual
		}
	}
	ends[len(ends)-1] = ""
	t.lines, t.ends = slices.Clone(lines), ends
}

// usualEnd is the end that most lines have.
func (t *fileText) usualEnd() string {
	usual, most := "\n", 0
	for _, end := range []string{"\n", "\r\n", "\r"} {
		n := 0
		for _, e := range t.ends {
			n += btoi(e == end)
		}
		if n > most {
			usual, most = end, n
		}
	}
	return usual
}
