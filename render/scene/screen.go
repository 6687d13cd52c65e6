package scene

import (
	"math"

	"dryfold/fold/geom"
)

// Screen is a scene as a camera sees it, in CSS pixels: lists that any rasterizer
// draws in this order: Ground, Shadow, Fills, Tris (by depth), Lines (each by its
// own depth, or over everything), and Labels as text on top.
type Screen struct {
	W, H   float64
	Ground Colour
	Shadow []ShadowVertex // triangles; U, V are 0..1 across the shadow's grid
	Fills  []ScreenVertex // triangles
	Tris   []ScreenVertex // triangles
	Lines  []ScreenLine
	Labels []ScreenLabel
	Grips  []ScreenGrip // handles of sizes, drawn over everything

	poly  [4]clipVertex
	kept  keptTick
	cover cover
	first int    // the first line of the sizes
	drawn []bool // sizes that are drawn, or stood aside for another of their group
}

// keptTick is the last feeler tick that was looked at, and the last that was drawn.
type keptTick struct {
	seam, tick int
	on         bool
	x, y       float64
}

// thin reports whether a feeler tick is drawn: those nearer than tickStep to the last
// one of their seam are left out, so that ticks stay apart when the part is small.
func (o *Screen) thin(p *projection, l *Line) bool {
	k := &o.kept
	if k.seam == l.Seam && k.tick == l.Tick {
		return k.on
	}
	x, y, d := p.project(l.A.Add(l.B).Mul(.5))
	first := k.seam != l.Seam
	k.seam, k.tick = l.Seam, l.Tick
	if k.on = d > 0 && (first || math.Hypot(x-k.x, y-k.y) >= tickStep); k.on {
		k.x, k.y = x, y
	}
	return k.on
}

// ScreenVertex is a corner on the screen. D is depth, linear on the screen: 1 at
// the nearest place of the scene, 0 at the farthest.
type ScreenVertex struct {
	X, Y, D float32
	C       Colour
}

// ShadowVertex is a corner of the shadow's picture.
type ShadowVertex struct{ X, Y, U, V float32 }

// ScreenLine is a line on the screen, Width px wide; D as in ScreenVertex. Over
// lines are not hidden.
type ScreenLine struct {
	X0, Y0, D0, X1, Y1, D1 float32
	Width                  float32
	C                      Colour
	Over                   bool
}

// clipVertex is a corner in the view's axes.
type clipVertex struct {
	v geom.Vec3
	c Colour
}

// projection is a viewer with depth fitted to the scene.
type projection struct {
	viewer
	near, far  float64 // where depth is 1 and 0, mm
	inv0, invK float64
}

func (s *Scene) projection(c *Camera) projection {
	p := projection{viewer: newViewer(c), near: math.Inf(1), far: 0}
	for i := range 8 {
		q := s.Reach.Min
		for k := range 3 {
			if i>>k&1 == 1 {
				q[k] = s.Reach.Max[k]
			}
		}
		d := -q.Sub(p.eye).Dot(p.back)
		p.near, p.far = min(p.near, d), max(p.far, d)
	}
	size := s.Size()
	p.near -= size * .02 // room for what stands out: ticks, ghosts
	p.far += size * .02
	p.near = max(p.near, size*1e-3)
	p.far = max(p.far, p.near*1.001)
	p.inv0 = 1 / p.far
	p.invK = 1 / (1/p.near - 1/p.far)
	return p
}

// depth maps a distance in front of the eye to 0..1.
func (p *projection) depth(z float64) float32 {
	return float32(max(0, min(1, (1/z-p.inv0)*p.invK)))
}

