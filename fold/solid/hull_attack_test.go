package solid

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

// The hull of very many points takes no longer than sorting them does: they used to be put in place one by one.
func TestHullOfMany(t *testing.T) {
	r := newRand(t)
	for _, n := range []int{3, 31, 32, 33, 400, 300_000} {
		pts := make([]geom.Vec2, n)
		for i := range pts {
			pts[i] = geom.Vec2{float64(int(r.Float64() * 1000)), float64(int(r.Float64() * 1000))} // many twice
		}
		all := append([]geom.Vec2(nil), pts...)
		begun := time.Now()
		l := hull2(pts)
		require.Less(t, time.Since(begun), 5*time.Second)
		if n == 3 {
			continue
		}
		require.Positive(t, l.Area())
		for i, a := range l {
			e := l[(i+1)%len(l)].Sub(a)
			for k := 0; k < len(all); k += 1 + len(all)/500 {
				require.GreaterOrEqual(t, geom.Cross2(e, all[k].Sub(a)), 0.0)
			}
		}
	}
}
