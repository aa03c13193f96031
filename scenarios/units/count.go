package units

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
)

const mostPieces = 1e9

// Things that are counted on the line, in the plural.
var nouns = []string{
	"packs", "carriers", "cases", "pieces", "cycles", "loads", "people", "tubs", "places", "lanes", "stations", "benches",
	"heads", "vessels", "tips", "groups", "times", "repeats", "replications",
	"weeks", "intensifiers",
}

func known(noun string) bool { return slices.Contains(nouns, plural(noun)) }

// plural of a noun of the trade, which is the word itself where it is one already.
func plural(noun string) string {
	for _, n := range nouns {
		if noun == n || noun+"s" == n || noun+"es" == n || noun == "person" && n == "people" {
			return n
		}
	}
	return noun
}

// Wants says what is read here.
func (*Count) Wants() string { return `a whole number, such as "5"` }

var pointThousands = regexp.MustCompile(`^[1-9][0-9]{0,2}\.[0-9]{3}$`)

// Parse reads a whole number, with or without a noun of the trade behind it.
func (c *Count) Parse(text string) error {
	n, noun, _ := strings.Cut(text, " ")
	v, err := number(n)
	switch {
	case err != nil:
		return err
	case pointThousands.MatchString(n):
		return fmt.Errorf("only whole ones can be counted; if the point parts thousands, write %s", strings.ReplaceAll(n, ".", ""))
	case strings.Contains(n, "."):
		return errors.New("only whole ones can be counted")
	case noun != "" && !known(noun):
		return fmt.Errorf("unknown noun %q", noun)
	case v > mostPieces:
		return errors.New("more than a thousand million")
	}
	*c = Count(v)
	return nil
}

// Noun is the word behind the number, in the plural, if one was written.
func (*Count) Noun(text string) string {
	_, noun, _ := strings.Cut(text, " ")
	return plural(noun)
}

// String writes the number.
func (c Count) String() string { return fmt.Sprint(int64(c)) }

// Wants says what is read here.
func (*Share) Wants() string { return `a share, such as "8 %" or "1 in 100"` }

// Parse reads a share from 0 to 1.
func (s *Share) Parse(text string) error {
	if a, b, ok := strings.Cut(text, " in "); ok {
		return s.ratio(a, b)
	}
	v, err := inOne(text, `the percent sign is missing, or "in"`, "%")
	switch {
	case err != nil:
		return err
	case v > 100:
		return errors.New("more than all of them")
	}
	*s = Share(v / 100)
	return nil
}

func (s *Share) ratio(part, whole string) error {
	n, noun, _ := strings.Cut(whole, " ")
	a, err := number(part)
	if err != nil {
		return err
	}
	b, err := number(n)
	switch {
	case err != nil:
		return err
	case noun != "" && !known(noun):
		return fmt.Errorf("unknown noun %q", noun)
	case b == 0:
		return errors.New("in none there can be none")
	case a > b:
		return errors.New("more than all of them")
	}
	*s = Share(a / b)
	return nil
}

// String writes per cent.
func (s Share) String() string { return fmt.Sprintf("%.6g %%", float64(s)*100) }

// Wants says what is read here.
func (*Crew) Wants() string {
	return `people, such as "2 loaders" or "2 to 3 loaders" (the name of a pool), or "machine"`
}

const mostCrew = 1000

// Parse reads who does a task: so many of a pool, one of it, or a machine.
func (c *Crew) Parse(text string) error {
	if text == "machine" {
		*c = Crew{}
		return nil
	}
	words := strings.Fields(text)
	if len(words) == 0 {
		return errors.New("nobody is named")
	}
	least, err := people(words[0])
	switch {
	case err != nil && startsLikeNumber(words[0]):
		return err
	case err != nil:
		*c = Crew{1, 1, strings.Join(words, " ")}
		return poolName(c.Pool)
	}
	most, words := least, words[1:]
	if len(words) >= 2 && words[0] == "to" {
		if most, err = people(words[1]); err != nil {
			return err
		}
		words = words[2:]
	}
	pool := strings.Join(words, " ")
	switch {
	case pool == "":
		return errors.New("the name of their pool is missing")
	case pool == "machine" || pool == "machines":
		return errors.New(`for a machine write only "machine"`)
	case most < least:
		return errors.New("the range runs backwards")
	}
	*c = Crew{least, most, pool}
	return poolName(pool)
}

func startsLikeNumber(word string) bool { return strings.ContainsAny(word[:1], "+-.0123456789") }

// people reads a number of whole persons.
func people(text string) (int, error) {
	v, err := number(text)
	switch {
	case err != nil:
		return 0, err
	case strings.Contains(text, "."):
		return 0, errors.New("only whole persons can work")
	case v < 1:
		return 0, errors.New(`at least one; for none write "machine"`)
	case v > mostCrew:
		return 0, errors.New("more than a thousand people")
	}
	return int(v), nil
}

func poolName(pool string) error {
	if strings.ContainsAny(pool, ".,:;[]{}#&*!|>'\"%@`/") {
		return fmt.Errorf("%q cannot be the name of a pool", pool)
	}
	return nil
}

// String writes the crew as it is read.
func (c Crew) String() string {
	switch {
	case c.Pool == "":
		return "machine"
	case c.Least != c.Most:
		return fmt.Sprintf("%d to %d %s", c.Least, c.Most, c.Pool)
	}
	return fmt.Sprintf("%d %s", c.Least, c.Pool)
}
