// Package raster draws a scene to an image without a screen: a software z-buffer,
// several samples a pixel, and lettering in the Go fonts. The command and the
// README's pictures use it; the page does not link it.
package raster

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"dryfold/render/scene"
)

// MaxSide and MaxPixels bound a picture, so that no size asked for can take all memory.
const (
	MaxSide   = 16384
	MaxPixels = 64 << 20
)

// samplesMost is how many samples are kept at once, 8 bytes each; larger pictures
// take fewer a pixel.
const samplesMost = 40 << 20

// Draw draws the scene as the camera sees it, scale pixels for each of the
// camera's (W x H at scale 1). It fails only for a size that is not positive or too large.
func Draw(s *scene.Scene, c scene.Camera, scale float64) (*image.NRGBA, error) {
	fw, fh := math.Round(c.W*scale), math.Round(c.H*scale)
	if !(fw >= 1 && fh >= 1 && fw <= MaxSide && fh <= MaxSide && fw*fh <= MaxPixels) {
		return nil, fmt.Errorf("a picture of %g x %g pixels can't be drawn: each side takes 1 to %d, and both %d million at most", fw, fh, MaxSide, MaxPixels>>20)
	}
	w, h := int(fw), int(fh)
	ss := 3
	for ss > 1 && w*h*ss*ss > samplesMost {
		ss--
	}
	o := s.Project(&c, nil)
	b := newBuffer(w*ss, h*ss, float32(scale)*float32(ss), o.Ground)
	b.shadow(o.Shadow, &s.Shadow)
	for i := 0; i+2 < len(o.Fills); i += 3 {
		b.fill(o.Fills[i], o.Fills[i+1], o.Fills[i+2])
	}
	for i := 0; i+2 < len(o.Tris); i += 3 {
		b.solid(o.Tris[i], o.Tris[i+1], o.Tris[i+2])
	}
	for i := range o.Lines {
		b.line(&o.Lines[i])
	}
	for _, l := range o.Labels {
		if l.Style == scene.StyleDatum {
			b.ring(float32(l.X), float32(l.Y), s.Picture.Colours().Mark)
		}
	}
	img := b.reduce(w, h, ss)
	if err := letter(img, o.Labels, s.Picture.Colours(), scale); err != nil {
		return nil, err
	}
	return img, nil
}

// buffer is colour and depth of every sample.
type buffer struct {
	w, h  int
	k     float32 // samples per px of the screen lists
	rgb   []uint32
	depth []float32
}

func pack(c scene.Colour) uint32 {
	q := func(v float32) uint32 { return uint32(max(0, min(1, v))*255 + .5) }
	return q(c[0])<<16 | q(c[1])<<8 | q(c[2])
}

func unpack(v uint32) scene.Colour {
	return scene.Colour{float32(v>>16&255) / 255, float32(v>>8&255) / 255, float32(v&255) / 255, 1}
}

func newBuffer(w, h int, k float32, ground scene.Colour) *buffer {
	b := &buffer{w: w, h: h, k: k, rgb: make([]uint32, w*h), depth: make([]float32, w*h)}
	g := pack(ground)
	for i := range b.rgb {
		b.rgb[i] = g
		b.depth[i] = -1
	}
	return b
}

// blend lays a colour over a sample by its alpha.
func (b *buffer) blend(i int, c scene.Colour) {
	if c[3] >= 1 {
		b.rgb[i] = pack(c)
	} else if c[3] > 0 {
		b.rgb[i] = pack(unpack(b.rgb[i]).Mix(scene.Colour{c[0], c[1], c[2], 1}, c[3]))
	}
}

// triangle calls put for each sample in a triangle with the shares of its corners.
func (b *buffer) triangle(x, y [3]float32, put func(i int, p, q, r float32)) {
	var X, Y [3]float64
	for i := range 3 {
		X[i], Y[i] = float64(x[i]*b.k), float64(y[i]*b.k)
	}
	area := (X[1]-X[0])*(Y[2]-Y[0]) - (X[2]-X[0])*(Y[1]-Y[0])
	if area == 0 || math.IsNaN(area) {
		return
	}
	y0 := max(0, math.Ceil(min(Y[0], Y[1], Y[2])-.5))
	y1 := min(float64(b.h-1), math.Floor(max(Y[0], Y[1], Y[2])-.5))
	for row := y0; row <= y1; row++ {
		yc := row + .5
		lo, hi := math.Inf(1), math.Inf(-1)
		for k := range 3 {
			m := (k + 1) % 3
			if (Y[k] <= yc) != (Y[m] <= yc) {
				xx := X[k] + (yc-Y[k])*(X[m]-X[k])/(Y[m]-Y[k])
				lo, hi = min(lo, xx), max(hi, xx)
			}
		}
		x0, x1 := max(0, math.Ceil(lo-.5)), min(float64(b.w-1), math.Floor(hi-.5))
		for col := x0; col <= x1; col++ {
			xc := col + .5
			q := ((xc-X[0])*(Y[2]-Y[0]) - (X[2]-X[0])*(yc-Y[0])) / area
			r := ((X[1]-X[0])*(yc-Y[0]) - (xc-X[0])*(Y[1]-Y[0])) / area
			put(int(row)*b.w+int(col), float32(1-q-r), float32(q), float32(r))
		}
	}
}

