package screen

import (
	"math"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
	"dryfold/render/scene"
	"dryfold/wasm/node"
	"dryfold/wasm/session"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// startFrom is a page on which a starter was picked from the shelf.
func startFrom(t testing.TB, title string) *Screen {
	t.Helper()
	c, _ := open(t, "uncapping-tray.dryfold")
	press(t, c, title)
	require.True(t, c.S.BySizes())
	require.Empty(t, c.S.Problems())
	return c
}

// Every starter makes a whole page, whatever stands open, in both units, on a phone too; and its asked sizes
// stand beside the figure.
func TestEveryStarter(t *testing.T) {
	for _, s := range shape.Starters {
		c := startFrom(t, s.Title)
		assert.Equal(t, s.ID, c.starter(), s.Title)
		assert.Contains(t, body(c).Words(), s.Note)
		assert.NotNil(t, body(c).Find(func(n *node.Node) bool { return n.Get("class") == "starter on" && n.Words() == s.Title }))
		for i, n := range c.S.Form().Named {
			assert.NotNil(t, body(c).Find(func(k *node.Node) bool { return k.Get("id") == "f-"+session.NamedField(i, "is") }), n.Label)
		}
		if c.S.Made() != nil {
			assert.NotEmpty(t, c.SizeMarks(), s.Title)
		}
		items := []item{{}, {kind: "base"}}
		for i := range c.S.Form().Flanges {
			items = append(items, item{kind: "flange", i: i})
		}
		for _, r := range c.S.Corners() {
			items = append(items, cornerItem(r.A, r.B))
		}
		for i := range c.S.Form().Holes {
			items = append(items, item{kind: "hole", i: i})
		}
		for i := range c.S.Form().Named {
			items = append(items, item{kind: "named", i: i})
		}
		for _, it := range items {
			c.item = it
			for _, u := range []fold.Units{fold.MM, fold.Inch} {
				c.S.SetUnits(u)
				c.Phone = u == fold.Inch
				soundPage(t, body(c), s.Title+" "+it.kind)
				c.SizeMarks()
			}
		}
		for w := session.Sizes; w <= session.Marking; w++ {
			c.S.SetWord(w)
			soundPage(t, body(c), s.Title+" "+w.String())
		}
	}
}

// The main path: a stepped tray is picked, a size changed, the blank follows; a corner is closed by a lap; undo.
func TestSteppedTray(t *testing.T) {
	c := startFrom(t, "Stepped tray")
	blank := func() [2]float64 { b := c.S.Report().Blank; return [2]float64{b.Width, b.Height} }
	was := blank()
	at := -1
	for i, n := range c.S.Form().Named {
		if n.Name == "high" {
			at = i
		}
	}
	require.GreaterOrEqual(t, at, 0)
	id := "f-" + session.NamedField(at, "is")
	fill(t, c, id, "70")
	now := blank()
	// Square walls 20 mm higher on both sides, which run askew by the taper of 190 to 210 mm over 350: closed form.
	askew := math.Cos(math.Atan(10.0 / 350))
	assert.InDelta(t, 40*askew, now[0]-was[0], 1e-6)

	// What makes no part is told at its field; the part stays.
	fill(t, c, id, "-3")
	assert.Equal(t, now, blank())
	e, bad := c.S.Error(session.NamedField(at, "is"))
	require.True(t, bad)
	assert.Equal(t, "-3", e.Typed)
	assert.Contains(t, body(c).Words(), upper(e.Message))
	fill(t, c, id, "70")

	// The arrow key steps it by 1 mm.
	f := body(c).Find(func(n *node.Node) bool { return n.Get("id") == id })
	f.On["keydown"](node.Event{Key: "ArrowUp", Value: "70", Stop: func() {}})
	assert.InDelta(t, 2*askew, blank()[0]-now[0], 1e-6)
	c.S.Undo()
	assert.Equal(t, now, blank())

	// A corner.
	row := c.S.Corners()[0]
	it := cornerItem(row.A, row.B)
	c.openItem(it)
	press(t, c, "lap")
	row = c.S.Corners()[0]
	assert.Equal(t, sizes.Lap, row.Corner.Close)
	assert.Equal(t, sizes.Lap, row.Made.Close)
	assert.Contains(t, body(c).Words(), "Runs over the other")
	c.S.Undo()
	assert.Equal(t, sizes.Usual, c.S.Corners()[0].Corner.Close)
	c.S.Undo()
	assert.Equal(t, was, blank())
}

// The sizes drawn on the part measure what they say: each straight one, placed on the finished part, is as long as
// its figure; each angle as wide. The part's own geometry is the judge.
func TestMarksMeasure(t *testing.T) {
	for _, s := range shape.Starters {
		c := startFrom(t, s.Title)
		p := c.S.Part()
		pose := p.Pose(p.Finished())
		at := func(q shape.Spot) (v [3]float64) {
			for i := range p.Panels {
				if p.Panels[i].Name == q.Panel {
					return pose.PanelPoint(i, [2]float64{q.X, q.Y}, q.Z)
				}
			}
			t.Fatalf("%s: no panel %s", s.Title, q.Panel)
			return v
		}
		dist := func(a, b [3]float64) float64 {
			return math.Sqrt((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2]))
		}
		for _, m := range c.marks() {
			x, ok := c.S.SizeField(m.mark.Path)
			require.True(t, ok, m.mark.Path)
			a, b := at(m.mark.A), at(m.mark.B)
			if !m.mark.Arc {
				assert.InDelta(t, x.Value, dist(a, b), 1e-3, "%s: %s", s.Title, m.mark.Path)
				continue
			}
			q := at(m.mark.Pivot)
			ra, rb, ab := dist(q, a), dist(q, b), dist(a, b)
			angle := math.Acos((ra*ra+rb*rb-ab*ab)/(2*ra*rb)) * 180 / math.Pi
			assert.InDelta(t, x.Value, angle, 1e-3, "%s: %s", s.Title, m.mark.Path)
		}
	}
}

