//go:build independent

package timestudy

// sheets of counts that the model itself makes, to hold against it.
const sheets = 600
