package raster

import (
	"encoding/json"
	"flag"
	"image"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/render/scene"
)

var update = flag.Bool("update", false, "write the golden files anew")

func part(t testing.TB, name string) *fold.Part {
	data, err := os.ReadFile(filepath.Join("../../../testdata/parts", name))
	require.NoError(t, err)
	spec, err := partfile.Read(data)
	require.NoError(t, err)
	p := fold.Build(spec)
	require.True(t, p.Foldable, "%v", p.Troubles)
	return p
}

// pixel is the colour at a place of the screen, 0..1.
func pixel(img *image.NRGBA, x, y, scale float64) scene.Colour {
	c := img.NRGBAAt(int(x*scale), int(y*scale))
	return scene.Colour{float32(c.R) / 255, float32(c.G) / 255, float32(c.B) / 255, 1}
}

// warm is how much redder than blue a colour is: the lower face is warm, the upper cool.
func warm(c scene.Colour) float32 { return c[0] - c[2] }

// A folded wall hides what is behind it: the tray's front wall, seen from the front,
// shows its warm outer face where the cool floor would lie; flat, the floor is seen.
func TestWallHides(t *testing.T) {
	p := part(t, "tray.dryfold")
	p.Spec.Sheet.Good = "up"
	c := scene.NewCamera(400, 300)
	for _, dark := range []bool{false, true} {
		for _, finished := range []bool{false, true} {
			pic := scene.Picture{Part: p, Dark: dark, NoBlank: true}
			if finished {
				pic.State = p.Finished()
			}
			s := scene.Make(pic)
			s.SetView(&c, "front")
			floor, ok := s.PanelMiddle(p.Base)
			require.True(t, ok)
			x, y, _ := c.Project(floor)
			img, err := Draw(s, c, 2)
			require.NoError(t, err)
			w := warm(pixel(img, x, y, 2))
			if finished {
				require.Greater(t, w, float32(.08), "dark %v", dark)
			} else {
				require.Less(t, w, float32(0), "dark %v", dark)
			}
		}
	}
}

// Depth decides, not order: of two crossing triangles each shows where it is nearer,
// whichever was drawn first.
func TestDepth(t *testing.T) {
	red, blue := scene.Colour{1, 0, 0, 1}, scene.Colour{0, 0, 1, 1}
	v := func(x, y, d float32, c scene.Colour) scene.ScreenVertex {
		return scene.ScreenVertex{X: x, Y: y, D: d, C: c}
	}
	a := []scene.ScreenVertex{v(0, 0, .2, red), v(40, 0, .8, red), v(0, 40, .2, red)}
	b := []scene.ScreenVertex{v(0, 0, .8, blue), v(40, 0, .2, blue), v(0, 40, .8, blue)}
	for range 2 {
		green := make([]uint32, 40*40)
		for i := range green {
			green[i] = 0x00ff00
		}
		var buf buffer
		buf.start(40, 0, 40, 1, green)
		buf.solid(&a[0], &a[1], &a[2])
		buf.solid(&b[0], &b[1], &b[2])
		at := func(x, y int) uint32 { return buf.rgb[(3*y+1)*3*40+3*x+1] } // the middle of a pixel's samples
		require.Equal(t, pack(blue), at(5, 3))
		require.Equal(t, pack(red), at(30, 3))
		require.Equal(t, uint32(0x00ff00), at(39, 39))
		a, b = b, a
	}
}

// A clash shows: its stop colour is on the part where the two meet, and not without it.
func TestClashShows(t *testing.T) {
	p := part(t, "fouls.dryfold")
	clashes := p.Clashes()
	require.NotEmpty(t, clashes)
	k := clashes[0]
	c := scene.NewCamera(500, 400)
	count := func(clash *fold.Clash) int {
		s := scene.Make(scene.Picture{Part: p, State: p.StateAt(k.Swing, k.Fraction), Clash: clash})
		s.SetView(&c, "home")
		img, err := Draw(s, c, 1)
		require.NoError(t, err)
		stop := (&scene.Picture{}).Colours().Stop
		n := 0
		for y := range 400 {
			for x := range 500 {
				q := pixel(img, float64(x), float64(y), 1)
				if math.Abs(float64(q[0]-stop[0]))+math.Abs(float64(q[1]-stop[1]))+math.Abs(float64(q[2]-stop[2])) < .12 {
					n++
				}
			}
		}
		return n
	}
	require.Zero(t, count(nil))
	require.Greater(t, count(&k), 150)
}