// Project draws a scene through a camera into lists. The memory of into is used
// again if it is not nil.
func (s *Scene) Project(c *Camera, into *Screen) *Screen {
	o := into
	if o == nil {
		o = &Screen{}
	}
	o.kept = keptTick{}
	o.W, o.H, o.Ground = c.W, c.H, s.Picture.Colours().Ground
	o.Shadow, o.Fills, o.Tris, o.Lines, o.Labels, o.Grips = o.Shadow[:0], o.Fills[:0], o.Tris[:0], o.Lines[:0], o.Labels[:0], o.Grips[:0]
	if s.Picture.Part == nil {
		return o
	}
	p := s.projection(c)
	above := p.eye[2] > 0
	if above {
		o.shadow(&p, &s.Shadow)
	}
	for i := range s.Fills {
		f := &s.Fills[i]
		o.triangle(&p, &f.P, &[3]Colour{f.C, f.C, f.C}, &o.Fills, false)
	}
	for i := range s.Tris {
		t := &s.Tris[i]
		a, b, d := &s.Verts[t.V[0]], &s.Verts[t.V[1]], &s.Verts[t.V[2]]
		o.triangle(&p, &[3]geom.Vec3{a.P, b.P, d.P}, &[3]Colour{a.C, b.C, d.C}, &o.Tris, true)
	}
	pal := s.Picture.Colours()
	for i := range s.Lines { // the bench's lines lie under the part's edges
		if l := &s.Lines[i]; l.Lift == 0 && !l.Over {
			o.line(&p, l, pal)
		}
	}
	o.edges(&p, s, pal)
	for i := range s.Lines {
		if l := &s.Lines[i]; (l.Lift != 0 || l.Over) && (l.Seam == 0 || o.thin(&p, l)) {
			o.line(&p, l, pal)
		}
	}
	o.labels(&p, s, c)
	if s.Dims != nil {
		o.dims(&p, s, c)
	}
	o.sizes(&p, s, c)
	if s.Mark != nil {
		o.mark(&p, s, c)
	}
	return o
}

// shadow lays the shadow's grid on the bench in squares small enough that flat
// interpolation on the screen is near enough to perspective.
func (o *Screen) shadow(p *projection, sh *Shadow) {
	if sh.N == 0 {
		return
	}
	const n = 10
	var g [n + 1][n + 1]ShadowVertex
	var ok [n + 1][n + 1]bool
	size := sh.Box.Size()
	for j := range n + 1 {
		for i := range n + 1 {
			u, v := float64(i)/n, float64(j)/n
			x, y, d := p.project(geom.Vec3{sh.Box.Min[0] + u*size[0], sh.Box.Min[1] + v*size[1], 0})
			g[j][i] = ShadowVertex{float32(x), float32(y), float32(u), float32(v)}
			ok[j][i] = d > p.near*.5
		}
	}
	for j := range n {
		for i := range n {
			if ok[j][i] && ok[j][i+1] && ok[j+1][i] && ok[j+1][i+1] {
				a, b, c, d := g[j][i], g[j][i+1], g[j+1][i+1], g[j+1][i]
				o.Shadow = append(o.Shadow, a, b, c, a, c, d)
			}
		}
	}
}

// triangle adds a triangle, cut at the near plane, its back left out if cull. It is
// the inner loop of a frame and so written out in plain numbers.
func (o *Screen) triangle(p *projection, t *[3]geom.Vec3, c *[3]Colour, to *[]ScreenVertex, cull bool) {
	if cull {
		ux, uy, uz := t[1][0]-t[0][0], t[1][1]-t[0][1], t[1][2]-t[0][2]
		vx, vy, vz := t[2][0]-t[0][0], t[2][1]-t[0][1], t[2][2]-t[0][2]
		if (uy*vz-uz*vy)*(p.eye[0]-t[0][0])+(uz*vx-ux*vz)*(p.eye[1]-t[0][1])+(ux*vy-uy*vx)*(p.eye[2]-t[0][2]) <= 0 {
			return
		}
	}
	var v [3]geom.Vec3
	in := 0
	for i := range t {
		v[i] = p.view(&t[i])
		if v[i][2] >= p.near {
			in++
		}
	}
	switch in {
	case 0:
	case 3:
		for i := range v {
			*to = append(*to, p.vertex(&v[i], &c[i]))
		}
	default:
		n := o.clip(&v, c, p.near)
		for i := 1; i+1 < n; i++ {
			for _, k := range [3]int{0, i, i + 1} {
				*to = append(*to, p.vertex(&o.poly[k].v, &o.poly[k].c))
			}
		}
	}
}

func (p *projection) vertex(v *geom.Vec3, c *Colour) ScreenVertex {
	f := p.f / v[2]
	return ScreenVertex{float32(p.cx + f*v[0]), float32(p.cy - f*v[1]), p.depth(v[2]), *c}
}

