package fold

import (
	"encoding/binary"
	"encoding/json"
	"hash/fnv"
	"math"
	"math/rand"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
)

// stripOf reads a strip of up to six panels out of bytes: thickness, then for each panel its length and place, for each bend its
// angle, radius and way; then the order.
func stripOf(data []byte) Spec {
	next := func() float64 { // 0 to 1
		if len(data) < 2 {
			return 0.5
		}
		x := float64(binary.LittleEndian.Uint16(data)) / math.MaxUint16
		data = data[2:]
		return x
	}
	n := 2 + int(next()*4.99)
	t := 0.05 + 6*next()*next()
	var sections []section
	var folds []fold1
	for i := range n {
		y0 := 40 * next()
		sections = append(sections, section{0.5 + 80*next()*next(), y0, y0 + 1 + 60*next()})
		if i > 0 {
			folds = append(folds, fold1{0.01 + 239*next(), 8 * next() * next(), next() > 0.4})
		}
	}
	s := strip(t, sections, folds)
	names := rand.New(rand.NewSource(int64(next() * 1000))).Perm(len(folds))
	s = order(s, names...)
	switch k := next(); {
	case k < 0.2:
		s = atOnce(s)
	case k < 0.4:
		s = springy(s, 1+8*next())
	case k < 0.6 && len(names) > 1: // a part bend first
		to := s.Bends[names[0]].Angle * next()
		s.Order = append([]Step{{Bends: s.Order[0].Bends, To: &to}}, s.Order[1:]...)
		s.Order = append(s.Order, Step{Bends: s.Order[0].Bends})
	}
	return s
}

// FuzzContact: whatever strip is folded, the search ends, gives figures that are numbers in their ranges, and finds what a few
// samples of each pair find.
func FuzzContact(f *testing.F) {
	r := rand.New(rand.NewSource(1))
	for range 12 {
		b := make([]byte, 80)
		r.Read(b)
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p := Build(stripOf(data))
		if !p.Foldable {
			return
		}
		s := newShapes(p)
		s.work = checkWork - 100_000 // a fuzzer has not got the time that a maker has
		clashes := s.clashes()
		hit := map[[3]any]bool{}
		rest := map[int]bool{}
		for n, c := range clashes {
			require.True(t, c.Fraction >= 0 && c.Fraction <= 1, "%v", c.Fraction)
			require.False(t, math.IsNaN(c.Depth) || math.IsInf(c.Depth, 0) || math.IsNaN(c.Point.Len()))
			if !c.Undecided {
				require.Greater(t, c.Depth, ClashDepth)
			}
			hit[[3]any{c.Swing, c.A, c.B}], hit[[3]any{c.Swing, c.B, c.A}] = true, true
			rest[c.Swing] = rest[c.Swing] || c.Rest
			if n > 1 { // they take long
				continue
			}
			for _, cut := range s.cuts(&c, len(clashes)) {
				require.True(t, cut.By > 0 && cut.By < 200, "%v", cut.By)
			}
		}
		if len(clashes) == 0 {
			for _, x := range s.passes(clashes) {
				require.True(t, x.Room >= 0 && x.Room < RoomLook, "%v", x.Room)
			}
		}
		bodies := p.bodies()
		for i, sw := range p.Swings {
			if rest[i] {
				continue
			}
			for k, a := range bodies {
				for _, b := range bodies[k+1:] {
					if a.Zone && b.Zone || hit[[3]any{i, a, b}] || !movesBetween(p, sw, a, b) {
						continue
					}
					q := s.pair(a, b)
					apart := plainSD(p, s, q, i, 0) >= -ClashDepth
					for n := range 4 {
						d := plainSD(p, s, q, i, float64(n)/3)
						require.False(t, apart && d < -ClashDepth-clashSlack, "%s and %s overlap by %v at %v of swing %d", p.BodyName(a), p.BodyName(b), -d, float64(n)/3, i+1)
						apart = apart || d >= -ClashDepth
					}
				}
			}
		}
	})
}

// hashOfSwings is of all bits of what TestSwingsHash finds. It changes with any change of the arithmetic; that it is the same
// on amd64 and in WebAssembly is what the test is for.
const hashOfSwings = 0x2558574a40765095

// The same clashes, passes and cuts to the last bit on amd64 (GOAMD64=v1) and in WebAssembly.
func TestSwingsHash(t *testing.T) {
	if runtime.GOARCH != "amd64" && runtime.GOARCH != "wasm" {
		t.Skip("other processors may fuse multiply and add")
	}
	h := fnv.New64a()
	r := rand.New(rand.NewSource(7))
	for range 12 {
		spec := randomStrip(r)
		p := Build(spec)
		s := newShapes(p)
		clashes := s.clashes()
		var cuts [][]CutBack
		for _, c := range clashes {
			cuts = append(cuts, s.cuts(&c, len(clashes)))
		}
		text, err := json.Marshal([]any{clashes, cuts, s.passes(clashes)})
		require.NoError(t, err)
		h.Write(text)
	}
	require.Equal(t, uint64(hashOfSwings), h.Sum64(), "%#x", h.Sum64())
}
