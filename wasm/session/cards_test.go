package session

import (
	"math"
	"testing"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
	"dryfold/wasm/session/ask"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// springTube is four walls bent square about a floor, three strips of whose sheet sprang back by so many degrees at 90;
// the last wall's foot passes the floor's edge by gap (mm).
func springTube(springs, gap float64) fold.Spec {
	const t, r, k, wide = 1.0, 1.0, 0.4, 20.0
	ba := math.Pi / 2 * (r + k*t)
	flat := func(outside float64, ends int) float64 { return outside - float64(ends)*(r+t) }
	k0 := k
	s := fold.Spec{Name: "Tube", Sheet: fold.Sheet{Thickness: t, Metal: "Mild steel", K: &k0}}
	x := 0.0
	for i, l := range []float64{flat(40, 1), flat(60+gap+t, 2), flat(40, 2)} {
		x += l
		s.Bends = append(s.Bends, fold.BendSpec{Name: []string{"foot", "lid", "wall"}[i], Angle: 90, Radius: r, Up: true,
			Line: [2]geom.Vec2{{x + ba/2, 0}, {x + ba/2, wide}}})
		x += ba
	}
	end := x + flat(60, 1)
	s.Outline = fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{end, 0}}, {At: geom.Vec2{end, wide}}, {At: geom.Vec2{0, wide}}}
	s.Panels, s.Base = []fold.PanelName{{Name: "floor", At: geom.Vec2{x + 20, 10}}}, "floor"
	for _, name := range []string{"wall", "lid", "foot"} {
		s.Order = append(s.Order, fold.Step{Bends: []string{name}})
	}
	for range 3 {
		set := 90 + springs
		s.Tests = append(s.Tests, metal.Strip{Metal: "Mild steel", Thickness: t, Angle: 90, Set: &set})
	}
	return s
}

// whole gives a session its whole report, as the worker would.
func whole(t testing.TB, s *Session) {
	t.Helper()
	require.NoError(t, ask.Check(s.Question(), func(kind, text string) {
		assert.True(t, s.Answer(s.Serial(), kind, text) || kind == "gaps")
	}))
}

// The leaf goes to the set angle that the strips measured; let go there, the bend springs back to its own angle.
func TestLeafGoesToTheSetAngle(t *testing.T) {
	s := New(springTube(4, 20))
	s.SetCard(0, 0)
	bend := s.Part().Swings[0].Bends[0]
	card := func() Card { return s.Cards()[0] }
	assert.InDelta(t, 94, card().Set, 1e-9)
	assert.Equal(t, 90.0, card().To)
	assert.True(t, card().Spring.Measured)
	assert.Contains(t, card().Spring.Source, "measured by you: 3 strips")
	assert.Zero(t, card().Spring.Least, "what was measured needs no formula")

	at := func(want float64, stage Stage) {
		t.Helper()
		assert.InDelta(t, want, card().At, 1e-9)
		assert.Equal(t, stage, card().Stage)
		assert.InDelta(t, want, s.bendAt(bend).Degrees(), 1e-9)
	}
	s.Turn(geom.Degrees(92))
	at(92, Now)
	s.LetGo()
	at(92, Now) // the leaf stands where it is
	s.Turn(geom.Degrees(170))
	at(94, Now)
	_, frac := s.OpenCard()
	assert.Less(t, frac, 1.0)
	s.LetGo()
	at(90, Done)
	assert.Equal(t, s.Part().Bends[bend].Angle, s.State()[bend])
	s.Swing(bend, geom.Degrees(47)) // by hand at the panel
	at(47, Now)
	s.Swing(bend, geom.Degrees(94))
	at(94, Now)
	s.LetGo()
	at(90, Done)
}

// The run-through goes out to the set angle and back to the bend's own, and the leaf's number with it.
func TestRunThroughOverbends(t *testing.T) {
	s := New(springTube(4, 20))
	s.SetFold(0)
	most, back, last := 0.0, false, -1.0
	for s.Run(0.004) {
		k := s.Cards()[0]
		if k.Stage == Done {
			assert.Equal(t, 90.0, k.At)
			break
		}
		if k.Back {
			if back {
				assert.Less(t, k.At, last)
			}
			back = true
		} else {
			assert.Greater(t, k.At, last)
			assert.False(t, back, "out again after it sprang back")
		}
		most, last = max(most, k.At), k.At
		assert.InDelta(t, k.At, s.bendAt(k.Bends[0]).Degrees(), 1e-6)
	}
	assert.True(t, back)
	assert.InDelta(t, 94, most, 1e-9, "it stops where the leaf is stopped")
	assert.InDelta(t, 90, last, 0.1)

	s.SetFold(0) // card by card, for those who asked for less motion
	for i := range s.Part().Swings {
		more := s.Run(1)
		card, frac := s.OpenCard()
		assert.Equal(t, i, card)
		assert.Equal(t, 1.0, frac)
		assert.Equal(t, i < len(s.Part().Swings)-1, more)
	}
}

// A foul on overbend alone is to be watched, between the bend's angle and the set angle.
func TestFoulOnOverbend(t *testing.T) {
	s := New(springTube(4, 0.5))
	whole(t, s)
	last := len(s.Cards()) - 1
	assert.Equal(t, "ok", s.Cards()[0].State)
	k := s.Cards()[last]
	require.NotNil(t, k.Foul)
	assert.True(t, k.Foul.Overbend)
	assert.Equal(t, "watch", k.State)
	assert.Greater(t, k.Foul.Angle, k.To)
	assert.Less(t, k.Foul.Angle, k.Set)
	s.SetWord(Bends)
	s.SetCard(last, 0.5)
	pic := s.Picture()
	require.NotNil(t, pic.Clash)
	assert.Contains(t, pic.ClashText, "on overbend")

	s = New(springTube(0, 0.5))
	whole(t, s)
	for _, k := range s.Cards() {
		assert.Nil(t, k.Foul, "without overbend nothing meets")
	}
}

// What is said of a bend that nobody tested, of a hem and of a swing that stops on the way.
func TestSpringKnown(t *testing.T) {
	spec := springTube(4, 20)
	spec.Tests = nil
	s := New(spec)
	k := s.Cards()[0]
	assert.False(t, k.Spring.Measured)
	assert.Equal(t, k.To, k.Set, "nothing is added that nobody measured")
	assert.Greater(t, k.Spring.Least, 90.0)
	assert.Contains(t, k.Spring.LeastSource, "a lower limit")

	spec = springTube(4, 20)
	half := 45.0
	spec.Order = append([]fold.Step{{Bends: []string{"foot"}, To: &half}}, spec.Order...)
	s = New(spec)
	k = s.Cards()[0]
	assert.Equal(t, 45.0, k.Set)
	assert.Equal(t, fold.Spring{Part: true}, k.Spring)
	assert.InDelta(t, 94, s.Cards()[1].Set, 1e-9)

	spec = springTube(4, 20)
	spec.Bends[0].Angle = 180
	s = New(spec)
	for _, k := range s.Cards() {
		if k.Name == "Foot" {
			assert.Equal(t, fold.Spring{Flat: true}, k.Spring)
			assert.Equal(t, 180.0, k.Set)
		}
	}
}
