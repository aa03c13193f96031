package page

import (
	"bytes"
	"os"
	"pascaline/report/internal/fixture"
	"pascaline/sim/result"
	"testing"
)

func TestWriteTmp(t *testing.T) {
	for n, r := range map[string]*result.Run{"run": fixture.Run(), "bare": fixture.Bare(), "crowded": fixture.Crowded(), "hostile": fixture.Hostile()} {
		var b bytes.Buffer
		if err := Run(&b, r, Options{Command: "pascaline run marlow-quay.yaml --seed 20260301"}); err != nil {
			t.Fatal(err)
		}
		os.WriteFile("/tmp/pg/"+n+".html", b.Bytes(), 0o644)
		t.Log(n, b.Len())
	}
}
