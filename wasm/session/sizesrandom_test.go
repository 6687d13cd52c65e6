package session

// This file tests random runs of edits of a part by sizes, and times one edit of a large part.

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/require"
)

var seedFlag = flag.Uint64("seed", 1, "seed of the random test; 0 takes a new one")

// Any run of edits: none panics, one that is refused changes nothing, the part on the bench is always one that
// folds, and undo gives every file back as it was.
func TestRandomEdits(t *testing.T) {
	seed := *seedFlag
	if seed == 0 {
		seed = rand.Uint64()
	}
	t.Log("seed", seed)
	runs := 8
	if testing.Short() {
		runs = 4
	}
	for run := range runs {
		rng := rand.New(rand.NewPCG(seed, uint64(run)))
		x := shape.Starters[rng.IntN(len(shape.Starters))]
		s := starter(t, x.ID, fold.Units(rng.IntN(2)))
		files := []string{file(s)}
		done := 0
		for range 40 {
			before, serial, steps := file(s), s.Serial(), len(s.undo)
			what, err := randomEdit(s, rng)
			after := file(s)
			if err != nil {
				require.Equal(t, before, after, "run %d: %s was refused: %v", run, what, err)
				require.Equal(t, serial, s.Serial(), "run %d: %s", run, what)
				continue
			}
			if after == before {
				require.Equal(t, steps, len(s.undo), "run %d: %s", run, what)
				continue
			}
			done++
			require.Equal(t, steps+1, len(s.undo), "run %d: %s is one step", run, what)
			require.True(t, s.Part().Foldable, "run %d: %s", run, what)
			require.NoError(t, partfile.Check(s.Frozen()), "run %d: %s", run, what)
			files = append(files, after)
		}
		require.Greater(t, done, 3, "run %d: hardly an edit was taken", run)
		for i := len(files) - 2; i >= 0; i-- {
			s.Undo()
			require.Equal(t, files[i], file(s), "run %d", run)
		}
		for i := 1; i < len(files); i++ {
			s.Redo()
			require.Equal(t, files[i], file(s), "run %d", run)
		}
	}
}

