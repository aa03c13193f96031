package clock

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
)

// note writes what happens and when.
type note struct {
	c     *Calendar
	lines []string
}

func (n *note) add(format string, a ...any) {
	n.lines = append(n.lines, fmt.Sprintf("%d ", n.c.Now())+fmt.Sprintf(format, a...))
}

func (n *note) want(t *testing.T, lines ...string) {
	t.Helper()
	if got, want := strings.Join(n.lines, "\n"), strings.Join(lines, "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// act is a Firer of a test.
type act func(what int)

func (a act) Fire(what int) { a(what) }

// both runs a test in both modes.
func both(t *testing.T, test func(t *testing.T, c *Calendar, n *note)) {
	for _, mode := range []struct {
		name string
		new  func() *Calendar
	}{{"merged", New}, {"pure", NewPure}} {
		t.Run(mode.name, func(t *testing.T) {
			c := mode.new()
			defer c.Close()
			test(t, c, &note{c: c})
		})
	}
}

func run(t *testing.T, c *Calendar, end Tick) {
	t.Helper()
	if err := c.Run(end); err != nil {
		t.Fatal(err)
	}
}

// player makes a random program: slots, tasks and signals that do things to one another.
type player struct {
	soon  *Soon
	c     *Calendar
	r     *rand.Rand
	slots []Slot
	tasks []*Task
	sigs  [3]Signal
	born  int
	log   func(format string, a ...any)
}

func newPlayer(seed uint64, c *Calendar, log func(format string, a ...any)) *player {
	p := &player{c: c, r: rand.New(rand.NewPCG(seed, 1)), log: log}
	c.Trace(func(key int64, name string, what int) { log("%d %s %d", key, name, what) })
	for i := range 7 {
		p.slots = append(p.slots, c.Add(fmt.Sprint("slot", i), act(p.fire), i))
	}
	p.soon = c.Soon("soon", act(func(int) { p.log("soon"); p.mess() }), 7)
	for i := range 5 {
		p.tasks = append(p.tasks, c.Go(fmt.Sprint("task", i), p.live))
	}
	c.Set(p.slots[0], 0, End)
	return p
}

func (p *player) phase() Phase    { return Phase(p.r.IntN(4)) }
func (p *player) signal() *Signal { return &p.sigs[p.r.IntN(len(p.sigs))] }
func (p *player) task() *Task     { return p.tasks[p.r.IntN(len(p.tasks))] }

// mess does a few things that anybody may do.
func (p *player) mess() {
	for range p.r.IntN(4) {
		s := p.slots[p.r.IntN(len(p.slots))]
		switch p.r.IntN(14) {
		case 0, 1, 2, 3:
			p.c.Set(s, p.c.Now()+Tick(p.r.IntN(4)), p.phase())
		case 4:
			p.c.Clear(s)
		case 5:
			p.signal().Raise()
		case 6:
			p.task().Pause()
		case 7, 8:
			p.task().Resume()
		case 9:
			p.task().Wake()
		case 10:
			p.log("left %d due %d", p.task().Left(), p.c.Due(s))
		case 12, 13:
			p.soon.Set()
		case 11:
			if p.born++; p.born < 20 {
				p.c.Go(fmt.Sprint("short", p.born), func(t *Task) { p.log("short %v", t.Sleep(Tick(p.r.IntN(9)))) })
			}
		}
	}
}

func (p *player) fire(i int) {
	p.log("%d fires", i)
	p.mess()
	if p.r.IntN(3) > 0 {
		p.c.Set(p.slots[i], p.c.Now()+Tick(p.r.IntN(5)), p.phase())
		if p.r.IntN(5) == 0 {
			p.c.Clear(p.slots[i])
		}
	}
	if p.r.IntN(3) == 0 {
		p.c.Set(p.slots[p.r.IntN(len(p.slots))], p.c.Now()+Tick(1+p.r.IntN(5)), p.phase())
	}
}

func (p *player) live(t *Task) {
	for {
		p.mess()
		switch p.r.IntN(6) {
		case 0:
			t.Wait(p.signal())
			p.log("%s waited", t.Name())
		case 1:
			p.log("%s raised %v", t.Name(), t.WaitUntil(p.signal(), p.c.Now()+Tick(p.r.IntN(6))))
		case 2:
			p.log("%s until %v", t.Name(), t.SleepUntil(p.c.Now()+Tick(p.r.IntN(5)), p.phase()))
		default:
			p.log("%s slept %v, %d left", t.Name(), t.Sleep(Tick(1+p.r.IntN(3))), t.Left())
		}
	}
}
