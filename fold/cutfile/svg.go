package cutfile

// This file writes SVG: one unit is 1 mm, one group for each layer.

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"dryfold/fold/geom"
)

// svgMargin is left round the drawing, so that lines on its edge are seen whole.
const svgMargin = 2.0

// SVG is the file as SVG, always in mm.
func (f File) SVG() []byte {
	var s bytes.Buffer
	lo, hi := f.Box.Min.Sub(geom.Vec2{svgMargin, svgMargin}), f.Box.Max.Add(geom.Vec2{svgMargin, svgMargin})
	at := func(v geom.Vec2) string {
		return trimmed(v[0]-lo[0], places) + " " + trimmed(hi[1]-v[1], places)
	}
	w, h := trimmed(hi[0]-lo[0], places), trimmed(hi[1]-lo[1], places)
	fmt.Fprintf(&s, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s">`+"\n", w, h, w, h)
	fmt.Fprintf(&s, "<title>%s</title>\n", escaped(plain(f.Title)))
	for i := range f.Layers {
		l := &f.Layers[i]
		switch {
		case l.Name == LayerText:
			fmt.Fprintf(&s, `<g id="%s" fill="#000" stroke="none" font-family="Arial, Helvetica, 'Liberation Sans', sans-serif">`+"\n", l.Name)
		case l.Cut():
			fmt.Fprintf(&s, `<g id="%s" fill="none" stroke="#000" stroke-width="0.2">`+"\n", l.Name)
		case l.Name == LayerDown:
			fmt.Fprintf(&s, `<g id="%s" fill="none" stroke="#000" stroke-width="0.1" stroke-dasharray="3 1">`+"\n", l.Name)
		default:
			fmt.Fprintf(&s, `<g id="%s" fill="none" stroke="#000" stroke-width="0.1">`+"\n", l.Name)
		}
		for _, c := range l.Circles {
			x, y, _ := strings.Cut(at(c.At), " ")
			fmt.Fprintf(&s, `<circle cx="%s" cy="%s" r="%s"/>`+"\n", x, y, trimmed(c.Radius, places))
		}
		for _, e := range l.Lines {
			fmt.Fprintf(&s, `<path d="M%s L%s"/>`+"\n", at(e[0]), at(e[1]))
		}
		for _, p := range l.Paths {
			fmt.Fprintf(&s, `<path d="%s"/>`+"\n", pathData(p, at))
		}
		for _, t := range l.Words {
			x, y, _ := strings.Cut(at(t.At), " ")
			fmt.Fprintf(&s, `<text x="%s" y="%s" font-size="%s">%s</text>`+"\n", x, y, trimmed(t.Height*1.4, places), escaped(t.Text)) // capitals are 0.7 of the size
		}
		s.WriteString("</g>\n")
	}
	s.WriteString("</svg>\n")
	return s.Bytes()
}

// pathData writes a path; a closed one's last straight edge is left to its Z.
func pathData(p Path, at func(geom.Vec2) string) string {
	var d strings.Builder
	d.WriteString("M" + at(p.Pieces[0].A))
	for i, q := range p.Pieces {
		if q.Turn == 0 {
			if !p.Closed || i+1 < len(p.Pieces) {
				d.WriteString(" L" + at(q.B))
			}
			continue
		}
		n := math.Ceil(math.Abs(q.Turn) / flatArc)
		for k := 0.0; k < n; k++ {
			a := q.Part(k/n, (k+1)/n)
			sweep := "0" // counter-clockwise on paper
			if a.Turn < 0 {
				sweep = "1"
			}
			_, r, _ := a.Circle()
			rs := trimmed(r, places)
			d.WriteString(" A" + rs + " " + rs + " 0 0 " + sweep + " " + at(a.B))
		}
	}
	if p.Closed {
		d.WriteString(" Z")
	}
	return d.String()
}

var escape = strings.NewReplacer("<", "&lt;", ">", "&gt;", "&", "&amp;", `"`, "&quot;", "'", "&#39;")

func escaped(s string) string { return escape.Replace(s) }
