// Package raster draws a scene to an image without a screen: a software z-buffer,
// several samples a pixel, and lettering in the Go fonts. The command, the README's pictures and
// the page's program for files use it; the page's own program does not link it.
package raster

import (
	"fmt"
	"image"
	"math"

	"dryfold/render/scene"
)

// Draw draws the scene as the camera sees it, scale pixels for each of the
// camera's (W x H at scale 1). It fails only for a size that is not positive or too large.
func Draw(s *scene.Scene, c scene.Camera, scale float64) (*image.NRGBA, error) {
	fw, fh := math.Round(c.W*scale), math.Round(c.H*scale)
	if !(fw >= 1 && fh >= 1 && fw <= MaxSide && fh <= MaxSide && fw*fh <= MaxPixels) {
		return nil, fmt.Errorf("a picture of %g x %g pixels can't be drawn: each side takes 1 to %d, and both %d million at most", fw, fh, MaxSide, MaxPixels>>20)
	}
	img := image.NewNRGBA(image.Rect(0, 0, int(fw), int(fh)))
	if err := drawInto(img, s, s.Project(&c, nil), scale, &buffer{}); err != nil {
		return nil, err
	}
	return img, nil
}

// drawInto draws what the camera saw over all of an image, in the buffer's memory.
func drawInto(img *image.NRGBA, s *scene.Scene, o *scene.Screen, scale float64, b *buffer) error {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	rows := max(1, min(h, bandSamples/(w*perPixel*perPixel)))
	b.ground = newGround(o, &s.Shadow, w, h, float32(scale), b.ground)
	for y := 0; y < h; y += rows {
		b.start(w, y, min(rows, h-y), float32(scale), b.ground)
		for i := 0; i+2 < len(o.Fills); i += 3 {
			b.fill(o.Fills[i], o.Fills[i+1], o.Fills[i+2])
		}
		for i := 0; i+2 < len(o.Tris); i += 3 {
			b.solid(&o.Tris[i], &o.Tris[i+1], &o.Tris[i+2])
		}
		for i := range o.Lines {
			b.line(&o.Lines[i])
		}
		for _, l := range o.Labels {
			if l.Style == scene.StyleDatum {
				b.ring(float32(l.X), float32(l.Y), s.Picture.Colours().Mark)
			}
		}
		b.reduce(img, y)
	}
	return letter(img, o.Labels, s.Picture.Colours(), scale)
}

// buffer is colour and depth of every sample of a band of rows.
type buffer struct {
	w, h  int
	k     float32 // samples per px of the screen lists
	y0    float64 // rows of samples above the band
	rgb   []uint32
	depth []float32

	ground []uint32 // of the whole picture, one colour a pixel
}

func pack(c scene.Colour) uint32 {
	q := func(v float32) uint32 { return uint32(max(0, min(1, v))*255 + .5) }
	return q(c[0])<<16 | q(c[1])<<8 | q(c[2])
}

func unpack(v uint32) scene.Colour {
	return scene.Colour{float32(v>>16&255) / 255, float32(v>>8&255) / 255, float32(v&255) / 255, 1}
}

// newGround is the ground with the shadow on it, one colour a pixel: it has no edges that would want more. The memory of into
// is used again if it is large enough.
func newGround(o *scene.Screen, s *scene.Shadow, w, h int, scale float32, into []uint32) []uint32 {
	if len(into) != w*h {
		into = make([]uint32, w*h)
	}
	b := buffer{w: w, h: h, k: scale, rgb: into}
	g := pack(o.Ground)
	for i := range b.rgb {
		b.rgb[i] = g
	}
	b.shadow(o.Shadow, s)
	return b.rgb
}

// start makes the buffer a band of h rows of w pixels from row y on, with nothing on the ground.
func (b *buffer) start(w, y, h int, scale float32, ground []uint32) {
	b.w, b.h, b.k, b.y0 = w*perPixel, h*perPixel, scale*perPixel, float64(y*perPixel)
	if n := b.w * b.h; cap(b.rgb) < n {
		b.rgb, b.depth = make([]uint32, n), make([]float32, n)
	} else {
		b.rgb, b.depth = b.rgb[:n], b.depth[:n]
	}
	for i := range b.depth {
		b.depth[i] = -1
	}
	for j := range h {
		row := b.rgb[j*perPixel*b.w:]
		for x, v := range ground[(y+j)*w : (y+j+1)*w] {
			row[3*x], row[3*x+1], row[3*x+2] = v, v, v
		}
		copy(row[b.w:2*b.w], row)
		copy(row[2*b.w:3*b.w], row)
	}
}

// blend lays a colour over a sample by its alpha.
func (b *buffer) blend(i int, c scene.Colour) {
	if c[3] >= 1 {
		b.rgb[i] = pack(c)
	} else if c[3] > 0 {
		b.rgb[i] = pack(unpack(b.rgb[i]).Mix(scene.Colour{c[0], c[1], c[2], 1}, c[3]))
	}
}