// randomEdit makes one edit of any kind, with sizes from far too small to far too large.
func randomEdit(s *Session, rng *rand.Rand) (string, error) {
	f := s.Form()
	size := func() string { // log-uniform, sometimes no size at all
		switch rng.IntN(8) {
		case 0:
			return []string{"", "0", "-3", "x", "wide / 3", "high * 2", "1e400", "1/2", "3 3/8 in"}[rng.IntN(9)]
		}
		v := 1.0
		for range rng.IntN(10) {
			v *= 2.2
		}
		return fmt.Sprintf("%.2f", v*(0.5+rng.Float64()))
	}
	flange := func() int { return rng.IntN(len(f.Flanges) + 1) }
	panel := func() string {
		if len(f.Flanges) == 0 || rng.IntN(3) == 0 {
			return baseName(f)
		}
		return f.Flanges[rng.IntN(len(f.Flanges))].Name
	}
	switch k := rng.IntN(25); k {
	case 0, 1, 2, 3, 4, 5:
		fields := s.SizeFields("")
		x := fields[rng.IntN(len(fields))]
		text := size()
		if x.Angle && rng.IntN(2) == 0 {
			text = fmt.Sprint(1 + rng.IntN(250))
		}
		return "field " + x.Path + " " + text, s.SetField(x.Path, text)
	case 6, 7, 8:
		sides := s.Sides("")
		x := sides[rng.IntN(len(sides))]
		_, err := s.AddFlange(x.On, x.Side)
		return "add " + x.Label, err
	case 9:
		name := panel()
		return "delete " + name, s.DeleteFlange(name)
	case 10:
		name := panel()
		_, err := s.CopyFlangeOpposite(name)
		return "copy " + name, err
	case 11:
		i := rng.IntN(len(f.Flanges)+1) - 1
		return fmt.Sprint("rename ", i), s.RenameFlange(i, []string{"a wall", "left", "rim", "", "x lip"}[rng.IntN(5)])
	case 12:
		return "way", s.SetFlangeWay(flange(), rng.IntN(2) == 0)
	case 13:
		return "hem", s.SetFlangeHem(flange(), HemKind(rng.IntN(3)))
	case 14:
		return "joggle", s.SetFlangeJoggle(flange(), JoggleKind(rng.IntN(3)))
	case 24:
		kind := RimKind(rng.IntN(5))
		return fmt.Sprint("rim ", kind), s.SetRim(kind)
	case 15:
		return "edge", s.SetFlangeEdge(flange(), EdgeKind(rng.IntN(5)))
	case 16:
		on := panel()
		_, err := s.addHole(on, rng.Float64()*80, rng.Float64()*50)
		return "hole on " + on, err
	case 17:
		return "hole shape", s.SetHoleShape(rng.IntN(len(f.Holes)+1), sizes.HoleShape(rng.IntN(4)))
	case 18:
		return "hole count", s.SetHoleCount(rng.IntN(len(f.Holes)+1), rng.IntN(4), rng.IntN(3))
	case 19, 20:
		rows := s.Corners()
		if len(rows) == 0 {
			return "no corner", nil
		}
		c := rows[rng.IntN(len(rows))]
		switch rng.IntN(3) {
		case 0:
			return "gap", s.SetCornerField(c.A, c.B, []string{"gap", "past", "relief.size"}[rng.IntN(3)], size())
		case 1:
			kind := sizes.ReliefKind(rng.IntN(4))
			return "relief", s.SetCornerRelief(c.A, c.B, &kind)
		}
		return "closing", s.SetClosing(c.A, c.B, sizes.Closing(rng.IntN(5)))
	case 21:
		return "faces", s.SetFaces(sizes.Faces(rng.IntN(3)))
	case 22:
		return "base", s.SetBase(BaseShape(rng.IntN(6)))
	default:
		if len(f.Flanges) == 0 {
			return "no drag", nil
		}
		i := rng.IntN(len(f.Flanges))
		for range 3 {
			if _, err := dragTo(s, FlangeField(i, "height"), rng.Float64()*120-10); err != nil {
				return "drag", err
			}
		}
		s.EndDrag()
		return "drag", nil
	}
}

// BenchmarkEdit40 is one edit of a part of 40 panels by sizes: made, built and measured.
func BenchmarkEdit40(b *testing.B) {
	spec := fold.Spec{Name: "Forty", Sheet: fold.Sheet{Thickness: 1}, Sizes: fortyPanels()}
	s := New(spec)
	require.Empty(b, s.Problems())
	require.Len(b, s.Part().Panels, 40)
	for i := 0; b.Loop(); i++ {
		if err := setNamed(s, "high", fmt.Sprint(40+i%2)); err != nil {
			b.Fatal(err)
		}
	}
}

// fortyPanels is a base of thirteen sides, on each a wall with two returns.
func fortyPanels() *sizes.Form {
	f := &sizes.Form{Radius: sizes.Is(1), Gap: sizes.Is(0.5), Named: []sizes.Named{{Name: "high", Is: sizes.Is(40)}}}
	const sides = 13
	for i := range sides {
		a := 2 * math.Pi * float64(i) / sides
		f.Base.Points = append(f.Base.Points, sizes.Point{X: sizes.Is(round6(400 * math.Cos(a))), Y: sizes.Is(round6(400 * math.Sin(a)))})
	}
	for i := range sides {
		wall := fmt.Sprintf("wall %d", i+1)
		f.Flanges = append(f.Flanges, sizes.Flange{Name: wall, On: "floor", Side: fmt.Sprintf("side %d", i+1), Height: sizes.Of("high")})
		lip := wall + " lip"
		f.Flanges = append(f.Flanges, sizes.Flange{Name: lip, On: wall, Side: "top", Height: sizes.Is(15)})
		f.Flanges = append(f.Flanges, sizes.Flange{Name: wall + " return", On: lip, Side: "top", Height: sizes.Is(8)})
	}
	return f
}
