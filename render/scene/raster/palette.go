package raster

// This file chooses the few colours of a GIF, and finds the nearest for each of a picture's.

import (
	"cmp"
	"image"
	"image/color"
	"math"

	"dryfold/fold/geom"
)

// tally counts colours, red, green and blue to 5 bits each, with the sum of what is lost.
type tally struct {
	n   []uint32
	sum [][3]uint32
}

const tallyBits = 5

func newTally() *tally {
	return &tally{make([]uint32, 1<<(3*tallyBits)), make([][3]uint32, 1<<(3*tallyBits))}
}

func (t *tally) add(img *image.NRGBA) {
	for i := 0; i+3 < len(img.Pix); i += 4 {
		r, g, b := img.Pix[i], img.Pix[i+1], img.Pix[i+2]
		k := int(r>>3)<<10 | int(g>>3)<<5 | int(b>>3)
		t.n[k]++
		s := &t.sum[k]
		s[0], s[1], s[2] = s[0]+uint32(r), s[1]+uint32(g), s[2]+uint32(b)
	}
}

// hue is a tallied colour.
type hue struct {
	c [3]float64
	n float64
}

// palette picks up to most colours by halving: the group of colours that is worst served by one is cut in two
// along the channel in which it is widest, at its mean.
func (t *tally) palette(most int) color.Palette {
	var all []hue
	for k, n := range t.n {
		if n > 0 {
			s, f := t.sum[k], float64(n)
			all = append(all, hue{[3]float64{float64(s[0]) / f, float64(s[1]) / f, float64(s[2]) / f}, f})
		}
	}
	type group struct {
		of   []hue
		mean [3]float64
		off  float64 // how badly its mean serves it
		wide int     // the channel in which it is widest
	}
	measure := func(of []hue) group {
		g := group{of: of}
		sum := 0.0
		for _, h := range of {
			sum += h.n
			for k := range 3 {
				g.mean[k] += h.c[k] * h.n
			}
		}
		var spread [3]float64
		for k := range 3 {
			g.mean[k] /= max(sum, 1)
		}
		for _, h := range of {
			for k, x := range h.c {
				// Small things count too, an edge beside a face: by the root of how many there are.
				spread[k] += (x - g.mean[k]) * (x - g.mean[k]) * math.Sqrt(h.n)
			}
		}
		for k := range 3 {
			if spread[k] > spread[g.wide] {
				g.wide = k
			}
		}
		g.off = spread[0] + spread[1] + spread[2]
		return g
	}
	groups := []group{measure(all)}
	for len(groups) < most {
		worst := 0
		for i := range groups {
			if groups[i].off > groups[worst].off {
				worst = i
			}
		}
		g := groups[worst]
		if g.off == 0 || len(g.of) < 2 {
			break
		}
		geom.SortStable(g.of, func(a, b hue) int { return cmp.Compare(a.c[g.wide], b.c[g.wide]) })
		cut := 1
		for cut < len(g.of)-1 && g.of[cut].c[g.wide] < g.mean[g.wide] {
			cut++
		}
		groups[worst] = measure(g.of[:cut])
		groups = append(groups, measure(g.of[cut:]))
	}
	var out color.Palette
	for _, g := range groups {
		out = append(out, color.RGBA{uint8(g.mean[0] + .5), uint8(g.mean[1] + .5), uint8(g.mean[2] + .5), 255})
	}
	return out
}

// finder finds the nearest colour of a palette, and remembers.
type finder struct {
	of   [][3]int
	seen []int16 // by 6 bits of each channel: the colour's place and one
}

func newFinder(p color.Palette) *finder {
	f := &finder{seen: make([]int16, 1<<18)}
	for _, c := range p {
		q := c.(color.RGBA)
		f.of = append(f.of, [3]int{int(q.R), int(q.G), int(q.B)})
	}
	return f
}

func (f *finder) nearest(r, g, b uint8) uint8 {
	k := int(r>>2)<<12 | int(g>>2)<<6 | int(b>>2)
	if f.seen[k] == 0 {
		best, at := 1<<30, 0
		for i, c := range f.of {
			x, y, z := c[0]-int(r), c[1]-int(g), c[2]-int(b)
			if d := x*x + y*y + z*z; d < best {
				best, at = d, i
			}
		}
		f.seen[k] = int16(at + 1)
	}
	return uint8(f.seen[k] - 1)
}
