// Package line builds a line from a scenario and lets packs go through it, one by one.
//
// Five kinds of station make every line: a feed (what comes in), places (what holds), a bench (workers or heads: n pieces
// in, work, m out), a chamber (a load through phases) and a belt. The stations of a plant are settings of these kinds.
// They know of each other only two things: whether the next one has room, and how to give it a unit. Nobody calls back
// the one that called it: a place that came free is noted in the agenda, and whoever waits for it looks again in phase
// Begin of the same tick, downstream stations first. So nothing is ever entered twice, and the order in which things
// happen at one tick is the order of the line.
//
// Of several that want the same, the one that has waited longest goes first, then the lowest number: vessels for a load, lanes and places of a
// bench for room downstream. A pack that steps on takes the running lane with the fewest packs, then the lowest number.
package line
