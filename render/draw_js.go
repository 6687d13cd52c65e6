//go:build js

package render

import (
	"image"
	"math"

	"github.com/hajimehoshi/ebiten/v2"

	"dryfold/render/scene"
)

// This file draws a scene.Screen with Ebitengine. There is no depth buffer, so
// depth goes through two images, its high and its low byte, each kept by the
// greatest; then colour and ink are drawn where they are not behind it.

// batch is the most vertices of one call: indices are uint16, and whole triangles
// (3) and whole line quads (4) must fit.
const batch = 65532

type drawer struct {
	shaders
	high, low, color *ebiten.Image // color is nil where the screen itself is fine enough
	shadow           *ebiten.Image
	shadowPixels     []byte
	white            *ebiten.Image
	verts            []ebiten.Vertex
	runs, quads      []uint16 // indices: 0,1,2,3...; and two triangles for each four
}

func newDrawer() (*drawer, error) {
	s, err := newShaders()
	if err != nil {
		return nil, err
	}
	d := &drawer{shaders: s, runs: make([]uint16, batch), quads: make([]uint16, 0, batch/4*6)}
	for i := range d.runs {
		d.runs[i] = uint16(i)
	}
	for i := uint16(0); int(i)+3 < batch; i += 4 {
		d.quads = append(d.quads, i, i+1, i+2, i, i+2, i+3)
	}
	d.white = ebiten.NewImage(3, 3)
	d.white.Fill(white{})
	return d, nil
}

type white struct{}

func (white) RGBA() (r, g, b, a uint32) { return 0xffff, 0xffff, 0xffff, 0xffff }

// finer is how many samples a screen pixel gets along each side: two where the
// screen is coarse.
func finer(ratio float64) int {
	if ratio < 1.5 {
		return 2
	}
	return 1
}

// resize makes the images fit a screen of w x h device pixels.
func (d *drawer) resize(w, h, fine int) {
	w, h = w*fine, h*fine
	if d.high != nil && d.high.Bounds().Dx() == w && d.high.Bounds().Dy() == h && (d.color != nil) == (fine > 1) {
		return
	}
	for _, i := range []*ebiten.Image{d.high, d.low, d.color} {
		if i != nil {
			i.Deallocate()
		}
	}
	fresh := func() *ebiten.Image {
		return ebiten.NewImageWithOptions(image.Rect(0, 0, w, h), &ebiten.NewImageOptions{Unmanaged: true})
	}
	d.high, d.low, d.color = fresh(), fresh(), nil
	if fine > 1 {
		d.color = fresh()
	}
}

// draw paints the screen lists on dst; ratio is device pixels per CSS pixel.
func (d *drawer) draw(dst *ebiten.Image, o *scene.Screen, sh *scene.Shadow, ratio float64) {
	fine := finer(ratio)
	d.resize(dst.Bounds().Dx(), dst.Bounds().Dy(), fine)
	to := dst
	if d.color != nil {
		to = d.color
	}
	k := float32(ratio) * float32(fine)
	to.Fill(nrgba(o.Ground))
	d.castShadow(to, o, sh, k)
	d.fills(to, o, k)
	d.solids(to, o, k)
	d.lines(to, o, k)
	if d.color != nil {
		op := &ebiten.DrawImageOptions{Filter: ebiten.FilterLinear, Blend: ebiten.BlendCopy, DisableMipmaps: true}
		op.GeoM.Scale(1/float64(fine), 1/float64(fine)) // linear sampling between four samples is their mean
		dst.DrawImage(d.color, op)
	}
}

type nrgba scene.Colour

func (c nrgba) RGBA() (r, g, b, a uint32) {
	q := func(v float32) uint32 { return uint32(v*c[3]*0xffff + .5) }
	return q(c[0]), q(c[1]), q(c[2]), uint32(c[3]*0xffff + .5)
}

// castShadow lays the shadow's grid on the bench as a picture, smoothed by linear sampling.
func (d *drawer) castShadow(to *ebiten.Image, o *scene.Screen, sh *scene.Shadow, k float32) {
	n := sh.N
	if n == 0 || len(o.Shadow) == 0 {
		return
	}
	if d.shadow == nil || d.shadow.Bounds().Dx() != n {
		d.shadow = ebiten.NewImageWithOptions(image.Rect(0, 0, n, n), &ebiten.NewImageOptions{Unmanaged: true})
		d.shadowPixels = make([]byte, 4*n*n)
	}
	for i, a := range sh.Alpha {
		d.shadowPixels[4*i+3] = a // black, premultiplied
	}
	d.shadow.WritePixels(d.shadowPixels)
	d.verts = d.verts[:0]
	for _, v := range o.Shadow {
		d.verts = append(d.verts, ebiten.Vertex{DstX: v.X * k, DstY: v.Y * k, SrcX: v.U * float32(n), SrcY: v.V * float32(n), ColorR: 1, ColorG: 1, ColorB: 1, ColorA: 1})
	}
	to.DrawTriangles(d.verts, d.runs[:len(d.verts)], d.shadow, &ebiten.DrawTrianglesOptions{Filter: ebiten.FilterLinear, DisableMipmaps: true})
}

