package clock

// A Signal wakes the tasks that wait for it. Its zero value is ready. It remembers nothing: raised while nobody waits,
// it has no effect, so a task looks at what it waits for before and after it waits.
type Signal struct {
	first, last *Task // in the order in which they came, linked through the tasks: no list grows
}

// Raise wakes all that wait, in the order in which they came, at this tick in phase Begin; when that is past, in the
// present phase.
func (s *Signal) Raise() {
	for s.first != nil {
		t := s.first
		s.remove(t)
		t.raised = true
		t.wake()
	}
}

// Wait parks the task until s is raised, or until Wake.
func (t *Task) Wait(s *Signal) { t.WaitUntil(s, Never) }

// WaitUntil parks the task until s is raised, but not longer than until a tick, phase Begin (Never: without limit; a
// tick that is past: the present one). It returns true when s was raised, false when the time was over or Wake came
// first.
func (t *Task) WaitUntil(s *Signal, tick Tick) bool {
	t.own()
	t.doing, t.woken, t.raised, t.left = waits, false, false, 0
	s.add(t)
	t.wakeAt(max(tick, t.c.now), Begin)
	t.park()
	return t.raised
}

func (s *Signal) add(t *Task) {
	t.signal, t.before, t.after = s, s.last, nil
	if s.last == nil {
		s.first = t
	} else {
		s.last.after = t
	}
	s.last = t
}

func (s *Signal) remove(t *Task) {
	if t.before == nil {
		s.first = t.after
	} else {
		t.before.after = t.after
	}
	if t.after == nil {
		s.last = t.before
	} else {
		t.after.before = t.before
	}
	t.signal, t.before, t.after = nil, nil, nil
}
