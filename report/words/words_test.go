package words

import (
	"strings"
	"testing"

	"pascaline/report/internal/fixture"
)

// The answer names the interest that its present value was worked out with: that of the line as it stands.
func TestPaybackAnswerNamesTheRateThatWasUsed(t *testing.T) {
	r := fixture.Payback()
	for i := range r.Options {
		r.Options[i].Side.Rate = 0.3
	}
	FillPayback(r)
	if !strings.Contains(r.Answer, "over 5 years at 10 % a year") {
		t.Errorf("the rate is 10 %%: %s", r.Answer)
	}
}

// A sentence begins with a capital letter, of whatever script.
func TestUpper(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"plain", "the dryer", "The dryer"},
		{"two bytes", "émile", "Émile"},
		{"another script", "упаковка", "Упаковка"},
		{"no capital", "包装", "包装"},
		{"a figure", "5 packers", "5 packers"},
		{"nothing", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := upper(c.in); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}
