package cutfile

// This file writes DXF, release 12, ASCII: the layout that the format's published reference for release 12 gives.
// $INSUNITS and $MEASUREMENT came after release 12; readers of that age pass over variables that they
// don't know, later ones take the unit from them. The unit stands in a comment too.

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf16"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// dxf collects group codes and their values.
type dxf struct {
	bytes.Buffer
	scale float64 // mm in a unit of the file
}

func (d *dxf) text(code int, s string) { fmt.Fprintf(d, "%3d\r\n%s\r\n", code, s) }
func (d *dxf) whole(code, n int)       { fmt.Fprintf(d, "%3d\r\n%6d\r\n", code, n) }

func (d *dxf) number(code int, x float64, places int) {
	s := trimmed(x, places)
	if !strings.Contains(s, ".") {
		s += ".0"
	}
	d.text(code, s)
}

func (d *dxf) length(code int, mm float64) {
	n := places
	if d.scale > 1 {
		n++ // an inch is longer
	}
	d.number(code, mm/d.scale, n)
}

// point writes a point in space as codes n, n+10 and n+20.
func (d *dxf) point(n int, v geom.Vec2) {
	d.length(n, v[0])
	d.length(n+10, v[1])
	d.number(n+20, 0, places)
}

// DXF is the file as DXF.
func (f File) DXF() []byte {
	d := &dxf{scale: f.Units.Scale()}
	d.text(999, "Dryfold: blank for cutting")
	d.text(999, "Units: "+unitWord(f.Units))
	d.text(0, "SECTION")
	d.text(2, "HEADER")
	d.text(9, "$ACADVER")
	d.text(1, "AC1009")
	d.text(9, "$INSUNITS")
	metric := 1
	if f.Units == fold.Inch {
		metric = 0
		d.whole(70, 1)
	} else {
		d.whole(70, 4)
	}
	d.text(9, "$MEASUREMENT")
	d.whole(70, metric)
	d.text(9, "$LUNITS")
	d.whole(70, 2) // decimal
	d.text(9, "$LUPREC")
	d.whole(70, 4)
	box := f.Box
	if w, ok := f.unit(); ok {
		box.Add(w.At)
	}
	d.text(9, "$EXTMIN")
	d.point(10, box.Min)
	d.text(9, "$EXTMAX")
	d.point(10, box.Max)
	d.text(0, "ENDSEC")

	d.text(0, "SECTION")
	d.text(2, "TABLES")
	d.text(0, "TABLE")
	d.text(2, "LTYPE")
	d.whole(70, 1)
	d.text(0, "LTYPE")
	d.text(2, "CONTINUOUS")
	d.whole(70, 0)
	d.text(3, "Solid line")
	d.whole(72, 65)
	d.whole(73, 0)
	d.number(40, 0, places)
	d.text(0, "ENDTAB")
	d.text(0, "TABLE")
	d.text(2, "LAYER")
	d.whole(70, 1+len(f.Layers))
	for i := range 1 + len(f.Layers) {
		d.text(0, "LAYER")
		if i == 0 {
			d.text(2, "0")
		} else {
			d.text(2, f.Layers[i-1].Name)
		}
		d.whole(70, 0)
		d.whole(62, 7) // the screen's own: layers are told apart by name
		d.text(6, "CONTINUOUS")
	}
	d.text(0, "ENDTAB")
	d.text(0, "TABLE")
	d.text(2, "STYLE")
	d.whole(70, 1)
	d.text(0, "STYLE")
	d.text(2, "STANDARD")
	d.whole(70, 0)
	d.number(40, 0, places)
	d.number(41, 1, places)
	d.number(50, 0, places)
	d.whole(71, 0)
	d.length(42, textHeight)
	d.text(3, "txt")
	d.text(4, "")
	d.text(0, "ENDTAB")
	d.text(0, "ENDSEC")

	d.text(0, "SECTION")
	d.text(2, "ENTITIES")
	for i := range f.Layers {
		d.layer(&f.Layers[i])
		if w, ok := f.unit(); ok && f.Layers[i].Name == LayerText {
			d.words(LayerText, w)
		}
	}
	d.text(0, "ENDSEC")
	d.text(0, "EOF")
	return d.Bytes()
}

func (d *dxf) entity(kind, layer string) {
	d.text(0, kind)
	d.text(8, layer)
}

func (d *dxf) layer(l *Layer) {
	for _, c := range l.Circles {
		d.entity("CIRCLE", l.Name)
		d.point(10, c.At)
		d.length(40, c.Radius)
	}
	for _, e := range l.Lines {
		d.entity("LINE", l.Name)
		d.point(10, e[0])
		d.point(11, e[1])
	}
	for _, p := range l.Paths {
		d.entity("POLYLINE", l.Name)
		d.whole(66, 1) // vertices follow
		d.point(10, geom.Vec2{})
		d.whole(70, map[bool]int{true: 1}[p.Closed])
		vertex := func(v geom.Vec2, turn float64) {
			d.entity("VERTEX", l.Name)
			d.point(10, v)
			if turn != 0 {
				d.number(42, math.Tan(turn/4), bulgePlaces)
			}
		}
		for _, q := range p.Pieces {
			vertex(q.A, q.Turn)
		}
		if !p.Closed {
			vertex(p.Pieces[len(p.Pieces)-1].B, 0)
		}
		d.entity("SEQEND", l.Name)
	}
	for _, w := range l.Words {
		d.words(l.Name, w)
	}
}

func (d *dxf) words(layer string, w Words) {
	d.entity("TEXT", layer)
	d.point(10, w.At)
	d.length(40, w.Height)
	d.text(1, dxfText(w.Text))
}

// dxfText is text as a DXF string: ASCII, with \U+ and four digits for the rest; two per cent signs, which begin a code, are
// set apart.
func dxfText(s string) string {
	var b strings.Builder
	for strings.Contains(s, "%%") {
		s = strings.ReplaceAll(s, "%%", "% %")
	}
	for _, r := range s {
		if r < 0x7f {
			b.WriteRune(r)
			continue
		}
		for _, u := range utf16.Encode([]rune{r}) {
			fmt.Fprintf(&b, `\U+%04X`, u)
		}
	}
	return b.String()
}

// trimmed is a number to so many places, without noughts at its end.
func trimmed(x float64, places int) string {
	s := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
