package raster

import (
	"image"
	"image/color"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"dryfold/render/scene"
)

// textPx is the height of the labels' type, px.
const textPx = 15

// datumPx is the radius of the ring round a datum letter, px.
const datumPx = 11

var fonts = sync.OnceValues(func() ([2]*opentype.Font, error) {
	var f [2]*opentype.Font
	for i, data := range [][]byte{goregular.TTF, gobold.TTF} {
		var err error
		if f[i], err = opentype.Parse(data); err != nil {
			return f, err
		}
	}
	return f, nil
})

// typeface is the Go font, size px high.
func typeface(bold bool, size float64) (font.Face, error) {
	f, err := fonts()
	if err != nil {
		return nil, err
	}
	i := 0
	if bold {
		i = 1
	}
	return opentype.NewFace(f[i], &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
}

// letter writes the labels over an image, each with a halo of the ground.
func letter(img *image.NRGBA, labels []scene.ScreenLabel, pal *scene.Palette, scale float64) error {
	if len(labels) == 0 {
		return nil
	}
	var faces [2]font.Face
	for i := range faces {
		var err error
		if faces[i], err = typeface(i == 1, textPx*scale); err != nil {
			return err
		}
	}
	for _, l := range labels {
		face := faces[1]
		if l.Style == scene.StyleDatum {
			face = faces[0]
		}
		d := font.Drawer{Dst: img, Face: face}
		w := float64(d.MeasureString(l.Text)) / 64
		x, y := l.X*scale-w*(1+float64(l.Align))/2, l.Y*scale+textPx*.36*scale
		at := func(dx, dy float64, c scene.Colour) {
			d.Src = image.NewUniform(nrgba(c))
			d.Dot = fixed.Point26_6{X: fixed.Int26_6((x + dx) * 64), Y: fixed.Int26_6((y + dy) * 64)}
			d.DrawString(l.Text)
		}
		if l.Style != scene.StyleDatum {
			for r := 1.0; r <= 2.4; r += .7 {
				for _, o := range [][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {.7, .7}, {-.7, .7}, {.7, -.7}, {-.7, -.7}} {
					at(o[0]*r*scale, o[1]*r*scale, pal.Halo)
				}
			}
		}
		at(0, 0, pal.InkOf(l.Style))
	}
	return nil
}

func nrgba(c scene.Colour) color.NRGBA {
	q := func(v float32) uint8 { return uint8(max(0, min(1, v))*255 + .5) }
	return color.NRGBA{q(c[0]), q(c[1]), q(c[2]), q(c[3])}
}
