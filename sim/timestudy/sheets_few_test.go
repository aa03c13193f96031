//go:build !independent

package timestudy

// sheets of counts that the model itself makes, to hold against it; with the build tag independent there are many.
const sheets = 40
