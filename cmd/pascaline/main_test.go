package main

import (
	"flag"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// update writes golden files anew: go test ./cmd/pascaline -update.
var update = flag.Bool("update", false, "write the golden files and the README's output anew")

// asProgram in the environment makes the test binary be pascaline, for tests that start it themselves.
const asProgram = "PASCALINE_TEST_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		main()
	}
	testscript.Main(m, map[string]func(){"pascaline": main})
}
