package paper

// This file finds the places of a blank that are too small to read on the cutting sheet, and draws them enlarged.

import (
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// cutPlace is a place that is drawn enlarged: edges that are short on paper, and where they lie on the blank.
type cutPlace struct {
	edges []int
	box   geom.Box2
	scale float64
}

// Sizes of places that are drawn enlarged, mm on paper.
const (
	placeSize    = 42.0 // of the square that one is drawn in
	placeGap     = 3.5  // between two
	placeRoom    = 12.0 // round the edges, for their labels
	placeMost    = 14.0 // short edges nearer to each other than so much are one place
	placeLarger  = 2.0  // a place is drawn at least so many times as large as the whole blank
	placeFrom    = 3    // so many short edges are a place
	mostPlaces   = 60
	mostEnlarged = 1500 // a blank of more edges is cut by machine: nothing of it is drawn enlarged
)

// placeName is a, b … z, aa …
func placeName(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return placeName(i/26-1) + placeName(i%26)
}

// places are the runs of edges that are short on paper at a scale. Those of the outline or of one cutout that lie close together are one.
func (c *cutSheet) places(scale float64) []cutPlace {
	edges := c.plan.Edges
	if len(edges) > mostEnlarged {
		return nil
	}
	short := func(i int) bool { return !edges[i].Whole && edges[i].Length*scale < letterFrom }
	box := func(list []int) geom.Box2 {
		b := geom.EmptyBox2()
		for _, i := range list {
			b.Add(edges[i].A)
			b.Add(edges[i].B)
			b.Add(edges[i].Mid)
		}
		return b
	}
	size, enlarged := placeLong, placeScale
	var out []cutPlace
	for i := range edges {
		if !short(i) || short(edges[i].Prev) && edges[i].Prev != i {
			continue // not the first of a run
		}
		var run []int
		for k := i; short(k) && len(run) < len(edges); k = edges[k].Next {
			run = append(run, k)
		}
		p := cutPlace{edges: run, box: box(run)}
		if n := len(out); n > 0 {
			both := p.box
			both.Add(out[n-1].box.Min)
			both.Add(out[n-1].box.Max)
			if enlarged(both) >= placeLarger*scale && size(both)*scale < placeMost {
				out[n-1].edges, out[n-1].box = append(out[n-1].edges, run...), both
				continue
			}
		}
		out = append(out, p)
	}
	kept := out[:0]
	for _, p := range out {
		if p.scale = enlarged(p.box); len(p.edges) >= placeFrom && size(p.box) > 0 && p.scale >= placeLarger*scale {
			kept = append(kept, p)
		}
	}
	return kept[:min(len(kept), mostPlaces)]
}

// placeLong is a place's longer side, placeScale the scale that it is enlarged to: 0 where it is too large for any.
func placeLong(b geom.Box2) float64 { s := b.Size(); return max(s[0], s[1]) }

func placeScale(b geom.Box2) float64 {
	for _, s := range scales {
		if placeLong(b)/s <= placeSize-2*placeRoom {
			return 1 / s
		}
	}
	return 0
}

// enlarged says in which of the places each edge is drawn.
func enlarged(places []cutPlace) map[int]int {
	of := map[int]int{}
	for k, p := range places {
		for _, i := range p.edges {
			of[i] = k
		}
	}
	return of
}

// placesHigh is what they take of a page of a width.
func placesHigh(n int, w float64) float64 {
	if n == 0 {
		return 0
	}
	per := placesPer(w)
	return 7 + float64((n+per-1)/per)*(placeSize+placeGap+4)
}

func placesPer(w float64) int { return max(1, int((w-2*margin+placeGap)/(placeSize+placeGap))) }

// drawPlaces draws the places from..to enlarged, from y down.
func (c *cutSheet) drawPlaces(s *draft.Page, places []cutPlace, from, to int, y float64) {
	of := enlarged(places)
	placeWindows(s, places, from, to, y, func(i int, window geom.Box2) {
		p := &places[i]
		mid := p.box.Min.Add(p.box.Max).Mul(0.5).Sub(c.part.Blank.Box.Min).Mul(p.scale)
		centre := window.Min.Add(window.Max).Mul(0.5)
		v := &cutView{c: c, s: s, scale: p.scale, origin: geom.Vec2{centre[0] - mid[0], centre[1] + mid[1]}, place: i, of: of, window: window,
			pl: &placer{limit: geom.Box2{Min: window.Min.Add(geom.Vec2{0.5, 0.5}), Max: window.Max.Sub(geom.Vec2{0.5, 0.5})}}}
		v.body()
		v.labels()
	})
}

// placeWindows draws the places from..to enlarged, from y down, each in a window with its letter and scale.
func placeWindows(s *draft.Page, places []cutPlace, from, to int, y float64, draw func(i int, window geom.Box2)) {
	s.Text("head", draft.Start, geom.Vec2{margin, y + 4}, "Enlarged")
	y += 7
	per := placesPer(s.W)
	for i := from; i < to; i++ {
		p := &places[i]
		n := i - from
		x, top := margin+float64(n%per)*(placeSize+placeGap), y+float64(n/per)*(placeSize+placeGap+4)
		s.Text("fact", draft.Start, geom.Vec2{x, top + 3}, placeName(i))
		scale := "1 : " + trim(1/p.scale, 2)
		if p.scale > 1 {
			scale = trim(p.scale, 2) + " : 1"
		}
		s.Text("note", draft.Start, geom.Vec2{x + 6, top + 3}, scale)
		window := geom.Box2{Min: geom.Vec2{x, top + 4}, Max: geom.Vec2{x + placeSize, top + 4 + placeSize}}
		s.Window("place", window)
		draw(i, window)
		s.End()
		s.Path("dimline", draft.Polygon(window.Min, geom.Vec2{window.Max[0], window.Min[1]}, window.Max, geom.Vec2{window.Min[0], window.Max[1]}))
	}
}
