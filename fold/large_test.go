package fold

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// pleats is a strip of n bends, up and down in turn.
func pleats(n int, angle float64) Spec {
	sections := []section{plain(20)}
	var folds []fold1
	for i := range n {
		sections = append(sections, plain(20))
		folds = append(folds, fold1{angle, 1, i%2 == 0})
	}
	return strip(1, sections, folds)
}

// rolled is a strip that winds through itself again and again.
func rolled(n int) Spec {
	s := pleats(n, 90)
	for i := range s.Bends {
		s.Bends[i].Up = true
	}
	return s
}

// atOnce makes all bends one swing.
func atOnce(s Spec) Spec {
	var all []string
	for i, b := range s.Bends {
		all = append(all, b.name(i))
	}
	s.Order = []Step{{Bends: all}}
	return s
}

// A long part is checked to the end: pleats whose pitch is 2 (20 sin 10 + the bends' width)
// don't touch, swing after swing.
func TestManyPleats(t *testing.T) {
	p := Build(pleats(60, 160))
	require.True(t, p.Foldable, "%v", p.Troubles)
	require.Empty(t, p.Clashes())
	require.Empty(t, Build(atOnce(pleats(6, 120))).Clashes())
}

// Where the work allowed is done the report says what was not decided, and no swing that was
// not looked at is called good.
func TestUndecidedIsSaid(t *testing.T) {
	p := Build(atOnce(pleats(30, 120)))
	s := newShapes(p)
	s.work = checkWork - 40_000
	cs := s.clashes()
	require.NotEmpty(t, cs)
	require.True(t, cs[len(cs)-1].Rest)
	r := p.Quick()
	p.addClashes(&r, s, cs)
	require.Equal(t, "stop", r.Swings[0].State)
	require.Equal(t, len(cs), len(r.Troubles))
	for i, c := range r.Clashes {
		require.True(t, c.Undecided)
		require.Nil(t, r.Troubles[i].Have)
		require.Contains(t, r.Troubles[i].Message, "shown as not allowed")
	}
	// With no work left at all every swing says so.
	p = Build(pleats(5, 120))
	s = newShapes(p)
	s.work = checkWork
	r = p.Quick()
	p.addClashes(&r, s, s.clashes())
	for _, sw := range r.Swings {
		require.Equal(t, "stop", sw.State)
	}
	require.Len(t, r.Clashes, 5)
}

// A part that meets itself all over lists as much as anyone can mend, and calls no later swing good.
func TestManyClashes(t *testing.T) {
	p := Build(rolled(40))
	require.True(t, p.Foldable)
	r := p.Check()
	clear := 0
	found := 0
	for _, c := range r.Clashes {
		if !c.Undecided {
			found++
		}
	}
	require.Equal(t, maxClashes, found)
	for _, sw := range r.Swings {
		if sw.State == "ok" {
			clear = sw.Number
		}
	}
	require.Equal(t, 3, clear, "the fourth bend closes the ring")
}

func BenchmarkCheckLarge(b *testing.B) {
	for _, c := range []struct {
		name string
		spec Spec
	}{
		{"40 panels", pleats(39, 120)},
		{"200 bends", pleats(200, 160)},
		{"200 bends at once", atOnce(pleats(200, 120))},
		{"1000 bends", pleats(1000, 160)},
	} {
		p := Build(c.spec)
		require.True(b, p.Foldable)
		b.Run(c.name, func(b *testing.B) {
			for range b.N {
				p.Check()
			}
		})
	}
}

// A pair that lies in itself at the start, where no work is left to look for the moment it parts, is undecided, not clear.
func TestPartingUndecided(t *testing.T) {
	p := Build(rolled(12)) // winds through itself
	s := newShapes(p)
	tried := 0
	for i, sw := range p.Swings {
		c := s.course(i, false)
		c.limit = 1 << 60
		start := c.at(0)
		bodies := p.bodies()
		for k, a := range bodies {
			for _, b := range bodies[k+1:] {
				q := s.pair(a, b)
				if !movesBetween(p, sw, a, b) || !start.deep(q) {
					continue
				}
				tried++
				c.limit = 0
				require.Equal(t, undecided, start.seek(q, 0).end)
				c.limit = 1 << 60
			}
		}
	}
	require.Positive(t, tried)
}
