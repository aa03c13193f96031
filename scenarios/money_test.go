package scenarios

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func readMoney(t *testing.T, variant string) *Scenario {
	t.Helper()
	s, faults, err := Read(filepath.Join("..", "testdata", "good", "money.yaml"), variant)
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	return s
}

// What is written for money is read as what it says, and the rest has its defaults.
func TestMoneyIsRead(t *testing.T) {
	m := readMoney(t, "third bench").Money
	late, early := m.People[0].In("late"), m.People[0].In("early")
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"a fee by low, likely, high is planned with the likely one", m.TollFee.Central(), 0.95},
		{"low and high alone are planned with their middle", late.Central(), 28},
		{"a shift without a cost of its own has that of the pool", early.Central(), 24},
		{"mean and sd are planned with the mean", m.Demand.Now.Central(), 240000},
		{"a rate may be below zero", m.Demand.Growth.Law().Low, -0.02},
		{"weeks", float64(m.Weeks), 48},
		{"water per cycle", m.Water.Central(), 0.4},
		{"discount rate", float64(m.DiscountRate), 0.09},
		{"what is bought stands in the variant", m.Buy.Price.Central(), 40000},
		{"its life", float64(m.Buy.Life), 8},
		{"nothing is said of its rest value", m.Buy.RestValue.Central(), 0},
		{"the line's own life", float64(m.Line.Life), 15},
		{"hours in which the line stands", m.Buy.LineStands.Seconds(), 8 * 3600},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
	if m.Currency() != "EUR" || Unit(m.VariableCost) != "pack" || m.People[0].SavedHours != "not paid" || late.Known() || !early.Known() {
		t.Errorf("%q, %q, %q", m.Currency(), Unit(m.VariableCost), m.People[0].SavedHours)
	}
	if base := readMoney(t, "").Money; base.Buy != nil {
		t.Error("the line as it stands buys something")
	}
	if new(Money).Currency() != "" {
		t.Error("a currency without an amount")
	}
}

// Hours that are not said to be saved are paid all the same, and a pool without a cost is warned of.
func TestMoneyDefaults(t *testing.T) {
	s := readText(t, "scenario: x\npacking: {time: 26 s, crew: 1 packer}\nlabeller: {time: 1 s, by: 1 hand}\n"+
		"people: {packers: {heads: 2}, hands: {heads: 1}}\nmoney: {people: {packers: 24 EUR/h}}\n")
	if got := s.Money.People[0].SavedHours; got != "paid all the same" {
		t.Errorf("saved hours are %q", got)
	}
	if !slices.ContainsFunc(s.Warnings(), func(w Warning) bool { return w.Code == "hours without a cost" && strings.Contains(w.Text, "hands") }) {
		t.Errorf("%v", s.Warnings())
	}
	if !slices.ContainsFunc(s.Assumptions(), func(a Assumption) bool { return a.Where == "money.discount_rate" && a.Value == "10 %" }) {
		t.Error("the discount rate taken is no assumption")
	}
}

// Every amount says what it is for, and every kind of amount is visited by the check of currencies.
func TestEveryAmountIsVisited(t *testing.T) {
	src, err := os.ReadFile(filepath.Join("..", "testdata", "good", "money.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	written := strings.Count(strings.SplitN(string(src), "variants:", 2)[0], "EUR")
	n := 0
	readMoney(t, "").Money.amounts(func(path string, a *Amount, f *field) {
		n += len(a.parts())
		if f.tag.Get("per") == "" {
			t.Errorf("%s does not say what it is for", path)
		}
	})
	if n != written {
		t.Errorf("%d amounts were visited, %d are written", n, written)
	}
}
