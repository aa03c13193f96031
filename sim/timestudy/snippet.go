package timestudy

import (
	"fmt"
	"slices"
	"strings"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

// FieldOf is where a task goes in a scenario: as it was said, as the sheet says, or as its name says ("tip swap", "come up"); "" where
// that is not clear.
func FieldOf(t Task, said map[string]string) string {
	for _, name := range []string{said[t.Name], t.Field} {
		if name != "" {
			return name
		}
	}
	name := strings.Join(strings.FieldsFunc(strings.ToLower(t.Name), func(r rune) bool { return strings.ContainsRune(" ._-", r) }), " ")
	var found []string
	for _, f := range scenarios.TimeFields() {
		words := strings.FieldsFunc(f, func(r rune) bool { return r == '.' || r == '_' })
		for i := range words {
			if strings.Join(words[i:], " ") == name {
				found = append(found, f)
				break
			}
		}
	}
	if len(found) == 1 {
		return found[0]
	}
	return ""
}

// snippetOf is a task as a value for a scenario file, with the evidence.
func snippetOf(t result.FitTask, file string) scenarios.Value {
	head := fmt.Sprintf("%s, %d readings of %s in %s: mean %s", t.Name, t.N, t.ReadingOf, base(file), secondsText(t.MeanS))
	if t.HalfS != nil {
		head += " ± " + secondsText(*t.HalfS)
	}
	v := scenarios.Value{Text: t.Value, Because: []string{head + fmt.Sprintf(", sd %s, %s to %s", secondsText(t.SDS), secondsText(t.LeastS), secondsText(t.MostS))}}
	if t.Field != "" {
		v.Path = scenarios.FieldPath(t.Field)
	}
	v.Because = append(v.Because, t.Best+": "+t.Why)
	v.Because = append(v.Because, t.Doubts...)
	return v
}

func base(file string) string {
	return file[strings.LastIndexAny(file, `/\`)+1:]
}

func paceValue(p *result.Pace, pool, file string) scenarios.Value {
	return scenarios.Value{Path: []string{"people", pool, "shift_pace"}, Text: fmt.Sprintf("%.1f %%", 100*p.Share), Because: []string{base(file) + ": " + p.Sentence}}
}

// Values are the values of a study that have a place in a scenario.
func Values(r *result.TimeFit, pool string) []scenarios.Value {
	var all []scenarios.Value
	for _, t := range r.Tasks {
		if t.Field != "" {
			all = append(all, snippetOf(t, r.File))
		}
	}
	if r.Pace != nil && pool != "" {
		all = append(all, paceValue(r.Pace, pool, r.File))
	}
	return all
}

// SnippetText is a piece of a scenario file. What has no place yet stands in comments at its end.
func SnippetText(tasks []result.FitTask, parts []scenarios.Value) string {
	placed := slices.DeleteFunc(slices.Clone(parts), func(v scenarios.Value) bool { return v.Path == nil })
	text := scenarios.Snippet(placed)
	for i, t := range tasks {
		if t.Field != "" {
			continue
		}
		text += scenarios.Comment(1, t.Name+": "+t.Value)
		for _, b := range parts[i].Because {
			text += scenarios.Comment(3, b)
		}
	}
	return text
}

// Unlike says where a scenario is not what the readings were taken of: another number of packs to a carrier or case, another crew.
func Unlike(s *scenarios.Scenario, r *result.TimeFit) []string {
	var all []string
	say := func(task, what string, read, has float64) {
		if read > 0 && has > 0 && read != has {
			if what == "people" && read == 1 {
				what = "person"
			}
			all = append(all, fmt.Sprintf("%s was read with %g %s; the scenario has %g.", task, read, what, has))
		}
	}
	for _, t := range r.Tasks {
		switch {
		case t.Field == "loading.hand_time" && s.Loading != nil:
			say(t.Name, "people", t.People, float64(s.Loading.Crew.Least))
			if t.Per == "carrier" {
				say(t.Name, "packs to a carrier", t.Packs, float64(s.Product.PacksPerCarrier))
			}
		case t.Field == "packing.time" && s.Packing != nil:
			say(t.Name, "people", t.People, float64(s.Packing.Crew.Least))
			if t.Per == "case" {
				say(t.Name, "packs to a case", t.Packs, float64(s.Product.PacksPerCase))
			}
		}
	}
	return all
}
