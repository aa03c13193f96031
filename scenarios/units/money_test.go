package units

import (
	"testing"
)

func TestMoney(t *testing.T) {
	for _, c := range []reads{
		{"180000 EUR", new(Money), &Money{180000, "EUR", ""}, ""},
		{"180000EUR", new(Money), &Money{180000, "EUR", ""}, ""},
		{"0.42 EUR/pack", new(Money), &Money{0.42, "EUR", "pack"}, ""},
		{"29 £ / hour", new(Money), &Money{29, "£", "h"}, ""},
		{"0.95 kr per kg", new(Money), &Money{0.95, "kr", "kg"}, ""},
		{"0 EUR/cycle", new(Money), &Money{0, "EUR", "cycle"}, ""},
		{"12000 EUR/year", new(Money), &Money{12000, "EUR", "year"}, ""},
		{"180000", new(Money), nil, "currency is missing"},
		{"0.42 /pack", new(Money), nil, "currency is missing"},
		{"180,000 EUR", new(Money), nil, "thousands comma"},
		{"EUR 180000", new(Money), nil, "not a plain number"},
		{"-5 EUR", new(Money), nil, "below zero"},
		{"5 EUR/pallet", new(Money), nil, "pack, kg, h, cycle or year"},
		{"5 E-R", new(Money), nil, "not the label"},
		{"5 kilopounds", new(Money), nil, "too long"},
		{"2000000000000 EUR", new(Money), nil, "million million"},

		{"8 %", new(Percent), ptr(Percent(0.08)), ""},
		{"-2.5 %", new(Percent), ptr(Percent(-0.025)), ""},
		{"8", new(Percent), nil, "percent sign"},
		{"0.08 per year", new(Percent), nil, "unknown unit"},
		{"-100 %", new(Percent), nil, "all is lost"},
		{"1001 %", new(Percent), nil, "tenfold"},
		{"--2 %", new(Percent), nil, "below zero"},

		{"10 years", new(Years), ptr(Years(10)), ""},
		{"1 year", new(Years), ptr(Years(1)), ""},
		{"10", new(Years), nil, "unit is missing"},
		{"2.5 years", new(Years), nil, "whole years"},
		{"0 years", new(Years), nil, "1 to 60"},
		{"10 months", new(Years), nil, "write years"},

		{"250000 packs/week", new(Weekly), ptr(Weekly(250000)), ""},
		{"250000 packs per week", new(Weekly), ptr(Weekly(250000)), ""},
		{"250000", new(Weekly), nil, "unit is missing"},
		{"250000 packs", new(Weekly), nil, "packs/week"},
		{"2000000000 packs/week", new(Weekly), nil, "thousand million"},
	} {
		c.run(t)
	}
}
