package draft

import (
	"strings"
	"unicode/utf8"
)

// asciiWidths are the widths of " " to "~" in Helvetica and the faces made to
// its measure, in thousandths of the size.
var asciiWidths = [...]int{
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
	556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
	1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
	667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
	333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
	556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
}

// Width estimates how wide text is at a size, with a little to spare for
// bold and for faces that run wider.
func Width(t string, size float64) float64 {
	w := 0
	for _, r := range t {
		switch {
		case r >= ' ' && r <= '~':
			w += asciiWidths[r-' ']
		case r > 0x2e80:
			w += 1000
		default:
			w += 600
		}
	}
	return float64(w) * size * 1.06 / 1000
}

// Wrap breaks text into lines no wider than width. A word that is wider is cut.
func Wrap(t string, size, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(t) {
		for Width(word, size) > width && utf8.RuneCountInString(word) > 1 {
			r := []rune(word)
			n := len(r) - 1
			for n > 1 && Width(string(r[:n]), size) > width {
				n--
			}
			if line != "" {
				lines, line = append(lines, line), ""
			}
			lines, word = append(lines, string(r[:n])), string(r[n:])
		}
		switch next := line + " " + word; {
		case line == "":
			line = word
		case Width(next, size) <= width:
			line = next
		default:
			lines, line = append(lines, line), word
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// Clip shortens text that is wider than width, with an ellipsis.
func Clip(t string, size, width float64) string {
	if Width(t, size) <= width {
		return t
	}
	r := []rune(t)
	for len(r) > 1 && Width(string(r)+"…", size) > width {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

// Words are all that is written on pages.
func Words(pages []Page) string {
	var b strings.Builder
	for i := range pages {
		for _, x := range pages[i].Items {
			if x.Kind == Text {
				b.WriteString(x.Words)
			}
		}
	}
	return b.String()
}
