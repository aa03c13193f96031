package page

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"regexp"
	"strings"
	"testing"
)

// The library and its licence are as they were published; another version is a decision, not an accident.
func TestLibraryIsPinned(t *testing.T) {
	for name, want := range map[string]string{
		"echarts.min.js":  "baa8dfe7e1d9336b98e8986ba7e20ea15e7cdbea1ef42a59d59478632fa45a1d",
		"echarts-LICENSE": "634293835b43a6dd2094fa39182a3d9a6b9ca43b7fdb9ac354e8037af2a3093a",
		"echarts-NOTICE":  "dc0d9176413c3d96d0ac40b39b1dbb11e3043b7b010be560f5dfe66bd3774ae1",
	} {
		data, err := os.ReadFile("assets/" + name)
		if err != nil {
			t.Fatal(err)
		}
		sum := sha256.Sum256(data)
		if got := hex.EncodeToString(sum[:]); got != want {
			t.Errorf("%s has the hash %s, pinned is %s", name, got, want)
		}
	}
}

// The page's own script must not make code out of text, load anything or write markup.
func TestBootDoesNothingRisky(t *testing.T) {
	for _, bad := range []string{"eval(", "new Function", "innerHTML", "outerHTML", "insertAdjacent", "document.write", "fetch(", "XMLHttp", "import(", "http:", "https:", "setTimeout(\"", "</script", "<!--"} {
		if strings.Contains(boot, bad) {
			t.Errorf("boot.js has %q", bad)
		}
	}
}

// Every look that the page asks for is a function of boot.js.
func TestEveryLookExists(t *testing.T) {
	for _, name := range []string{"states", "shares", "losses", "phases", "profile", "buffer", "dots"} {
		if !regexp.MustCompile(`\b` + name + `: function ` + name + `\(`).MatchString(boot) {
			t.Errorf("boot.js has no look %q", name)
		}
	}
}
