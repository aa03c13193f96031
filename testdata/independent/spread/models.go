package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
)

// A model is one replication of a scenario: its figures, by the names that the table has for them.
type model func(r *rand.Rand) map[string]float64

func modelOf(name, text string) (model, error) {
	t := seconds(found(text, `one_replication: (\d+ h)`))
	switch {
	case strings.HasPrefix(name, "queues-mm") && strings.Contains(name, "k"):
		return limited(text, t), nil
	case strings.HasPrefix(name, "queues-repairman"):
		return repairman(text, t), nil
	case strings.HasPrefix(name, "queues-closed"):
		return closed(number(text, "owned", 0), t), nil
	case strings.Contains(text, "vessel:"):
		return loads(text, t), nil
	case name == "queues-jackson":
		return tandem(text, t), nil
	case strings.Contains(text, "fed:"):
		return fifo(text, t), nil
	}
	return nil, fmt.Errorf("no model")
}

// overlap is how much of a stretch of time lies before t.
func overlap(from, to, t float64) float64 { return max(0, min(to, t)-min(from, t)) }

// tally is a mean that is made up one by one.
type tally struct{ n, sum float64 }

func (m *tally) add(x float64) { m.n++; m.sum += x }
func (m *tally) mean() float64 { return m.sum / m.n }

// fifo is one queue before c servers, with arrivals in batches and servers that may break down while they work.
func fifo(text string, t float64) model {
	arrive, serve, batch := lawAfter(text, "every"), service(text), number(text, "batch", 1)
	c := number(text, "(?:heads|benches|stations)", 1)
	limit := seconds(found(text+"limit: 5 s", `limit: (\d+ s)`))
	breaks := strings.Contains(text, "breakdown")
	return func(r *rand.Rand) map[string]float64 {
		var wait, all, beyond tally
		var queued, busy, worked, down float64
		free := make([]float64, c)
		for at := arrive(r); at < t; at += arrive(r) {
			for range batch {
				first := slices.Index(free, slices.Min(free))
				start, work, repair := max(at, free[first]), serve(r), 0.0
				if breaks {
					repair = repairs(r, work)
				}
				end := start + work + repair
				free[first] = end
				queued += overlap(at, start, t)
				busy += overlap(start, end, t)
				worked, down = worked+work, down+repair
				if start <= t {
					wait.add(start - at)
				}
				if end <= t {
					all.add(end - at)
					beyond.add(map[bool]float64{true: 1}[end-at > limit])
				}
			}
		}
		m := map[string]float64{"sojourn": all.mean(), "beyond limit": beyond.mean(), "share labeller starved": 1 - busy/t/float64(c),
			"running of busy labeller": worked / (worked + down)}
		for _, s := range []string{"labeller", "packing", "loading"} {
			m["content "+s] = (queued + busy) / t
			for _, before := range []string{"before ", "store before "} {
				m["wait "+before+s], m["level "+before+s] = wait.mean(), queued/t
			}
		}
		return m
	}
}

// repairs is the time of the breakdowns in so much work: one in 20 s of work, of 5 s each.
func repairs(r *rand.Rand, work float64) (sum float64) {
	for x := 20 * r.ExpFloat64(); x < work; x += 20 * r.ExpFloat64() {
		sum += 5 * r.ExpFloat64()
	}
	return sum
}

// service is the law of a task.
func service(text string) law {
	if per := found(text, `hand_time: (\{[^}]*\})`); per != "" {
		return lawAfter(text, "hand_time")
	}
	return lawAfter(text, `\btime`)
}

// tandem is a row of three queues with one server each.
func tandem(text string, t float64) model {
	arrive := lawAfter(text, "every")
	var serve []law
	for line := range strings.Lines(text) {
		if strings.Contains(line, "time:") {
			serve = append(serve, lawAfter(line, `\btime`))
		}
	}
	return func(r *rand.Rand) map[string]float64 {
		var all tally
		content, free := make([]float64, len(serve)), make([]float64, len(serve))
		for born := arrive(r); born < t; born += arrive(r) {
			at := born
			for i := range serve {
				free[i] = max(at, free[i]) + serve[i](r)
				content[i] += overlap(at, free[i], t)
				at = free[i]
			}
			if at <= t {
				all.add(at - born)
			}
		}
		return map[string]float64{"content labeller": content[0] / t, "content checkweigher": content[1] / t, "content packing": content[2] / t, "sojourn": all.mean()}
	}
}

// chain runs a birth and death process up to t and shows every stay: the state and how long.
func chain(r *rand.Rand, t float64, n int, up, down func(n int) float64, stay func(n int, d float64), step func(up bool)) {
	for now := 0.0; ; {
		u, d := up(n), down(n)
		dt := r.ExpFloat64() / (u + d)
		stay(n, overlap(now, now+dt, t))
		if now += dt; now >= t {
			return
		}
		if r.Float64()*(u+d) < u {
			n++
			step(true)
		} else {
			n--
			step(false)
		}
	}
}

