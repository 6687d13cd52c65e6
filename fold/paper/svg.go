package paper

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"dryfold/fold/geom"
)

// svg collects a drawing. Coordinates are mm from the top left corner.
type svg struct{ bytes.Buffer }

// escape makes text safe inside elements and attributes. Characters that XML
// does not allow become the replacement character.
func escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '&':
			b.WriteString("&amp;")
		case r == '"':
			b.WriteString("&quot;")
		case r == '\'':
			b.WriteString("&#39;")
		case r < ' ' || r == 0x7f || r == 0xfffe || r == 0xffff || r == utf8.RuneError:
			b.WriteRune('\uFFFD')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// num writes a length on paper: four places are finer than any printer, and the
// same bytes everywhere.
func num(x float64) string {
	s := strconv.FormatFloat(math.Round(x*1e4)/1e4, 'f', -1, 64)
	if s == "-0" {
		return "0"
	}
	return s
}

func xy(p geom.Vec2) string { return num(p[0]) + " " + num(p[1]) }

// f writes formatted markup; strings in it must have been escaped.
func (s *svg) f(format string, a ...any) { fmt.Fprintf(s, format, a...) }

// line draws a straight line of a class.
func (s *svg) line(class string, a, b geom.Vec2) {
	s.f(`<path %s d="M%s L%s"/>`+"\n", attrs(class), xy(a), xy(b))
}

// text writes text with its baseline's anchor at p. Class gives size and weight;
// anchor is "start", "middle" or "end".
func (s *svg) text(class, anchor string, p geom.Vec2, t string) {
	s.f(`<text %s x="%s" y="%s"%s>%s</text>`+"\n", attrs(class), num(p[0]), num(p[1]), anchorAttr(anchor), escape(t))
}

// turned writes text reading upwards, its baseline's anchor at p.
func (s *svg) turned(class, anchor string, p geom.Vec2, t string) {
	s.f(`<text %s transform="translate(%s) rotate(-90)"%s>%s</text>`+"\n", attrs(class), xy(p), anchorAttr(anchor), escape(t))
}

func anchorAttr(a string) string {
	if a == "" || a == "start" {
		return ""
	}
	return ` text-anchor="` + a + `"`
}

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

// textWidth estimates how wide text is at a size, with a little to spare for
// bold and for faces that run wider.
func textWidth(t string, size float64) float64 {
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

// wrap breaks text into lines no wider than width. A word that is wider is cut.
func wrap(t string, size, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(t) {
		for textWidth(word, size) > width && utf8.RuneCountInString(word) > 1 {
			r := []rune(word)
			n := len(r) - 1
			for n > 1 && textWidth(string(r[:n]), size) > width {
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
		case textWidth(next, size) <= width:
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

// clip shortens text that is wider than width, with an ellipsis.
func clip(t string, size, width float64) string {
	if textWidth(t, size) <= width {
		return t
	}
	r := []rune(t)
	for len(r) > 1 && textWidth(string(r)+"…", size) > width {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

// rect draws a box given by its top left corner.
func (s *svg) rect(class string, x, y, w, h float64) {
	s.f(`<rect %s x="%s" y="%s" width="%s" height="%s"/>`+"\n", attrs(class), num(x), num(y), num(w), num(h))
}

// circle draws a circle.
func (s *svg) circle(class string, c geom.Vec2, r float64) {
	s.f(`<circle %s cx="%s" cy="%s" r="%s"/>`+"\n", attrs(class), num(c[0]), num(c[1]), num(r))
}

// arrow draws an upright arrow, 3.2 high, pointing up or down, its middle at c.
func (s *svg) arrow(c geom.Vec2, up bool) {
	h := 1.6
	if !up {
		h = -h
	}
	tip, wing := c[1]-h, c[1]-h*0.35
	s.f(`<path %s d="M%s %s V%s M%s %s L%s %s L%s %s"/>`+"\n", attrs("arrow"), num(c[0]), num(c[1]+h), num(tip),
		num(c[0]-1), num(wing), num(c[0]), num(tip), num(c[0]+1), num(wing))
}

// document wraps a drawing of a size in mm as a file of its own.
func document(title string, w, h float64, body []byte) []byte {
	var s svg
	s.f(`<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" font-family="Arial, Helvetica, 'Liberation Sans', sans-serif">`+"\n",
		num(w), num(h), num(w), num(h))
	s.f("<title>%s</title>\n", escape(title))
	s.Write(body)
	s.f("</svg>\n")
	return s.Bytes()
}
