package page

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"html/template"
)

// The charting library is the npm package echarts 6.0.0 (Apache-2.0), as it was published; its licence and notice are beside it
// and its hash is pinned by a test.
//
//go:embed assets/echarts.min.js
var library string

//go:embed assets/boot.js
var bootText string

//go:embed assets/replay.js
var replayText string

//go:embed assets/line.js
var lineText string

//go:embed assets/save.js
var saveText string

// boot is all script of our own: charts, the replay's drawing and controls, files to save.
var boot = bootText + lineText + replayText + saveText

//go:embed assets/style.css
var style string

//go:embed assets/page.html
var pageText string

var pageTemplate = template.Must(template.New("page").Parse(pageText))

// policy lets the two scripts and the one style of the page work, and nothing be loaded from anywhere.
var policy = "default-src 'none'; script-src " + hashOf(library) + " " + hashOf(boot) + "; style-src " + hashOf(style) +
	"; img-src data:; base-uri 'none'; form-action 'none'"

// hashOf is the source expression of an inline block in a Content-Security-Policy.
func hashOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
