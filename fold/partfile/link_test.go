package partfile

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
)

func TestLinkAndFragment(t *testing.T) {
	spec, err := Read([]byte(blankText(outline)))
	require.NoError(t, err)
	f, err := Pack(spec)
	require.NoError(t, err)
	for _, base := range []string{"https://example.org/dryfold/", "http://127.0.0.1:8080/?x=1", "https://example.org/dryfold/#old", ""} {
		link, err := Link(base, spec)
		require.NoError(t, err)
		require.Equal(t, f, Fragment(link))
		require.Equal(t, f, Fragment(" "+link+"\n"))
		require.Equal(t, 1, strings.Count(link, "#"))
	}
	require.Equal(t, f, Fragment(f))
	require.Equal(t, "", Fragment("https://example.org/dryfold/"))
	require.Equal(t, "", Fragment("tray.dryfold"))
	require.Equal(t, "a#b", Fragment("x#a#b"))
}

// A part of a hundred corners to 4 decimals, twenty bends and arcs - more than
// the tray shown first - fits into a link of 1,800 characters with its address.
func TestLargeTrayFitsALink(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	at := func() geom.Vec2 {
		return geom.Vec2{float64(r.IntN(6_000_000)) / 1e4, float64(r.IntN(4_000_000)) / 1e4}
	}
	s := fold.Spec{Name: "Uncapping tray", Notes: "Hangs over the tub's rim and drains into it.", Base: "floor"}
	s.Sheet.Thickness = 1
	for i := range 100 {
		v := fold.Vertex{At: at()}
		if i%10 == 5 {
			p := at()
			v.Through = &p
		}
		s.Outline = append(s.Outline, v)
	}
	for i := range 12 {
		name := "bend of wall " + string(rune('a'+i))
		s.Bends = append(s.Bends, fold.BendSpec{Name: name, Line: [2]geom.Vec2{at(), at()}, Angle: 90, Radius: 1, Up: true})
		s.Panels = append(s.Panels, fold.PanelName{Name: "wall " + string(rune('a'+i)), At: at()})
		s.Order = append(s.Order, fold.Step{Bends: []string{name}})
	}
	s.Base = "wall a"
	require.NoError(t, Check(s))
	link, err := Link("https://example.org/some/folder/of/a/static/site/dryfold/", s)
	require.NoError(t, err)
	t.Logf("%d characters", len(link))
	require.LessOrEqual(t, len(link), 1800)
}

// A part within every bound but too large for a link is refused with what to do instead.
func TestPartTooLargeForALink(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	s := fold.Spec{Name: "dust"}
	s.Sheet.Thickness = 1
	for range 20_000 {
		s.Outline = append(s.Outline, fold.Vertex{At: geom.Vec2{r.Float64(), r.Float64()}})
	}
	_, err := Pack(s)
	require.ErrorContains(t, err, "need at most 65536: send it as a file")
}
