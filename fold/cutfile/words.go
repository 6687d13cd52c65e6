package cutfile

// This file holds the words beside the blank.

import (
	"fmt"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// words are the lines below the blank.
func (f *File) words(p *fold.Part, o Options) []Words {
	sheet := length(p.Thickness, o.Units)
	if p.Metal != "" {
		sheet += " " + p.Metal
	}
	face := "This face up: upper face of the blank."
	if o.Mirror {
		face = "Mirrored: lower face of the blank up."
	}
	lines := []string{p.Spec.Name, sheet, face}
	if g := p.Spec.Sheet.Good; g != "" {
		side := "up"
		if (g == "down") != o.Mirror {
			side = "down"
		}
		lines = append(lines, "Good face "+side+".")
	}
	if o.Kerf > 0 {
		lines = append(lines, "Cut "+length(o.Kerf, o.Units)+" wide allowed for.")
	} else {
		lines = append(lines, "No width of cut allowed for.")
	}
	if o.Gaps > 0 {
		lines = append(lines, fmt.Sprintf("Gaps in the outline: %d, %s each.", o.Gaps, length(o.GapWidth, o.Units)))
	}
	if o.Bends == BendLines {
		lines = append(lines, "Lines "+LayerUp+" bend towards the face that is up; not to be cut.")
	}
	size := p.Blank.Box.Size()
	lines = append(lines, fmt.Sprintf("Blank %s x %s.", length(size[0], o.Units), length(size[1], o.Units)))
	var out []Words
	y := f.Box.Min[1] - textRoom - textHeight
	for _, l := range lines {
		if l == "" {
			continue
		}
		out = append(out, Words{At: geom.Vec2{0, y}, Height: textHeight, Text: plain(l)})
		y -= lineHeight
	}
	return out
}

// unit is one line more, of the file's unit, where there are words: an SVG has no choice of it.
func (f *File) unit() (w Words, ok bool) {
	for _, l := range f.Layers {
		if n := len(l.Words); n > 0 {
			w = l.Words[n-1]
			w.At[1] -= lineHeight
			w.Text = "Units of this file: " + unitWord(f.Units) + "."
			return w, true
		}
	}
	return w, false
}

func unitWord(u fold.Units) string {
	if u == fold.Inch {
		return "inches"
	}
	return "millimetres"
}

// length writes a length as a drawing does.
func length(mm float64, u fold.Units) string {
	if u == fold.Inch {
		return trimmed(mm/25.4, 4) + " in"
	}
	return trimmed(mm, 3) + " mm"
}

// plain is text on one line.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == 0x2028 || r == 0x2029 || r == 0xfffe || r == 0xffff {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "?"))
}

// width is what the words take, reckoned a little wide.
func (w Words) width() float64 { return 0.65 * w.Height * float64(len([]rune(w.Text))) }
