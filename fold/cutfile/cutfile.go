// Package cutfile makes files for cutting a blank by machine: DXF as old readers take it (release 12, ASCII) and
// SVG at true size, with true arcs and circles, closed outlines, and each kind of line on a layer of its own.
//
// cutfile.go says what can be asked for and puts the file together; contours.go takes the edges from the part,
// notches.go the small notches at the ends of bend lines, offset.go, strands.go and lost.go allow for the width of the cut,
// gaps.go leaves it uncut here and there, lines.go has the lines of the bends, words.go the words; dxf.go and svg.go write.
package cutfile

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Bends say how bend lines come into the file.
type Bends int

// The ways to show bend lines.
const (
	NoBends    Bends = iota
	BendLines        // a line from edge to edge, on a layer of its own for up and for down, to be marked and not cut
	BendVees         // a small V notch in the outline at each end
	BendsWrong       // from here on there is none
)

// Holes say how round holes come into the file.
type Holes int

// The ways to show round holes.
const (
	CutHoles   Holes = iota
	MarkHoles        // a small cross at the middle, to be drilled by hand
	NoHoles          //
	HolesWrong       // from here on there is none
)

// Options say what the file holds. Lengths in mm, whatever Units. The zero value is the bare blank: outline, cutouts and
// holes, cut on their lines, in mm.
type Options struct {
	Units fold.Units // of the file's numbers; an SVG is in mm always
	// Kerf is the width of the cut. The cut's middle runs half of it outside the outline and inside holes and cutouts, so that the
	// part comes out to size. Round outside corners the cutter goes in an arc about the corner, which leaves the corner sharp; in inside
	// corners it leaves a radius of half its width. 0: on the line.
	Kerf float64
	// Gaps is how many short gaps hold the part in the sheet, in the outline and in each cutout; round holes have none.
	// What stays uncut is GapWidth wide.
	Gaps     int
	GapWidth float64
	Bends    Bends
	Notch    float64 // depth of the notches, and their width at the edge
	Tangents bool    // the two edges of each bend, on a layer of their own
	Holes    Holes
	Text     bool // name, sheet, which face is up and what was allowed for, below the blank
	Mirror   bool // cut with the lower face up: all is mirrored left to right, and up bends are down
}

// File is what is to be cut. Lengths in mm; the lower left corner of the blank's box is the origin, y upwards.
type File struct {
	Title  string
	Units  fold.Units
	Layers []Layer // in the order to be cut in: marks, then holes and cutouts, the outline last
	Box    geom.Box2
	Notes  []string // what is to be known of it: what the cut leaves, where there was no room; lengths in mm
	Length float64  // of all cuts
	Starts int      // how often the cutter begins
}

// The names of the layers.
const (
	LayerText     = "TEXT"
	LayerUp       = "BEND_UP"
	LayerDown     = "BEND_DOWN"
	LayerTangents = "TANGENTS"
	LayerMarks    = "HOLE_MARKS"
	LayerHoles    = "HOLES"
	LayerCutouts  = "CUTOUTS"
	LayerOutline  = "CUT"
)

var layers = []string{LayerText, LayerUp, LayerDown, LayerTangents, LayerMarks, LayerHoles, LayerCutouts, LayerOutline}

// Layer holds what is of one kind.
type Layer struct {
	Name    string
	Paths   []Path
	Circles []Circle
	Lines   [][2]geom.Vec2
	Words   []Words
}

// Cut reports whether the layer is to be cut; else it is marked, or read.
func (l *Layer) Cut() bool {
	return l.Name == LayerHoles || l.Name == LayerCutouts || l.Name == LayerOutline
}

func (l *Layer) empty() bool { return len(l.Paths)+len(l.Circles)+len(l.Lines)+len(l.Words) == 0 }

// Path is a chain of pieces, each ending where the next begins; a closed one ends where it began.
type Path struct {
	Pieces []geom.Piece
	Closed bool
}

// Circle is a whole circle.
type Circle struct {
	At     geom.Vec2
	Radius float64
}

// Words stand level with the left end of their baseline at At.
type Words struct {
	At     geom.Vec2
	Height float64
	Text   string
}

// Error is what keeps a file from being made. Lengths in its words are in mm.
type Error struct {
	Field string     // of Options: "units", "kerf", "gaps", "gap width", "bends", "notch", "holes"; "" where it is the part
	At    *geom.Vec2 // place on the blank, mm in the part's axes; nil if none
	Words string
}

func (e *Error) Error() string { return e.Words }

