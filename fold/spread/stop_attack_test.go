package spread

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
)

// TestStopsSoonWithManyBends: the larger the part, the fewer samples lie between two questions whether to stop.
func TestStopsSoonWithManyBends(t *testing.T) {
	for _, bends := range []int{4, 400} {
		c := foldtest.Chain{Thickness: 1, K: 0.4, Width: 40, Flats: []float64{20}}
		for i := range bends {
			c.Flats = append(c.Flats, 20)
			c.Bends = append(c.Bends, foldtest.ChainBend{Angle: 80, Radius: 1, Up: i%2 == 0})
		}
		p := fold.Build(c.Spec())
		require.True(t, p.Foldable)
		asked := 0
		s, _ := Of(p, nil, Options{Samples: 256, Stop: func() bool { asked++; return false }})
		require.NotNil(t, s)
		want := 4
		if bends == 400 {
			want = 80
		}
		require.GreaterOrEqual(t, asked, want)
		require.LessOrEqual(t, asked, 256)
		asked = 0
		s, _ = Of(p, nil, Options{Samples: 256, Stop: func() bool { asked++; return asked == 3 }})
		require.Nil(t, s)
		require.Equal(t, 3, asked)
	}
}
