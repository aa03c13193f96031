package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"pascaline/scenarios/units"
)

var lotRules = []func(*checker){
	(*checker).lotsAlone, (*checker).productsUsed, (*checker).lotNames, (*checker).lotTimes, (*checker).lotsWhole, (*checker).keptApart,
	(*checker).changeovers, (*checker).setFor, (*checker).lotInWork,
}

// lotsAlone: lots are what enters the first station, and the fields that speak of lots need some.
func (c *checker) lotsAlone() {
	if !c.s.Several() {
		for _, path := range []string{"products", "week_of", "changeovers", "kept_apart", "set_for", "lot_order", "run.starts.lot"} {
			if c.written(path) {
				c.fault(path, path+" without lots", "lots: a list of lots", "they say which product comes when", "lots")
			}
		}
		return
	}
	names := c.s.Stations()
	if c.s.Supply != nil && !c.s.Supply.WithoutEnd {
		c.fault("supply", "supply beside lots", "one of the two", "the lots are what enters the first station")
	}
	if len(names) > 0 && stationNamed(names[0]).fed(c.s) != nil {
		c.fault(names[0]+".fed", "fed beside lots", "one of the two", "the lots are what enters the first station")
	}
	if !c.written("run.one_replication") {
		c.s.Run.OneReplication = Length{UntilFinished: true}
		c.r.trail.defaults["run.one_replication"] = "until finished"
	}
}

// productsUsed: each lot is of a product that there is; with one product alone it need not be named.
func (c *checker) productsUsed() {
	var names []string
	for i := range c.s.Products {
		names = append(names, c.s.Products[i].Name)
	}
	for i := range c.s.Lots {
		l := &c.s.Lots[i]
		path := fmt.Sprintf("lots[%d].product", i+1)
		switch {
		case l.Product == "" && len(names) == 1:
			l.Product = units.Text(names[0])
		case l.Product == "" && len(names) > 1:
			c.fault(path, "no product", orList(quoted(names)), "there are several")
		case l.Product != "" && len(names) == 0:
			c.fault(path, quote(string(l.Product)), "no product here, or products: with their names", "there is only one product")
		case l.Product != "" && !slices.Contains(names, string(l.Product)):
			c.fault(path, quote(string(l.Product)), orList(quoted(names)), didYouMean(string(l.Product), names), "products")
		}
	}
}

func (c *checker) lotNames() {
	seen := map[units.Text]int{}
	for i := range c.s.Lots {
		l := &c.s.Lots[i]
		if first, ok := seen[l.Lot]; ok && l.Lot != "" {
			c.fault(fmt.Sprintf("lots[%d].lot", i+1), quote(string(l.Lot)), "a name of its own", fmt.Sprintf("lot number %d of the list has it too", first))
			continue
		}
		seen[l.Lot] = i + 1
	}
}

// lotTimes: a lot is due after the start, and after it is ready.
func (c *checker) lotTimes() {
	if !c.s.Several() {
		return
	}
	c.starts()
	start := c.s.Run.Starts.At.At
	for i := range c.s.Lots {
		l := &c.s.Lots[i]
		path := fmt.Sprintf("lots[%d]", i+1)
		c.dated(path+".ready", &l.Ready)
		c.dated(path+".due", l.Due)
		if l.Due == nil {
			continue
		}
		due, ready := l.Due.After(start), l.Ready.After(start)
		switch {
		case due <= 0:
			c.fault(path+".due", quote(l.Due.String()), "a time after the start, "+c.s.Run.Starts.At.String(), "a day of the week after is written week 2 Tue 14:00", "run.starts")
		case due < ready:
			c.fault(path+".due", quote(l.Due.String()), "a time after the lot is ready, "+l.Ready.String(), "", path+".ready", "run.starts")
		}
	}
}

// dated places a day of the calendar in the weeks of the run.
func (c *checker) dated(path string, w *units.When) {
	switch {
	case w == nil || !w.Dated():
	case c.s.WeekOf == nil:
		c.fault(path, quote(w.String()), "a time of the week, such as Tue 14:00, or week_of: a day of the week in which the run starts", "a date can only be placed when it is known which week is simulated", "week_of")
	default:
		w.Resolve(c.s.WeekOf.Monday())
	}
}

// lotsWhole: with lots every load and case is closed at the end of its lot.
func (c *checker) lotsWhole() {
	if !c.s.Several() {
		if c.s.Vessel != nil && c.written("vessel.mixed_loads") && !c.r.own {
			c.fault("vessel.mixed_loads", "mixed_loads without lots", "lots: a list of lots", "")
		}
		return
	}
	if c.s.Product.LastCase == "left open" {
		c.fault("product.last_case", c.said("product.last_case"), "closed part full", "with lots the last case of each is closed")
	}
	if c.s.Vessel != nil && c.s.Vessel.PartLoad.AtEnd == "left" {
		c.fault("vessel.part_load.at_end", c.said("vessel.part_load.at_end"), "taken", "with lots the last load of each is taken as it is")
	}
}

// keptApart names stations after the vessel, or the vessel and before, that there are.
func (c *checker) keptApart() {
	names := c.s.Stations()
	for i, x := range c.s.KeptApart {
		if !slices.Contains(names, string(x)) || x == "infeed" || x == "drain" {
			names = slices.DeleteFunc(slices.Clone(names), func(n string) bool { return n == "infeed" || n == "drain" })
			c.fault(fmt.Sprintf("kept_apart[%d]", i+1), quote(string(x)), orList(quoted(names)), didYouMean(string(x), names))
		}
	}
}