func (b *buffer) solid(a, c, d scene.ScreenVertex) {
	flat := a.C == c.C && a.C == d.C
	col := pack(a.C)
	b.triangle([3]float32{a.X, c.X, d.X}, [3]float32{a.Y, c.Y, d.Y}, func(i int, p, q, r float32) {
		z := p*a.D + q*c.D + r*d.D
		if z <= b.depth[i] {
			return
		}
		b.depth[i] = z
		if flat {
			b.rgb[i] = col
			return
		}
		var m scene.Colour
		for k := range 3 {
			m[k] = p*a.C[k] + q*c.C[k] + r*d.C[k]
		}
		b.rgb[i] = pack(m)
	})
}

func (b *buffer) fill(a, c, d scene.ScreenVertex) {
	b.triangle([3]float32{a.X, c.X, d.X}, [3]float32{a.Y, c.Y, d.Y}, func(i int, _, _, _ float32) { b.blend(i, a.C) })
}

func (b *buffer) shadow(v []scene.ShadowVertex, s *scene.Shadow) {
	for n := 0; n+2 < len(v); n += 3 {
		a, c, d := v[n], v[n+1], v[n+2]
		b.triangle([3]float32{a.X, c.X, d.X}, [3]float32{a.Y, c.Y, d.Y}, func(i int, p, q, r float32) {
			b.blend(i, scene.Colour{0, 0, 0, s.At(p*a.U+q*c.U+r*d.U, p*a.V+q*c.V+r*d.V)})
		})
	}
}

// line draws a line with round ends, hidden where what was drawn is nearer.
func (b *buffer) line(l *scene.ScreenLine) {
	x0, y0, x1, y1, hw := l.X0*b.k, l.Y0*b.k, l.X1*b.k, l.Y1*b.k, l.Width*b.k/2
	dx, dy := x1-x0, y1-y0
	l2 := dx*dx + dy*dy
	ya := max(0, int(math.Floor(float64(min(y0, y1)-hw))))
	yb := min(b.h-1, int(math.Ceil(float64(max(y0, y1)+hw))))
	for y := ya; y <= yb; y++ {
		// the stretch of this row within hw of the line's carrier, or of its ends
		yc := float32(y) + .5
		lo, hi := min(x0, x1)-hw, max(x0, x1)+hw
		if abs(dy) > 1e-3 {
			mid := x0 + (yc-y0)*dx/dy
			reach := hw*float32(math.Sqrt(float64(l2)))/abs(dy) + 1
			lo, hi = max(lo, mid-reach), min(hi, mid+reach)
		}
		for x := max(0, int(lo)); x <= min(b.w-1, int(hi+1)); x++ {
			ex, ey := float32(x)+.5-x0, yc-y0
			t := float32(0)
			if l2 > 0 {
				t = max(0, min(1, (ex*dx+ey*dy)/l2))
			}
			if px, py := ex-t*dx, ey-t*dy; px*px+py*py > hw*hw {
				continue
			}
			i := y*b.w + x
			if l.Over || l.D0+(l.D1-l.D0)*t >= b.depth[i] {
				b.blend(i, l.C)
			}
		}
	}
}

// ring draws the ring round a datum letter at x, y (px).
func (b *buffer) ring(x, y float32, c scene.Colour) {
	const n = 40
	for i := range n {
		s0, c0 := math.Sincos(2 * math.Pi * float64(i) / n)
		s1, c1 := math.Sincos(2 * math.Pi * float64(i+1) / n)
		b.line(&scene.ScreenLine{X0: x + datumPx*float32(c0), Y0: y + datumPx*float32(s0), X1: x + datumPx*float32(c1), Y1: y + datumPx*float32(s1), Width: 1.2, C: c, Over: true})
	}
}

func abs(x float32) float32 { return max(x, -x) }

// reduce averages ss x ss samples to a pixel.
func (b *buffer) reduce(w, h, ss int) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	n := uint32(ss * ss)
	for y := range h {
		for x := range w {
			var r, g, bl uint32
			for j := range ss {
				for _, v := range b.rgb[(y*ss+j)*b.w+x*ss:][:ss] {
					r, g, bl = r+(v>>16&255), g+(v>>8&255), bl+(v&255)
				}
			}
			img.SetNRGBA(x, y, color.NRGBA{uint8((r + n/2) / n), uint8((g + n/2) / n), uint8((bl + n/2) / n), 255})
		}
	}
	return img
}
