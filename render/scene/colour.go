package scene

import (
	"math"

	"dryfold/fold/geom"
)

// Colour is red, green, blue and alpha, 0..1 each, not premultiplied, sRGB.
type Colour [4]float32

func hex(v uint32) Colour {
	return Colour{float32(v>>16&255) / 255, float32(v>>8&255) / 255, float32(v&255) / 255, 1}
}

// Mix goes from a towards b by t (0..1), alpha included.
func (a Colour) Mix(b Colour, t float32) Colour {
	for i := range a {
		a[i] += (b[i] - a[i]) * t
	}
	return a
}

// Alpha gives the colour with another alpha.
func (a Colour) Alpha(v float32) Colour { a[3] = v; return a }

func (a Colour) times(f float32) Colour {
	for i := range a[:3] {
		a[i] = min(1, a[i]*f)
	}
	return a
}

// Palette is the bench's colours, in light or dark.
type Palette struct {
	Ground, Good, Back, Cut   Colour // bench; the sheet's good, other and cut faces
	SwingGood, SwingBack      Colour // the panel that swings
	Ink, Tangent, Scribe      Colour // edges, tangent lines, the scribed blank
	Mark, Halo                Colour // dimensions and ticks, and what lies under them
	Accent, Watch, Stop, Soft Colour
	shadow                    float32 // alpha of the deepest shadow
	least                     float32 // brightness of a face turned from the light
}

var light = Palette{
	Ground: hex(0xEFEBE1), Good: hex(0xE9F0F4), Back: hex(0xCDB48C), Cut: hex(0xB9C1C5),
	SwingGood: hex(0xC9D6F0), SwingBack: hex(0xB9A98F),
	Ink: hex(0x1B2023), Tangent: hex(0x6F7A80), Scribe: hex(0x5F6A70), Mark: hex(0x1B2023), Halo: hex(0xFBFAF6),
	Accent: hex(0x27499C), Watch: hex(0xB26A00), Stop: hex(0xAB2418), Soft: hex(0x565D61),
	shadow: .34, least: .58,
}

var dark = Palette{
	Ground: hex(0x181B1C), Good: hex(0xB9C3CA), Back: hex(0xA88A5C), Cut: hex(0x8E989E),
	SwingGood: hex(0x93AADB), SwingBack: hex(0x85765F),
	Ink: hex(0x060809), Tangent: hex(0x596267), Scribe: hex(0x8C979C), Mark: hex(0xF2F0E9), Halo: hex(0x202426),
	Accent: hex(0x9AB8FA), Watch: hex(0xF0B050), Stop: hex(0xFF8B7E), Soft: hex(0xA9AFAF),
	shadow: .62, least: .46,
}

// Colours is the palette of the picture.
func (p *Picture) Colours() *Palette {
	if p.Dark {
		return &dark
	}
	return &light
}

// sun is the direction towards the light: from above, a little left and in front.
var sun = geom.Vec3{-.36, -.42, .83}.Normalize()

// shade is a face's colour under the bench's lamp, n its unit normal. Half of the
// light comes from all round, so that no face is black.
func (pl *Palette) shade(c Colour, n geom.Vec3) Colour {
	h := (n.Dot(sun) + 1) / 2
	return c.times(pl.least + (1.03-pl.least)*float32(h*math.Sqrt(h)))
}
