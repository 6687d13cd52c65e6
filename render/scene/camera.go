package scene

import (
	"math"

	"dryfold/fold/geom"
)

// Camera is where the bench is seen from: an orbit about Target, in perspective.
// W, H are the canvas in CSS pixels; the insets are the strips of it under the
// page's panels: the picture is centred in what is free.
type Camera struct {
	Yaw, Pitch float64 // radians: yaw 0 looks along +y, pitch 0 level, 90 degrees straight down
	Target     geom.Vec3
	Dist       float64 // from the eye to Target, mm
	W, H       float64
	Inset      [4]float64 // left, top, right, bottom
}

// The direction in which a part is first shown; homeYaw the method may take another corner.
const (
	homeYaw   = -32 * math.Pi / 180
	homePitch = 36 * math.Pi / 180
)

// NewCamera is a camera in the home direction.
func NewCamera(w, h float64) Camera {
	return Camera{Yaw: homeYaw, Pitch: homePitch, Dist: 1000, W: w, H: h}
}

// free is the middle and size of the uncovered part of the canvas, px.
func (c *Camera) free() (cx, cy, w, h float64) {
	w = max(40, c.W-c.Inset[0]-c.Inset[2])
	h = max(40, c.H-c.Inset[1]-c.Inset[3])
	return c.Inset[0] + w/2, c.Inset[1] + h/2, w, h
}

// focal is the distance of the picture plane in px.
func (c *Camera) focal() float64 {
	_, _, w, h := c.free()
	return min(w, h) / 2 / math.Tan(fieldOfView/2)
}

// Axes are the view's unit directions in space: to the right, up, and back towards the eye.
func (c *Camera) Axes() (right, up, back geom.Vec3) {
	sy, cy := math.Sincos(c.Yaw)
	sp, cp := math.Sincos(c.Pitch)
	back = geom.Vec3{cp * sy, -cp * cy, sp}
	right = geom.Vec3{cy, sy, 0}
	return right, back.Cross(right), back
}

// Eye is where the camera stands.
func (c *Camera) Eye() geom.Vec3 {
	_, _, back := c.Axes()
	return c.Target.Add(back.Mul(c.Dist))
}

// Project gives where a point falls on the canvas (px) and its distance in front
// of the eye (mm); behind the eye depth is not positive and x, y mean nothing.
func (c *Camera) Project(p geom.Vec3) (x, y, depth float64) {
	v := newViewer(c)
	return v.project(p)
}

// Ray is the line of sight through a point of the canvas: the eye and a unit direction.
func (c *Camera) Ray(x, y float64) (eye, dir geom.Vec3) {
	right, up, back := c.Axes()
	cx, cy, _, _ := c.free()
	f := c.focal()
	return c.Eye(), right.Mul((x - cx) / f).Add(up.Mul((cy - y) / f)).Sub(back).Normalize()
}

// viewer is a camera made ready for many points.
type viewer struct {
	eye, right, up, back geom.Vec3
	cx, cy, f            float64
}

func newViewer(c *Camera) viewer {
	v := viewer{eye: c.Eye(), f: c.focal()}
	v.right, v.up, v.back = c.Axes()
	v.cx, v.cy, _, _ = c.free()
	return v
}

func (v *viewer) project(p geom.Vec3) (x, y, depth float64) {
	d := p.Sub(v.eye)
	depth = -d.Dot(v.back)
	if depth <= 1e-9 {
		return 0, 0, depth
	}
	k := v.f / depth
	return v.cx + k*d.Dot(v.right), v.cy - k*d.Dot(v.up), depth
}

// Orbit turns the view by a drag of dx, dy pixels.
func (c *Camera) Orbit(dx, dy float64) {
	const perPx = .45 * math.Pi / 180
	c.Yaw = math.Remainder(c.Yaw-dx*perPx, 2*math.Pi)
	c.Pitch = max(minPitch, min(maxPitch, c.Pitch+dy*perPx))
}

// Pan moves the view so that what lies at the target's depth follows dx, dy pixels.
func (c *Camera) Pan(dx, dy float64) {
	right, up, _ := c.Axes()
	k := c.Dist / c.focal()
	c.Target = c.Target.Sub(right.Mul(dx * k)).Add(up.Mul(dy * k))
}

