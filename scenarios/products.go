package scenarios

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
)

// ownValues are the paths of what may differ from product to product, beside the fields of product itself: the line is the same for all.
var ownValues = []string{
	"loading.hand_time", "loading.swap", "vessel.phases", "tip.swap", "tip.per_pack", "shaker.leakers", "dryer.leakers", "dryer.wet.share",
	"labeller.time", "labeller.rate", "checkweigher.time", "checkweigher.rate", "packing.time", "packing.per_case",
	"sealer.time", "sealer.rate", "case_labeller.time", "case_labeller.rate", "palletiser.time", "palletiser.rate",
}

// products reads the line once for each of several products, with its own values in place of the common ones.
func (r *reader) products(tree *node, s *Scenario) {
	if len(r.faults) > 0 {
		return
	}
	for i := range s.Products {
		r.product(tree, &s.Products[i])
	}
	if len(r.faults) == 0 {
		(&checker{r: r, s: s}).inWork()
	}
}

func (r *reader) product(tree *node, p *ProductLine) {
	over := r.ownTree(p)
	if len(r.faults) > 0 {
		return
	}
	sub := &reader{own: true, open: r.open, join: r.join, dir: r.dir, trail: &Trail{places: map[string]place{}, defaults: map[string]string{}, variant: r.trail.variant}}
	sub.sources = r.sources[:1:1]
	p.Line = &Scenario{Trail: sub.trail}
	whole := sub.merge("", tree.without("products", "lots", "lot_order", "kept_apart", "set_for", "week_of", "changeovers", "run", "size"), over)
	sub.trail.tree = whole
	sub.fillScenario(whole, p.Line)
	sub.trail.sources = sub.sources
	sub.check(p.Line)
	for _, f := range sub.faults {
		f.Path = join("products."+p.Name, f.Path)
		r.faults = append(r.faults, f)
	}
	for _, src := range sub.sources[1:] {
		if !r.sourceSeen(r.sources, src) {
			r.sources = append(r.sources, src) // its data files are part of what the scenario is made from
		}
	}
	for _, w := range sub.trail.warnings {
		r.ownWarning(p.Name, w)
	}
}

// ownWarning keeps a doubt that concerns this product alone.
func (r *reader) ownWarning(product string, w Warning) {
	if !slices.ContainsFunc(r.trail.warnings, func(x Warning) bool { return x.Text == w.Text }) {
		r.trail.warn(w.Code, product+": "+w.Text)
	}
}

// ownTree makes of a product's fields and dotted paths what is laid over the line.
func (r *reader) ownTree(p *ProductLine) *node {
	product := &node{kind: group, at: p.node.at}
	rest := &node{kind: group, at: p.node.at}
	fields := fieldsOf(reflect.TypeFor[Product]())
	for _, x := range p.node.pairs {
		switch {
		case x.key == "group":
		case find(fields, x.key) != nil:
			product.pairs = append(product.pairs, x)
		default:
			rest.pairs = append(rest.pairs, x)
		}
	}
	if product.get("name") == nil {
		product.pairs = append(product.pairs, &pair{key: "name", at: p.node.at, value: &node{kind: word, text: p.Name, at: p.node.at}})
	}
	over := r.expand(rest, p.node.at.variant)
	for _, x := range over.pairs {
		r.onlyOwn("products."+p.Name, x.key, x)
	}
	over.pairs = append(over.pairs, &pair{key: "product", at: p.node.at, value: product})
	return over
}

// onlyOwn refuses what a product cannot change.
func (r *reader) onlyOwn(under, path string, x *pair) {
	if slices.Contains(ownValues, path) {
		return
	}
	if x.value.kind == group && slices.ContainsFunc(ownValues, func(own string) bool { return strings.HasPrefix(own, path+".") }) {
		for _, y := range x.value.pairs {
			r.onlyOwn(under, join(path, y.key), y)
		}
		return
	}
	names := slices.Concat(namesOf(fieldsOf(reflect.TypeFor[Product]())), []string{"group"}, ownValues)
	r.add(x.at, join(under, path), fmt.Sprintf("%s for one product", quote(path)), "one of "+strings.Join(names, ", "),
		"the line is the same for all products; a line that differs is another scenario or a variant")
}
