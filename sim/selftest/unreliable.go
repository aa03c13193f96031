package selftest

// unreliable compares lines whose stations stop, by a clock that runs with them or by the calendar, with menders of their own or one for all.
// Each first stop comes at a random age, so the lines are in their long-run state from the start but for the packs on them.
func unreliable() []Case { return fromTable("unreliable lines", "unreliable.csv", linesOf) }
