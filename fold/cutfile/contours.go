package cutfile

// This file takes the blank's edges from the part.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// contour is a closed chain of exact edges with the material on its left.
type contour struct {
	what string // "the outline", "cutout 2"
	ps   []geom.Piece
	void bool
}

// blank is all that is cut, in mm in the part's axes.
type blank struct {
	part     *fold.Part
	contours []contour // the outline, then the cutouts
	holes    []Circle
	vees     []geom.Vec2 // the points of the notches that mark bends
	notes    []string
}

// blankOf takes a part's edges. A part whose outline crosses itself, or with a hole off the sheet, has none.
func blankOf(p *fold.Part) (*blank, error) {
	b := &blank{part: p}
	for _, t := range p.Troubles {
		at := t.At
		switch {
		case t.Rule == "void-off-sheet", t.Severity == fold.Stop && !p.Foldable:
			return nil, &Error{At: &at, Words: t.Message}
		case t.Rule == "voids-meet":
			b.notes = append(b.notes, t.Message+" Both are cut whole.")
		}
	}
	if !p.Foldable {
		return nil, &Error{Words: "The blank can't be cut; mend what stops the part first."}
	}
	k := p.Spec.Units.Scale()
	for i, c := range append([]fold.Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		ps, _ := c.Pieces(k, i == 0)
		what := "the outline"
		if i > 0 {
			what = fmt.Sprintf("cutout %d", i)
		}
		b.contours = append(b.contours, contour{what: what, ps: ps, void: i > 0})
	}
	for _, h := range p.Spec.Holes {
		b.holes = append(b.holes, Circle{h.At.Mul(k), h.Diameter * k / 2})
	}
	return b, nil
}

// spot writes a place of the blank in the part file's units, as troubles do.
func (b *blank) spot(at geom.Vec2) string {
	k := b.part.Spec.Units.Scale()
	if b.part.Spec.Units == fold.Inch {
		return fmt.Sprintf("(%.2f, %.2f)", at[0]/k, at[1]/k)
	}
	return fmt.Sprintf("(%.1f, %.1f)", at[0]/k, at[1]/k)
}

func (b *blank) note(format string, a ...any) { b.notes = append(b.notes, fmt.Sprintf(format, a...)) }

// inside reports whether a point lies in the material, by the exact edges.
func (b *blank) inside(v geom.Vec2) bool {
	for _, c := range b.contours {
		if holds(c.ps, v) == c.void {
			return false
		}
	}
	for _, h := range b.holes {
		if v.Sub(h.At).Len() < h.Radius {
			return false
		}
	}
	return true
}

// holds reports whether a closed chain goes round a point: by the chords, and by what lies between them and the arcs.
func holds(ps []geom.Piece, v geom.Vec2) bool {
	loop := make(geom.Loop, len(ps))
	for i, p := range ps {
		loop[i] = p.A
	}
	in := loop.Contains(v)
	for _, p := range ps {
		if p.Turn == 0 {
			continue
		}
		// Between arc and chord: on the arc's inner side and beyond the chord.
		side := 1.0
		if p.Turn < 0 {
			side = -1
		}
		r, _ := p.Right(v)
		if chord := geom.Cross2(p.B.Sub(p.A), v.Sub(p.A)); side*r < 0 && side*chord < 0 {
			in = !in
		}
	}
	return in
}
