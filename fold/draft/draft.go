// Package draft holds drawn pages as plain values: lines, text and groups of them,
// placed in mm. What is drawn says by a class what it is; styles.go says how each
// class looks. svg.go writes pages as SVG, the package pdf as PDF, text.go measures
// and breaks text.
package draft

import (
	"math"

	"dryfold/fold/geom"
)

// Page is one drawn page. Lengths are mm on paper from the top left corner, y downwards.
type Page struct {
	Title string
	W, H  float64
	Items []Item
}

// Kind is what an Item draws.
type Kind uint8

// The kinds of items.
const (
	Open   Kind = iota // begins a group, which Close ends
	Close              //
	Line               // Path
	Box                // a rectangle: At its top left corner, W and H
	Circle             // At its middle, R its radius
	Text               // Words with their baseline's anchor at At
)

// Item is one thing drawn, or the begin or end of a group.
type Item struct {
	Kind  Kind
	Class string     // of a group its name, else one of the styles
	ID    string     // of a group
	Clip  *geom.Box2 // of a group: what of it is seen
	At    geom.Vec2
	W, H  float64
	R     float64
	Path  Path
	Words string
	Size  float64 // of text, where it is not its class's
	To    Anchor
	Turn  float64 // of text: degrees from the level, rising
}

// Anchor says which end of text stands at its place.
type Anchor uint8

// The anchors of text.
const (
	Start Anchor = iota
	Middle
	End
)

// Path is a line of straight pieces and arcs.
type Path []Step

// Step leads on to a point.
type Step struct {
	Op    byte // 'M' begins anew, 'L' straight, 'A' an arc, 'Z' back to where it began
	To    geom.Vec2
	R     float64 // of an arc
	Large bool    // it is more than half a turn
	Right bool    // it turns clockwise, as seen on paper
}

// M, L, A and Z give the path with one step more.
func (p Path) M(to geom.Vec2) Path { return append(p, Step{Op: 'M', To: to}) }

// L goes straight.
func (p Path) L(to ...geom.Vec2) Path {
	for _, v := range to {
		p = append(p, Step{Op: 'L', To: v})
	}
	return p
}

// A goes along an arc.
func (p Path) A(r float64, large, right bool, to geom.Vec2) Path {
	return append(p, Step{'A', to, r, large, right})
}

// Z closes.
func (p Path) Z() Path { return append(p, Step{Op: 'Z'}) }

// Polygon is a closed path through points.
func Polygon(pts ...geom.Vec2) Path { return Path{}.M(pts[0]).L(pts[1:]...).Z() }

// Add adds items.
func (g *Page) Add(items ...Item) { g.Items = append(g.Items, items...) }

// Group begins a group; End ends it.
func (g *Page) Group(class string) { g.Add(Item{Kind: Open, Class: class}) }

// Named begins a group that is known by an ID.
func (g *Page) Named(id string) { g.Add(Item{Kind: Open, ID: id}) }

// Window begins a group of which only what lies in a box is seen.
func (g *Page) Window(class string, box geom.Box2) { g.Add(Item{Kind: Open, Class: class, Clip: &box}) }

// End ends a group.
func (g *Page) End() { g.Add(Item{Kind: Close}) }

// Line draws a straight line.
func (g *Page) Line(class string, a, b geom.Vec2) { g.Path(class, Path{}.M(a).L(b)) }

// Path draws a path.
func (g *Page) Path(class string, p Path) { g.Add(Item{Kind: Line, Class: class, Path: p}) }

// Text writes text level, its baseline's anchor at a place.
func (g *Page) Text(class string, to Anchor, at geom.Vec2, words string) {
	g.Add(Item{Kind: Text, Class: class, To: to, At: at, Words: words})
}

// Sized is Text in another size (mm) than its class's.
func (g *Page) Sized(class string, size float64, to Anchor, at geom.Vec2, words string) {
	g.Add(Item{Kind: Text, Class: class, Size: size, To: to, At: at, Words: words})
}

// Turned writes text that rises by an angle (degrees; 90 reads upwards).
func (g *Page) Turned(class string, turn float64, to Anchor, at geom.Vec2, words string) {
	g.Add(Item{Kind: Text, Class: class, To: to, At: at, Turn: turn, Words: words})
}

// Box draws a rectangle given by its top left corner.
func (g *Page) Box(class string, x, y, w, h float64) {
	g.Add(Item{Kind: Box, Class: class, At: geom.Vec2{x, y}, W: w, H: h})
}

// Circle draws a circle.
func (g *Page) Circle(class string, c geom.Vec2, r float64) {
	g.Add(Item{Kind: Circle, Class: class, At: c, R: r})
}

// Arrow draws an upright arrow, 3.2 high, pointing up or down, its middle at c.
func (g *Page) Arrow(c geom.Vec2, up bool) {
	h := 1.6
	if !up {
		h = -h
	}
	tip, wing := c[1]-h, c[1]-h*0.35
	g.Path("arrow", Path{}.M(geom.Vec2{c[0], c[1] + h}).L(geom.Vec2{c[0], tip}).
		M(geom.Vec2{c[0] - 1, wing}).L(geom.Vec2{c[0], tip}, geom.Vec2{c[0] + 1, wing}))
}

// Arc is a piece of a circle as a PDF or a screen wants it: its middle, where it begins and how far it turns (radians,
// clockwise as seen on paper).
type Arc struct {
	Centre      geom.Vec2
	R           float64
	From, Sweep float64
}

// ArcOf is the arc that a step draws from a point; false where it is none (its ends are one point, or it has no
// radius). An arc whose ends lie farther apart than its radius allows is drawn as half a turn, as SVG has it.
func ArcOf(from geom.Vec2, s Step) (Arc, bool) {
	d := s.To.Sub(from)
	l := d.Len()
	if l == 0 || !(s.R > 0) {
		return Arc{}, false
	}
	r := max(s.R, l/2)
	h := math.Sqrt(max(0, r*r-l*l/4))
	right := geom.Vec2{-d[1], d[0]}.Mul(1 / l) // of the way, as seen on paper
	if s.Large == s.Right {                    // less than half a turn to the right has its middle at the right
		h = -h
	}
	c := from.Add(d.Mul(0.5)).Add(right.Mul(h))
	a, b := math.Atan2(from[1]-c[1], from[0]-c[0]), math.Atan2(s.To[1]-c[1], s.To[0]-c[0])
	sweep := b - a
	if s.Right && sweep < 0 {
		sweep += 2 * math.Pi
	} else if !s.Right && sweep > 0 {
		sweep -= 2 * math.Pi
	}
	return Arc{c, r, a, sweep}, true
}
