package shape

// This file reads a form into panels: the base and its flanges, each with its bend and what it stands on. place.go places them.

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// sideNo is a side of a panel. The base's are numbered from 0. A flange's are its own
// bend, its start, the pieces of its free edge from 1, and its end.
type sideNo int

const (
	bottom  sideNo = -1
	start   sideNo = 0
	top     sideNo = 1 // and on
	endSide sideNo = 1 << 20
)

// panel is one panel while the part is made. The base has no bend.
type panel struct {
	name   string
	path   string // its field
	at     int    // in Form.Flanges, -1 the base
	flange *sizes.Flange
	step   int // 0; of a joggle 1 the web, 2 what goes on beyond it

	parent *panel
	side   sideNo    // of the parent, on which it stands
	kids   []*panel  // by side, then along it
	bend   fold.Bend // placed: Q on the parent's tangent line at the side's measured start, U along, N outwards
	line   string    // the bend's name
	frame  geom.Frame

	t        float64 // the sheet's thickness
	degrees  float64 // turned from flat
	angle    float64 // the same in radians
	faces    sizes.Faces
	from, to float64
	lean     [2]float64 // tangents of the ends' lean
	shift    [2]float64 // how far its ends at the sharp lie from where its insets put them, along U
	placed   bool
	against  *panel  // of a tab: the wall on whose face it lies
	outer    bool    // on its outside face
	given    float64 // the joggle's web, or what follows it: flat height; else NaN

	inset float64 // from the parent's measured line to the tangent line
	scale float64 // flat height = (height - zero) * scale
	zero  float64
	flat  []sideLine // measured lines: of the base all sides, of a flange its free edge
	long  float64    // of the side it stands on, as measured

	loop  []edge // the panel's outline beyond its tangent line, counter-clockwise
	clips []clip
	zone  [2]float64 // where its bend zone ends along U
}

// sideLine is a measured edge: from a to b, both on the blank.
type sideLine struct {
	a, b    geom.Vec2
	through *geom.Vec2
}

func (l sideLine) dir() geom.Vec2 { return l.b.Sub(l.a).Normalize() }

// point is a blank point of a flange: u along its bend from the side's measured start, v flat
// from its tangent line.
func (n *panel) point(u, v float64) geom.Vec2 {
	return n.bend.Q.Add(n.bend.U.Mul(u)).Add(n.bend.N.Mul(n.bend.Allowance + v))
}

// coord gives u and v of a blank point: the other way.
func (n *panel) coord(p geom.Vec2) (u, v float64) {
	u, s := n.bend.Coord(p)
	return u, s - n.bend.Allowance
}

// reaches reports whether a flange reaches its side's start (0) or end (1).
func (n *panel) reaches(end int) bool { return [2]float64{n.from, n.to}[end] <= sameLength }

// read makes the panels of the form, their numbers but not their places.
func (b *builder) read() {
	f := b.form
	b.gap = b.length("sizes.gap", f.Gap, 0)
	b.atLeast("sizes.gap", b.gap, 0, false)
	b.atLeast("sizes.radius", b.length("sizes.radius", f.Radius, b.t), 0, false)
	b.base = &panel{name: f.Base.Name, path: "sizes.base", at: -1, frame: geom.Identity()}
	if b.base.name == "" {
		b.base.name = "floor"
	}
	b.panels = []*panel{b.base}
	byName := map[string]*panel{b.base.name: b.base}
	left := make([]int, 0, len(f.Flanges))
	for i := range f.Flanges {
		l, path := &f.Flanges[i], fmt.Sprintf("sizes.flanges[%d]", i)
		switch {
		case strings.TrimSpace(l.Name) == "":
			b.problem(path+".name", "no name", "a name, as left")
		case byName[l.Name] != nil:
			b.problem(path+".name", sizes.Quote(l.Name)+" again", "a name that no other panel has")
		default:
			byName[l.Name] = &panel{name: l.Name, line: l.Name, path: path, at: i, flange: l, given: math.NaN()}
			left = append(left, i)
		}
	}
	b.outlineOfBase()
	if b.failed() {
		return
	}
	for len(left) > 0 { // each after the one it stands on
		var next []int
		for _, i := range left {
			l, n := &f.Flanges[i], byName[f.Flanges[i].Name]
			on := byName[l.On]
			switch {
			case on == nil:
				b.problem(n.path+".on", sizes.Quote(l.On), "one of the panels: "+b.panelNames())
			case on.at >= 0 && on.parent == nil:
				next = append(next, i)
			default:
				b.stand(n, on)
			}
		}
		if len(next) == len(left) && !b.failed() {
			b.problem(byName[f.Flanges[next[0]].Name].path+".on", sizes.Quote(f.Flanges[next[0]].On), "a panel that does not itself stand on this flange")
		}
		if b.failed() {
			return
		}
		left = next
	}
	b.checkSides()
}