// limited is a queue with room for so many: the station before it is blocked while it is full.
func limited(text string, t float64) model {
	lines := strings.Split(text, "\n")
	lambda, mu := 1/seconds(found(lines[1], `mean: ([\d.]+ s)`)), 1/seconds(found(lines[2], `mean: ([\d.]+ s)`))
	c, most := number(text, "heads", 1), number(text, "heads", 1)+number(text, "places_before", 0)
	if !strings.Contains(text, "blocking: before") {
		most++ // the finished piece that stands at the station before
	}
	return func(r *rand.Rand) map[string]float64 {
		var full, content, ended float64
		chain(r, t, 0, func(n int) float64 { return map[bool]float64{true: lambda}[n < most] }, func(n int) float64 { return mu * float64(min(n, c)) },
			func(n int, d float64) {
				content += float64(n) * d
				if n == most {
					full += d
				}
			}, func(up bool) {
				if !up {
					ended++
				}
			})
		m := map[string]float64{"share labeller blocked": full / t, "rate checkweigher": ended / t}
		for _, s := range []string{"checkweigher", "checkweigher and labeller blocked"} {
			m["content "+s], m["content over rate "+s] = content/t, content/ended
		}
		return m
	}
}

// closed is a loop of two exponential stations of mean 1 with n carriers.
func closed(n int, t float64) model {
	return func(r *rand.Rand) map[string]float64 {
		ended := 0.0
		rate := func(there bool) float64 { return map[bool]float64{true: 1}[there] }
		chain(r, t, 0, func(k int) float64 { return rate(k < n) }, func(k int) float64 { return rate(k > 0) }, func(int, float64) {}, func(up bool) {
			if !up {
				ended++
			}
		})
		return map[string]float64{"rate tip": ended / t}
	}
}

// repairman is n machines that fail while they run, and few who mend them.
func repairman(text string, t float64) model {
	n, menders := number(text, "labeller: {heads", 0), number(text, "menders: {heads", 0)
	up, mend := seconds(found(text, `every: \{mean: ([\d.]+ s)`)), lawAfter(text, "takes")
	return func(r *rand.Rand) map[string]float64 {
		var ends []float64 // of the repairs in hand
		var running, waiting, busy, down, stops float64
		for now, waits := 0.0, 0; now < t; {
			k := n - waits - len(ends)
			next, fails := math.Inf(1), true
			if k > 0 {
				next = now + up/float64(k)*r.ExpFloat64()
			}
			if len(ends) > 0 && slices.Min(ends) < next {
				next, fails = slices.Min(ends), false
			}
			d := overlap(now, next, t)
			running, waiting, busy, down = running+float64(k)*d, waiting+float64(waits)*d, busy+float64(len(ends))*d, down+float64(n-k)*d
			if now = next; now >= t {
				break
			}
			if fails {
				stops++
				waits++
			} else {
				i := slices.Index(ends, now)
				ends = slices.Delete(ends, i, i+1)
			}
			if waits > 0 && len(ends) < menders {
				waits--
				ends = append(ends, now+mend(r))
			}
		}
		return map[string]float64{"count labeller processing": running / t, "count labeller waiting for repair": waiting / t, "share labeller waiting for repair": waiting / t / float64(n),
			"stops a second": stops / t, "down a stop": down / stops, "idle menders": 1 - busy/t/float64(menders)}
	}
}

// loads is a vessel with a fixed cycle that takes up to so many of those who wait, once there are as many as the least load.
func loads(text string, t float64) model {
	arrive, cycle, most := lawAfter(text, "every"), seconds(found(text, `hold: (\d+ s)`)), number(text, "carriers_per_load", 0)
	least := most
	if strings.Contains(text, "after: 0 s") {
		least = 1
	}
	return func(r *rand.Rand) map[string]float64 {
		var wait tally
		var queued, busy, free float64
		var there []float64
		take := func(at float64) {
			k := min(most, len(there))
			for _, came := range there[:k] {
				wait.add(at - came)
				queued += overlap(came, at, t)
			}
			there, free = there[k:], at+cycle
			busy += overlap(at, free, t)
		}
		for now := arrive(r); now < t; now += arrive(r) {
			for len(there) >= least && free <= now {
				take(max(free, there[least-1]))
			}
			if there = append(there, now); len(there) >= least && free <= now {
				take(now)
			}
		}
		for _, came := range there {
			queued += overlap(came, t, t)
		}
		return map[string]float64{"level infeed": queued / t, "share vessel processing": busy / t, "wait infeed": wait.mean()}
	}
}
