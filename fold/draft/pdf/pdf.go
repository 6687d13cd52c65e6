// Package pdf writes drawn pages as a PDF file, each page of its own size. Lines and text are
// placed to 0.01 point, which is 0.0035 mm.
//
// Letters of Western Europe are set in Helvetica and Times, which every reader of PDF has; text that needs
// others in the Go fonts, of which the file then holds what it needs. A letter that those lack too is printed as a
// box: Missing tells which. fpdf writes the file.
package pdf

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/encoding/charmap"

	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// point is how many mm a point is.
const point = 25.4 / 72

// Write is the PDF file of pages. The same pages and date give the same bytes.
func Write(title string, pages []draft.Page, made time.Time) ([]byte, error) {
	f := fpdf.New("P", "mm", "A4", "")
	f.SetCatalogSort(true)
	f.SetCreationDate(made)
	f.SetModificationDate(made)
	f.SetProducer("Dryfold", true)
	f.SetCreator("Dryfold", true)
	f.SetTitle(known(title), true)
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetDisplayMode("fullpage", "single")
	w := writer{f: f}
	for _, g := range pages {
		f.AddPageFormat("P", fpdf.SizeType{Wd: g.W, Ht: g.H})
		for i := range g.Items {
			w.item(&g.Items[i])
		}
	}
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

type writer struct {
	f     *fpdf.Fpdf
	clips []bool // of the open groups: it has a window
	faces [2]bool
}

func (w *writer) item(x *draft.Item) {
	f := w.f
	switch x.Kind {
	case draft.Open:
		w.clips = append(w.clips, x.Clip != nil)
		if c := x.Clip; c != nil {
			f.ClipRect(c.Min[0], c.Min[1], c.Max[0]-c.Min[0], c.Max[1]-c.Min[1], false)
		}
	case draft.Close:
		if n := len(w.clips) - 1; n >= 0 {
			if w.clips[n] {
				f.ClipEnd()
			}
			w.clips = w.clips[:n]
		}
	case draft.Text:
		w.text(x)
	default:
		how := w.style(draft.Styles[x.Class])
		if how == "" {
			return
		}
		switch x.Kind {
		case draft.Box:
			f.Rect(x.At[0], x.At[1], x.W, x.H, how)
		case draft.Circle:
			f.Circle(x.At[0], x.At[1], x.R, how)
		case draft.Line:
			w.path(x.Path)
			if how == "F" || how == "FD" {
				how += "*" // as SVG's evenodd
			}
			f.DrawPath(how)
		}
	}
}

// style sets the pens and says what is done with them, as fpdf names it; "" for nothing.
func (w *writer) style(s draft.Style) (how string) {
	f := w.f
	if s.Fill != "" {
		how = "F"
		r, g, b := colour(s.Fill)
		f.SetFillColor(r, g, b)
	}
	if s.Stroke == "" {
		return how
	}
	r, g, b := colour(s.Stroke)
	f.SetDrawColor(r, g, b)
	f.SetLineWidth(s.Width)
	end := "butt"
	join := "miter"
	if s.Round {
		end, join = "round", "round"
	}
	f.SetLineCapStyle(end)
	f.SetLineJoinStyle(join)
	f.SetDashPattern(s.Dash, 0)
	return how + "D"
}

// colour reads #rgb and #rrggbb.
func colour(c string) (r, g, b int) {
	v, err := strconv.ParseUint(c[1:], 16, 32)
	if err != nil {
		return 0, 0, 0
	}
	if len(c) == 4 {
		return int(v>>8&15) * 17, int(v>>4&15) * 17, int(v&15) * 17
	}
	return int(v >> 16 & 255), int(v >> 8 & 255), int(v & 255)
}

func (w *writer) path(p draft.Path) {
	f := w.f
	var at, first geom.Vec2
	for _, s := range p {
		switch s.Op {
		case 'M':
			f.MoveTo(s.To[0], s.To[1])
			first = s.To
		case 'L':
			f.LineTo(s.To[0], s.To[1])
		case 'A':
			w.arc(at, s)
		case 'Z':
			f.ClosePath()
			s.To = first
		}
		at = s.To
	}
}

// arcStep is the most that one curve of an arc turns: it is then within 5e-6 of its radius of the circle.
const arcStep = math.Pi / 4

func (w *writer) arc(from geom.Vec2, s draft.Step) {
	a, ok := draft.ArcOf(from, s)
	if !ok {
		w.f.LineTo(s.To[0], s.To[1])
		return
	}
	n := math.Ceil(math.Abs(a.Sweep) / arcStep)
	step := a.Sweep / n
	k := 4.0 / 3 * math.Tan(step/4) * a.R
	for i := range int(n) {
		sin0, cos0 := math.Sincos(a.From + step*float64(i))
		sin1, cos1 := math.Sincos(a.From + step*float64(i+1))
		p := a.Centre.Add(geom.Vec2{cos0, sin0}.Mul(a.R))
		q := a.Centre.Add(geom.Vec2{cos1, sin1}.Mul(a.R))
		c, d := p.Add(geom.Vec2{-sin0, cos0}.Mul(k)), q.Sub(geom.Vec2{-sin1, cos1}.Mul(k))
		if i == int(n)-1 {
			q = s.To
		}
		w.f.CurveBezierCubicTo(c[0], c[1], d[0], d[1], q[0], q[1])
	}
}

// run is a stretch of text in one font.
type run struct {
	words   string // as the font is told it
	western bool
	wide    float64
}

func (w *writer) text(x *draft.Item) {
	f := w.f
	s := draft.Styles[x.Class]
	size := s.Size
	if x.Size > 0 {
		size = x.Size
	}
	f.SetTextColor(0, 0, 0)
	if s.Fill != "" {
		f.SetTextColor(colour(s.Fill))
	}
	runs, wide := runsOf(x.Words), 0.0
	for i := range runs {
		w.font(s, size, runs[i].western)
		runs[i].wide = f.GetStringWidth(runs[i].words)
		wide += runs[i].wide
	}
	at := x.At
	switch x.To {
	case draft.Middle:
		at[0] -= wide / 2
	case draft.End:
		at[0] -= wide
	}
	if x.Turn != 0 {
		f.TransformBegin()
		f.TransformRotate(x.Turn, x.At[0], x.At[1])
		defer f.TransformEnd()
	}
	for _, r := range runs {
		w.font(s, size, r.western)
		f.Text(at[0], at[1], r.words)
		at[0] += r.wide
	}
}

// font sets the font of a style for letters of Western Europe, or for others.
func (w *writer) font(s draft.Style, size float64, western bool) {
	family, style := "Helvetica", ""
	switch {
	case !western:
		family = w.face(s.Bold)
	case s.Serif:
		family = "Times"
	}
	if s.Bold {
		style = "B"
	}
	w.f.SetFont(family, style, size/point)
}

// known is text with a mark for a missing letter in place of those beyond the first 65,536, as emoji: fpdf fails on them, and the
// fonts have none.
func known(t string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xffff {
			return utf8.RuneError
		}
		return r
	}, t)
}

