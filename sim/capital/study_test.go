package capital

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// benches packs 100 a bench and hour, without chance; a second bench makes 100 x 168 x 50 = 840,000 packs a year more.
const benches = `scenario: benches
packing: {time: 36 s}
run: {one_replication: 1 h}
money:
  contribution: {low: 1 EUR/pack, high: 3 EUR/pack}
  demand: {now: 1000000 packs/week}
variants:
  second: {packing.benches: 2, money.buy: {purchase: 8400000 EUR, life: 30 years}}
  short-lived: {packing.benches: 2, money.buy: {purchase: 8400000 EUR, life: 5 years}}
`

func ask(t *testing.T, text string) *Question {
	t.Helper()
	path := filepath.Join(t.TempDir(), "s.yaml")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	read := func(names []string) (*scenarios.Scenario, error) {
		s, faults, err := scenarios.ReadTogether(path, names)
		if err != nil || len(faults) > 0 {
			t.Fatal(err, faults)
		}
		return s, nil
	}
	base, _ := read(nil)
	q := &Question{Base: base, Draws: 5000, Together: read, Instead: func(a, b string) []string {
		fields, err := scenarios.Contradict(path, a, b)
		if err != nil {
			t.Fatal(err)
		}
		return fields
	}}
	names, _, err := scenarios.Variants(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		s, _ := read([]string{name})
		q.Options = append(q.Options, Option{Name: name, Kind: KindOf(base, s), Scenario: s})
	}
	return q
}

