// Command spread works out how much the figures of testdata/published/queues.csv differ from one replication to the next, and writes that
// standard deviation into its column sd where that is empty. The checks of sim/selftest take their tolerance from it.
//
// Each queue is simulated here by recursions of a few lines that share nothing with the program: its own random numbers, no stations, no
// calendar. Arrivals, times and lengths are read from the scenarios. Run it from the root of the repository:
//
//	go run testdata/independent/spread/*.go
//
// With the name of a table of lines it prints column avar of that table beside what the departures of each line give here.
package main

import (
	"encoding/csv"
	"fmt"
	"log"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
)

const (
	table = "testdata/published/queues.csv"
	runs  = 300 // the standard deviation itself is then known to 4 %
)

func main() {
	if len(os.Args) > 1 {
		if err := lines("testdata/published/" + os.Args[1] + ".csv"); err != nil {
			log.Fatal(err)
		}
		return
	}
	rows, err := read(table)
	if err != nil {
		log.Fatal(err)
	}
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	sds := map[string]map[string]float64{}
	for _, row := range rows[1:] {
		name, metric := row[at["scenario"]], row[at["metric"]]
		if row[at["sd"]] != "" {
			continue
		}
		if sds[name] == nil {
			if sds[name], err = spread(name, row[at["what"]]); err != nil {
				log.Fatal(name, ": ", err)
			}
		}
		sd, ok := sds[name][metric]
		if !ok {
			log.Fatalf("%s: no %q among %v", name, metric, sds[name])
		}
		row[at["sd"]] = strconv.FormatFloat(sd, 'g', 3, 64)
	}
	if err := write(table, rows); err != nil {
		log.Fatal(err)
	}
}

// spread is the standard deviation of each figure of a scenario. What is far from its value says that a model here is not that of the table.
func spread(name, what string) (map[string]float64, error) {
	text, err := os.ReadFile("testdata/published/" + name + ".yaml")
	if err != nil {
		return nil, err
	}
	model, err := modelOf(name, string(text))
	if err != nil {
		return nil, err
	}
	sum, squares := map[string]float64{}, map[string]float64{}
	for i := range runs {
		for k, x := range model(rand.New(rand.NewPCG(uint64(i), 2026))) {
			sum[k] += x
			squares[k] += x * x
		}
	}
	sd := map[string]float64{}
	for k := range sum {
		mean := sum[k] / runs
		sd[k] = math.Sqrt((squares[k]/runs - mean*mean) * runs / (runs - 1))
		fmt.Printf("%s, %s: %s: %.6g, from one replication to the next %.3g\n", name, what, k, mean, sd[k])
	}
	return sd, nil
}

func read(file string) ([][]string, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return csv.NewReader(f).ReadAll()
}

func write(file string, rows [][]string) error {
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	if err := csv.NewWriter(f).WriteAll(rows); err != nil {
		return err
	}
	return f.Close()
}
