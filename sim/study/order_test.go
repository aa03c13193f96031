package study

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/line"
)

// job is a lot of one pack of its own product, with the minutes it takes at one station or two, and its due time in minutes.
type job struct{ first, second, due int }

// jobsScenario makes a line of one or two stations of jobs, in the given order.
func jobsScenario(t *testing.T, jobs []job, order []int, two bool) *scenarios.Scenario {
	t.Helper()
	var b strings.Builder
	b.WriteString("scenario: jobs\nlabeller: {time: 1 s}\n")
	if two {
		b.WriteString("checkweigher: {time: 1 s, places_before: without end}\n")
	}
	b.WriteString("products:\n")
	for i, j := range jobs {
		fmt.Fprintf(&b, "  p%d: {labeller.time: %d min", i, j.first)
		if two {
			fmt.Fprintf(&b, ", checkweigher.time: %d min", j.second)
		}
		b.WriteString("}\n")
	}
	b.WriteString("lots:\n")
	for _, i := range order {
		fmt.Fprintf(&b, "  - {lot: l%d, product: p%d, quantity: 1 pack, due: %d min}\n", i, i, jobs[i].due)
	}
	s, faults := scenarios.ReadBytes("jobs.yaml", []byte(b.String()))
	for _, f := range faults {
		t.Fatal(f)
	}
	return s
}

// outcomes of an order, in minutes.
type outcomes struct{ lateness, completion, makespan float64 }

func runJobs(t *testing.T, jobs []job, order []int, two bool) (o outcomes) {
	t.Helper()
	m, err := line.New(jobsScenario(t, jobs, order, two))
	if err != nil {
		t.Fatal(err)
	}
	r, err := One(m, line.Options{Seed: 1, Replication: 1})
	if err != nil {
		t.Fatal(err)
	}
	o.lateness = -1e9
	for k, i := range order {
		done := 60 * hours(r.Lots[k].Done)
		o.lateness = max(o.lateness, done-float64(jobs[i].due))
		o.completion += done / float64(len(jobs))
		o.makespan = max(o.makespan, done)
	}
	return o
}

// permutations of 0 to n-1.
func permutations(n int) (all [][]int) {
	if n == 0 {
		return [][]int{nil}
	}
	for _, p := range permutations(n - 1) {
		for i := 0; i < n; i++ {
			all = append(all, slices.Insert(slices.Clone(p), i, n-1))
		}
	}
	return all
}

var jobSets = [][]job{
	{{4, 5, 9}, {1, 6, 22}, {9, 3, 14}, {7, 2, 25}, {5, 8, 6}},
	{{3, 3, 12}, {3, 1, 4}, {8, 7, 30}, {2, 9, 11}, {6, 4, 13}},
	{{10, 1, 10}, {1, 10, 40}, {5, 5, 11}, {4, 6, 12}, {6, 4, 13}},
}

// best is the least of each outcome over all orders, by enumeration.
func best(t *testing.T, jobs []job, two bool) outcomes {
	least := outcomes{1e9, 1e9, 1e9}
	for _, p := range permutations(len(jobs)) {
		o := runJobs(t, jobs, p, two)
		least.lateness, least.completion, least.makespan = min(least.lateness, o.lateness), min(least.completion, o.completion), min(least.makespan, o.makespan)
	}
	return least
}

func sorted(jobs []job, less func(a, b job) int) []int {
	order := []int{0, 1, 2, 3, 4}
	slices.SortStableFunc(order, func(a, b int) int { return less(jobs[a], jobs[b]) })
	return order
}

// One machine, all jobs there at the start: earliest due date first minimises the greatest lateness (Jackson 1955: from memory), shortest
// first the mean completion (Smith 1956, Naval Research Logistics Quarterly 3:59: from memory). Both hold against all 120 orders of five lots.
func TestOneMachineRules(t *testing.T) {
	for n, jobs := range jobSets {
		t.Run(fmt.Sprint("set ", n+1), func(t *testing.T) {
			least := best(t, jobs, false)
			if o := runJobs(t, jobs, sorted(jobs, func(a, b job) int { return cmp.Compare(a.due, b.due) }), false); o.lateness != least.lateness {
				t.Errorf("earliest due date first: greatest lateness %g min, the least of all orders is %g", o.lateness, least.lateness)
			}
			if o := runJobs(t, jobs, sorted(jobs, func(a, b job) int { return cmp.Compare(a.first, b.first) }), false); o.completion-least.completion > 1e-9 {
				t.Errorf("shortest first: mean completion %g min, the least of all orders is %g", o.completion, least.completion)
			}
		})
	}
}

