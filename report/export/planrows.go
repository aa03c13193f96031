package export

import "math"

// yearRows are the rows of an option's sheet, in order.
func (p *plan) yearRows() []yearRow {
	rows := append(p.sideRows("b", "as it stands", &sideValues{p: p, base: true}), p.sideRows("o", "with it", &sideValues{p: p})...)
	return append(rows, p.flowRows()...)
}

// sideRows are what one side sells, earns and costs in a year.
func (p *plan) sideRows(side, name string, v *sideValues) []yearRow {
	in := func(f string) string { return replaceSide(f, side) }
	return []yearRow{
		{"sold " + side, "sold in a week, " + name, "packs", moneyFormat, "", in(`IF({S:all}="yes",{S:packs},MIN({S:packs},{S:demand}*(1+{S:growth})^({year}-1)))`), v.sold},
		{"used " + side, "share of its hours that is needed, " + name, "", "0.0%", "", in(`IF({S:packs}=0,1,{sold S}/{S:packs})`), v.used},
		{"level " + side, "level of prices, " + name, "", "0.000", "", in(`(1+{S:rise})^({year}-1)`), v.level},
		{"earned " + side, "earned, " + name, p.r.Currency, moneyFormat, "", in(`{sold S}*{S:weeks}*({S:pack}-{S:variable})*{level S}`), v.earned},
		{"people " + side, "people, " + name, p.r.Currency, moneyFormat, "", p.people(side), v.people},
		{"running " + side, "energy, water and wear, " + name, p.r.Currency, moneyFormat, "", in(`{S:cycles}*{used S}*{S:weeks}*{level S}*({S:energy}+{S:water}+{S:wear})`), v.running},
	}
}

const (
	lostPacks = `({sold b>}*{b:weeks}-MIN({sold b>}*{b:weeks},{b:packs}*MAX(0,{b:weeks}-{o:stands}/{b:rostered})))`
	lostMoney = lostPacks + `*(({b:pack}-{b:variable})-{b:cycles}/{b:packs}*({b:energy}+{b:water}+{b:wear}))`
)

func (p *plan) flowRows() []yearRow {
	cur, lines := p.r.Currency, p.o.Lines
	sums, sumsd := make([]float64, len(lines)), make([]float64, len(lines))
	rate := p.r.Base.Side.Rate
	discounted := func(t int) float64 { return lines[t].Flow / math.Pow(1+rate, float64(t)) }
	for t := range lines {
		sums[t], sumsd[t] = lines[t].Flow, discounted(t)
		if t > 0 {
			sums[t] += sums[t-1]
			sumsd[t] += sumsd[t-1]
		}
	}
	cross := func(s []float64, flow func(int) float64) func(int) float64 {
		return func(t int) float64 {
			if t == 0 || s[t-1] >= 0 || s[t] < 0 {
				return math.NaN()
			}
			return float64(t-1) - s[t-1]/flow(t)
		}
	}
	return []yearRow{
		{"earned", "more earned", cur, moneyFormat, `IF(OR({o:stands}=0,{b:packs}=0),0,-(` + lostMoney + `))`, `{earned o}-{earned b}`, func(t int) float64 { return lines[t].Earned }},
		{"people", "more paid for people", cur, moneyFormat, "", `{people o}-{people b}`, func(t int) float64 { return lines[t].People }},
		{"running", "more paid for energy, water and wear", cur, moneyFormat, "", `{running o}-{running b}`, func(t int) float64 { return lines[t].Running }},
		{"upkeep", "maintenance", cur, moneyFormat, "", `{o:upkeep}*{level b}`, func(t int) float64 { return lines[t].Upkeep }},
		{"buying", "bought (below 0: got back)", cur, moneyFormat, `{o:price}+{o:installation}+{o:training}`, `IF({year}={last},-{o:rest},0)`, func(t int) float64 { return lines[t].Buying }},
		{"taxed", "taxed", cur, moneyFormat, `{earned}-{o:training}`, `{earned}-{people}-{running}-{upkeep}-IF({year}<={o:writeoff},({o:price}+{o:installation})/{o:writeoff},0)+` +
			`IF({year}={last},{o:rest}-IF({last}<{o:writeoff},({o:price}+{o:installation})*({o:writeoff}-{last})/{o:writeoff},0),0)`, p.taxed},
		{"tax", "tax", cur, moneyFormat, `{b:tax}*{taxed}`, `{b:tax}*{taxed}`, func(t int) float64 { return lines[t].Tax }},
		{"flow", "cash flow", cur, moneyFormat, `{earned}-{buying}-{tax}`, `{earned}-{people}-{running}-{upkeep}-{buying}-{tax}`, func(t int) float64 { return lines[t].Flow }},
		{"sum", "sum", cur, moneyFormat, `{flow}`, `{sum<}+{flow}`, func(t int) float64 { return sums[t] }},
		{"cross", "paid back at", "years", yearsFormat, "", `IF(AND({sum<}<0,{sum}>=0),{year}-1-{sum<}/{flow},"-")`, cross(sums, func(t int) float64 { return lines[t].Flow })},
		{"discounted", "cash flow with interest", cur, moneyFormat, `{flow}`, `{flow}/(1+{b:rate})^{year}`, discounted},
		{"sumd", "sum with interest", cur, moneyFormat, `{discounted}`, `{sumd<}+{discounted}`, func(t int) float64 { return sumsd[t] }},
		{"crossd", "paid back with interest at", "years", yearsFormat, "", `IF(AND({sumd<}<0,{sumd}>=0),{year}-1-{sumd<}/{discounted},"-")`, cross(sumsd, discounted)},
	}
}

// taxed is the gain that is taxed in a year.
func (p *plan) taxed(t int) float64 {
	l, b := p.o.Lines[t], p.o.Buy
	if t == 0 {
		return l.Earned - b.Training
	}
	asset, over, last := b.Price+b.Installation, writeOff(p.o), len(p.o.Lines)-1
	v := l.Earned - l.People - l.Running - l.Upkeep
	if float64(t) <= over {
		v -= asset / over
	}
	if t == last {
		v += b.Rest
		if float64(last) < over {
			v -= asset * (over - float64(last)) / over
		}
	}
	return v
}