func answer(t *testing.T, q *Question, o study.Options) *result.Payback {
	t.Helper()
	if err := q.Check(); err != nil {
		t.Fatal(err)
	}
	r, err := Study(t.Context(), q, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Packing at 36 s holds the line back; a second labeller head alone brings nothing and pays only beside a second bench. Two ways to have the second bench
// contradict each other.
const steps = `scenario: steps
labeller: {time: 20 s, places_before: 5}
table: {places: 20}
packing: {time: 36 s}
run: {one_replication: 4 h}
money: {contribution: 1 EUR/pack}
variants:
  labeller: {labeller.heads: 2, money.buy.purchase: 100000 EUR}
  bench: {packing.benches: 2, money.buy: {purchase: 100000 EUR, training: 1000000 EUR}}
  three benches: {packing.benches: 3, money.buy.purchase: 2900000 EUR}
  gold plating: {product.name: gold, money.buy.purchase: 100000 EUR}
`

func TestOrderOfBuying(t *testing.T) {
	r := answer(t, ask(t, steps), study.Options{Seed: 1, Replications: 2, Workers: 2})
	var names []string
	for _, s := range r.Order.Steps {
		names = append(names, s.Name)
	}
	if !slices.Equal(names, []string{"bench", "labeller", "gold plating"}) {
		t.Fatalf("%q", names)
	}
	bench, labeller, gold := r.Order.Steps[0], r.Order.Steps[1], r.Order.Steps[2]
	if !bench.Worth || !labeller.Worth || gold.Worth {
		t.Error("worth buying is told wrongly")
	}
	if gold.Gain.Mean != 0 || *gold.Gain.HalfWidth != 0 {
		t.Errorf("what changes nothing gains %+v", gold.Gain)
	}
	if labeller.NPVAlone >= 0 || labeller.NPV <= 0 {
		t.Errorf("the labeller is worth %v alone and %v beside the bench", labeller.NPVAlone, labeller.NPV)
	}
	if !near(labeller.Together, bench.NPV+labeller.NPV) || !slices.Equal(bench.Instead, []string{"three benches"}) {
		t.Errorf("together %v, instead %q", labeller.Together, bench.Instead)
	}
	if math.Abs(bench.Gain.Mean-(180-100)*168) > 2*168 || math.Abs(labeller.Gain.Mean-(200-180)*168) > 2*168 { // 3600/36, 3600/20, 2 x 3600/36 an hour, less the start
		t.Errorf("gains %v and %v", bench.Gain.Mean, labeller.Gain.Mean)
	}
}

// What the draws make of the simulation's doubt has the variance of a mean, s²/n, and a joint draw moves the line and its option together.
func TestDoubtOfTheSimulation(t *testing.T) {
	s := &Sample{Sides: [][]Output{nil, nil}, WeekH: []float64{168, 168}, Replication: 20}
	for i := range 20 {
		s.Sides[0] = append(s.Sides[0], Output{Packs: float64(100 + i*i%7)})
		s.Sides[1] = append(s.Sides[1], Output{Packs: float64(130 + i*i%7)})
	}
	q := ask(t, benches)
	p, err := newPlant(q.Base, q.Options[:1])
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range p.guesses { // as planned, so that only the simulation varies
		g.Law = constantLaw(t, g.Central)
	}
	p.central.Buys[0].Life = 1
	p.fill(p.central, s, nil)
	const n = 4000
	out := p.draws(s, 3, n)
	gain := study.Sample(out[0].NPV)
	if sd := gain.SD(); sd > 1e-6*math.Abs(gain.Mean()) {
		t.Errorf("the gain is always 30 and varies by %v", sd)
	}
	packs := s.packs(0)
	var means study.Sample
	for d := range n {
		means = append(means, s.mean(0, drawnAgain(s, 3, d)).Packs)
	}
	want := packs.SD() / math.Sqrt(20)
	if got := means.SD(); math.Abs(got-want) > 4*want/math.Sqrt(2*n) {
		t.Errorf("standard error %v, want %v", got, want)
	}
}

// The same seed gives the same answer on any number of workers; an interrupted study says so, or that nothing was done.
func TestSameOnAnyWorkers(t *testing.T) {
	q := ask(t, strings.Replace(benches, "time: 36 s", "time: {mean: 36 s, sd: 9 s}", 1))
	q.Draws = 300
	one := answer(t, q, study.Options{Seed: 5, Precision: 0.05, Workers: 1})
	many := answer(t, q, study.Options{Seed: 5, Precision: 0.05, Workers: 3})
	if !reflect.DeepEqual(one, many) {
		t.Error("the number of workers changes the answer")
	}
	if one.Replications.StoppedBy != "precision" || one.Replications.N < study.Least {
		t.Errorf("%+v", one.Replications)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if r, err := Study(ctx, q, study.Options{Seed: 5, Workers: 1}); err == nil {
		t.Errorf("nothing was done and the answer is %v", r)
	}
	ctx, cancel = context.WithCancel(t.Context())
	r, err := Study(ctx, q, study.Options{Seed: 5, Workers: 1, Progress: func(n int, _ float64) {
		if n == 3 {
			cancel()
		}
	}})
	if err != nil || !r.Replications.Incomplete || r.Replications.N < 3 || len(r.Order.Steps) > 0 {
		t.Errorf("%v, %v", r, err)
	}
}

// A figure that a variant changes is a figure of its own; what it leaves is drawn once for both.
func TestFiguresAreShared(t *testing.T) {
	q := ask(t, strings.Replace(benches, "short-lived: {", "short-lived: {money.contribution: 2 EUR/pack, ", 1))
	p, err := newPlant(q.Base, q.Options)
	if err != nil {
		t.Fatal(err)
	}
	var paths []string
	for _, g := range p.guesses {
		if strings.HasPrefix(g.Path, "money.contribution") || strings.HasPrefix(g.Path, "money.demand.now") || strings.HasPrefix(g.Path, "money.buy.purchase") {
			paths = append(paths, g.Path)
		}
	}
	want := []string{"money.contribution", "money.demand.now", "money.buy.purchase (second)", "money.contribution (short-lived)", "money.buy.purchase (short-lived)"}
	if !slices.Equal(paths, want) {
		t.Errorf("%q", paths)
	}
}

// What weakens the answer goes with it.
func TestWarnings(t *testing.T) {
	text := strings.NewReplacer("demand: {now: 1000000 packs/week}", "demand: {now: 9000 packs/week}", "short-lived: {packing.benches: 2", "short-lived: {money.tax: 20 %, packing.time: 36 s").Replace(benches)
	r := answer(t, ask(t, text), study.Options{Seed: 1, Replications: 1, Workers: 1})
	var codes []string
	for _, w := range r.Warnings {
		codes = append(codes, w.Code)
	}
	for _, want := range []string{"no roster", "demand met", "no doubt of the simulation", "one rate for all"} {
		if !slices.Contains(codes, want) {
			t.Errorf("no warning %q among %q", want, codes)
		}
	}
	dryer := strings.Replace(text, "packing: {time: 36 s}", "packing: {time: 36 s}\ndryer: {rate: 60/min, travel: 25 s, places: 25}", 1)
	r = answer(t, ask(t, strings.Replace(dryer, "second: {", "second: {dryer.places: 20, ", 1)), study.Options{Seed: 1, Replications: 1, Workers: 1})
	if !slices.ContainsFunc(r.Warnings, func(w result.Warning) bool { return w.Code == "belt places" && strings.HasPrefix(w.Text, "second: ") }) {
		t.Errorf("a doubt of one option only: %v", r.Warnings)
	}
	r = answer(t, ask(t, strings.Replace(text, "  demand: {now: 9000 packs/week}\n", "", 1)), study.Options{Seed: 1, Replications: 2, Workers: 1})
	if !slices.ContainsFunc(r.Warnings, func(w result.Warning) bool { return w.Code == "no demand" }) || r.Base.Wanted != 0 || r.Options[1].LowDemand != nil {
		t.Error("a demand that is not stated")
	}
	if !slices.ContainsFunc(r.Warnings, func(w result.Warning) bool { return w.Code == "no difference shown" }) {
		t.Error("an option without a gain is not told of")
	}
}

// Rate, tax, depreciation and the payback time asked for are those of the line as it stands, in every option, and a variant that states its own is told.
func TestOneRateForAll(t *testing.T) {
	base := strings.Replace(benches, "money:\n", "money:\n  discount_rate: 9 %\n  tax: 20 %\n  depreciation: 7 years\n", 1)
	for _, c := range []struct{ name, own string }{
		{"rate", "money.discount_rate: 30 %"}, {"tax", "money.tax: 40 %"}, {"depreciation", "money.depreciation: 3 years"}, {"payback time", "money.pays_within: 9 years"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := answer(t, ask(t, strings.Replace(base, "short-lived: {", "short-lived: {"+c.own+", ", 1)), study.Options{Seed: 1, Replications: 2, Workers: 1})
			for _, o := range r.Options {
				if o.Side.Rate != 0.09 || o.Side.Tax != 0.2 || o.Side.WriteOff != 7 {
					t.Errorf("%s: rate %g, tax %g, written off in %d years; want 0.09, 0.2 and 7", o.Name, o.Side.Rate, o.Side.Tax, o.Side.WriteOff)
				}
			}
			if !slices.ContainsFunc(r.Warnings, func(w result.Warning) bool {
				return w.Code == "one rate for all" && strings.HasPrefix(w.Text, "short-lived: ")
			}) {
				t.Error("nothing says that the variant's own is not used")
			}
		})
	}
}

// Interrupted while it looks for the order of buying, when all else is done: the answer stands with the steps that were found, marked and told.
func TestInterruptedInTheOrder(t *testing.T) {
	q := ask(t, steps)
	ctx, cancel := context.WithCancel(t.Context())
	together := q.Together
	q.Together = func(names []string) (*scenarios.Scenario, error) {
		cancel()
		return together(names)
	}
	r, err := Study(ctx, q, study.Options{Seed: 1, Replications: 2, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	if !r.Replications.Incomplete || len(r.Options) != 5 || len(r.Order.Steps) != 1 || r.Order.Steps[0].Name != "bench" {
		t.Errorf("%+v, %d options, order %+v", r.Replications, len(r.Options), r.Order.Steps)
	}
	if !slices.ContainsFunc(r.Warnings, func(w result.Warning) bool { return w.Code == "interrupted" }) {
		t.Errorf("%v", r.Warnings)
	}
}

// Training alone, or hours in which the line stands, are bought: they have their place in the order. Outside the variants they would be bought by all.
func TestTrainingIsBought(t *testing.T) {
	text := strings.Replace(steps, "variants:", "variants:\n  school: {packing.time: 30 s, money.buy.training: 1000 EUR}", 1)
	r := answer(t, ask(t, text), study.Options{Seed: 1, Replications: 2, Workers: 2})
	if len(r.Order.Steps) == 0 || r.Order.Steps[0].Name != "school" && !slices.ContainsFunc(r.Order.Steps, func(s result.OrderStep) bool { return s.Name == "school" }) {
		t.Errorf("%+v", r.Order.Steps)
	}
	for _, cost := range []string{"training: 5 EUR", "installation: 5 EUR", "line_stands: 3 h"} {
		q := ask(t, strings.Replace(steps, "EUR/pack}", "EUR/pack, buy: {"+cost+"}}", 1))
		if err := q.Check(); err == nil || !strings.HasPrefix(err.Error(), "money.buy stands outside the variants") {
			t.Errorf("%s: %v", cost, err)
		}
	}
	if err := ask(t, strings.Replace(steps, "EUR/pack}", "EUR/pack, buy: {life: 5 years}}", 1)).Check(); err != nil {
		t.Error(err)
	}
}

// A pool that only a variant has, and of which no cost is said, is warned of by the variant's name; one that the line has too is told once.
func TestHoursWithoutACost(t *testing.T) {
	r := answer(t, ask(t, `scenario: x
packing: {crew: 1 packer, time: 36 s}
people: {packers: {heads: 1}}
run: {one_replication: 1 h}
money: {contribution: 1 EUR/pack}
variants:
  helpers: {people.helpers: {heads: 2, serve: [packing]}}
  paid: {people.helpers: {heads: 2, serve: [packing]}, money.people.helpers: 20 EUR/h}
`), study.Options{Seed: 1, Replications: 1, Workers: 1})
	var texts []string
	for _, w := range r.Warnings {
		if w.Code == "hours without a cost" {
			texts = append(texts, w.Text)
		}
	}
	want := []string{"money.people says nothing of packers: their hours cost nothing here.", "helpers: money.people says nothing of helpers: their hours cost nothing here."}
	if !slices.Equal(texts, want) {
		t.Errorf("%q", texts)
	}
}

// A range that ends at 0 or below has its bounds like any other; one value has none.
func TestBoundsOfRanges(t *testing.T) {
	for _, c := range []struct {
		growth    string
		low, high float64 // both 0: none
	}{
		{"{low: -5 %, high: 0 %}", -0.05, 0}, {"{low: -5 %, likely: -3 %, high: -1 %}", -0.05, -0.01}, {"{low: 1 %, high: 2 %}", 0.01, 0.02}, {"3 %", 0, 0},
	} {
		q := ask(t, strings.Replace(benches, "packs/week}", "packs/week, growth: "+c.growth+"}", 1))
		r := answer(t, q, study.Options{Seed: 1, Replications: 1, Workers: 1})
		i := slices.IndexFunc(r.Figures, func(f result.MoneyFigure) bool { return f.Path == "money.demand.growth" })
		f := r.Figures[i]
		if c.growth == "{low: -5 %, high: 0 %}" && (math.Abs(f.P10+0.045) > 1e-12 || math.Abs(f.P90+0.005) > 1e-12) { // all alike between them
			t.Errorf("P10 %v, P90 %v", f.P10, f.P90)
		}
		if (f.Low != nil) != (c.low != 0 || c.high != 0) || f.Low != nil && (math.Abs(*f.Low-c.low) > 1e-12 || math.Abs(*f.High-c.high) > 1e-12) {
			t.Errorf("%s: %+v", c.growth, f)
		}
	}
}
