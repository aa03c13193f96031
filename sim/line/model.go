package line

import (
	"fmt"

	"pascaline/scenarios"
	"pascaline/sim/clock"
	"pascaline/sim/press"
	"pascaline/sim/random"
)

// Model is a scenario made ready for many replications: what is the same in all of them is worked out once. It does not change
// after New and may be used from several goroutines.
type Model struct {
	s       *scenarios.Scenario
	laws    map[string]random.Law   // by name of the draw
	worked  map[string]press.Worked // times of the vessel that nobody took, by name of the product
	frozen  bool
	quicker quicker // a station that works faster than the scenario says, if any
}

// Options of one replication.
type Options struct {
	Seed        uint64
	Replication int
	Pure        bool                                   // every slot is a simgo event too: slow, for comparison only
	CycleEnds   bool                                   // keep when each vessel cycle ended
	Film        clock.Tick                             // take a film with a frame every so often; 0: none
	Trace       func(key int64, name string, what int) // told of every entry of the calendar, if set
	stepwise    bool                                   // nobody goes ahead: an entry of the calendar for each step, for comparison
	lookAlways  bool                                   // every unit that comes makes its station look around, for comparison
}

// New makes a scenario ready. The error names a distribution that cannot be drawn from, or a part that no line can be built of.
func New(s *scenarios.Scenario) (*Model, error) {
	return newModel(&Model{s: s})
}

func newModel(m *Model) (*Model, error) {
	m.laws, m.worked = map[string]random.Law{}, map[string]press.Worked{}
	l, err := m.Line(Options{})
	if err != nil {
		return nil, err
	}
	l.cal.Close()
	m.frozen = true
	return m, nil
}

// Scenario is what the model was made of.
func (m *Model) Scenario() *scenarios.Scenario { return m.s }

// Line builds the line of one replication.
func (m *Model) Line(o Options) (*Line, error) {
	b := &builder{m: m, s: m.s, o: o}
	b.l = newLine(o.Pure)
	b.l.cal.Trace(o.Trace)
	b.build()
	if b.err != nil {
		return nil, b.err
	}
	if o.Film > 0 {
		b.l.filmed(o.Film)
	}
	return b.l, nil
}

func newLine(pure bool) *Line {
	l := &Line{cal: clock.New()}
	if pure {
		l.cal = clock.NewPure()
	}
	l.agenda = newAgenda(l)
	l.back = &alarm{l: l}
	l.back.slot = l.cal.Add("ends of breaks", l.back, 0)
	l.blame = &blame{l: l, at: none, byKey: map[chargeKey]int{}}
	return l
}

// builder builds one line. The first error stays.
type builder struct {
	m   *Model
	s   *scenarios.Scenario
	o   Options
	l   *Line
	err error

	steps    int
	step     clock.Tick
	stretch  *stretch
	pending  *inbox // places that the next station takes its units from
	givers   []int  // nodes that give to what comes next
	setNext  []func(taker)
	belts    []*belt
	startsAt clock.Tick
}

func (b *builder) fail(format string, a ...any) {
	if b.err == nil {
		b.err = fmt.Errorf(format, a...)
	}
}

// law gives the distribution of a named draw, worked out once for a model.
func (b *builder) law(name string, of func() (random.Law, error)) random.Law {
	if x, ok := b.m.laws[name]; ok {
		return x
	}
	x, err := of()
	if err != nil {
		b.fail("%s: %w", name, err)
		return nil
	}
	if !b.m.frozen {
		b.m.laws[name] = x
	}
	return x
}

// stream is the stream of random numbers of one purpose in this replication.
func (b *builder) stream(name string) random.Stream {
	return random.Named(b.o.Seed, b.o.Replication, name)
}

// draw is a time drawn for one purpose.
func (b *builder) draw(name string, t *scenarios.Time) random.Draw {
	law := scenarios.Law{Shape: scenarios.Constant}
	if t != nil {
		law = t.Law()
	}
	if law.Shape == "" {
		law.Shape = scenarios.Constant
	}
	return b.drawLaw(name, law)
}

func (b *builder) drawLaw(name string, law scenarios.Law) random.Draw {
	x := b.law(name, func() (random.Law, error) {
		x, err := random.NewLaw(law)
		if f := b.m.quicker.factor(name); err == nil && f != 1 {
			x = random.Scaled(x, f)
		}
		return x, err
	})
	if x == nil {
		x, _ = random.NewLaw(scenarios.Law{Shape: scenarios.Constant})
	}
	return random.NewDraw(x, b.stream(name), name)
}

// drawEach is a time drawn for one purpose, by kind of product. All kinds draw from one stream: what is drawn belongs to a thing's number.
func (b *builder) drawEach(name string, of func(s *scenarios.Scenario) *scenarios.Time) []random.Draw {
	var list []random.Draw
	for i, s := range b.kinds() {
		if i == 0 {
			list = append(list, b.draw(name, of(s)))
			continue
		}
		list = append(list, b.drawFor(name, s, of(s)))
	}
	return list
}

// drawFor is a time of one of several products.
func (b *builder) drawFor(name string, s *scenarios.Scenario, t *scenarios.Time) random.Draw {
	d := b.draw(name+" of "+string(s.Product.Name), t)
	return d.From(b.stream(name))
}

// eachKind is something of each kind of product.
func eachKind[T any](b *builder, of func(s *scenarios.Scenario) T) []T {
	var list []T
	for _, s := range b.kinds() {
		list = append(list, of(s))
	}
	return list
}

// constant is a time that is always the same.
func (b *builder) constant(name string, t *scenarios.Time) clock.Tick {
	d := b.draw(name, t)
	x, ok := d.Constant()
	if !ok {
		b.fail("%s: must be one value", name)
	}
	return x
}

// pool finds a pool by its name; the reader has already taken "1 packer" for the pool packers.
func (b *builder) pool(name string) *pool {
	if name == "" {
		return nil
	}
	for _, p := range b.l.pools {
		if p != nil && p.name == name {
			return p
		}
	}
	b.fail("no pool of people is called %q", name)
	return nil
}