// Two machines one after the other: Johnson's rule (1954, Naval Research Logistics Quarterly 1:61: from memory) gives the least time for all.
func TestTwoMachineFlowShop(t *testing.T) {
	for n, jobs := range jobSets {
		t.Run(fmt.Sprint("set ", n+1), func(t *testing.T) {
			order := sorted(jobs, func(a, b job) int {
				early := func(j job) bool { return j.first < j.second }
				switch {
				case early(a) && early(b):
					return cmp.Compare(a.first, b.first)
				case early(a):
					return -1
				case early(b):
					return 1
				}
				return cmp.Compare(b.second, a.second)
			})
			if o, least := runJobs(t, jobs, order, true), best(t, jobs, true); o.makespan != least.makespan {
				t.Errorf("Johnson's order takes %g min, the least of all orders is %g", o.makespan, least.makespan)
			}
		})
	}
}

// The search finds the least lateness of all orders, and leaves an order that is best as it is.
func TestOrderFindsTheLeastLateness(t *testing.T) {
	for n, jobs := range jobSets {
		t.Run(fmt.Sprint("set ", n+1), func(t *testing.T) {
			o := OrderOptions{Options: Options{Seed: 1, Replications: 2, Workers: 1}, Goal: LeastLateness, Look: 1, Try: 200}
			r, err := Order(context.Background(), jobsScenario(t, jobs, []int{4, 3, 2, 1, 0}, true), o)
			if err != nil {
				t.Fatal(err)
			}
			if got, want := 60*r.Suggested.Value.Mean, best(t, jobs, true).lateness; got-want > 0.01 {
				t.Errorf("greatest lateness %g min, the least of all orders is %g", got, want)
			}
			var found []int
			for _, x := range r.Suggested.Lots {
				var i int
				fmt.Sscanf(x.Lot, "l%d", &i)
				found = append(found, i)
			}
			again, err := Order(context.Background(), jobsScenario(t, jobs, found, true), o)
			if err != nil {
				t.Fatal(err)
			}
			if !again.Same || again.Difference.Mean != 0 {
				t.Errorf("the best order is not left alone: %+v", again.Difference)
			}
		})
	}
}

// Least changeover: A B A B A becomes product after product, with one changeover instead of four.
func TestOrderLessensChangeovers(t *testing.T) {
	src := "scenario: x\nproducts: {A: {}, B: {}}\nlabeller: {time: 1 min}\nchangeovers: [{station: labeller, takes: 12 min}]\nlots:\n"
	for i, p := range []string{"A", "B", "A", "B", "A"} {
		src += fmt.Sprintf("  - {lot: l%d, product: %s, quantity: 10 packs}\n", i, p)
	}
	s, faults := scenarios.ReadBytes("x", []byte(src))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	r, err := Order(context.Background(), s, OrderOptions{Options: Options{Seed: 1, Replications: 2, Workers: 2}, Goal: LeastChangeover, Look: 1, Try: 50})
	if err != nil {
		t.Fatal(err)
	}
	if was, is := r.Listed.Changes[0].StoodH*60, r.Suggested.Changes[0].StoodH*60; was != 48 || is != 12 {
		t.Errorf("changeovers take %g min as listed and %g min as suggested, want 48 and 12", was, is)
	}
	if got := r.Difference.Mean * 60; got > -35.9 || got < -36.1 {
		t.Errorf("difference %g min, want -36", got)
	}
}

// Lots that are done or in work keep their places.
func TestOrderLeavesLotsInWork(t *testing.T) {
	jobs := jobSets[0]
	s := jobsScenario(t, jobs, []int{0, 1, 2, 3, 4}, false)
	s.Run.Starts.Lot = "l1"
	q := &orderer{s: s, fixed: fixedLots(s)}
	for _, m := range q.moves([]int{0, 1, 2, 3, 4}) {
		if m[0] != 0 || m[1] != 1 {
			t.Errorf("%v moves a lot that is in work or done", m)
		}
	}
}
