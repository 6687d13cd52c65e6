package fold

import (
	"math"
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

// The room told is left at every sampled moment, and no more than it and a step at the one told: random strips and a tray
// with returns, measured without trees, bounds or steps.
func TestPassesAgainstSampling(t *testing.T) {
	seed := *contactSeed
	if seed == 0 {
		seed = time.Now().UnixNano()
	}
	t.Logf("again with -contact.seed %d", seed)
	r := rand.New(rand.NewSource(seed))
	seen := 0
	for n := 0; n < 2**contactParts || seen < 5 && n < 300; n++ {
		spec := randomStrip(r)
		if n%3 == 1 {
			spec = springy(spec, 1+6*r.Float64())
		}
		p := Build(spec)
		s := newShapes(p)
		for _, x := range s.passes(s.clashes()) {
			seen++
			q := s.pair(x.A, x.B)
			least := math.Inf(1)
			for k := range 301 {
				least = min(least, plainSD(p, s, q, x.Swing, float64(k)/300))
			}
			sure := x.Room - 1e-9
			if x.Room == 0 { // in contact, which is no clash
				sure = -ClashDepth - clashSlack
			}
			require.GreaterOrEqual(t, least, sure, "%s and %s, swing %d", p.BodyName(x.A), p.BodyName(x.B), x.Swing+1)
			if x.Sure {
				there := plainSD(p, s, q, x.Swing, x.Fraction)
				require.LessOrEqual(t, there, x.Room+roomSlack+RoomStep+1e-9, "%s and %s, swing %d at %v", p.BodyName(x.A), p.BodyName(x.B), x.Swing+1, x.Fraction)
				if x.Fraction < p.Swings[x.Swing].Out {
					require.InDelta(t, math.Abs(there), x.At[0].Sub(x.At[1]).Len(), 1e-6)
				}
			}
		}
	}
	require.GreaterOrEqual(t, seen, 5)
}

// A wall that leans on past square towards a standing one of the same height: its tip comes nearest at the end, by the position of
// kernel.md: R sin a + t cos a across, and the standing wall's inner face R behind the floor's other tangent line.
func TestRoomOfLeaningWall(t *testing.T) {
	const T, R, floor, length, angle = 1.5, 2.0, 40.0, 45.0, 150.0
	s := strip(T, []section{plain(60), plain(floor), plain(length)}, []fold1{{90, R, true}, {angle, R, true}})
	p := buildBase(t, order(s, 0, 1), geom.Vec2{60 + 5 + floor/2, 10})
	require.Empty(t, p.Clashes())
	a := angle * math.Pi / 180
	want := floor + R + (R*math.Sin(a) + length*math.Cos(a))
	var room float64
	for _, x := range p.Passes(nil) {
		if x.Swing == 1 && !x.A.Zone && !x.B.Zone {
			room = x.Room
			require.InDelta(t, 1, x.Fraction, 0.02)
		}
	}
	require.Positive(t, room)
	require.LessOrEqual(t, room, want)
	require.GreaterOrEqual(t, room, want-RoomStep-roomSlack)
	// Errors that may take all of it make a watch, lesser ones none.
	r := p.Check()
	rooms := func() (n int) {
		for _, x := range r.Troubles {
			if x.Rule == "close-pass" {
				require.Equal(t, "watch", x.Severity)
				n++
			}
		}
		return n
	}
	require.Zero(t, rooms())
	p.JudgePasses(&r, func(Pass) float64 { return want + 0.1 })
	require.Equal(t, 1, rooms())
	require.Equal(t, "watch", r.Swings[1].State)
	p.JudgePasses(&r, func(Pass) float64 { return want - RoomStep - roomSlack - 0.01 })
	require.Zero(t, rooms())
}
