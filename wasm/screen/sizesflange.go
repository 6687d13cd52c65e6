package screen

// This file holds the list of flanges under Sizes, each to be opened and edited.

import (
	"strconv"
	"strings"

	"dryfold/fold/sizes"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

func (c *Screen) flangesBox() *node.Node {
	f := c.S.Form()
	n := node.E("section.pad.parts", node.Key("flanges"), node.E("h2", upper(count(len(f.Flanges), "flange"))))
	list := node.E("ul.items")
	for i := range f.Flanges {
		l := &f.Flanges[i]
		put(list, c.row(item{kind: "flange", i: i}, session.Title(l.Name), c.flangeWords(i, l), c.S.ErrorUnder(session.FlangeField(i, "")), func() []*node.Node { return c.flangeForm(i, l) }))
	}
	put(n, list)
	var free [][2]string
	for _, s := range c.S.Sides("") {
		if s.Flange < 0 {
			free = append(free, [2]string{s.On + "\n" + s.Side, s.Label})
		}
	}
	if len(free) > 0 {
		put(n, node.E("div.addrow", node.Key("add"), pick("f-raise", "Raise a flange on", append([][2]string{{"", "choose a side"}}, free...), "", func(v string) {
			on, side, ok := strings.Cut(v, "\n")
			if ok {
				c.raise(on, side)
			}
		})))
	}
	put(n, c.rimBox())
	return n
}

// raise adds a flange and opens it.
func (c *Screen) raise(on, side string) {
	i, err := c.S.AddFlange(on, side)
	if err != nil {
		c.say(err)
		return
	}
	c.openItem(item{kind: "flange", i: i})
	c.Focus = "f-" + session.FlangeField(i, "height")
}

// figure is what a field comes to, in the units shown, "" where that can't be said.
func (c *Screen) figure(path string) string {
	f, ok := c.S.SizeField(path)
	switch {
	case !ok || !f.Known:
		return ""
	case f.Angle:
		return session.Degrees(f.Value) + "°"
	}
	return session.Size(f.Value, c.S.Units())
}

// flangeWords are a flange in one line: where it stands, its height and angle.
func (c *Screen) flangeWords(i int, l *sizes.Flange) string {
	side := l.Side
	if side == "" {
		side = "top"
	}
	words := "on " + l.On + ", " + side
	if side == l.Name {
		words = "on " + l.On
	}
	if other := otherHand(side); c.S.Form().Mirror && l.On == c.baseName() && other != side {
		words = "on " + l.On + ", now " + other
	}
	if h := c.figure(session.FlangeField(i, "height")); h != "" {
		words += " · " + h + map[bool]string{false: " high", true: " along it"}[l.Along]
	}
	if l.Hem != nil {
		return words + " · hem"
	}
	way := " up"
	if l.Down {
		way = " down"
	}
	if a := c.figure(session.FlangeField(i, "angle")); a != "" {
		words += " · " + a + way
	}
	return words
}

func (c *Screen) flangeForm(i int, l *sizes.Flange) []*node.Node {
	s := c.S
	path := func(what string) string { return session.FlangeField(i, what) }
	p := path("")
	out := []*node.Node{
		c.field(path("name"), "Name", l.Name, "", func(t string) error { return s.RenameFlange(i, t) }, node.A("class", "text")),
		c.size(p+"height", "Height"),
	}
	if l.Hem == nil {
		out = append(out,
			c.size(p+"angle", "Bend angle"),
			c.either(p+"way", "Bent", [][2]string{{"up", "up"}, {"down", "down"}}, upDown(!l.Down), func(v string) error { return s.SetFlangeWay(i, v == "up") }),
			c.either(p+"along", "Height runs", [][2]string{{"square", "square up"}, {"along", "along it"}}, map[bool]string{false: "square", true: "along"}[l.Along], func(v string) error { return s.SetFlangeAlong(i, v == "along") }))
	}
	hem := [...]string{"none", "flat", "teardrop"}
	kind := session.HemOf(l)
	out = append(out, c.choose(p+"hem", "Hem", [][2]string{{"none", "none"}, {"flat", "folded flat"}, {"teardrop", "teardrop"}}, hem[kind], func(v string) error {
		for k, h := range hem {
			if h == v {
				return s.SetFlangeHem(i, session.HemKind(k))
			}
		}
		return nil
	}))
	if l.Hem != nil {
		out = append(out, c.size(p+"hem.clear", "Clear gap between the faces"))
	}
	out = append(out, more("m-edge"+strconv.Itoa(i), "Free edge and ends", c.edgeForm(i, l)))
	out = append(out, more("m-bend"+strconv.Itoa(i), "Radius, faces, step, side", c.moreFlange(i, l)))
	out = append(out, c.onIt(l.Name), c.flangeActs(i, l))
	return out
}

func upDown(up bool) string {
	if up {
		return "up"
	}
	return "down"
}

// moreFlange is what is seldom asked of a flange.
func (c *Screen) moreFlange(i int, l *sizes.Flange) []*node.Node {
	s := c.S
	p := session.FlangeField(i, "")
	faces := "part"
	if l.Faces != nil {
		faces = faceIDs[*l.Faces]
	}
	var out []*node.Node
	if l.Hem == nil {
		out = append(out, c.size(p+"radius", "Inside radius"))
	}
	out = append(out, c.choose(p+"faces", "Height measured to", [][2]string{{"part", "as all sizes"}, {"outside", "outside faces"}, {"inside", "inside faces"}, {"card", "card creases"}}, faces, func(v string) error {
		for k, id := range faceIDs {
			if id == v {
				f := sizes.Faces(k)
				return s.SetFlangeFaces(i, &f)
			}
		}
		return s.SetFlangeFaces(i, nil)
	}))
	if l.Hem == nil {
		steps := [...]string{"none", "in", "out"}
		out = append(out, c.either(p+"joggle", "Step in it", [][2]string{{"none", "none"}, {"in", "inwards"}, {"out", "outwards"}}, steps[session.JoggleOf(l)], func(v string) error {
			for k, w := range steps {
				if w == v {
					return s.SetFlangeJoggle(i, session.JoggleKind(k))
				}
			}
			return nil
		}))
		if l.Joggle != nil {
			out = append(out, c.fieldsOf(p+"joggle.", "at", "Step begins at", "depth", "Step, deep", "angle", "Angle of its bends")...)
		}
	}
	now := l.On + "\n" + l.Side
	var sides [][2]string
	for _, x := range s.Sides("") {
		if x.Flange >= 0 && x.Flange != i || x.On == l.Name {
			continue
		}
		if x.Flange == i {
			now = x.On + "\n" + x.Side
		}
		sides = append(sides, [2]string{x.On + "\n" + x.Side, x.Label})
	}
	return append(out, c.choose(p+"on", "Stands on", sides, now, func(v string) error {
		on, side, _ := strings.Cut(v, "\n")
		return s.EditFlange(i, "on", func(l *sizes.Flange) error { l.On, l.Side = on, side; return nil })
	}))
}

// edgeForm is a flange's free edge and its two ends.
func (c *Screen) edgeForm(i int, l *sizes.Flange) []*node.Node {
	s := c.S
	p := session.FlangeField(i, "")
	out := c.fieldsOf(p, "from", "In from its start", "to", "In from its end")
	if l.Hem != nil {
		return out
	}
	out = append(out, c.fieldsOf(p, "lean_start", "Start leans in", "lean_end", "End leans in")...)
	kinds := [][2]string{{"0", "straight"}, {"1", "sloped"}, {"2", "stepped"}, {"3", "curved"}, {"4", "any outline"}}
	out = append(out, c.choose(p+"edge", "Free edge", kinds, strconv.Itoa(int(session.EdgeOf(l))), func(v string) error {
		k, _ := strconv.Atoi(v)
		return s.SetFlangeEdge(i, session.EdgeKind(k))
	}))
	if session.EdgeOf(l) == session.SlopedEdge {
		out = append(out, c.size(p+"height_end", "Height at its end"))
	}
	return append(out, c.points(p+"edge", session.EdgeOf(l) == session.AnyEdge, len(l.Edge), func(f func([]sizes.Point) []sizes.Point) error {
		return s.EditFlange(i, "edge", func(l *sizes.Flange) error { l.Edge = f(l.Edge); return nil })
	})...)
}

// points are the fields of an outline's corners, two to a line, with ways to more and fewer where the outline is free.
func (c *Screen) points(path string, free bool, n int, edit func(func([]sizes.Point) []sizes.Point) error) []*node.Node {
	var out []*node.Node
	for i := range n {
		p := path + "[" + strconv.Itoa(i) + "]"
		to := p
		if _, arc := c.S.SizeField(p + ".through[0]"); arc {
			to = p + ".to"
			out = append(out, node.E("div.pair", node.Key(p+"t"), c.size(p+".through[0]", "by way of, along"), c.size(p+".through[1]", "up")))
		}
		row := node.E("div.pair", node.Key(p), c.size(to+"[0]", strconv.Itoa(i+1)+". along"), c.size(to+"[1]", "up"))
		if free && n > 2 && i > 0 && i < n-1 {
			put(row, button("b", node.A("aria-label", "Take corner "+strconv.Itoa(i+1)+" out"), icon("close"), node.Click(func() {
				_ = edit(func(l []sizes.Point) []sizes.Point { return append(l[:i:i], l[i+1:]...) })
			})))
		}
		out = append(out, row)
	}
	if free && n > 1 {
		out = append(out, button("b.line", node.Key(path+"+"), "Add a corner", node.Click(func() {
			_ = edit(func(l []sizes.Point) []sizes.Point {
				last := l[len(l)-1]
				return append(append(l[:len(l)-1:len(l)-1], last), last)
			})
		})))
	}
	return out
}

// onIt offers what can be put on a panel: flanges on its free sides, a hole.
func (c *Screen) onIt(panel string) *node.Node {
	n := node.E("div.acts", node.Key("onit"))
	for _, x := range c.S.Sides(panel) {
		if x.Flange < 0 {
			put(n, button("b.line", node.Key("r"+x.Side), "Flange on its "+x.Side, node.Click(func() { c.raise(x.On, x.Side) })))
		}
	}
	put(n, button("b.line", node.Key("hole"), "Add a hole", node.Click(func() { c.drill(panel) })))
	return n
}

// flangeActs are the ways to copy a flange and to delete it.
func (c *Screen) flangeActs(i int, l *sizes.Flange) *node.Node {
	key := "del-" + l.Name
	with := c.S.Depends(l.Name)
	del := func() error { return c.S.DeleteFlange(l.Name) }
	if ask := c.confirm(key, l.Name, with, del); ask != nil {
		return ask
	}
	n := node.E("div.acts", node.Key("acts"))
	if c.S.CanCopyOpposite(l.Name) {
		put(n, button("b.line", "Copy to the opposite side", node.Click(func() {
			k, err := c.S.CopyFlangeOpposite(l.Name)
			if err != nil {
				c.say(err)
				return
			}
			c.openItem(item{kind: "flange", i: k})
		})))
	}
	put(n, c.remove(key, l.Name, with, del))
	return n
}
