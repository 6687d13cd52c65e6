package partfile

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
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

// A tray by sizes as large as they come - floor bent twice, twelve walls that taper and lean, each with a rim
// and a hem on it, corners said one by one, patterns of holes - fits too; the starters take a third of it.
func TestTrayBySizesFitsALink(t *testing.T) {
	f := &sizes.Form{Radius: sizes.Is(1.6), Gap: sizes.Is(0.4), Base: sizes.Base{Measured: &sizes.Measured{
		Sides: []sizes.Field{sizes.Is(312.5), sizes.Is(401), sizes.Is(298), sizes.Is(402.5)}, Diagonals: []sizes.Field{sizes.Is(506.25)}}}}
	s := fold.Spec{Name: "Uncapping tray", Notes: "Hangs over the tub's rim and drains into it.", Sizes: f}
	s.Sheet.Thickness = 0.8
	for i, n := range []string{"rail", "depth", "lean"} {
		f.Named = append(f.Named, sizes.Named{Name: n, Is: sizes.Is([]float64{13.25, 88.5, 7.75}[i]), Label: "As read off the " + n, Angle: n == "lean"})
	}
	add := func(l sizes.Flange) {
		f.Flanges = append(f.Flanges, l)
		s.Order = append(s.Order, fold.Step{Bends: []string{l.Name}})
	}
	floors := []string{"floor", "floor 2", "floor 3"}
	for i, floor := range floors {
		if i > 0 {
			add(sizes.Flange{Name: floor, On: floors[i-1], Height: sizes.Is(149.75 + float64(i)), Along: true, Angle: sizes.Is(12.3)})
		}
		for _, side := range []string{"left", "right", "front", "back"} {
			wall := side + " wall of " + floor
			add(sizes.Flange{Name: wall, On: floor, Side: side, Height: sizes.Of("depth - 2 * rail"), Angle: sizes.Of("90 - lean"), LeanStart: sizes.Is(3.25)})
			add(sizes.Flange{Name: side + " rim of " + floor, On: wall, Height: sizes.Is(18), Angle: sizes.Of("90 + lean")})
			add(sizes.Flange{Name: side + " hem of " + floor, On: side + " rim of " + floor, Height: sizes.Is(8), Hem: &sizes.Hem{Clear: sizes.Is(0.5)}})
			f.Corners = append(f.Corners, sizes.Corner{A: wall, B: "front wall of " + floors[0], Close: sizes.Lap, Over: wall, Past: sizes.Is(12)})
		}
		f.Corners = f.Corners[:len(f.Corners)-2] // two of the four name the front twice or stay as they are
		f.Holes = append(f.Holes, sizes.Hole{On: floor, X: sizes.Is(20), Y: sizes.Is(20), Wide: sizes.Is(6.5), Count: 12, Step: sizes.Of("rail / 11")})
	}
	require.NoError(t, Check(s))
	link, err := Link("https://example.org/some/folder/of/a/static/site/dryfold/", s)
	require.NoError(t, err)
	t.Logf("%d characters", len(link))
	require.LessOrEqual(t, len(link), 1800)

	for _, st := range shape.Starters {
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			link, err := Link("https://example.org/some/folder/of/a/static/site/dryfold/", st.Make(u))
			require.NoError(t, err, st.ID)
			t.Logf("%s: %d characters", st.ID, len(link))
			require.LessOrEqual(t, len(link), 700, st.ID)
		}
	}
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