// A handle that is dragged changes the size it belongs to: a lean is what is left of a right angle.
func TestDragHandles(t *testing.T) {
	c := startFrom(t, "Tray")
	find := func(suffix string) string {
		for _, m := range c.marks() {
			if strings.HasSuffix(m.mark.Path, suffix) && m.mark.Grip {
				return m.mark.Path
			}
		}
		t.Fatal("no handle for " + suffix)
		return ""
	}
	named := func(name string) float64 {
		for i, n := range c.S.Form().Named {
			if n.Name == name {
				x, _ := c.S.SizeField(session.NamedField(i, "is"))
				return x.Value
			}
		}
		t.Fatal("no size " + name)
		return 0
	}
	high := named("high")
	path := find(".height")
	c.DragSize(path, 4, false)
	c.DragSize(path, 10.2, false)
	c.DragSize(path, 10.2, true)
	assert.Equal(t, high+10, named("high"), "rounded to half a mm")
	path = find(".angle")
	c.DragSize(path, -10*math.Pi/180, false)
	c.DragSize(path, -10*math.Pi/180, true)
	assert.Equal(t, 10.0, named("lean"))
	c.S.Undo()
	assert.Equal(t, 0.0, named("lean"), "a drag is one step of undo")
	c.S.Undo()
	assert.Equal(t, high, named("high"))
}

