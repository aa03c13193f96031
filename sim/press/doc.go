// Package press is the physics of a vessel cycle: how much water goes in, how long the pumps take, what that costs in energy, how warm it
// gets, and what the plugs have to bear. It works out times that nobody has taken with a stopwatch; one that was taken always wins.
//
// Its stance: the pressure and the hold are given. Nothing here looks for others.
//
// Sources. Water: IAPWS-95 (table.go). Growth of the bore: Lame 1833, thick-walled cylinder. Everything else is a balance of volumes and
// of work that stands beside each formula.
package press
