package scene

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
	"dryfold/fold/shape"
)

// sizesOf are sizes of the test tray: its floor's width and length at the sharps, the right wall's
// height and its angle from flat. T 1, R 1.5, K 0.44: by the textbook formulas (allowance = angle *
// (R + K*T), setback = R + T at 90 degrees) the sharps stand half an allowance less a setback from
// the bend lines.
func sizesOf() []SizeMark {
	const ba, ossb = math.Pi / 2 * (1.5 + .44), 2.5
	k := ossb - ba/2 // from a bend line out to its sharp
	top := 50 - ba/2 + ossb
	spot := func(panel string, x, y, z float64) shape.Spot { return shape.Spot{Panel: panel, X: x, Y: y, Z: z} }
	return []SizeMark{
		{Mark: shape.Mark{Path: "wide", A: spot("floor", -k, 3, 0), B: spot("floor", 200+k, 3, 0)}, Label: "Wide 202", Grip: true},
		{Mark: shape.Mark{Path: "long", A: spot("floor", 197, -k, 0), B: spot("floor", 197, 150+k, 0)}, Label: "Long 152", Lit: true},
		{Mark: shape.Mark{Path: "high", A: spot("right", 250-top, 147, 0), B: spot("right", 250, 147, 0)}, Label: "High 51", Grip: true},
		{Mark: shape.Mark{Path: "angle", Arc: true, Pivot: spot("right", 250-top, 3, 0), A: spot("floor", 250, 3, 0), B: spot("right", 250, 3, 0)}, Label: "90°", Grip: true},
	}
}

func TestSizes(t *testing.T) {
	p := build(t, tray(90, 90))
	marks := sizesOf()
	pic := Picture{Part: p, State: p.Finished(), Sizes: marks}
	s := Make(pic)
	require.Len(t, s.sizeLines, 4)
	const ba = math.Pi / 2 * 1.94
	k := 2.5 - ba/2
	want := []float64{200 + 2*k, 150 + 2*k, 50 - ba/2 + 2.5, math.Pi / 2}
	for i, l := range s.sizeLines {
		assert.InDelta(t, want[i], l.size(), 1e-9, marks[i].Label)
	}
	pic.State = p.StateAt(1, .5)
	assert.Empty(t, Make(pic).sizeLines, "sizes are the finished part's")
	pic.State = p.Finished()
	pic.Sizes = append(pic.Sizes, SizeMark{Mark: shape.Mark{A: shape.Spot{Panel: "nowhere"}}})
	assert.Len(t, Make(pic).sizeLines, 4, "of a panel that is not there nothing is drawn")

	for _, view := range Views {
		c := NewCamera(820, 620)
		s = Make(pic)
		require.True(t, s.SetView(&c, view))
		o := s.Project(&c, nil)
		seen := map[string]int{}
		for i, l := range o.Labels {
			if l.Style == StyleDatum {
				continue
			}
			seen[l.Text]++
			for _, m := range o.Labels[:i] {
				clear := m.Style == StyleDatum || math.Abs(l.Y-m.Y) >= 17 || math.Abs(l.X-m.X) >= 4.2*float64(len(l.Text)+len(m.Text))
				assert.True(t, clear, "%s: %s lies on %s", view, l.Text, m.Text)
			}
			if l.Text == "Long 152" {
				assert.Equal(t, StyleName, l.Style, "the lit one")
			}
		}
		for text, n := range seen {
			assert.Equal(t, 1, n, text)
		}
		if view == "home" {
			assert.Len(t, seen, 4)
		}
	}
}

