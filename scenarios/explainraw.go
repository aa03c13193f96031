package scenarios

import "pascaline/scenarios/units"

// variants writes those variants that the size block chooses from, as they were written: without them it would name what is not there.
func (e *explainer) variants() {
	if e.s.Size == nil || e.s.Trail == nil || e.s.Trail.variants == nil {
		return
	}
	named := map[units.Text]bool{}
	for i := range e.s.Size.Vary {
		for _, v := range e.s.Size.Vary[i].Variants {
			named[v] = true
		}
	}
	before := len(e.lines)
	for _, p := range e.s.Trail.variants.pairs {
		if named[units.Text(p.key)] {
			if len(e.lines) == before {
				e.line(0, "", "variants:", "")
			}
			e.raw(1, "", p)
		}
	}
}

// raw writes a piece of a file as it was written, without looking at what it is; dash begins the first line of an item of a list.
func (e *explainer) raw(depth int, dash string, p *pair) {
	head, n := nameText(p.key)+":", p.value
	inner := depth + 1 + len(dash)/2
	switch {
	case n.kind == word:
		e.line(depth, dash, head+" "+scalar(n.text, false), e.origin(n.at))
	case n.kind == list && len(n.items) > 0 && n.items[0].kind == word:
		e.line(depth, dash, head+" "+flowList(n), e.origin(n.at))
	case n.kind == group && len(n.pairs) == 0:
		e.line(depth, dash, head+" {}", e.origin(n.at))
	default:
		e.line(depth, dash, head, "")
		for _, q := range n.pairs {
			e.raw(inner, "", q)
		}
		for _, item := range n.items {
			begins := "- "
			for _, q := range item.pairs {
				e.raw(inner, begins, q)
				begins = "  "
			}
		}
	}
}
