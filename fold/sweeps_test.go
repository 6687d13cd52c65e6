package fold

import (
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// No pair that comes within reach at any sampled moment is left out, and none before the moment given: measured without
// boxes, on random strips whose bends turn one by one, two together or all at once, with and without springback.
func TestSweepsLeaveNoneOut(t *testing.T) {
	seed := *contactSeed
	if seed == 0 {
		seed = time.Now().UnixNano()
	}
	t.Logf("again with -contact.seed %d", seed)
	r := rand.New(rand.NewSource(seed))
	near, left := 0, 0
	for n := range 2 + *contactParts/2 {
		spec := randomStrip(r)
		switch n % 4 {
		case 1:
			spec = springy(spec, 1+6*r.Float64())
		case 2:
			spec = atOnce(spec)
		}
		p := Build(spec)
		require.True(t, p.Foldable, "%v", p.Troubles)
		s := newShapes(p)
		bodies := p.bodies()
		for swing, sw := range p.Swings {
			for _, back := range []bool{false, true} {
				if back && sw.Out == 1 {
					continue
				}
				c := s.course(swing, back)
				c.limit = 1 << 60
				for _, reach := range []float64{-ClashDepth, 3} {
					pairs, all := c.at(0).candidates(reach)
					require.True(t, all)
					from := map[[2]Body]float64{}
					for _, q := range pairs {
						from[[2]Body{q.a, q.b}] = q.from
					}
					for i, a := range bodies {
						for _, b := range bodies[i+1:] {
							if !movesBetween(p, Swing{Bends: c.bends}, a, b) { // a hem does not spring back with the others
								continue
							}
							f0, in := from[[2]Body{a, b}]
							if !in {
								left++
							}
							q := s.pair(a, b)
							for k := range 25 {
								f := float64(k) / 24
								if d := plainSD(p, s, q, swing, sw.part(f, back)); d < reach-ZoneFacet*4 {
									near++
									require.True(t, in && f >= f0, "%s and %s, swing %d: %v apart at %v, told from %v, %v", p.BodyName(a), p.BodyName(b), swing+1, d, f, f0, in)
								}
							}
						}
					}
				}
			}
		}
	}
	require.Positive(t, near)
	require.Positive(t, left)
}