// On a bench with little room no two figures lie over each other: sizes that find no place are left out, the lit one
// never.
func TestSizesCrowded(t *testing.T) {
	p := build(t, tray(90, 90))
	pic := Picture{Part: p, State: p.Finished(), Sizes: sizesOf()}
	for i := range 6 { // as many more, all about the same corner
		m := sizesOf()[2]
		m.A.Y -= float64(i)
		m.B.Y -= float64(i)
		pic.Sizes = append(pic.Sizes, m)
	}
	left := 0
	for _, size := range [][2]float64{{160, 120}, {220, 180}, {390, 300}, {820, 620}} {
		c := NewCamera(size[0], size[1])
		s := Make(pic)
		require.True(t, s.SetView(&c, "home"))
		o := s.Project(&c, nil)
		lit, figures := false, 0
		for i, l := range o.Labels {
			if l.Style == StyleDatum {
				continue
			}
			figures++
			lit = lit || l.Text == "Long 152"
			for _, m := range o.Labels[:i] {
				clear := m.Style == StyleDatum || math.Abs(l.Y-m.Y) >= labelHigh || math.Abs(l.X-m.X) >= labelHalf*float64(len(l.Text)+len(m.Text))
				assert.True(t, clear, "%v: %s lies on %s", size, l.Text, m.Text)
			}
		}
		assert.True(t, lit, "%v", size)
		left += len(pic.Sizes) - figures
	}
	assert.Positive(t, left, "somewhere there was no room")
}

// A finger that drags a handle brings the size to where it is: the handle at the new size is
// projected again and lies under the finger.
func TestSizeDrag(t *testing.T) {
	p := build(t, tray(90, 90))
	s := Make(Picture{Part: p, State: p.Finished(), Sizes: sizesOf()})
	c := NewCamera(820, 620)
	require.True(t, s.SetView(&c, "home"))
	for i := range s.sizeLines {
		l := s.sizeLines[i]
		if !s.Picture.Sizes[i].Grip {
			continue
		}
		x, y, _ := c.Project(l.b)
		h := Hit{Mark: s.Project(&c, nil).GripAt(x+6, y-5)}
		require.Equal(t, i, h.Mark, s.Picture.Sizes[i].Label)
		d, ok := s.StartSize(&c, h, x+6, y-5)
		require.True(t, ok)
		for _, by := range []float64{-20, -3, 0, 12} {
			goal := l.b.Add(l.b.Sub(l.a).Normalize().Mul(by))
			want := by
			if l.arc {
				want = by * math.Pi / 180
				u, v, _, r, ok := l.arms()
				require.True(t, ok)
				goal = l.pivot.Add(turn(u, v, l.size()+want).Mul(r))
			}
			gx, gy, _ := c.Project(goal)
			// the finger keeps its distance from the handle along the size
			d0 := d
			d0.off = 0
			got, ok := d0.SizeAt(gx, gy)
			require.True(t, ok)
			assert.InDelta(t, want, got, 1e-6, "%s by %g", s.Picture.Sizes[i].Label, by)
		}
		got, ok := d.SizeAt(x+6, y-5)
		require.True(t, ok)
		assert.InDelta(t, 0, got, 1e-9, "a finger that stays changes nothing")
	}
	assert.Equal(t, -1, s.Project(&c, nil).GripAt(3, 3))
	// End on there is nothing to drag by.
	l := s.sizeLines[0]
	along := l.b.Sub(l.a).Normalize()
	c.Yaw, c.Pitch = math.Atan2(along[0], -along[1]), 0
	c.Target = geom.Vec3{l.a[0], l.a[1], l.a[2]}
	x, y, _ := c.Project(l.b)
	_, ok := s.StartSize(&c, Hit{Mark: 0}, x, y)
	assert.False(t, ok)
}