// Zoom brings the view nearer by a factor over 1, keeping what is under x, y (px)
// in place. size is the scene's (Scene.Size), which bounds the distance.
func (c *Camera) Zoom(factor, x, y, size float64) {
	if !(factor > 0) {
		return
	}
	d := max(size*.05, min(size*12, c.Dist/factor))
	cx, cy, _, _ := c.free()
	k := (c.Dist - d) / c.focal() // the point under the finger moves out by this per px
	right, up, _ := c.Axes()
	c.Target = c.Target.Add(right.Mul((x - cx) * k)).Sub(up.Mul((y - cy) * k))
	c.Dist = d
}

// Frame moves the camera, keeping its direction, so that the box fills the free
// area. An empty box changes nothing.
func (c *Camera) Frame(b geom.Box3) {
	if !(b.Min[0] <= b.Max[0]) {
		return
	}
	var pts []geom.Vec3
	for i := range 8 {
		p := b.Min
		for k := range 3 {
			if i>>k&1 == 1 {
				p[k] = b.Max[k]
			}
		}
		pts = append(pts, p)
	}
	c.FramePoints(pts)
}

// FramePoints is Frame for a set of points; it fits tighter than their box.
func (c *Camera) FramePoints(pts []geom.Vec3) {
	if len(pts) == 0 {
		return
	}
	box := geom.EmptyBox3()
	for _, p := range pts {
		box.Add(p)
	}
	size := max(1e-3, box.Size().Len())
	c.Target = box.Min.Add(box.Max).Mul(.5)
	_, _, w, h := c.free()
	f := c.focal()
	c.Dist = size * f / (frameFill * min(w, h))
	right, up, _ := c.Axes()
	// Centre and scale in turn. Moving the eye by the nearest depth's share never
	// brings it among the points, and settles in a few rounds for what is far.
	for range 60 {
		v := newViewer(c)
		x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		near := math.Inf(1)
		for _, p := range pts {
			x, y, d := v.project(p)
			if d <= 1e-9 {
				c.Dist *= 2
				near = -1
				break
			}
			near = min(near, d)
			x0, x1, y0, y1 = min(x0, x), max(x1, x), min(y0, y), max(y1, y)
		}
		if near < 0 {
			continue
		}
		k := c.Dist / f
		c.Target = c.Target.Add(right.Mul(((x0+x1)/2 - v.cx) * k)).Sub(up.Mul(((y0+y1)/2 - v.cy) * k))
		scale := max((x1-x0)/(frameFill*w), (y1-y0)/(frameFill*h))
		c.Dist += near * (max(.5, min(2, scale)) - 1)
		if abs(scale-1) < .003 && abs((x0+x1)/2-v.cx)+abs((y0+y1)/2-v.cy) < 1 {
			break
		}
	}
}

// Frame brings all of a scene into the camera's free area: the part as it stands
// and as finished, so that folding does not leave the view, and the blank.
func (s *Scene) Frame(c *Camera) {
	var pts []geom.Vec3
	if p := s.Picture.Part; p != nil && p.Foldable && !s.finished() {
		pic := s.Picture
		pic.State, pic.Clash, pic.Ticks, pic.NoBlank = p.Finished(), nil, false, true
		done := s.Mesher.Make(pic, nil)
		for i := range done.Verts {
			pts = append(pts, done.Verts[i].P)
		}
	}
	for i := range s.Verts {
		pts = append(pts, s.Verts[i].P)
	}
	for i := range s.Lines {
		if l := &s.Lines[i]; !l.Over {
			pts = append(pts, l.A, l.B)
		}
	}
	for i := range s.Labels {
		pts = append(pts, s.Labels[i].At)
	}
	if d := s.Dims; d != nil { // room for the dimension lines, on the sides that face the camera
		_, _, back := c.Axes()
		off := d.Box.Size().Len() * dimOff * 1.4
		x, y := d.Box.Max[0]+off, d.Box.Max[1]+off
		if back[0] < 0 {
			x = d.Box.Min[0] - off
		}
		if back[1] < 0 {
			y = d.Box.Min[1] - off
		}
		z := d.Box.Min[2]
		pts = append(pts, geom.Vec3{d.Box.Min[0], y, z}, geom.Vec3{d.Box.Max[0], y, z},
			geom.Vec3{x, d.Box.Min[1], z}, geom.Vec3{x, d.Box.Max[1], z})
		right, _, _ := c.Axes() // and the height's, on the right
		for i := range s.Verts {
			pts = append(pts, s.Verts[i].P.Add(right.Mul(off)))
		}
	}
	if len(s.sizeLines) > 0 { // room for the sizes' lines
		off := s.partSize() * (sizeOff + sizeStep)
		for i := range 8 {
			q := s.Box.Min.Sub(geom.Vec3{off, off, 0})
			for k, far := range s.Box.Max.Add(geom.Vec3{off, off, off / 2}) {
				if i>>k&1 == 1 {
					q[k] = far
				}
			}
			pts = append(pts, q)
		}
	}
	c.FramePoints(pts)
}