// Sizes that can't be drawn are refused in words.
func TestSizes(t *testing.T) {
	s := scene.Make(scene.Picture{})
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1), 1e9} {
		_, err := Draw(s, scene.NewCamera(100, 100), bad)
		require.ErrorContains(t, err, "can't be drawn", "%g", bad)
	}
	img, err := Draw(s, scene.NewCamera(30, 20), 2)
	require.NoError(t, err)
	require.Equal(t, image.Rect(0, 0, 60, 40), img.Bounds())
}

// The pictures stay as they were looked at: mean colours of a 24 x 18 grid over each,
// within 4 of 255 (another machine's arithmetic moves an edge by less).
func TestGolden(t *testing.T) {
	p := part(t, "tray.dryfold")
	rep := p.Check()
	got := map[string][][3]int{}
	for name, shot := range map[string]struct {
		pic  scene.Picture
		view string
	}{
		"half":   {scene.Picture{State: p.StateAt(len(p.Swings)/2, .6), Turning: []int{0}}, "home"},
		"sizes":  {scene.Picture{State: p.Finished(), Dims: true, Select: scene.Select{Kind: scene.Panel, Index: 1}}, "end"},
		"seams":  {scene.Picture{State: p.Finished(), Ticks: true, Dark: true}, "home"},
		"picked": {scene.Picture{State: p.Flat(), Select: scene.Select{Kind: scene.Bend}}, "above"},
	} {
		shot.pic.Part, shot.pic.Report = p, &rep
		s := scene.Make(shot.pic)
		c := scene.NewCamera(480, 360)
		s.SetView(&c, shot.view)
		img, err := Draw(s, c, 1)
		require.NoError(t, err)
		got[name] = means(img, 20)
	}
	const file = "../../../testdata/golden/bench.json"
	if *update {
		data, err := json.Marshal(got)
		require.NoError(t, err)
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, append(data, '\n'), 0o644))
	}
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	var want map[string][][3]int
	require.NoError(t, json.Unmarshal(data, &want))
	require.Len(t, want, len(got))
	for name, w := range want {
		require.Len(t, got[name], len(w), name)
		for i := range w {
			for k := range 3 {
				require.InDelta(t, w[i][k], got[name][i][k], 4, "%s: square %d, %v for %v; look at the picture, then -update", name, i, got[name][i], w[i])
			}
		}
	}
}

// means gives the mean colour of each square of n x n pixels.
func means(img *image.NRGBA, n int) (out [][3]int) {
	b := img.Bounds()
	for y := 0; y+n <= b.Dy(); y += n {
		for x := 0; x+n <= b.Dx(); x += n {
			var sum [3]int
			for j := range n {
				for i := range n {
					c := img.NRGBAAt(x+i, y+j)
					sum[0], sum[1], sum[2] = sum[0]+int(c.R), sum[1]+int(c.G), sum[2]+int(c.B)
				}
			}
			out = append(out, [3]int{sum[0] / n / n, sum[1] / n / n, sum[2] / n / n})
		}
	}
	return out
}

// BenchmarkDraw is a picture of the command's usual size.
func BenchmarkDraw(b *testing.B) {
	p := part(b, "tray.dryfold")
	s := scene.Make(scene.Picture{Part: p, State: p.Finished()})
	c := scene.NewCamera(1200, 900)
	s.SetView(&c, "home")
	for b.Loop() {
		if _, err := Draw(s, c, 1); err != nil {
			b.Fatal(err)
		}
	}
}