// kinds are the products and groups by which a changeover can be told.
func (c *checker) kinds() (names []string) {
	add := func(n units.Text) {
		if n != "" && !slices.Contains(names, string(n)) {
			names = append(names, string(n))
		}
	}
	for i := range c.s.Products {
		add(units.Text(c.s.Products[i].Name))
		add(c.s.Products[i].Group)
	}
	for i := range c.s.Lots {
		add(c.s.Lots[i].Group)
	}
	return names
}

func (c *checker) changeovers() {
	stations := slices.DeleteFunc(append(c.s.Stations(), "line"), func(n string) bool { return n == "infeed" || n == "drain" || n == "table" })
	kinds := c.kinds()
	for i := range c.s.Changeovers {
		x := &c.s.Changeovers[i]
		path := fmt.Sprintf("changeovers[%d]", i+1)
		if !slices.Contains(stations, string(x.Station)) {
			c.fault(path+".station", quote(string(x.Station)), orList(quoted(stations)), didYouMean(string(x.Station), stations))
		}
		c.kind(path+".from", string(x.From), append(slices.Clone(kinds), "any"))
		c.kind(path+".to", string(x.To), append(slices.Clone(kinds), "any", "same product", "other product", "other group"))
		if mean := x.Takes.Law().MeanUsed(); x.Before.Seconds() > mean {
			c.fault(path+".before_the_stop", c.said(path+".before_the_stop"), "at most what it takes in all", "it is a part of that", path+".takes")
		}
	}
}

func (c *checker) kind(path, text string, allowed []string) {
	if text != "" && !slices.Contains(allowed, text) {
		c.fault(path, quote(text), orList(quoted(allowed)), didYouMean(text, allowed), "products", "lots")
	}
}

func (c *checker) setFor() {
	if c.s.SetFor != "" {
		c.kind("set_for", string(c.s.SetFor), c.kinds())
	}
}

// lotInWork: where the line stands at the start is told of a lot in the list, and of stations that there are.
func (c *checker) lotInWork() {
	st := &c.s.Run.Starts
	has := c.s.Stations()
	if st.Lot == "" {
		for _, p := range []string{"left", "infeed", "drain", "table"} {
			if c.written("run.starts." + p) {
				c.fault("run.starts."+p, p+" without lot", "lot: the lot in work", "")
			}
		}
		return
	}
	i := slices.IndexFunc(c.s.Lots, func(l Lot) bool { return l.Lot == st.Lot })
	if i < 0 {
		var names []string
		for k := range c.s.Lots {
			names = append(names, string(c.s.Lots[k].Lot))
		}
		c.fault("run.starts.lot", quote(string(st.Lot)), "one of the lots: "+strings.Join(names, ", "), didYouMean(string(st.Lot), names), "lots")
		return
	}
	for _, p := range []string{"infeed", "drain", "table"} {
		switch {
		case !c.written("run.starts." + p):
		case !slices.Contains(has, p):
			c.fault("run.starts."+p, p, "a station of this line", "there is no "+p)
		case !c.s.emptied(p):
			c.fault("run.starts."+p, p, "places that a station empties", fmt.Sprintf("without %s after it nothing stays there", emptiedBy[p]))
		default:
			c.standingFits(p)
		}
	}
	c.standingCarriers()
}

// standingCarriers: no more full carriers stand on the line at the start than there are.
func (c *checker) standingCarriers() {
	st, owned := &c.s.Run.Starts, c.s.Carriers
	if c.s.Loading == nil || owned == nil || owned.Owned == 0 || st.Infeed+st.Drain <= owned.Owned {
		return
	}
	c.fault("run.starts", fmt.Sprintf("%d full carriers at infeed and drain", st.Infeed+st.Drain), fmt.Sprintf("at most the %d carriers owned", owned.Owned), "", "run.starts.infeed", "carriers.owned")
}

// standingFits: no more stands at places at the start than they have.
func (c *checker) standingFits(places string) {
	st := &c.s.Run.Starts
	var n, most units.Count
	endless := false
	switch places {
	case "infeed":
		n, most, endless = st.Infeed, c.s.Infeed.Places, c.s.Infeed.Places == 0 && !c.s.Infeed.None
	case "drain":
		n, most, endless = st.Drain, c.s.Drain.Places, c.s.Drain.Places == 0 && !c.s.Drain.None
	case "table":
		n, endless = st.Table, c.s.Table.Places == nil
		if !endless {
			most = *c.s.Table.Places
		}
	}
	if n > most && !endless {
		c.fault("run.starts."+places, c.said("run.starts."+places), fmt.Sprintf("at most the %d places of the %s", most, places), "", places+".places")
	}
}

// inWork: what is on the line and what is left make no more than the lot. It is asked when the products have been read.
func (c *checker) inWork() {
	st := &c.s.Run.Starts
	i := slices.IndexFunc(c.s.Lots, func(l Lot) bool { return l.Lot == st.Lot })
	if st.Lot == "" || i < 0 {
		return
	}
	l := &c.s.Lots[i]
	packs := st.Table + (st.Infeed+st.Drain)*c.s.ProductNamed(string(l.Product)).Product.PacksPerCarrier
	if st.Left != nil {
		packs += *st.Left
	}
	if packs == 0 && st.Left != nil {
		c.fault("run.starts.left", c.said("run.starts.left"), "some packs, or the lot after it as the lot in work", fmt.Sprintf("nothing of lot %s is left and nothing of it stands on the line: it is done", l.Lot))
	}
	if packs > l.Quantity {
		c.fault("run.starts", fmt.Sprintf("%d packs of lot %s", packs, l.Lot), fmt.Sprintf("at most its %d packs", l.Quantity), "left and what stands on the line make more than the lot")
	}
}