// A touch on a free edge offers a flange there; on every wall's top it is that wall's.
func TestTouchEdges(t *testing.T) {
	c := startFrom(t, "Tray")
	p := c.S.Part()
	raised := 0
	for i := range p.Panels {
		name := p.Panels[i].Name
		for k, e := range p.Panels[i].Edges[0] {
			if !e.Free() || e.Contour != 0 || name == c.baseName() || c.flangeSide(&p.Panels[i], k) != "top" {
				continue
			}
			c.Tapped(scene.Hit{Select: scene.Select{Kind: scene.Edge, Index: e.Index}, Mark: -1})
			assert.Contains(t, body(c).Words(), "Top of "+name)
			press(t, c, "Raise a flange here")
			l := c.S.Form().Flanges[len(c.S.Form().Flanges)-1]
			assert.Equal(t, [2]string{name, "top"}, [2]string{l.On, l.Side})
			assert.Equal(t, item{kind: "flange", i: len(c.S.Form().Flanges) - 1}, c.item)
			c.S.Undo()
			raised++
			break
		}
	}
	assert.Equal(t, 4, raised)

	// A channel's floor ends in two free sides.
	c = startFrom(t, "Channel")
	p = c.S.Part()
	sides := map[string]bool{}
	for k, e := range p.Panels[p.Base].Edges[0] {
		if e.Free() && e.Contour == 0 {
			sides[c.baseSide(&p.Panels[p.Base], k)] = true
		}
	}
	for _, x := range c.S.Sides(c.baseName()) {
		assert.Equal(t, x.Flange < 0, sides[x.Side], x.Side)
	}
}

// What depends on a flange is named before it goes, and all of it comes back by one undo.
func TestDeleteAsks(t *testing.T) {
	c := startFrom(t, "Hopper")
	n := len(c.S.Form().Flanges)
	at := -1
	for i, l := range c.S.Form().Flanges {
		if l.Name == "front" {
			at = i
		}
	}
	c.openItem(item{kind: "flange", i: at})
	press(t, c, "Delete front")
	assert.Contains(t, body(c).Words(), "Deleting front takes with it: front lip")
	assert.Len(t, c.S.Form().Flanges, n, "not yet")
	press(t, c, "Delete all of it")
	assert.Len(t, c.S.Form().Flanges, n-2)
	c.S.Undo()
	assert.Len(t, c.S.Form().Flanges, n)
}

// A named size is added, used in a formula and shown with the number it gives; while it is used it can't be deleted.
func TestNamedSizes(t *testing.T) {
	c := startFrom(t, "Tray")
	press(t, c, "Add a named size")
	i := len(c.S.Form().Named)
	fill(t, c, "f-"+session.NamedField(i, "name"), "rail")
	fill(t, c, "f-"+session.NamedField(i, "is"), "62")
	press(t, c, "Add it")
	require.Len(t, c.S.Form().Named, i+1)
	c.openItem(item{kind: "flange", i: 0})
	fill(t, c, "f-"+session.FlangeField(0, "height"), "rail - 12")
	f := body(c).Find(func(n *node.Node) bool { return n.Key == session.FlangeField(0, "height") })
	assert.Contains(t, f.Words(), "= 50 mm")
	c.openItem(item{kind: "named", i: i})
	assert.Contains(t, body(c).Words(), "Used by height of "+c.S.Form().Flanges[0].Name)
	c.S.Undo()
	c.openItem(item{kind: "named", i: i})
	press(t, c, "Delete rail")
	assert.Len(t, c.S.Form().Named, i)
}

func TestFreezeOnThePage(t *testing.T) {
	c := startFrom(t, "Angle")
	c.S.SetCard(1, .5)
	press(t, c, "Freeze it")
	assert.Equal(t, 1.0, c.S.Fold(), "it stands as it stood")
	assert.False(t, c.S.BySizes())
	assert.True(t, c.S.Part().Foldable)
	c.S.Undo()
	assert.True(t, c.S.BySizes())
}

// A stepped tray's floor is bent once more by a button, and the base's sides have names to change.
func TestFloorAndSideNames(t *testing.T) {
	c, _ := open(t, "faulty-tray.dryfold")
	press(t, c, "Stepped tray")
	n := len(c.S.Part().Panels)
	press(t, c, "Bend the floor once more")
	assert.Greater(t, len(c.S.Part().Panels), n)
	c.S.Undo()
	assert.Len(t, c.S.Part().Panels, n)
	c.openItem(item{kind: "base"})
	fill(t, c, "f-"+session.SideField(3), "port")
	assert.Equal(t, "port", c.S.Sides("floor")[3].Side)
}
