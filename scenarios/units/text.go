package units

import (
	"errors"
	"strings"
	"unicode"
)

const longestText = 2000

// Wants says what is read here.
func (*Text) Wants() string { return "a word or a sentence" }

// Parse takes any text that can be printed.
func (t *Text) Parse(text string) error {
	if len(text) > longestText {
		return errors.New("longer than 2000 characters")
	}
	for _, r := range text {
		if r == unicode.ReplacementChar || r != '\n' && r != '\t' && !unicode.IsPrint(r) {
			return errors.New("a character that cannot be printed")
		}
	}
	*t = Text(strings.TrimSpace(text))
	return nil
}

// Wants says what is read here.
func (*Word) Wants() string { return "one of the words of this field" }

// Parse takes any word; which ones a field knows stands in its struct tag.
func (w *Word) Parse(text string) error {
	*w = Word(text)
	return nil
}
