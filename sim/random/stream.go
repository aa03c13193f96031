// Package random makes chance repeatable: named streams of uniform numbers, and laws that turn one uniform number into
// one value.
//
// A stream has no state. What belongs to a carrier, a pack or a load is drawn by that thing's number, so that two
// scenarios give the same thing the same luck in whatever order things are served. A law is its quantile function, one
// uniform number to a draw, so that two scenarios stay in step.
//
// Every product that is part of a sum is written float64(x*y): without it some processors round once where others
// round twice, and results would depend on the machine.
package random

// golden is 2^64 over the golden ratio, made odd: the step of a Weyl sequence.
const golden = 0x9e3779b97f4a7c15

// Stream is an endless row of uniform numbers, each had by its number. Its zero value is a stream like any other; make
// streams by Named.
type Stream struct{ key uint64 }

// Named is the stream of a purpose, such as "dryer/lane 2/stop jam/duration", in one replication under a base seed.
// Streams that differ in the seed, the replication or one letter of the name are unrelated.
func Named(seed uint64, replication int, name string) Stream {
	h := absorb(absorb(golden, seed), uint64(replication))
	for len(name) > 0 {
		var word uint64
		n := min(len(name), 8)
		for i := range n {
			word |= uint64(name[i]) << (8 * i)
		}
		h = absorb(h, word)
		h = absorb(h, uint64(n)) // "a" is not "a\x00"
		name = name[n:]
	}
	return Stream{mix(absorb(h, golden))}
}

// absorb takes a word into a hash. For each word it maps hashes one to one.
func absorb(h, word uint64) uint64 { return mix(h + golden ^ word) }

// mix is the 64-bit finalizer of SplitMix64 (Steele, Lea and Flood 2014, variant 13 of Stafford).
func mix(z uint64) uint64 {
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// At is uniform number n, in the open interval (0, 1).
func (s Stream) At(n uint64) float64 { return unit(mix(s.key + n*golden)) }

// unit makes an odd multiple of 2^-53 of the upper 52 bits. (A half added to 53 bits would round up to 1 at the end.)
func unit(z uint64) float64 { return (float64(z>>12) + 0.5) * (1.0 / (1 << 52)) }