func (b *builder) panelNames() string {
	names := []string{b.base.name}
	for i := range b.form.Flanges {
		names = append(names, b.form.Flanges[i].Name)
	}
	if len(names) > 12 {
		names = append(names[:12], "...")
	}
	return strings.Join(names, ", ")
}

// stand reads a flange that stands on a panel, with a joggle's further panels.
func (b *builder) stand(n, on *panel) {
	l := n.flange
	if on.flange != nil && on.flange.Joggle != nil && on.step == 0 && n.sideOf(on) >= top {
		for _, k := range b.panels { // a flange on a joggled one stands on what goes on beyond the joggle
			if k.at == on.at && k.step == 2 {
				on = k
			}
		}
	}
	n.parent = on
	if on.at < 0 {
		i := slices.Index(b.sideNames(), l.Side)
		if i < 0 {
			b.problem(n.path+".side", sizes.Quote(l.Side), "one of the sides of "+on.name+": "+strings.Join(b.sideNames(), ", "))
			return
		}
		n.side = sideNo(i)
	} else if n.side = n.sideOf(on); n.side == bottom {
		b.problem(n.path+".side", sizes.Quote(l.Side), `"top", "start" or "end"; "top 2" and so on where the free edge has several pieces`)
		return
	}
	n.faces = b.form.Faces
	if l.Faces != nil {
		n.faces = *l.Faces
	}
	deg := b.num(n.path+".angle", l.Angle, 90)
	radius := b.length(n.path+".radius", l.Radius, b.length("sizes.radius", b.form.Radius, b.t))
	path := n.path + ".angle"
	if h := l.Hem; h != nil {
		if l.Angle.Given || l.Radius.Given {
			b.problem(n.path+".hem", "a hem with an angle or radius of its own", "its clear gap alone")
		}
		path = n.path + ".hem"
		clearGap := b.length(path+".clear", h.Clear, 0)
		b.atLeast(path+".clear", clearGap, 0, false)
		deg, radius = 180, clearGap/2
		if h.Teardrop {
			reach := b.length(n.path+".height", l.Height, 0) - radius - b.t
			b.atLeast(n.path+".height", reach+radius+b.t, radius+b.t+radius, true)
			if radius <= 0 {
				b.problem(path+".clear", "0", "a clear gap over 0 for a teardrop")
			}
			deg = 180 + 2*math.Atan2(radius, max(reach, samePoint))*180/math.Pi
		}
	}
	if !(deg > 0 && deg <= 240) {
		b.problem(path, fig(deg)+" degrees", "over 0 up to 180 from flat, or 240 for a teardrop hem")
		return
	}
	b.atLeast(n.path+".radius", radius, 0, false)
	b.bent(n, deg, radius, l.Down)
	n.from = b.length(n.path+".from", l.From, 0)
	n.to = b.length(n.path+".to", l.To, 0)
	b.atLeast(n.path+".from", n.from, 0, false)
	b.atLeast(n.path+".to", n.to, 0, false)
	for k, f := range []sizes.Field{l.LeanStart, l.LeanEnd} {
		p := n.path + [2]string{".lean_start", ".lean_end"}[k]
		a := b.num(p, f, 0)
		if !(math.Abs(a) <= MaxLean) {
			b.problem(p, fig(a)+" degrees", fmt.Sprintf("at most %d either way", MaxLean))
			a = 0
		}
		n.lean[k] = math.Tan(a * math.Pi / 180)
	}
	b.add(n)
	if l.Joggle != nil && !b.failed() {
		b.joggle(n)
	}
}