// runsOf parts text into stretches that the fonts which every reader has can show, told in their own letters, and others.
func runsOf(t string) (out []run) {
	for _, r := range known(t) {
		b, western := charmap.Windows1252.EncodeRune(r)
		if n := len(out); n == 0 || out[n-1].western != western {
			out = append(out, run{western: western})
		}
		if last := &out[len(out)-1]; western {
			last.words += string([]byte{b})
		} else {
			last.words += string(r)
		}
	}
	return out
}

// face is the font for other letters, put in the file when it is first needed.
func (w *writer) face(bold bool) string {
	i, ttf, style := 0, goregular.TTF, ""
	if bold {
		i, ttf, style = 1, gobold.TTF, "B"
	}
	if !w.faces[i] {
		w.faces[i] = true
		w.f.AddUTF8FontFromBytes("go", style, ttf)
	}
	return "go"
}

// Missing are the letters of a text that none of the fonts has, each once.
func Missing(text string) string {
	var out []rune
	face, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		panic(err)
	}
	var buf sfnt.Buffer
	seen := map[rune]bool{}
	for _, r := range text {
		if _, ok := charmap.Windows1252.EncodeRune(r); ok || seen[r] {
			continue
		}
		seen[r] = true
		if i, err := face.GlyphIndex(&buf, r); err != nil || i == 0 {
			out = append(out, r)
		}
	}
	return string(out)
}
