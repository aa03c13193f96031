package scenarios

import (
	"fmt"
	"strings"
)

const longestTypo = 60

// didYouMean names the one word within one slip of the pen: a letter left out, put in, changed, or two swapped; or the
// same word in other case. Two words are one slip apart when they agree after one letter was taken out of each.
func didYouMean(written string, words []string) string {
	if w := nearest(written, words); w != "" {
		return fmt.Sprintf("did you mean %q?", w)
	}
	return ""
}

func nearest(written string, words []string) string {
	if len(written) > longestTypo || written == "" {
		return ""
	}
	for _, w := range words {
		if strings.EqualFold(tidy(w), tidy(written)) {
			return w
		}
	}
	index := map[string]string{}
	for _, w := range words {
		for _, c := range cuts(w) {
			if _, taken := index[c]; !taken {
				index[c] = w
			}
		}
	}
	for _, c := range cuts(written) {
		if w, ok := index[c]; ok && len(w) > 1 {
			return w
		}
	}
	return longer(written, words)
}

const leastPrefix = 4

// longer is the only word that begins like what was written, or how what was written begins: bench for benches.
func longer(written string, words []string) (found string) {
	for _, w := range words {
		if min(len(w), len(written)) < leastPrefix || !strings.HasPrefix(w, written) && !strings.HasPrefix(written, w) {
			continue
		}
		if found != "" {
			return ""
		}
		found = w
	}
	return found
}

func tidy(w string) string { return strings.NewReplacer("-", "_", " ", "_").Replace(w) }

func cuts(w string) []string {
	r := []rune(w)
	c := []string{w}
	for i := range r {
		c = append(c, string(r[:i])+string(r[i+1:]))
	}
	return c
}
