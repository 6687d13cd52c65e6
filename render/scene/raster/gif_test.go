package raster

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/render/scene"
)

// frames decodes a GIF and gives what stands on the screen after each frame.
func frames(t *testing.T, data []byte) (*gif.GIF, []*image.RGBA) {
	g, err := gif.DecodeAll(bytes.NewReader(data))
	require.NoError(t, err)
	screen := image.NewRGBA(image.Rect(0, 0, g.Config.Width, g.Config.Height))
	var out []*image.RGBA
	for i, f := range g.Image {
		require.True(t, f.Bounds().In(screen.Bounds()))
		require.NotEqual(t, byte(gif.DisposalBackground), g.Disposal[i])
		draw.Draw(screen, f.Bounds(), f, f.Bounds().Min, draw.Over)
		now := image.NewRGBA(screen.Bounds())
		copy(now.Pix, screen.Pix)
		out = append(out, now)
	}
	return g, out
}

// off is the mean difference of two pictures over all channels, of 255, leaving the strip of words out.
func off(a *image.RGBA, b *image.NRGBA, from int) float64 {
	sum, n := 0.0, 0
	for y := from; y < a.Rect.Dy(); y++ {
		for x := range a.Rect.Dx() {
			p, q := a.RGBAAt(x, y), b.NRGBAAt(x, y)
			sum += math.Abs(float64(p.R)-float64(q.R)) + math.Abs(float64(p.G)-float64(q.G)) + math.Abs(float64(p.B)-float64(q.B))
			n += 3
		}
	}
	return sum / float64(n)
}

// Put together again the frames are the pictures of the run-through: at rest after each swing just those that Draw
// gives of that state, to within what few colours lose. It loops, rests, and its first and last pictures are flat and finished.
func TestGIF(t *testing.T) {
	p := part(t, "../../assets/uncapping-tray.dryfold")
	told := 0
	data, err := GIF(p, nil, RunThrough{W: 320, H: 240, Progress: func(done, all int) bool {
		told++
		require.Equal(t, told, done)
		require.LessOrEqual(t, done, all)
		return true
	}})
	require.NoError(t, err)
	g, screens := frames(t, data)
	require.Zero(t, g.LoopCount) // without end
	require.Equal(t, told, len(screens))
	require.LessOrEqual(t, len(g.Config.ColorModel.(color.Palette)), 128)

	f := film{part: p, opt: RunThrough{W: 320, H: 240}, mesher: scene.NewMesher(p), pal: (&scene.Picture{}).Colours()}
	moments, err := plan(p, &fold.Report{}, 320*240)
	require.NoError(t, err)
	require.Len(t, moments, len(screens))
	require.NoError(t, f.aim(moments))
	rests, at := 0, 0
	for i, m := range moments {
		require.Equal(t, m.time, g.Delay[i])
		if m.time == swingTime {
			continue
		}
		rests++
		s := scene.Make(f.picture(m))
		s.Labels = nil
		img, err := Draw(s, f.cam, 1)
		require.NoError(t, err)
		require.Less(t, off(screens[i], img, f.head), .45, "%s", m.head)
		if i > 0 { // and not those of the rest before
			require.Greater(t, off(screens[at], img, f.head), 1.0, "%s", m.head)
		}
		at = i
		if m.time == restTime {
			require.Equal(t, p.StateAt(rests-1, 0), m.state)
		}
	}
	require.Equal(t, len(p.Swings)+2, rests)
	require.Equal(t, p.Flat(), moments[0].state)
	require.Equal(t, p.Finished(), moments[len(moments)-1].state)
}

// The words stand in the strip, change from card to card, and long ones stay within it.
func TestGIFWords(t *testing.T) {
	p := part(t, "tray.dryfold")
	p.Bends[0].Name = "a name that nobody should give a bend, for it is far too long to be read in a film"
	f := film{part: p, opt: RunThrough{W: 240, H: 180}, mesher: scene.NewMesher(p), pal: (&scene.Picture{}).Colours()}
	moments, err := plan(p, &fold.Report{Swings: []fold.SwingReport{{State: "stop"}, {}}}, 240*180)
	require.NoError(t, err)
	require.NoError(t, f.aim(moments))
	var strips [][]byte
	for _, m := range moments {
		if m.time == swingTime {
			continue
		}
		require.NoError(t, f.draw(m))
		strip := bytes.Clone(f.img.Pix[:f.head*f.img.Stride])
		ink := 0
		ground := f.img.NRGBAAt(1, 1)
		for y := range f.head {
			for x := range 240 {
				if f.img.NRGBAAt(x, y) != ground {
					require.Greater(t, x, 4)
					require.Less(t, x, 236, "%s", m.head)
					ink++
				}
			}
		}
		require.Greater(t, ink, 60)
		for _, s := range strips {
			require.NotEqual(t, s, strip)
		}
		strips = append(strips, strip)
	}
	require.Len(t, strips, 4)
	require.Contains(t, moments[1].tail, ", stop")
	require.Regexp(t, `^up to \d+°$`, moments[len(moments)-2].tail)
}