// clip cuts a triangle at the near plane into o.poly and gives how many corners are left.
func (o *Screen) clip(v *[3]geom.Vec3, c *[3]Colour, near float64) int {
	n := 0
	for i := range 3 {
		k := (i + 1) % 3
		if v[i][2] >= near {
			o.poly[n] = clipVertex{v[i], c[i]}
			n++
		}
		if (v[i][2] >= near) != (v[k][2] >= near) {
			t := (near - v[i][2]) / (v[k][2] - v[i][2])
			o.poly[n] = clipVertex{v[i].Add(v[k].Sub(v[i]).Mul(t)), c[i].Mix(c[k], float32(t))}
			n++
		}
	}
	return n
}

// edges adds the solids' edges: those with both faces turned away are left out,
// those with one turned away are silhouettes and drawn wide.
func (o *Screen) edges(p *projection, s *Scene, pal *Palette) {
	l := Line{Lift: biasPx}
	for i := range s.Edges {
		e := &s.Edges[i]
		f0, f1 := p.faces(&e.N0, &e.A), p.faces(&e.N1, &e.A)
		switch {
		case !f0 && !f1, e.Kind == Smooth && f0 && f1:
			continue
		case e.Lit:
			l.Width, l.C = inkLit, pal.Accent
		case f0 != f1:
			l.Width, l.C = inkOutline, pal.Ink
		case e.Kind == Tangent:
			l.Width, l.C = inkTangent, pal.Tangent
		default:
			l.Width, l.C = inkInner, pal.Ink
		}
		l.A, l.B = e.A, e.B
		o.line(p, &l, pal)
	}
}

// line adds a line, cut at the near plane and broken into dashes.
func (o *Screen) line(p *projection, l *Line, pal *Palette) {
	va, vb := p.view(&l.A), p.view(&l.B)
	if va[2] < p.near && vb[2] < p.near {
		return
	}
	if va[2] < p.near {
		va = va.Add(vb.Sub(va).Mul((p.near - va[2]) / (vb[2] - va[2])))
	} else if vb[2] < p.near {
		vb = vb.Add(va.Sub(vb).Mul((p.near - vb[2]) / (va[2] - vb[2])))
	}
	at := func(v geom.Vec3) (x, y, d float32) {
		k := p.f / v[2]
		z := v[2] - float64(l.Lift)*v[2]/p.f
		return float32(p.cx + k*v[0]), float32(p.cy - k*v[1]), p.depth(max(z, p.near))
	}
	q := ScreenLine{Width: l.Width, C: l.C, Over: l.Over}
	q.X0, q.Y0, q.D0 = at(va)
	q.X1, q.Y1, q.D1 = at(vb)
	if l.Halo > 0 {
		h := q
		h.Width += 2 * l.Halo
		h.C = pal.Halo
		o.Lines = append(o.Lines, h)
	}
	if l.Dash <= 0 {
		o.Lines = append(o.Lines, q)
		return
	}
	n := int(math.Hypot(float64(q.X1-q.X0), float64(q.Y1-q.Y0))/float64(l.Dash)) | 1 // odd: begins and ends with a dash
	n = min(n, 401)
	for i := 0; i < n; i += 2 {
		t0, t1 := float32(i)/float32(n), float32(i+1)/float32(n)
		d := q
		d.X0, d.Y0, d.D0 = q.X0+(q.X1-q.X0)*t0, q.Y0+(q.Y1-q.Y0)*t0, q.D0+(q.D1-q.D0)*t0
		d.X1, d.Y1, d.D1 = q.X0+(q.X1-q.X0)*t1, q.Y0+(q.Y1-q.Y0)*t1, q.D0+(q.D1-q.D0)*t1
		o.Lines = append(o.Lines, d)
	}
}

// view gives a point in the view's axes: right, up, and forward from the eye.
func (p *projection) view(q *geom.Vec3) geom.Vec3 {
	x, y, z := q[0]-p.eye[0], q[1]-p.eye[1], q[2]-p.eye[2]
	return geom.Vec3{
		x*p.right[0] + y*p.right[1] + z*p.right[2],
		x*p.up[0] + y*p.up[1] + z*p.up[2],
		-(x*p.back[0] + y*p.back[1] + z*p.back[2]),
	}
}

// faces reports whether a face through a with normal n is turned to the eye.
func (p *projection) faces(n, a *geom.Vec3) bool {
	return n[0]*(p.eye[0]-a[0])+n[1]*(p.eye[1]-a[1])+n[2]*(p.eye[2]-a[2]) > 0
}