// Make makes the file. An error is an *Error.
func Make(p *fold.Part, o Options) (File, error) {
	if err := o.check(); err != nil {
		return File{}, err
	}
	b, err := blankOf(p)
	if err != nil {
		return File{}, err
	}
	lines := b.lines(p, o)
	if o.Bends == BendVees {
		b.notch(p, lines, o.Notch)
	}
	if o.Holes != CutHoles {
		b.holes = nil
	}
	if err := b.allow(o.Kerf); err != nil {
		return File{}, err
	}
	paths, err := b.gaps(p, o)
	if err != nil {
		return File{}, err
	}
	f := File{Title: p.Spec.Name, Units: o.Units}
	at := map[string]*Layer{}
	f.Layers = make([]Layer, len(layers))
	for i, n := range layers {
		f.Layers[i].Name = n
		at[n] = &f.Layers[i]
	}
	for i, path := range paths {
		name := LayerOutline
		if i > 0 {
			name = LayerCutouts
		}
		at[name].Paths = append(at[name].Paths, path...)
	}
	at[LayerHoles].Circles = b.holes
	if o.Holes == MarkHoles {
		k := p.Spec.Units.Scale()
		for _, h := range p.Spec.Holes {
			c := h.At.Mul(k)
			at[LayerMarks].Lines = append(at[LayerMarks].Lines,
				[2]geom.Vec2{c.Sub(geom.Vec2{markArm, 0}), c.Add(geom.Vec2{markArm, 0})},
				[2]geom.Vec2{c.Sub(geom.Vec2{0, markArm}), c.Add(geom.Vec2{0, markArm})})
		}
	}
	for _, l := range lines {
		switch {
		case l.tangent && o.Tangents:
			at[LayerTangents].Lines = append(at[LayerTangents].Lines, l.ends)
		case l.tangent || o.Bends != BendLines:
		case l.up != o.Mirror:
			at[LayerUp].Lines = append(at[LayerUp].Lines, l.ends)
		default:
			at[LayerDown].Lines = append(at[LayerDown].Lines, l.ends)
		}
	}
	f.place(p.Blank.Box, o.Mirror)
	f.measure()
	if o.Text {
		at[LayerText].Words = f.words(p, o)
		f.measure()
	}
	f.Notes = b.notes
	var full []Layer
	for _, l := range f.Layers {
		if !l.empty() {
			full = append(full, l)
		}
	}
	f.Layers = full
	return f, nil
}

// check refuses options that can't be.
func (o *Options) check() error {
	bad := func(field, format string, a ...any) error {
		return &Error{Field: field, Words: fmt.Sprintf(format, a...)}
	}
	switch {
	case o.Units != fold.MM && o.Units != fold.Inch:
		return bad("units", "Units: there are mm and inches alone.")
	case !(o.Kerf >= 0 && o.Kerf <= MaxKerf):
		return bad("kerf", "Width of the cut: found %v mm, need 0 to %g mm; 0 cuts on the line.", o.Kerf, MaxKerf)
	case o.Gaps < 0 || o.Gaps > MaxGaps:
		return bad("gaps", "Gaps: found %d, need 0 to %d for each contour.", o.Gaps, MaxGaps)
	case o.Gaps > 0 && !(o.GapWidth >= LeastGap && o.GapWidth <= MostGap):
		return bad("gap width", "Width of the gaps: found %v mm, need %g mm to %g mm.", o.GapWidth, LeastGap, MostGap)
	case o.Bends < NoBends || o.Bends >= BendsWrong:
		return bad("bends", "Bend lines: there are none, lines and notches alone.")
	case o.Bends == BendVees && !(o.Notch >= LeastNotch && o.Notch <= MostNotch):
		return bad("notch", "Depth of the notches: found %v mm, need %g mm to %g mm.", o.Notch, LeastNotch, MostNotch)
	case o.Bends == BendVees && o.Notch < o.Kerf:
		return bad("notch", "Depth of the notches: %.2f mm, and as much wide, close up in a cut of %.2f mm; need more than the cut's width.", o.Notch, o.Kerf)
	case o.Holes < CutHoles || o.Holes >= HolesWrong:
		return bad("holes", "Holes: they are cut, marked or left out.")
	}
	return nil
}

// place moves all from the part's axes to the file's.
func (f *File) place(box geom.Box2, mirror bool) {
	point := func(v geom.Vec2) geom.Vec2 {
		if mirror {
			return geom.Vec2{box.Max[0] - v[0], v[1] - box.Min[1]}
		}
		return v.Sub(box.Min)
	}
	for i := range f.Layers {
		l := &f.Layers[i]
		for k := range l.Circles {
			l.Circles[k].At = point(l.Circles[k].At)
		}
		for k := range l.Lines {
			l.Lines[k] = [2]geom.Vec2{point(l.Lines[k][0]), point(l.Lines[k][1])}
		}
		for k := range l.Paths {
			ps := make([]geom.Piece, len(l.Paths[k].Pieces))
			for j, p := range l.Paths[k].Pieces {
				ps[j] = geom.Piece{A: point(p.A), B: point(p.B), Turn: p.Turn}
				if mirror {
					ps[j].Turn = -p.Turn
				}
			}
			if mirror {
				ps = geom.ReversedPieces(ps)
			}
			l.Paths[k].Pieces = ps
		}
	}
}

// measure finds the box, and what there is to cut.
func (f *File) measure() {
	f.Box, f.Length, f.Starts = geom.EmptyBox2(), 0, 0
	add := func(b geom.Box2) {
		f.Box.Add(b.Min)
		f.Box.Add(b.Max)
	}
	for i := range f.Layers {
		l := &f.Layers[i]
		for _, c := range l.Circles {
			r := geom.Vec2{c.Radius, c.Radius}
			add(geom.Box2{Min: c.At.Sub(r), Max: c.At.Add(r)})
			f.Length += 2 * math.Pi * c.Radius
			f.Starts++
		}
		for _, e := range l.Lines {
			add(geom.Box2{Min: e[0], Max: e[0]})
			add(geom.Box2{Min: e[1], Max: e[1]})
		}
		for _, p := range l.Paths {
			for _, q := range p.Pieces {
				add(q.Box())
				f.Length += q.Len()
			}
			f.Starts++
		}
		for _, w := range l.Words {
			add(geom.Box2{Min: w.At, Max: w.At.Add(geom.Vec2{w.width(), w.Height})})
		}
	}
}
