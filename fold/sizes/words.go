package sizes

// This file holds words: those for a form's values, and a maker's own as messages show them.

import (
	"strings"
	"unicode"
)

// The words by which files and reports know a form's values, in the values' order; "" stands for one that is not
// written.
var (
	FacesWords  = []string{"outside", "inside", "card"}
	CloseWords  = []string{"", "edges", "lap", "mitre", "apart"}
	ReliefWords = []string{"snipped", "drilled", "sawn", "none"}
	ShapeWords  = []string{"round", "slot", "window", "cutout"}
	WayWords    = []string{"sides", "stations", "angles"}
)

// String is the word of part files, "" for Usual.
func (c Closing) String() string { return CloseWords[c] }

// String is the word of part files.
func (k ReliefKind) String() string { return ReliefWords[k] }

// short is the text as a message shows it: without line ends, cut where it is long.
func short(text string) string {
	var out strings.Builder
	n := 0
	for _, r := range text {
		if n++; n > maxShown {
			out.WriteString("...")
			break
		}
		if !unicode.IsPrint(r) {
			r = ' '
		}
		out.WriteRune(r)
	}
	return strings.TrimSpace(out.String())
}

// Quote is a text in quotation marks as a message shows it, cut where it is long.
func Quote(text string) string { return `"` + short(text) + `"` }
