package draft

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"dryfold/fold/geom"
)

// SVG writes a page as an SVG file of its size in mm. Coordinates have four places,
// finer than any printer, and the same bytes everywhere.
func SVG(g Page) []byte { return Joined(g.Title, []Page{g}) }

// Joined writes pages below one another in one SVG file.
func Joined(title string, pages []Page) []byte {
	w, h := 0.0, 0.0
	for _, g := range pages {
		w, h = max(w, g.W), h+g.H
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" font-family="Arial, Helvetica, 'Liberation Sans', sans-serif">`+"\n",
		num(w), num(h), num(w), num(h))
	fmt.Fprintf(&b, "<title>%s</title>\n", escape(title))
	y, clips := 0.0, 0
	for _, g := range pages {
		if len(pages) > 1 {
			fmt.Fprintf(&b, `<g transform="translate(0 %s)">`+"\n", num(y))
		}
		for _, x := range g.Items {
			x.svg(&b, &clips)
		}
		if len(pages) > 1 {
			b.WriteString("</g>\n")
		}
		y += g.H
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}

func (x *Item) svg(b *bytes.Buffer, clips *int) {
	switch x.Kind {
	case Open:
		b.WriteString("<g")
		if x.ID != "" {
			b.WriteString(` id="` + escape(x.ID) + `"`)
		}
		if x.Class != "" {
			b.WriteString(` class="` + escape(x.Class) + `"`)
		}
		if c := x.Clip; c != nil {
			*clips++
			fmt.Fprintf(b, ` clip-path="url(#clip%d)"`, *clips)
			b.WriteString(">\n")
			fmt.Fprintf(b, `<clipPath id="clip%d"><rect x="%s" y="%s" width="%s" height="%s"/></clipPath>`+"\n", *clips,
				num(c.Min[0]), num(c.Min[1]), num(c.Max[0]-c.Min[0]), num(c.Max[1]-c.Min[1]))
			return
		}
		b.WriteString(">\n")
	case Close:
		b.WriteString("</g>\n")
	case Line:
		even := ""
		if Styles[x.Class].Fill != "" {
			even = ` fill-rule="evenodd"`
		}
		fmt.Fprintf(b, `<path %s%s d="%s"/>`+"\n", attrs(x.Class), even, x.Path.data())
	case Box:
		fmt.Fprintf(b, `<rect %s x="%s" y="%s" width="%s" height="%s"/>`+"\n", attrs(x.Class), num(x.At[0]), num(x.At[1]), num(x.W), num(x.H))
	case Circle:
		fmt.Fprintf(b, `<circle %s cx="%s" cy="%s" r="%s"/>`+"\n", attrs(x.Class), num(x.At[0]), num(x.At[1]), num(x.R))
	case Text:
		at := ` x="` + num(x.At[0]) + `" y="` + num(x.At[1]) + `"`
		if x.Turn != 0 {
			at = ` transform="translate(` + xy(x.At) + `) rotate(` + num(-x.Turn) + `)"`
		}
		fmt.Fprintf(b, "<text %s%s%s>%s</text>\n", textAttrs(x), at, [...]string{"", ` text-anchor="middle"`, ` text-anchor="end"`}[x.To], escape(x.Words))
	}
}

// data is the path as SVG has it.
func (p Path) data() string {
	var b strings.Builder
	for i, s := range p {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteByte(s.Op)
		if s.Op == 'Z' {
			continue
		}
		if s.Op == 'A' {
			b.WriteString(num(s.R) + " " + num(s.R) + " 0 " + flag(s.Large) + " " + flag(s.Right) + " ")
		}
		b.WriteString(xy(s.To))
	}
	return b.String()
}

func flag(b bool) string {
	if b {
		return "1"
	}
	return "0"
}

// attrs is a class with its style.
func attrs(class string) string {
	s := Styles[class]
	paint := func(c string) string {
		if c == "" {
			return "none"
		}
		return c
	}
	t := `class="` + class + `" fill="` + paint(s.Fill) + `" stroke="` + paint(s.Stroke) + `"`
	if s.Stroke != "" {
		t += ` stroke-width="` + num(s.Width) + `"`
	}
	for i, d := range s.Dash {
		if i == 0 {
			t += ` stroke-dasharray="` + num(d)
		} else {
			t += " " + num(d)
		}
		if i == len(s.Dash)-1 {
			t += `"`
		}
	}
	if s.Round {
		t += ` stroke-linejoin="round" stroke-linecap="round"`
	}
	return t
}

func textAttrs(x *Item) string {
	s := Styles[x.Class]
	size := s.Size
	if x.Size > 0 {
		size = x.Size
	}
	t := `class="` + x.Class + `" font-size="` + num(size) + `"`
	if s.Fill != "" {
		t += ` fill="` + s.Fill + `"`
	}
	if s.Bold {
		t += ` font-weight="700"`
	}
	if s.Serif {
		t += ` font-family="Georgia, Charter, 'Times New Roman', serif"`
	}
	return t
}

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

func num(x float64) string {
	s := strconv.FormatFloat(math.Round(x*1e4)/1e4, 'f', -1, 64)
	if s == "-0" {
		return "0"
	}
	return s
}

func xy(p geom.Vec2) string { return num(p[0]) + " " + num(p[1]) }
