package shape

// This file says whether a blank can be cut with the maker's own tools. cutrules.go holds which tool makes
// what, cutrim.go the blank's edge, cutpass.go its narrow places, cuthull.go its outer edges and widest places,
// cutpractical.go changes what can't be cut.

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// CutKind is what has to be cut.
type CutKind int

// Kinds of cuts.
const (
	CutCorner CutKind = iota // a sharp inside corner of the outline
	CutNotch                 // one sharper than snips open to its point
	CutRound                 // an inside corner that is round
	CutHole                  // a round hole
	CutSlot                  // a slot's narrowest place, or the bottom of a notch between its sides
	CutWindow                // a cutout as a whole: what gets in
	CutStrip                 // a narrow strip of metal beside a cut
	CutEdge                  // a straight cut right across, for shears
)

// Cut is one place of a blank, and what cuts it.
type Cut struct {
	Kind CutKind
	At   geom.Vec2 // on the blank, mm
	Hole string    // the hole's or cutout's name as troubles use it; "" for the outline
	// Contour and Edge are that of the piece of the blank's edge as fold.Edge counts them.
	Contour, Edge int
	// Across is the same of the piece on the other side of a slot's narrowest place; -1, -1 for all else.
	Across   [2]int
	Panels   [2]string     // on its two sides; "" where that is no panel
	Size     float64       // mm: a diameter or width, CutEdge the cut's length, CutWindow the widest place. Degrees for corners and notches
	Need     float64       // what would do, in the same unit; 0 where Size does or nothing is known
	Tool     string        // what makes it: "snips", "saw", "nibbler", "file", "shears", "drill 2.5 mm", "drill 9/32 in"; "" for none
	Drill    float64       // mm, where a drill is part of it; else 0
	DrillAt  []geom.Vec2   // where on the blank it goes in; none for a row of holes
	Row      bool          // a row of such holes
	Severity fold.Severity // Note: it can be cut
	Rule     string        // one of fold.Rules; "" where it can be cut
	Words    string        // plain words, lengths in mm (fold.InUnits)
}

// CheckCut looks at every inside corner, notch, slot, relief and hole of the part's blank, and says which of
// the tools makes it. The part may be by its blank or by sizes; one that can't be read to an outline gives
// nothing. Places stand in the order of the contours; narrow places come last, the narrowest first.
func CheckCut(p *fold.Part, tools sizes.Tools) []Cut {
	if len(p.Outline) < 3 {
		return nil
	}
	inch := p.Spec.Units == fold.Inch
	c := &cutting{part: p, list: cutRims(p.Spec), Tools: tools.Filled(inch), inch: inch, said: len(tools.Drills) > 0, slotSaid: tools.Slot > 0}
	if len(c.list) == 0 {
		return nil
	}
	c.snips = !c.NoSnips && p.Thickness <= c.SnipsThick*(1+noise)
	c.saw = !c.NoSaw
	c.nibbler = c.Nibbler > 0
	c.disc = c.Disc > 0
	c.namePanels()
	c.edges()
	for i := range c.list {
		switch e := &c.list[i]; {
		case e.whole && e.inside():
			c.hole(i)
		case e.inside():
			c.round(i)
		}
		if c.list[i].contour == 0 || c.sharp(i) {
			c.corner(i)
		}
		c.bottom(i)
	}
	c.windows()
	c.narrow()
	return c.out
}

// CutTroubles are the places that can't be cut, or want attention, as a part's troubles are told: holes of one
// diameter together, at the first of them.
func CutTroubles(cuts []Cut) (out []fold.Trouble) {
	type group struct {
		size float64
		rule string
	}
	holes := map[group][]int{}
	for i, c := range cuts {
		if c.Kind == CutHole && c.Rule != "" {
			g := group{math.Round(c.Size / cutSlack), c.Rule}
			holes[g] = append(holes[g], i)
		}
	}
	for i, c := range cuts {
		if c.Rule == "" {
			continue
		}
		t := fold.Trouble{Severity: c.Severity, Rule: c.Rule, Name: c.Hole, At: c.At, Message: c.Words}
		if c.Kind == CutHole {
			all := holes[group{math.Round(c.Size / cutSlack), c.Rule}]
			if all[0] != i {
				continue
			}
			if n := len(all); n > 1 {
				_, say, _ := strings.Cut(c.Words, "), ")
				t.Message = strconv.Itoa(n) + " holes, " + c.Hole + " the first, " + say
			}
		}
		if c.Hole != "" {
			t.Kind = "hole"
		}
		have, need := c.Size, c.Need
		t.Have = &have
		if need > 0 {
			t.Need = &need
		}
		out = append(out, t)
	}
	return out
}

// cutting is what the check of one blank needs.
type cutting struct {
	sizes.Tools
	part          *fold.Part
	list          []cutRim
	inch          bool
	said          bool           // the drills are the maker's own
	slotSaid      bool           // so is the narrowest slot: a file's, then
	stops         []float64      // drills for stop holes, likewise
	tree          *rimTree       // of list, made when it is first wanted
	byEdge        map[[2]int]int // contour and edge -> place in list, likewise
	snips, saw    bool
	nibbler, disc bool
	panels        map[[2]int]string // contour and edge -> the panel it belongs to
	out           []Cut
}

func (c *cutting) add(x Cut) {
	x.Words = capital(x.Words)
	c.out = append(c.out, x)
}

