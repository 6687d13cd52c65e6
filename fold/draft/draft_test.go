package draft

import (
	"encoding/xml"
	"io"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

// Arcs begin and end where their step says, turn the way and as much as it says: from a circle that is known beforehand.
func TestArcOf(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 5000 {
		c := geom.Vec2{rnd.Float64()*200 - 100, rnd.Float64()*200 - 100}
		r, from := rnd.Float64()*50+0.1, rnd.Float64()*2*math.Pi
		sweep := (rnd.Float64()*2 - 1) * 2 * math.Pi * 0.99
		if math.Abs(math.Abs(sweep)-math.Pi) < 0.01 || math.Abs(sweep) < 0.01 {
			continue // half a turn is large or not by the last bit
		}
		on := func(a float64) geom.Vec2 { return c.Add(geom.Vec2{math.Cos(a), math.Sin(a)}.Mul(r)) }
		a, ok := ArcOf(on(from), Step{'A', on(from + sweep), r, math.Abs(sweep) > math.Pi, sweep > 0})
		require.True(t, ok)
		assert.InDelta(t, 0, a.Centre.Sub(c).Len(), 1e-6*r+1e-9/math.Abs(math.Sin(sweep)), "middle")
		assert.InDelta(t, sweep, a.Sweep, 1e-6)
	}
	_, ok := ArcOf(geom.Vec2{1, 2}, Step{'A', geom.Vec2{1, 2}, 5, false, true})
	assert.False(t, ok, "no length")
	a, ok := ArcOf(geom.Vec2{0, 0}, Step{'A', geom.Vec2{10, 0}, 2, false, true})
	require.True(t, ok)
	assert.Equal(t, 5.0, a.R, "too small a radius is made to reach, as SVG 2 has it, 9.5.1")
}

// Whatever is written is well-formed XML, and every class has a style.
func TestSVGIsXML(t *testing.T) {
	g := Page{Title: `a<b>&"'` + "\x00\xff", W: 100, H: 50}
	g.Window("w<", geom.Box2{Max: geom.Vec2{10, 10}})
	g.Text("body", Middle, geom.Vec2{1, 2}, "\x1f<&>")
	g.Turned("note", 30, End, geom.Vec2{1, 2}, "x")
	g.Path("metal", Polygon(geom.Vec2{}, geom.Vec2{1, 0}, geom.Vec2{0, 1}))
	g.Circle("outline", geom.Vec2{5, 5}, 3)
	g.End()
	d := xml.NewDecoder(strings.NewReader(string(Joined("t", []Page{g, g}))))
	n := 0
	for {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		if e, ok := tok.(xml.StartElement); ok && e.Name.Local == "clipPath" {
			n++
		}
	}
	assert.Equal(t, 2, n)
	for class, s := range Styles {
		for _, c := range []string{s.Fill, s.Stroke} {
			assert.True(t, c == "" || len(c) == 4 || len(c) == 7, class)
		}
		assert.True(t, s.Size > 0 || s.Fill+s.Stroke != "", class)
		assert.True(t, s.Stroke == "" || s.Width > 0, class)
	}
}
