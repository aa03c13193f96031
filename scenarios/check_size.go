package scenarios

import (
	"fmt"
	"slices"
	"strings"
)

var sizeRules = []func(*checker){
	(*checker).sizeTarget, (*checker).sizeChoices, (*checker).sizeFields, (*checker).sizeCosts, (*checker).sizeCount, (*checker).sizeReads,
}

// MostSettings is the largest number of settings that one file may ask about.
const MostSettings = 5000

func (c *checker) sizeTarget() {
	if c.s.Size == nil {
		return
	}
	t := &c.s.Size.Target
	ways := btoi(t.PacksPerShift > 0) + btoi(t.PacksPerHour > 0) + btoi(t.LotsOnTime > 0)
	switch {
	case ways != 1:
		c.fault("size.target", fmt.Sprintf("%d targets", ways), "one of packs_per_shift, packs_per_hour and lots_on_time", "")
	case t.PacksPerShift > 0 && c.s.Roster == nil:
		c.fault("size.target.packs_per_shift", c.said("size.target.packs_per_shift"), "packs_per_hour", "there is no roster, so there is no shift", "roster")
	case t.LotsOnTime > 0 && !slices.ContainsFunc(c.s.Lots, func(l Lot) bool { return l.Due != nil }):
		c.fault("size.target.lots_on_time", c.said("size.target.lots_on_time"), "lots with a due time", "", "lots")
	case t.LotsOnTime > 0 && len(t.Shifts) > 0:
		c.fault("size.target.shifts", "shifts beside lots_on_time", "one of them", "")
	}
	for i, name := range t.Shifts {
		if c.s.Roster == nil || !slices.ContainsFunc(c.s.Roster.Shifts, func(s Shift) bool { return s.Name == string(name) }) {
			c.fault(fmt.Sprintf("size.target.shifts[%d]", i+1), quote(string(name)), "a shift of the roster", "", "roster")
		}
	}
}

// dimensions visits what may be chosen with its path.
func (c *checker) dimensions(visit func(path string, d *Dimension)) {
	if c.s.Size == nil {
		return
	}
	for i := range c.s.Size.Vary {
		d := &c.s.Size.Vary[i]
		visit("size.vary."+d.Name, d)
	}
}

// sizeChoices: each dimension has its values in one way, each once.
func (c *checker) sizeChoices() {
	c.dimensions(func(path string, d *Dimension) {
		ways := 0
		for _, there := range []bool{len(d.Values) > 0, d.Range != nil, len(d.Variants) > 0} {
			ways += btoi(there)
		}
		if ways != 1 {
			c.fault(path, fmt.Sprintf("%d ways to choose", ways), "one of values, range and variants", "", path+".values", path+".range", path+".variants")
			return
		}
		list, field := d.Values, ".values"
		if len(d.Variants) > 0 {
			list, field = d.Variants, ".variants"
		}
		for i, v := range list {
			if slices.Index(list, v) < i {
				c.fault(fmt.Sprintf("%s%s[%d]", path, field, i+1), quote(string(v))+" a second time", "each once", "")
			}
		}
		c.sizeVariants(path, d)
	})
}

func (c *checker) sizeVariants(path string, d *Dimension) {
	var names []string
	if c.r.trail.variants != nil {
		for _, p := range c.r.trail.variants.pairs {
			names = append(names, p.key)
		}
	}
	for i, v := range d.Variants {
		at := fmt.Sprintf("%s.variants[%d]", path, i+1)
		if string(v) == AsWritten {
			continue
		}
		if !slices.Contains(names, string(v)) {
			c.fault(at, quote(string(v)), "a variant of this file: "+orList(append(quoted(names), quote(AsWritten))), didYouMean(string(v), names))
			continue
		}
		if over := c.r.trail.variants.get(string(v)).value; over.kind == group {
			c.variantTouches(at, string(v), over)
		}
	}
}

// variantTouches refuses a variant that says anything of hold or pressure.
func (c *checker) variantTouches(at, name string, n *node) {
	for _, p := range n.pairs {
		if word := validated(p.key); word != "" {
			c.fault(at, fmt.Sprintf("the variant %q, which changes the %s", name, word), "one that leaves it alone", neverVaried)
		} else if p.value.kind == group {
			c.variantTouches(at, name, p.value)
		}
	}
}

const neverVaried = "hold and pressure come from the validated process; this program never searches among them"

// validated is the part of a path that a search may never touch: hold or pressure.
func validated(path string) string {
	for _, part := range strings.Split(path, ".") {
		if part == "hold" || part == "pressure" {
			return part
		}
	}
	return ""
}

// Sections that say nothing of the plant.
var notThePlant = []string{"scenario", "schema", "note", "base", "variants", "size", "money", "run", "cold_chain"}

// sizeFields: fields of the plant, none of them the validated process, each varied by one dimension.
func (c *checker) sizeFields() {
	varied := map[string]string{}
	c.dimensions(func(path string, d *Dimension) {
		if len(d.Variants) > 0 {
			if len(d.Fields) > 0 {
				c.fault(path+".fields", "fields beside variants", "one of them", "a variant says itself what it changes")
			}
			return
		}
		if len(d.Fields) == 0 {
			c.fault(path, "no fields", "fields: the paths of what gets the value, such as [loading.stations]", "", path+".fields")
		}
		for i, f := range d.Fields {
			at := fmt.Sprintf("%s.fields[%d]", path, i+1)
			section, _, _ := strings.Cut(string(f), ".")
			field := c.r.trail.tree.inFull(string(f))
			switch {
			case validated(string(f)) != "":
				c.fault(at, quote(string(f)), "a field that may be varied", neverVaried)
			case slices.Contains(notThePlant, section):
				c.fault(at, quote(string(f)), "a field of the plant, such as loading.stations", "")
			case varied[field] != "":
				c.fault(at, quote(string(f)), "each field in one place", "it is varied under "+varied[field]+" too")
			}
			varied[field] = d.Name
		}
	})
}

// sizeCount keeps the number of settings within what can be looked at.
func (c *checker) sizeCount() {
	n := 1
	c.dimensions(func(_ string, d *Dimension) { n = min(n*max(1, len(d.Choices())), 1e9) })
	if n > MostSettings {
		c.fault("size.vary", fmt.Sprintf("%d settings", n), fmt.Sprintf("at most %d", MostSettings), "take wider steps or fewer things at once")
	}
}

// sizeReads reads every choice once, each alone, so that a value that its field refuses is told now and not in the middle of a search.
func (c *checker) sizeReads() {
	if c.s.Size == nil || len(c.r.faults) > 0 {
		return
	}
	for i := range c.s.Size.Vary {
		for k := range c.s.Size.Vary[i].Choices() {
			r, tree := c.s.changed(func(dimension int) int {
				if dimension == i {
					return k
				}
				return -1
			})
			r.fillScenario(tree, &Scenario{Trail: r.trail})
			c.r.faults = append(c.r.faults, r.faults...)
		}
	}
}