// triangle calls put for each row of samples in a triangle: n of them from i on, with the shares of its second and
// third corner at the first, and by how much these grow from one to the next.
func (b *buffer) triangle(x, y [3]float32, put func(i, n int, q, r, dq, dr float32)) {
	var X, Y [3]float64
	for i := range 3 {
		X[i], Y[i] = float64(x[i]*b.k), float64(y[i]*b.k)-b.y0
	}
	area := (X[1]-X[0])*(Y[2]-Y[0]) - (X[2]-X[0])*(Y[1]-Y[0])
	if area == 0 || math.IsNaN(area) {
		return
	}
	dq, dr := (Y[2]-Y[0])/area, -(Y[1]-Y[0])/area
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
		if x0 > x1 {
			continue
		}
		xc := x0 + .5
		q := (xc-X[0])*dq - (X[2]-X[0])*(yc-Y[0])/area
		r := (X[1]-X[0])*(yc-Y[0])/area + (xc-X[0])*dr
		put(int(row)*b.w+int(x0), int(x1-x0)+1, float32(q), float32(r), float32(dq), float32(dr))
	}
}

func (b *buffer) solid(a, c, d *scene.ScreenVertex) {
	flat := a.C == c.C && a.C == d.C
	col := pack(a.C)
	b.triangle([3]float32{a.X, c.X, d.X}, [3]float32{a.Y, c.Y, d.Y}, func(i, n int, q, r, dq, dr float32) {
		z, dz := a.D+q*(c.D-a.D)+r*(d.D-a.D), dq*(c.D-a.D)+dr*(d.D-a.D)
		depth, rgb := b.depth[i:i+n], b.rgb[i:i+n]
		for j := range depth {
			at := z + float32(j)*dz
			if at <= depth[j] {
				continue
			}
			depth[j] = at
			if flat {
				rgb[j] = col
				continue
			}
			q, r := q+float32(j)*dq, r+float32(j)*dr
			p := 1 - q - r
			var m scene.Colour
			for k := range 3 {
				m[k] = p*a.C[k] + q*c.C[k] + r*d.C[k]
			}
			rgb[j] = pack(m)
		}
	})
}

func (b *buffer) fill(a, c, d scene.ScreenVertex) {
	b.triangle([3]float32{a.X, c.X, d.X}, [3]float32{a.Y, c.Y, d.Y}, func(i, n int, _, _, _, _ float32) {
		for j := i; j < i+n; j++ {
			b.blend(j, a.C)
		}
	})
}

func (b *buffer) shadow(v []scene.ShadowVertex, s *scene.Shadow) {
	for k := 0; k+2 < len(v); k += 3 {
		a, c, d := v[k], v[k+1], v[k+2]
		b.triangle([3]float32{a.X, c.X, d.X}, [3]float32{a.Y, c.Y, d.Y}, func(i, n int, q, r, dq, dr float32) {
			for j := range n {
				q, r := q+float32(j)*dq, r+float32(j)*dr
				p := 1 - q - r
				left := uint32(256*(1-s.At(p*a.U+q*c.U+r*d.U, p*a.V+q*c.V+r*d.V)) + .5) // of the light, in 256ths
				v := &b.rgb[i+j]
				*v = (*v&0xff00ff*left+0x800080)>>8&0xff00ff | (*v&0xff00*left+0x8000)>>8&0xff00
			}
		})
	}
}

// line draws a line with round ends, hidden where what was drawn is nearer.
func (b *buffer) line(l *scene.ScreenLine) {
	x0, y0, x1, y1, hw := l.X0*b.k, l.Y0*b.k-float32(b.y0), l.X1*b.k, l.Y1*b.k-float32(b.y0), l.Width*b.k/2
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

// reduce averages each pixel's samples into the image, whose row y the band begins with.
func (b *buffer) reduce(img *image.NRGBA, y int) {
	const n = perPixel * perPixel
	for j := range b.h / perPixel {
		out := img.Pix[(y+j)*img.Stride:][:4*img.Rect.Dx()]
		for i := 0; i < len(out); i += 4 {
			rb, g := uint32(0), uint32(0) // red and blue side by side: nine times 255 stays within 16 bits
			for k := range perPixel {
				v := (*[perPixel]uint32)(b.rgb[(j*perPixel+k)*b.w+i/4*perPixel:])
				rb += v[0]&0xff00ff + v[1]&0xff00ff + v[2]&0xff00ff
				g += (v[0]&0xff00 + v[1]&0xff00 + v[2]&0xff00) >> 8
			}
			out[i], out[i+1], out[i+2], out[i+3] = uint8((rb>>16+n/2)/n), uint8((g+n/2)/n), uint8((rb&0xffff+n/2)/n), 255
		}
	}
}