// at is a Cut at piece i.
func (c *cutting) at(i int, kind CutKind, at geom.Vec2, size float64) Cut {
	e := &c.list[i]
	return Cut{Kind: kind, At: at, Hole: c.holeName(e.contour), Contour: e.contour, Edge: e.index, Across: [2]int{-1, -1}, Size: size, Panels: [2]string{c.panel(e.prev), c.panel(i)}}
}

// holeName is a contour's name as the kernel's troubles give it.
func (c *cutting) holeName(contour int) string {
	n := len(c.part.Spec.Cutouts)
	switch {
	case contour == 0:
		return ""
	case contour <= n:
		return "cutout " + strconv.Itoa(contour)
	}
	return "hole " + strconv.Itoa(contour-n)
}

// namePanels finds which panel each piece of the blank's edge belongs to: the one with the most of it.
func (c *cutting) namePanels() {
	c.panels = map[[2]int]string{}
	most := map[[2]int]float64{}
	for k := range c.part.Panels {
		q := &c.part.Panels[k]
		for l, loop := range q.Region.Loops() {
			for i, a := range loop {
				e := q.Edges[l][i]
				key := [2]int{e.Contour, e.Index}
				if n := loop[(i+1)%len(loop)].Sub(a).Len(); e.Free() && n > most[key] {
					most[key], c.panels[key] = n, q.Name
				}
			}
		}
	}
}

// panel is the panel that piece i of the edge belongs to, "" where it is none's.
func (c *cutting) panel(i int) string { return c.panels[[2]int{c.list[i].contour, c.list[i].index}] }

// where names the panels of two pieces of the edge, and the place.
func (c *cutting) where(i, j int, at geom.Vec2) string {
	a, b := c.panel(i), c.panel(j)
	out := "at " + c.spot(at)
	switch {
	case a == "" && b == "":
	case a == "" || b == "" || a == b:
		out += " on " + a
		if a == "" {
			out += b
		}
	default:
		out += " between " + a + " and " + b
	}
	return out
}

// spot is a place by its distances from the edges that a blank is marked out from: the left and lower sides of its box.
func (c *cutting) spot(at geom.Vec2) string {
	at = at.Sub(c.part.Blank.Box.Min)
	return tenth(at[0]) + " mm from A (left) and " + tenth(at[1]) + " mm from B (below)"
}

// tenth is a length (mm) to 0.1.
func tenth(x float64) string {
	if x = math.Round(x*10) / 10; x == 0 {
		x = 0 // not -0
	}
	return strconv.FormatFloat(x, 'f', 1, 64)
}

// wide is a width in a message, to 0.1 mm; finer where it would read like one of those that it is held against.
func (c *cutting) wide(x float64, against ...float64) string {
	for _, k := range [2]float64{10, 100} {
		r := math.Round(x*k) / k
		if r > 0 && !slices.ContainsFunc(against, func(y float64) bool { return (r-y)*(x-y) <= 0 && math.Abs(x-y) > cutSlack }) {
			return c.mm(r)
		}
	}
	return c.mm(x)
}

// turn is how far the edge turns at the start of piece i, left positive, in radians; 0 for a round hole.
func (c *cutting) turn(i int) float64 {
	e := &c.list[i]
	if e.whole {
		return 0
	}
	in, out := c.list[e.prev].way(e.a), e.way(e.a)
	return math.Atan2(geom.Cross2(in, out), in.Dot(out))
}

// sharp reports that the corner of a cutout at the start of piece i is sharper than snips open.
func (c *cutting) sharp(i int) bool {
	t := c.turn(i)
	return t < 0 && (math.Pi+t)*180/math.Pi < c.LeastNotch
}

// nearest are the owned drills beside a diameter: the largest not above and the least not below, 0 where there is none;
// and the one that makes it, 0 where none lies within drillNear.
func (c *cutting) nearest(d float64) (below, above, fits float64) {
	k, found := slices.BinarySearch(c.Drills, d)
	if found {
		return d, d, d
	}
	if k > 0 {
		below = c.Drills[k-1]
	}
	if k < len(c.Drills) {
		above = c.Drills[k]
	}
	for _, x := range [2]float64{below, above} {
		if x > 0 && math.Abs(x-d) <= drillNear && (fits == 0 || math.Abs(x-d) < math.Abs(fits-d)) {
			fits = x
		}
	}
	return below, above, fits
}

// drillName is a drill as its owner calls it.
func (c *cutting) drillName(d float64) string { return "drill " + c.drillSize(d) }

func (c *cutting) drillSize(d float64) string { return DrillSize(d, c.inch) }

// DrillSize is a drill's diameter (mm) as it is stamped: for a part in inches in 64ths, where it is one, else in mm.
func DrillSize(d float64, inch bool) string {
	n := math.Round(d / 25.4 * 64)
	if !inch || n < 1 || math.Abs(n*25.4/64-d) > stampNear {
		return fig(d) + " mm"
	}
	whole, num, den := int(n)/64, int(n)%64, 64
	for num > 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	out := ""
	if whole > 0 {
		out = strconv.Itoa(whole)
	}
	if num > 0 {
		if whole > 0 {
			out += " "
		}
		out += strconv.Itoa(num) + "/" + strconv.Itoa(den)
	}
	return out + " in"
}

// mm is a length in a message: lengths stand in mm and are turned into inches by fold.InUnits.
func (c *cutting) mm(x float64) string { return fig(x) + " mm" }