// bent gives a panel its bend.
func (b *builder) bent(n *panel, deg, radius float64, down bool) {
	if b.failed() {
		return
	}
	n.bend = b.bending(fold.BendSpec{Name: n.line, Angle: deg, Radius: radius / b.unit, Up: !down})
	n.degrees, n.angle, n.t = deg, float64(n.bend.Angle), b.t
}

func (b *builder) add(n *panel) {
	n.parent.kids = append(n.parent.kids, n)
	b.panels = append(b.panels, n)
}

// joggle adds a joggle's web and what goes on beyond it.
func (b *builder) joggle(n *panel) {
	j, path := n.flange.Joggle, n.path+".joggle"
	depth := b.length(path+".depth", j.Depth, b.t)
	deg := b.num(path+".angle", j.Angle, 45)
	a := deg * math.Pi / 180
	if !(deg > 0 && deg <= 90) {
		b.problem(path+".angle", fig(deg)+" degrees", "over 0 up to 90")
		return
	}
	r := n.bend.Radius
	round := (2*r + b.t) * (1 - math.Cos(a))
	web := (depth - round) / math.Sin(a)
	if least := round + leastFlat*b.t*math.Sin(a); !(depth >= least-sameLength) {
		b.problem(path+".depth", b.say(depth), "at least "+b.sayUp(least)+" with two bends of this radius and angle, or a smaller angle")
		return
	}
	down := j.Out == n.bend.Up // outwards of an up flange is a down bend
	prev := n
	for k := 1; k <= 2; k++ {
		next := &panel{name: fmt.Sprintf("%s joggle", n.name), line: fmt.Sprintf("%s joggle %d", n.name, k), path: n.path, at: n.at, flange: n.flange,
			step: k, parent: prev, side: top, faces: n.faces, given: web}
		if k == 2 {
			next.name, next.given = n.name+" beyond", 0 // its height follows in heights
		}
		b.bent(next, deg, r, down == (k == 1))
		b.add(next)
		prev = next
	}
}

// sideOf is the side of a flange that this one stands on, bottom where there is none such.
func (n *panel) sideOf(on *panel) sideNo {
	switch s := n.flange.Side; {
	case s == "" || s == "top":
		return top
	case s == "start":
		return start
	case s == "end":
		return endSide
	default:
		if after, ok := strings.CutPrefix(s, "top "); ok {
			if k, err := strconv.Atoi(after); err == nil && k >= 1 && k <= 1000 {
				return sideNo(k)
			}
		}
	}
	return bottom
}

// checkSides sorts the flanges of each panel along its sides and refuses those that lie on each other.
func (b *builder) checkSides() {
	for _, n := range b.panels {
		slices.SortStableFunc(n.kids, func(a, c *panel) int {
			if a.side != c.side {
				return int(a.side - c.side)
			}
			switch {
			case a.from < c.from:
				return -1
			case a.from > c.from:
				return 1
			}
			return 0
		})
		for i := 1; i < len(n.kids); i++ {
			if a, c := n.kids[i-1], n.kids[i]; a.side == c.side && (c.reaches(0) || a.reaches(1)) {
				b.problem(c.path+".from", "a second flange on the whole of "+c.flange.Side, "insets (from, to) of both, so that they stand beside each other")
			}
		}
	}
}