// Views are the words that SetView takes, in the page's order.
var Views = []string{"front", "end", "above", "at the brake", "home"}

// SetView turns the camera to a view by word and frames the scene; false, and
// nothing changed, if the word is unknown. "front" looks along the y axis of the
// blank, "end" along x, "at the brake" along the line of the bend that swings (or
// is selected, or else the first), from the end that shows the held side to the left.
func (s *Scene) SetView(c *Camera, word string) bool {
	const level = 9 * math.Pi / 180 // a little from above: quite level views show no depth
	switch word {
	case "home":
		c.Yaw, c.Pitch = s.homeYaw(), homePitch
	case "front":
		c.Yaw, c.Pitch = 0, level
	case "end":
		c.Yaw, c.Pitch = math.Pi/2, level
	case "above":
		c.Yaw, c.Pitch = 0, maxPitch
	case "at the brake":
		c.Yaw, c.Pitch = s.alongBend(), level
	default:
		return false
	}
	s.Frame(c)
	return true
}

// homeYaw is the corner from which the finished part shows most of its upper face
// and least of its lower one:
// one looks into a tray, not at the back of its highest wall. Where it makes little
// odds the blank is kept the way it is read.
func (s *Scene) homeYaw() float64 {
	p := s.Picture.Part
	if p == nil || !p.Foldable {
		return homeYaw
	}
	ps := p.Pose(p.Finished())
	best, yaw := math.Inf(-1), float64(homeYaw)
	for i, y := range [4]float64{homeYaw, -homeYaw, homeYaw + math.Pi, math.Pi - homeYaw} {
		c := Camera{Yaw: y, Pitch: homePitch}
		_, _, back := c.Axes()
		seen := 0.0
		for k := range p.Panels {
			seen += p.Panels[k].Area * ps.Panels[k].Z.Dot(back) // lower faces seen count against it
		}
		if i > 0 {
			seen -= .04 * abs(seen)
		}
		if seen > best {
			best, yaw = seen, y
		}
	}
	return yaw
}

// alongBend is the yaw that looks along the present bend's line.
func (s *Scene) alongBend() float64 {
	p := s.Picture.Part
	if p == nil || len(p.Bends) == 0 || len(s.Pose.Panels) == 0 {
		return 0
	}
	i := 0
	if sel := s.Picture.Select; sel.Kind == Bend && sel.Index >= 0 && sel.Index < len(p.Bends) {
		i = sel.Index
	}
	for _, b := range s.Picture.Turning {
		if b >= 0 && b < len(p.Bends) {
			i = b
			break
		}
	}
	b := &p.Bends[i]
	f := s.Pose.Panels[b.A]
	n := f.Vector(geom.Vec3{b.N[0], b.N[1], 0}) // from the held side to the swinging one: to the right
	if math.Hypot(n[0], n[1]) < 1e-6 {          // it points straight up: along the line then
		u := f.Vector(geom.Vec3{b.U[0], b.U[1], 0})
		return math.Atan2(-u[0], u[1])
	}
	return math.Atan2(n[1], n[0])
}

// Middle is the middle of the free area, px.
func (c *Camera) Middle() (x, y float64) {
	x, y, _, _ = c.free()
	return x, y
}