// each calls draw with runs of vertices that one call can take.
func (d *drawer) each(draw func(v []ebiten.Vertex)) {
	for v := d.verts; len(v) > 0; {
		n := min(len(v), batch)
		draw(v[:n])
		v = v[n:]
	}
}

func (d *drawer) fills(to *ebiten.Image, o *scene.Screen, k float32) {
	d.verts = d.verts[:0]
	for _, v := range o.Fills {
		d.verts = append(d.verts, ebiten.Vertex{DstX: v.X * k, DstY: v.Y * k, SrcX: 1, SrcY: 1, ColorR: v.C[0], ColorG: v.C[1], ColorB: v.C[2], ColorA: v.C[3]})
	}
	d.each(func(v []ebiten.Vertex) { to.DrawTriangles(v, d.runs[:len(v)], d.white, nil) })
}

// nearest keeps the greater value of each channel.
var nearest = ebiten.Blend{
	BlendFactorSourceRGB: ebiten.BlendFactorOne, BlendFactorSourceAlpha: ebiten.BlendFactorOne,
	BlendFactorDestinationRGB: ebiten.BlendFactorOne, BlendFactorDestinationAlpha: ebiten.BlendFactorOne,
	BlendOperationRGB: ebiten.BlendOperationMax, BlendOperationAlpha: ebiten.BlendOperationMax,
}

// solids draws the triangles in three passes: depth's high byte, its low byte, colour.
func (d *drawer) solids(to *ebiten.Image, o *scene.Screen, k float32) {
	d.high.Clear()
	d.low.Clear()
	d.verts = d.verts[:0]
	for i := range o.Tris {
		v := &o.Tris[i]
		x, y := v.X*k, v.Y*k
		d.verts = append(d.verts, ebiten.Vertex{DstX: x, DstY: y, SrcX: x, SrcY: y, ColorR: v.C[0], ColorG: v.C[1], ColorB: v.C[2], ColorA: 1, Custom0: v.D})
	}
	d.each(func(v []ebiten.Vertex) {
		d.high.DrawTrianglesShader(v, d.runs[:len(v)], d.shaders.high, &ebiten.DrawTrianglesShaderOptions{Blend: nearest})
	})
	op := &ebiten.DrawTrianglesShaderOptions{Blend: nearest}
	op.Images[0] = d.high
	d.each(func(v []ebiten.Vertex) { d.low.DrawTrianglesShader(v, d.runs[:len(v)], d.shaders.low, op) })
	op = &ebiten.DrawTrianglesShaderOptions{Blend: ebiten.BlendCopy}
	op.Images[0], op.Images[1] = d.high, d.low
	d.each(func(v []ebiten.Vertex) { to.DrawTrianglesShader(v, d.runs[:len(v)], d.shaders.solid, op) })
}

// lines draws every line as a thin quad, a little longer at both ends so that lines
// that meet close the corner.
func (d *drawer) lines(to *ebiten.Image, o *scene.Screen, k float32) {
	d.verts = d.verts[:0]
	for i := range o.Lines {
		l := &o.Lines[i]
		x0, y0, x1, y1 := l.X0*k, l.Y0*k, l.X1*k, l.Y1*k
		dx, dy := x1-x0, y1-y0
		n := float32(math.Sqrt(float64(dx*dx + dy*dy)))
		if n < 1e-4 {
			continue
		}
		dx, dy = dx/n, dy/n
		hw := l.Width * k / 2
		a := l.C[3]
		if hw < .5 { // thinner than a pixel: paler instead
			a, hw = a*hw*2, .5
		}
		r := hw + 1 // room for the soft side
		end := hw * .7
		x0, y0, x1, y1 = x0-dx*end, y0-dy*end, x1+dx*end, y1+dy*end
		d0, d1 := l.D0, l.D1
		if l.Over {
			d0, d1 = 1, 1
		}
		put := func(x, y, side, depth float32) {
			x, y = x-dy*side*r, y+dx*side*r
			d.verts = append(d.verts, ebiten.Vertex{DstX: x, DstY: y, SrcX: x, SrcY: y,
				ColorR: l.C[0], ColorG: l.C[1], ColorB: l.C[2], ColorA: a, Custom0: depth, Custom1: side * r, Custom2: hw})
		}
		put(x0, y0, -1, d0)
		put(x1, y1, -1, d1)
		put(x1, y1, 1, d1)
		put(x0, y0, 1, d0)
	}
	op := &ebiten.DrawTrianglesShaderOptions{}
	op.Images[0], op.Images[1] = d.high, d.low
	d.each(func(v []ebiten.Vertex) { to.DrawTrianglesShader(v, d.quads[:len(v)/4*6], d.shaders.line, op) })
}
