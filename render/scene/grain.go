package scene

import (
	"cmp"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// This file writes the sheet's grain on the blank: an arrow each way along it with
// the word between them, drawn on the upper face as with a pen, so that it turns
// and hides with the metal it stands on.

// grainMark is where the grain is written: strokes on one panel of the blank. Panel -1 for nowhere.
type grainMark struct {
	panel   int
	strokes [][2]geom.Vec2
}

// The mark's measures in heights of its letters.
const (
	grainWord  = 2.74 // length of the word
	grainGap   = .5   // from the word to an arrow
	grainArrow = 2.2  // length of an arrow
	grainHead  = .3   // of its head
	grainLong  = grainWord + 2*(grainGap+grainArrow)
	grainHigh  = 1.35 // with the letters' tails
)

// grainLetters are the word's strokes, in heights of its letters, from the left end of its base line.
var grainLetters = [][]geom.Vec2{
	{{.5, .7}, {.15, .7}, {0, .55}, {0, .15}, {.15, 0}, {.5, 0}}, // g
	{{.5, .7}, {.5, -.2}, {.35, -.33}, {.05, -.33}},
	{{.72, 0}, {.72, .7}}, {{.72, .45}, {.9, .66}, {1.1, .7}}, // r
	{{1.8, .7}, {1.45, .7}, {1.3, .55}, {1.3, .15}, {1.45, 0}, {1.65, 0}, {1.8, .15}}, // a
	{{1.8, .7}, {1.8, 0}},
	{{2.02, 0}, {2.02, .7}}, {{2.02, .9}, {2.02, 1}}, // i
	{{2.24, 0}, {2.24, .7}}, {{2.24, .5}, {2.42, .7}, {2.6, .7}, {2.74, .55}, {2.74, 0}}, // n
}

// findGrain finds where the grain is best written: on the panel that lies still if it has
// room, else on the largest that has, off its edges and holes and off its name's place.
func findGrain(p *fold.Part) grainMark {
	none := grainMark{panel: -1}
	if p.Spec.Sheet.Grain == nil || !p.Foldable {
		return none
	}
	sin, cos := math.Sincos(*p.Spec.Sheet.Grain * math.Pi / 180)
	dir := geom.Vec2{cos, sin}
	home := Camera{Yaw: (&Scene{Picture: Picture{Part: p}}).homeYaw(), Pitch: homePitch}
	right, _, back := home.Axes()
	if dir.Dot(geom.Vec2{right[0], right[1]}) < 0 { // the word reads from the left, as the part is first seen
		dir = dir.Mul(-1)
	}
	away := geom.Vec2{-back[0], -back[1]}.Normalize()
	order := make([]int, len(p.Panels))
	for i := range order {
		order[i] = i
	}
	geom.SortStable(order, func(a, b int) int {
		if (a == p.Base) != (b == p.Base) {
			if a == p.Base {
				return -1
			}
			return 1
		}
		return cmp.Compare(p.Panels[b].Area, p.Panels[a].Area)
	})
	order = order[:min(len(order), grainPanels)]
	for size := 1.0; size > grainLeast; size *= .8 {
		h := p.Blank.Box.Size().Len() * grainSize * size
		for _, i := range order {
			if at, ok := grainRoom(&p.Panels[i], dir, away, h); ok {
				return grainMark{i, grainStrokes(at, dir, h)}
			}
		}
	}
	return none
}

// grainRoom finds the middle of a free place for letters of a height on a panel: near its
// middle, rather away from the viewer, where a wall in front hides it less.
func grainRoom(pn *fold.Panel, dir, away geom.Vec2, h float64) (at geom.Vec2, ok bool) {
	side := geom.Perp(dir)
	flat := func(v geom.Vec2) geom.Vec2 { return geom.Vec2{v.Dot(dir), v.Dot(side)} }
	var edges [][2]geom.Vec2
	box := geom.EmptyBox2()
	for _, l := range pn.Region.Loops() {
		for i, v := range l {
			edges = append(edges, [2]geom.Vec2{flat(v), flat(l[(i+1)%len(l)])})
			box.Add(v)
		}
	}
	half := geom.Vec2{(grainLong/2 + .5) * h, (grainHigh/2 + .4) * h}
	size := box.Size()
	if half[0]*2 > size.Len() {
		return at, false
	}
	wish := pn.Label.Add(away.Mul(min(size[0], size[1]) * .25))
	name := flat(pn.Label)
	best := math.Inf(1)
	for i := range grainTries * grainTries {
		v := geom.Vec2{
			box.Min[0] + size[0]*(float64(i%grainTries)+.5)/grainTries,
			box.Min[1] + size[1]*(float64(i/grainTries)+.5)/grainTries,
		}
		d := v.Sub(wish).Len()
		if d >= best || !pn.Region.Contains(v) {
			continue
		}
		c := flat(v)
		if o := name.Sub(c); abs(o[0]) < half[0] && abs(o[1]) < half[1]+h*.6 {
			continue
		}
		if !slices.ContainsFunc(edges, func(e [2]geom.Vec2) bool { return enters(e[0].Sub(c), e[1].Sub(c), half) }) {
			best, at, ok = d, v, true
		}
	}
	return at, ok
}

// enters reports whether the line a-b comes into the box of half sizes about the origin.
func enters(a, b, half geom.Vec2) bool {
	lo, hi := 0.0, 1.0
	d := b.Sub(a)
	for k := range 2 {
		if abs(d[k]) < 1e-12 {
			if abs(a[k]) > half[k] {
				return false
			}
			continue
		}
		t, u := (-half[k]-a[k])/d[k], (half[k]-a[k])/d[k]
		lo, hi = max(lo, min(t, u)), min(hi, max(t, u))
	}
	return lo <= hi
}

// grainStrokes are the mark's strokes about its middle.
func grainStrokes(at, dir geom.Vec2, h float64) [][2]geom.Vec2 {
	side := geom.Perp(dir)
	place := func(v geom.Vec2) geom.Vec2 { return at.Add(dir.Mul(v[0] * h)).Add(side.Mul(v[1] * h)) }
	var out [][2]geom.Vec2
	line := func(pts ...geom.Vec2) {
		for i := 1; i < len(pts); i++ {
			out = append(out, [2]geom.Vec2{place(pts[i-1]), place(pts[i])})
		}
	}
	for _, l := range grainLetters {
		moved := make([]geom.Vec2, len(l))
		for i, v := range l {
			moved[i] = v.Sub(geom.Vec2{grainWord / 2, .35})
		}
		line(moved...)
	}
	for _, way := range [2]float64{-1, 1} {
		near, far := way*(grainWord/2+grainGap), way*grainLong/2
		line(geom.Vec2{near, 0}, geom.Vec2{far, 0})
		line(geom.Vec2{far - way*grainHead*1.6, grainHead}, geom.Vec2{far, 0}, geom.Vec2{far - way*grainHead*1.6, -grainHead})
	}
	return out
}

// grain draws the mark where its panel stands.
func (s *Scene) grain() {
	g := &s.Mesher.grain
	if g.panel < 0 || g.panel >= len(s.Pose.Panels) {
		return
	}
	c, t := s.Picture.Colours().Ink.Alpha(.6), s.Picture.Part.Thickness
	for _, l := range g.strokes {
		s.Lines = append(s.Lines, Line{A: s.Pose.PanelPoint(g.panel, l[0], t), B: s.Pose.PanelPoint(g.panel, l[1], t), Width: grainWide, C: c, Lift: biasPx})
	}
}
