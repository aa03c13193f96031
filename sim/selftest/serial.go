package selftest

// serial compares lines that never stop: one station after another, saturated, with few places or none between them and blocking after
// service. Stations are those of the product: loading, vessel and tip with one carrier to a load, machines, packing with one pack to a case.
func serial() []Case { return fromTable("serial lines", "serial.csv", linesOf) }
