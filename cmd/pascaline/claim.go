package main

import (
	"fmt"
	"math"
	"strconv"

	"github.com/spf13/cobra"

	"pascaline/report/words"
	"pascaline/scenarios/units"
	"pascaline/sim/press"
	"pascaline/sim/result"
)

// claimFlags are the flags of claim, as they are written.
type claimFlags struct {
	quoted, volume, fill, cycles, hours, density, hold, other string
	vessels                                                   int
	json                                                      bool
	out                                                       string
}

func claimCommand() *cobra.Command {
	var f claimFlags
	c := &cobra.Command{
		Use:   "claim",
		Short: "Say what a quoted output would need, and whether that is possible",
		Long: `Takes an output that somebody quotes, and the vessel, cycles and hours behind it, and says how full every load would have to be, without a pause:

  fill needed = quoted kg / (vessel volume x vessels x cycles/h x hours x density)

Above 1 it cannot be. Round bottles fill about half of a vessel, flat pouches two thirds, bulk bags up to 0.9. Hours are those in which the output is made: of
a day, or of a year for an output of a year.`,
		Example: `  pascaline claim --quoted "13000 kg" --volume "100 L" --cycles 10 --hours "20 h"
  pascaline claim --quoted "70 million lb/yr" --volume "525 L" --cycles 10 --hours "5000 h"
  pascaline claim --quoted "650 kg/h" --volume "135 L" --hold "180 s" --fill "50 %"`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return weighClaim(cmd, f) },
	}
	c.Flags().StringVar(&f.quoted, "quoted", "", `the output, such as "13000 kg", "650 kg/h", "32 t/yr", "70 million lb/yr" or "3000 L/h"`)
	c.Flags().StringVar(&f.volume, "volume", "", `inner volume of one vessel, such as "525 L"`)
	c.Flags().IntVar(&f.vessels, "vessels", 1, "how many vessels")
	c.Flags().StringVar(&f.cycles, "cycles", "", `cycles an hour of each vessel (default: from the hold and everything else)`)
	c.Flags().StringVar(&f.hold, "hold", "180 s", "hold at pressure, of your validated process; it counts where no cycles are given")
	c.Flags().StringVar(&f.other, "other", "300 s", "everything in a cycle but the hold; it counts where no cycles are given")
	c.Flags().StringVar(&f.hours, "hours", "", `hours in which it is made, such as "20 h" or "5000 h" (default: 1 h, a day of 24 h or a year of 5000 h, as it is quoted)`)
	c.Flags().StringVar(&f.density, "density", "1.03 kg/L", "density of the packs")
	c.Flags().StringVar(&f.fill, "fill", "", `fill ratio to compare with, such as "50 %" or 0.5 (default: 60 %)`)
	c.Flags().BoolVar(&f.json, "json", false, "print the figures as JSON instead of the summary")
	c.Flags().StringVar(&f.out, "out", "", "folder for results.json and report.html (default: nothing is written)")
	exportFlags(c)
	return c
}

func weighClaim(cmd *cobra.Command, f claimFlags) error {
	r, err := claimOf(f, cmd.Flags().Changed("hold"))
	if err != nil {
		return err
	}
	sign(r)
	words.FillClaim(r)
	if f.out != "" {
		out, err := placeFor(cmd, f.out, "")
		if err != nil {
			return err
		}
		return conclude(cmd, r, out, "", f.json, false)
	}
	exports := writeExports(cmd, r, "")
	if err := show(cmd, r, f.json); err != nil {
		return err
	}
	return exports
}

// claimOf reads the flags and works the claim out.
func claimOf(f claimFlags, holdStated bool) (*result.Claim, error) {
	in, err := f.read()
	if err != nil {
		return nil, err
	}
	density, hours := float64(in.density), in.hours.Seconds()/3600
	if hours == 0 {
		hours = in.quoted.UsualHours()
	}
	if f.cycles != "" && !holdStated {
		in.hold = 0 // one that nobody stated does not speak against cycles that somebody did
	}
	c := press.Claim{Kg: in.quoted.Kg(density, hours), Hours: hours, Volume: float64(in.volume) * float64(f.vessels), CyclesPerH: in.cycles, Density: density, HoldS: in.hold.Seconds()}
	r := press.Weigh(c, in.fill)
	r.Quoted, r.VolumeL, r.Vessels, r.FillTaken = f.quoted, float64(in.volume), f.vessels, f.fill == ""
	return r, nil
}

// claimInput is what the flags say.
type claimInput struct {
	quoted             units.Output
	volume             units.Volume
	hours, hold, other units.Duration
	density            units.Density
	cycles, fill       float64
}

func (f claimFlags) read() (in claimInput, err error) {
	if f.vessels < 1 || f.vessels > 100 {
		return in, fmt.Errorf("--vessels %d: from 1 to 100", f.vessels)
	}
	for _, x := range []struct {
		flag, text, unit string // the unit is meant where none is written
		to               units.Quantity
		need             bool
	}{
		{"quoted", f.quoted, "", &in.quoted, true}, {"volume", f.volume, " L", &in.volume, true}, {"hours", f.hours, " h", &in.hours, false},
		{"hold", f.hold, " s", &in.hold, true}, {"other", f.other, " s", &in.other, true}, {"density", f.density, " kg/L", &in.density, true},
	} {
		if x.text == "" && !x.need {
			continue
		}
		if x.text == "" {
			return in, fmt.Errorf("--%s is missing: %s", x.flag, x.to.Wants())
		}
		if _, err := strconv.ParseFloat(x.text, 64); err == nil {
			x.text += x.unit
		}
		if err := x.to.Parse(x.text); err != nil {
			return in, fmt.Errorf("--%s %q: %w; wanted is %s", x.flag, x.text, err, x.to.Wants())
		}
	}
	if f.hours != "" && in.hours == 0 || in.hold == 0 {
		return in, fmt.Errorf("--hours and --hold: more than 0 is wanted")
	}
	in.cycles = press.CyclesPerH(in.hold.Seconds(), in.other.Seconds())
	if f.cycles != "" {
		if in.cycles, err = strconv.ParseFloat(f.cycles, 64); err != nil || !(in.cycles > 0 && in.cycles <= 3600) {
			return in, fmt.Errorf("--cycles %q is no number of cycles an hour, such as 8.5", f.cycles)
		}
	}
	in.fill, err = f.fillRatio()
	return in, err
}

// fillRatio reads a share, or a plain number up to 1.
func (f claimFlags) fillRatio() (float64, error) {
	var s units.Share
	if f.fill == "" {
		return 0.6, nil
	}
	if s.Parse(f.fill) != nil {
		v, err := strconv.ParseFloat(f.fill, 64)
		if err != nil {
			v = math.NaN()
		}
		s = units.Share(v)
	}
	if !(s > 0 && s <= 1) {
		return 0, fmt.Errorf(`--fill %q is neither a share above 0, such as "50 %%", nor a number up to 1`, f.fill)
	}
	return float64(s), nil
}