// The finger's way in mm, by the picture's scale at the handle: two points 2 mm apart on the size's line are so many px apart. While the
// part grows and the camera is turned and framed anew, what the finger says stays what it was; far off it comes to no more than a
// few times the part, and never turns about.
func TestSizeDragHolds(t *testing.T) {
	p := build(t, tray(90, 90))
	for _, view := range []string{"home", "front", "end"} {
		s := Make(Picture{Part: p, State: p.Finished(), Sizes: sizesOf()})
		c := NewCamera(820, 620)
		require.True(t, s.SetView(&c, view))
		i := 2 // the height
		l := s.sizeLines[i]
		u := l.b.Sub(l.a).Normalize()
		x, y, _ := c.Project(l.hold)
		x0, y0, _ := c.Project(l.hold.Sub(u))
		x1, y1, _ := c.Project(l.hold.Add(u))
		scale := math.Hypot(x1-x0, y1-y0) / 2 // px per mm
		dx, dy := (x1-x0)/2/scale, (y1-y0)/2/scale
		d, ok := s.StartSize(&c, Hit{Mark: i}, x, y)
		require.True(t, ok)
		at := func(way float64) float64 {
			by, ok := d.SizeAt(x+dx*way, y+dy*way)
			if !ok {
				return math.Inf(1)
			}
			return by
		}
		assert.InEpsilon(t, 40/scale, at(40), .1, view)
		assert.InEpsilon(t, -40/scale, at(-40), .1, view)
		last, first := -d.was, at(40)
		for way := -2000.; way <= 4000; way += 10 {
			c.Frame(geom.Box3{Max: geom.Vec3{1, 1, math.Abs(way) + 1}}) // as the page frames what has grown
			if by := at(way); !math.IsInf(by, 1) {
				assert.GreaterOrEqual(t, by, last-1e-9, "%s at %g px", view, way)
				assert.LessOrEqual(t, d.was+by, 2*s.partSize()+1e-9)
				last = by
			}
		}
		assert.Equal(t, first, at(40), "%s: the same finger, the same size", view)

		// The part stands elsewhere on a blank that has grown, and is seen where it was: its foot, and the handle that much higher.
		const aside, higher = 35., 12.
		longer := build(t, tray(90, 90))
		was := Make(Picture{Part: longer, State: longer.Finished(), Sizes: sizesOf()})
		grown := was.sizeLines[i]
		move := geom.Vec3{aside, aside, 0}
		grown.a, grown.pivot, grown.b = grown.a.Add(move), grown.pivot.Add(move), grown.b.Add(move).Add(u.Mul(higher))
		was.sizeLines[i] = grown
		c = d.camera
		ax, ay, _ := c.Project(l.a)
		d.Follow(was, &c)
		bx, by, _ := c.Project(grown.a)
		assert.InDelta(t, 0, math.Hypot(bx-ax, by-ay), 1e-9)
		bx, by, _ = c.Project(grown.b)
		px, py, _ := d.camera.Project(l.b.Add(u.Mul(higher)))
		assert.InDelta(t, 0, math.Hypot(bx-px, by-py), 1e-9)
	}
	// Round and round its pivot an angle follows the finger without a jump.
	s := Make(Picture{Part: p, State: p.Finished(), Sizes: sizesOf()})
	c := NewCamera(820, 620)
	require.True(t, s.SetView(&c, "home"))
	l := s.sizeLines[3]
	u, v, _, r, ok := l.arms()
	require.True(t, ok)
	to := func(a float64) (x, y float64) {
		x, y, _ = c.Project(l.pivot.Add(turn(u, v, a).Mul(r)))
		return x, y
	}
	x, y := to(l.size())
	d, ok := s.StartSize(&c, Hit{Mark: 3}, x, y)
	require.True(t, ok)
	for _, goal := range []float64{4 * math.Pi, -4 * math.Pi} {
		for a, step := l.size(), math.Copysign(.05, goal); math.Abs(a) < math.Abs(goal); a += step {
			x, y := to(a)
			by, ok := d.SizeAt(x, y)
			require.True(t, ok)
			assert.InDelta(t, min(max(a, 0), 2*math.Pi), d.was+by, 1e-6)
		}
		for a := goal; math.Abs(a-l.size()) > .06; a -= math.Copysign(.05, goal) { // and back again
			x, y := to(a)
			_, ok := d.SizeAt(x, y)
			require.True(t, ok)
		}
	}
}
