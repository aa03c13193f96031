package scenarios

import "testing"

// Windows keeps these names for devices, with any ending; nothing may hold / \\ : * ? " < > | there.
func TestFileName(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"as it is", "line, two benches", "line, two benches"},
		{"signs", `a/b\c:d*e?f"g<h>i|j`, "a-b-c-d-e-f-g-h-i-j"},
		{"a device", "aux", "aux-"},
		{"a device in capital letters", "COM7", "COM7-"},
		{"a device with an ending", "nul.v2, fit", "nul-.v2, fit"},
		{"begins like a device", "console", "console"},
		{"a device with more behind it", "aux, fit", "aux, fit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := FileName(c.in); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}