// What can't be drawn is said, and a wish to stop is followed at once.
func TestGIFRefused(t *testing.T) {
	p := part(t, "tray.dryfold")
	for _, size := range [][2]int{{0, 100}, {-1, 300}, {119, 300}, {1601, 300}, {1 << 40, 300}} {
		_, err := GIF(p, nil, RunThrough{W: size[0], H: size[1]})
		require.ErrorContains(t, err, "each side takes 120 to 1600", "%v", size)
	}
	_, err := GIF(p, nil, RunThrough{View: "inside"})
	require.ErrorContains(t, err, "front, end, above")
	_, err = GIF(fold.Build(fold.Spec{}), nil, RunThrough{})
	require.ErrorContains(t, err, "can't be folded")
	told := 0
	_, err = GIF(p, nil, RunThrough{W: 120, H: 120, Progress: func(done, _ int) bool { told = done; return done < 3 }})
	require.ErrorIs(t, err, ErrStopped)
	require.Equal(t, 3, told)
	long := *p
	for range MaxGIFFrames { // more cards than it has frames
		long.Swings = append(long.Swings, p.Swings[0])
	}
	_, err = GIF(&long, nil, RunThrough{})
	require.ErrorContains(t, err, "swings; 598 at most")
	long.Swings = long.Swings[:400]
	moments, err := plan(&long, &fold.Report{}, 320*240)
	require.NoError(t, err)
	require.LessOrEqual(t, len(moments), MaxGIFFrames)
	long.Swings = nil
	data, err := GIF(&long, nil, RunThrough{W: 120, H: 120}) // no bends: one picture
	require.NoError(t, err)
	_, screens := frames(t, data)
	require.Len(t, screens, 1)
}

// The nearest colour is that of a look at all of them, to within the bits that are dropped.
func TestNearest(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	tl := newTally()
	img := image.NewNRGBA(image.Rect(0, 0, 100, 100))
	for i := range img.Pix {
		img.Pix[i] = uint8(r.IntN(256))
	}
	tl.add(img)
	pal := tl.palette(50)
	require.Len(t, pal, 50)
	f := newFinder(pal)
	away := func(c color.Color, p [3]uint8) float64 {
		q := c.(color.RGBA)
		return math.Hypot(math.Hypot(float64(q.R)-float64(p[0]), float64(q.G)-float64(p[1])), float64(q.B)-float64(p[2]))
	}
	for range 3000 {
		p := [3]uint8{uint8(r.IntN(256)), uint8(r.IntN(256)), uint8(r.IntN(256))}
		best := math.Inf(1)
		for _, c := range pal {
			best = min(best, away(c, p))
		}
		require.LessOrEqual(t, away(pal[f.nearest(p[0], p[1], p[2])], p), best+2*3*math.Sqrt(3)) // both ends 3 off in each channel
	}
	// One colour, and few, are kept as they are.
	tl = newTally()
	one := image.NewNRGBA(image.Rect(0, 0, 4, 4))
	draw.Draw(one, one.Rect, image.NewUniform(color.NRGBA{12, 200, 77, 255}), image.Point{}, draw.Src)
	one.SetNRGBA(0, 0, color.NRGBA{250, 0, 0, 255})
	tl.add(one)
	require.ElementsMatch(t, color.Palette{color.RGBA{12, 200, 77, 255}, color.RGBA{250, 0, 0, 255}}, tl.palette(50))
}

// A picture drawn in bands is that drawn in one, and PNG gives just Draw's.
func TestBands(t *testing.T) {
	p := part(t, "tray.dryfold")
	pic := scene.Picture{Part: p, State: p.Finished(), Dims: true}
	s, c, err := from(pic, "end", 400, 1300) // more samples than a band holds
	require.NoError(t, err)
	img, err := Draw(s, c, 1)
	require.NoError(t, err)
	require.Greater(t, 400*1300*perPixel*perPixel, 4*bandSamples)
	whole := image.NewNRGBA(img.Rect)
	b := buffer{}
	o := s.Project(&c, nil)
	b.start(400, 0, 1300, 1, newGround(o, &s.Shadow, 400, 1300, 1, nil))
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
	b.reduce(whole, 0)
	require.NoError(t, letter(whole, o.Labels, s.Picture.Colours(), 1))
	differ := 0
	for i := range img.Pix {
		if d := int(img.Pix[i]) - int(whole.Pix[i]); d > 1 || d < -1 {
			differ++ // rounding of a row's place in its band
		}
	}
	require.Less(t, differ, len(img.Pix)/10000)

	data, err := PNG(pic, "end", 400, 1300)
	require.NoError(t, err)
	back, _, err := image.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	require.Equal(t, img.Rect, back.Bounds())
	for i := 0; i < 400*1300; i += 97 {
		r, g, bl, _ := back.At(i%400, i/400).RGBA()
		q := img.NRGBAAt(i%400, i/400)
		require.Equal(t, [3]uint8{q.R, q.G, q.B}, [3]uint8{uint8(r >> 8), uint8(g >> 8), uint8(bl >> 8)})
	}
	_, err = PNG(pic, "inside", 10, 10)
	require.ErrorContains(t, err, "is needed")
	_, err = PNG(pic, "", 0, 10)
	require.ErrorContains(t, err, "can't be drawn")
}

// BenchmarkGIF is the uncapping tray's run-through at its usual size.
func BenchmarkGIF(b *testing.B) {
	p := part(b, "../../assets/uncapping-tray.dryfold")
	for b.Loop() {
		data, err := GIF(p, nil, RunThrough{})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(data)), "bytes")
	}
}
