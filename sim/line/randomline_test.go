package line

import "fmt"

// belts writes the shaker and the dryer, or one of them. With apart the dryer begins a stretch of its own: two stretches share people.
func (w *writer) belts(apart bool) {
	both := w.n("which belts", 0, 5)
	if both != 1 || apart {
		w.belt("shaker", 1, "")
	}
	if both == 0 && !apart {
		return
	}
	wet := ""
	switch w.n("wet", 0, 3) {
	case 0:
		wet = fmt.Sprintf(", wet: {share: %d %%, drawn: %s, then: wiped by hand, takes: 3 s, by: %s%s}", w.n("wet %", 1, 30), w.one("drawn", "by count", "by chance"), w.one("wiped by", "1 packer", "1 hand", "2 packers", "machine"), w.some("wet places", ", places: 3", ", places: 1"))
	case 1:
		wet = fmt.Sprintf(", wet: {share: %d %%, drawn: %s, then: sent round %s, takes: %d s%s}", w.n("wet %", 1, 30), w.one("drawn", "by count", "by chance"), w.one("rounds", "once", "every time"), w.n("round", 0, 20), w.some("return places", ", places: 1", ", places: 4"))
	}
	if apart {
		wet += fmt.Sprintf(", fed: {every: {%s}, batch: %d}", w.time("fed", 2), w.n("fed batch", 1, 9))
	}
	w.belt("dryer", 3, wet+w.tubs("dryer"))
}

func (w *writer) belt(name string, lanes int, more string) {
	leakers := fmt.Sprintf("%d %%", w.n(name+" leakers", 0, 10))
	if w.yes(name + " leakers by count") {
		leakers = fmt.Sprintf("{share: %d %%, drawn: by count}", w.n(name+" leakers", 1, 20))
	}
	if w.yes(name + " tight") {
		more += fmt.Sprintf(", places: %d", w.n(name+" places", 1, 20))
	}
	if w.yes(name + " alone") {
		lanes = 1
	}
	w.station(name, "lanes: %d, travel: %d s, rate: %d/min, places_before: %d, standing: %s, leakers: %s%s", w.n(name+" lanes", 1, lanes), w.n(name+" travel", 0, 30), w.rate(name+" rate", 10, 200),
		w.n(name+" before", 0, 20), w.one(name+" standing", "packs close up", "belt stands still"), leakers, more)
}

func (w *writer) tubs(of string) string {
	if w.n(of+" tubs", 0, 3) > 0 {
		return ""
	}
	return fmt.Sprintf(", tubs: {tubs: %d, packs_per_tub: %d, fed_back_below: %d, takes: 20 s, by: %s}", w.n("tubs n", 1, 5), w.n("tub", 1, 30), w.n("below", 1, 10), w.one("tub by", "machine", "1 hand"))
}

// packing writes the line from the labeller to the palletiser.
func (w *writer) packing(perCase int) {
	if w.n("labeller", 0, 3) == 0 {
		w.station("labeller", "rate: %d/min, places_before: %d, heads: %d", w.rate("labeller rate", 20, 200), w.n("labeller before", 0, 9), w.n("labeller heads", 1, 3))
	}
	if w.n("checkweigher", 0, 2) == 0 {
		w.station("checkweigher", "rate: %d/min, places_before: %s, rejects: {share: %d %%, drawn: %s}, by: %s, heads: %d, blocking: %s", w.rate("weigher rate", 20, 200), w.one("weigher before", "0", "1", "5", "without end"), w.n("rejects", 0, 9),
			w.one("rejects drawn", "by chance", "by count"), w.one("weigher by", "machine", "1 hand"), w.n("heads", 1, 3), w.one("weigher blocking", "after", "before"))
	}
	if w.n("no table", 0, 7) > 0 {
		w.station("table", "places: %d%s", perCase+w.n("table", 0, 60), w.tubs("table"))
	}
	if w.n("no packing", 0, 7) == 0 {
		return
	}
	w.station("packing", "benches: %d, crew: %s, time: {%s, per: %s}, per_case: %d s, blocking: %s", w.n("benches", 1, 4), w.one("packer", "machine", "1 hand", "2 packers", "1 packer"), w.time("pack", 6), w.one("pack per", "case", "pack"), w.n("per case s", 0, 9), w.one("pack blocking", "after", "before"))
	if w.yes("sealer") {
		w.station("sealer", "time: {%s}, places_before: %d", w.time("seal", 8), w.n("seal before", 0, 3))
	}
	if w.n("palletiser", 0, 3) == 0 {
		w.station("palletiser", "time: %d s, places_before: %d, by: %s", w.n("stack", 1, 20), w.n("stack before", 0, 3), w.one("stacked by", "machine", "1 packer"))
	}
}
