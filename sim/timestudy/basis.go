package timestudy

import (
	"fmt"
	"slices"
	"strings"
)

// basis says what one reading of a task is of.
type basis struct {
	values []float64 // seconds, brought to one size where readings were of different sizes
	of     string    // in words
	per    string    // as a hand time or packing time has it; "" where the field does not ask
	packs  float64   // 0: not known
	people float64
	doubts []string
}

// basisOf keeps readings as they were taken. Where packs or people differ from one to the next they are brought to the usual size in proportion,
// which is said: a carrier stays one draw and is never cut into packs, whose luck would cancel out.
func basisOf(t Task, field string) basis {
	b := basis{packs: usual(t, func(r Reading) float64 { return r.Packs }), people: usual(t, func(r Reading) float64 { return r.People })}
	packsVary, peopleVary := false, false
	for _, r := range t.Readings {
		v := r.Seconds
		if b.packs > 0 && r.Packs > 0 && r.Packs != b.packs {
			v, packsVary = v*b.packs/r.Packs, true
		}
		if b.people > 0 && r.People > 0 && r.People != b.people {
			v, peopleVary = v*r.People/b.people, true
		}
		b.values = append(b.values, v)
	}
	b.of = words(b.packs, b.people)
	if packsVary {
		b.doubts = append(b.doubts, fmt.Sprintf("Readings were of different numbers of packs; they were brought to %g packs in proportion.", b.packs))
	}
	if peopleVary {
		b.doubts = append(b.doubts, fmt.Sprintf("Different numbers of people worked; times were brought to %g in proportion, as if each added the same.", b.people))
	}
	b.setPer(field)
	return b
}

// setPer says what the field wants to know of a reading.
func (b *basis) setPer(field string) {
	last := field[strings.LastIndexByte(field, '.')+1:]
	switch {
	case last == "hand_time" && b.packs == 1 && b.people <= 1:
		b.per = "pack and person"
	case last == "hand_time" && b.packs == 1, field == "packing.time" && b.packs == 1:
		b.per = "pack"
	case last == "hand_time":
		b.per = "carrier"
		if b.packs == 0 {
			b.doubts = append(b.doubts, "The sheet does not say of how many packs; each reading was taken for a whole carrier.")
		}
	case field == "packing.time":
		b.per = "case"
	}
}

// usual is the number that most readings have; of several the greatest.
func usual(t Task, of func(Reading) float64) float64 {
	counts := map[float64]int{}
	var seen []float64
	for _, r := range t.Readings {
		if v := of(r); v > 0 {
			if counts[v] == 0 {
				seen = append(seen, v)
			}
			counts[v]++
		}
	}
	slices.Sort(seen)
	best := 0.0
	for _, v := range seen {
		if counts[v] >= counts[best] {
			best = v
		}
	}
	return best
}

func words(packs, people float64) string {
	var parts []string
	switch {
	case packs == 1:
		parts = append(parts, "1 pack")
	case packs > 1:
		parts = append(parts, fmt.Sprintf("%g packs", packs))
	}
	switch {
	case people == 1:
		parts = append(parts, "by 1 person")
	case people > 1:
		parts = append(parts, fmt.Sprintf("by %g people", people))
	}
	if packs == 0 {
		parts = slices.Insert(parts, 0, "the task")
	}
	return strings.Join(parts, " ")
}
