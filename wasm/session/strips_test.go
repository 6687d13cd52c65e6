package session

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/fold/partfile"
)

// legOf is the outside leg of a strip bent in its middle, by allowance and setback: what a
// maker would measure of a strip of this K.
func legOf(length, deg, r, t, k float64) float64 {
	a := deg * math.Pi / 180
	return (length + 2*(r+t)*math.Tan(a/2) - a*(r+k*t)) / 2
}

// typed fills the open form as a maker would and adds the strip.
func typed(t testing.TB, s *Session, fields ...string) {
	t.Helper()
	for i := 0; i < len(fields); i += 2 {
		require.NoError(t, s.SetStrip(fields[i], fields[i+1]), fields[i])
	}
	field, err := s.AddStrip()
	require.NoError(t, err, field)
}

// three adds three strips of a K for the first bend's radius, legs read to 0.1 mm.
func three(t testing.TB, s *Session, k float64) {
	t.Helper()
	r, th := s.Part().Bends[0].Radius, s.Part().Thickness
	s.OpenStrip(-1)
	for i, deg := range []float64{90, 89, 91} {
		leg := legOf(100, deg, r, th, k)
		fields := []string{"leg-a", fmt.Sprintf("%.1f", leg+1), "leg-b", fmt.Sprintf("%.1f", leg-1), "angle", fmt.Sprint(deg), "radius", fmt.Sprint(r)}
		if i == 0 {
			fields = append([]string{"length", "100", "set", "93", "brake", "The long one"}, fields...)
		}
		typed(t, s, fields...)
	}
	s.CloseStrip()
}

func TestThreeStripsGiveK(t *testing.T) {
	for _, k := range []float64{0.35, 0.42, 0.5} {
		s := New(tray(t))
		require.NoError(t, s.SetK("")) // the tray gives a figure
		was := s.Part()
		three(t, s, k)
		ts := s.Tests()
		require.Len(t, ts.Used, 3)
		assert.Equal(t, "The long one", ts.Used[2].Brake, "taken from the one before")
		assert.Equal(t, 100.0, ts.Used[2].Length)
		assert.Nil(t, s.Spec().Sheet.K)
		for _, r := range s.Reaches() {
			require.True(t, r.OK, r.Why)
			assert.InDelta(t, k, r.K, r.Spread, "within its stated spread")
			for _, b := range r.Bends {
				assert.InDelta(t, r.K, s.Part().Bends[b].K, 1e-9, "the blank's bends have it")
			}
		}
		assert.True(t, s.fit.kept)
		for i, v := range s.Part().Sizes().Finished.Box() {
			assert.InDelta(t, was.Sizes().Finished.Box()[i], v, 1e-4, "the finished part is as large as before")
		}
		assert.NotEmpty(t, s.FitWords())
		for range 3 {
			s.Undo()
		}
		assert.Equal(t, string(partfile.Write(was.Spec)), string(partfile.Write(s.Spec())), "one undo step each")
		assert.Empty(t, s.Bench().Tests, "undo takes them off the bench too")
		for range 3 {
			s.Redo()
		}
		assert.Len(t, s.Tests().Used, 3)
		assert.Len(t, s.Bench().Tests, 3)
	}
}

func TestGivenKIsKeptUntilAskedFor(t *testing.T) {
	s := New(tray(t))
	require.NoError(t, s.SetK("0.4"))
	three(t, s, 0.46)
	require.NotNil(t, s.Spec().Sheet.K)
	assert.Equal(t, 0.4, s.Part().Bends[0].K)
	require.NoError(t, s.UseTests())
	assert.Nil(t, s.Spec().Sheet.K)
	k := s.Part().Bends[0].K
	assert.InDelta(t, 0.46, k, 0.05)
	require.NoError(t, s.SetRule("din"))
	assert.NotEqual(t, k, s.Part().Bends[0].K, "a rule that the part names goes first")
	require.NoError(t, s.UseTests())
	assert.Equal(t, k, s.Part().Bends[0].K)
	s.Undo()
	s.Undo()
	s.Undo()
	assert.Equal(t, 0.4, s.Part().Bends[0].K)
}

func TestStripRefusals(t *testing.T) {
	s := New(tray(t))
	s.OpenStrip(-1)
	field, err := s.AddStrip()
	require.Error(t, err)
	assert.Equal(t, "length", field)
	for _, x := range []struct{ field, text, says string }{
		{"length", "long", "not a length"},
		{"length", "-3", "more than nothing"},
		{"leg-a", "16 ga", "gauge"},
		{"angle", "0", "over 0"},
		{"angle", "200", "180"},
		{"set", "steep", "not an angle"},
		{"radius", "-1", "0 or more"},
		{"nose", "x", "not a length"},
		{"brake", strings.Repeat("n", fold.MaxName+1), "At most"},
	} {
		require.Error(t, s.SetStrip(x.field, x.text), x.field)
		e, ok := s.Error(StripField(x.field))
		require.True(t, ok, x.field)
		assert.Contains(t, e.Message, x.says)
		assert.Equal(t, x.text, e.Typed)
		require.NoError(t, s.SetStrip(x.field, ""), "an empty field is only missing")
	}
	// Legs longer than the strip: which number, and what could be.
	for _, f := range [][2]string{{"length", "100"}, {"leg-a", "80"}, {"leg-b", "70"}} {
		require.NoError(t, s.SetStrip(f[0], f[1]))
	}
	require.Error(t, s.SetStrip("angle", "90"))
	e, ok := s.Error(StripField("leg-b"))
	require.True(t, ok)
	assert.Regexp(t, `80 mm \+ 70 mm.*together they must measure [0-9.]+ mm to [0-9.]+ mm`, e.Message)
	field, err = s.AddStrip()
	assert.Equal(t, "leg-b", field)
	require.Error(t, err)
	assert.Empty(t, s.Spec().Tests)
	// Metal springs back, never forward.
	require.NoError(t, s.SetStrip("leg-a", "51"))
	_ = s.SetStrip("leg-b", "51")
	require.Error(t, s.SetStrip("set", "88"))
	_, ok = s.Error(StripField("set"))
	assert.True(t, ok)
	// In inches the message is in inches.
	s.SetUnits(fold.Inch)
	assert.Equal(t, "3.93701", s.StripText("length"), "what stands there is shown in the other unit")
	require.NoError(t, s.SetStrip("set", ""))
	require.Error(t, s.SetStrip("leg-b", "7 1/2"))
	e, _ = s.Error(StripField("leg-b"))
	assert.Contains(t, e.Message, " in")
	assert.NotContains(t, e.Message, "mm")
}

// A strip of which only the angles are known tells of springback alone.
func TestAngleOnly(t *testing.T) {
	s := New(tray(t))
	s.OpenStrip(-1)
	typed(t, s, "angle", "90", "set", "94")
	ts := s.Tests()
	require.Len(t, ts.Used, 1)
	assert.Equal(t, 0.0, ts.Used[0].Length)
	set, _, _, ok := ts.Study.Set(90, s.Part().Bends[0].Radius, s.Part().Thickness)
	require.True(t, ok)
	assert.InDelta(t, 94, set, 1e-9)
}

func TestEditLeaveOutDelete(t *testing.T) {
	s := New(tray(t))
	three(t, s, 0.42)
	// Edit: prefilled, one step, the bench follows.
	s.OpenStrip(1)
	assert.Equal(t, "89", s.StripText("angle"))
	assert.Equal(t, "93", s.StripText("set"))
	typed(t, s, "angle", "89.5")
	assert.Nil(t, s.Strip())
	assert.Equal(t, 89.5, s.Spec().Tests[1].Angle)
	require.Len(t, s.Bench().Tests, 3)
	assert.Empty(t, s.Tests().Off, "the old figures are gone from the bench")
	s.Undo()
	assert.Equal(t, 89.0, s.Spec().Tests[1].Angle)
	assert.Empty(t, s.Tests().Off)
	// Leave out: it stays on the bench, and can be used again.
	require.NoError(t, s.LeaveOut(2))
	assert.Len(t, s.Tests().Used, 2)
	require.Len(t, s.Tests().Off, 1)
	assert.Equal(t, 91.0, s.Tests().Off[0].Angle)
	require.NoError(t, s.UseStrips(s.Tests().Off))
	assert.Len(t, s.Tests().Used, 3)
	assert.Empty(t, s.Tests().Off)
	assert.Len(t, s.Bench().Tests, 3)
	// Delete: gone from both, and one undo brings both back.
	require.NoError(t, s.DropStrip(0))
	assert.Len(t, s.Tests().Used, 2)
	assert.Empty(t, s.Tests().Off)
	assert.Len(t, s.Bench().Tests, 2)
	s.Undo()
	assert.Len(t, s.Tests().Used, 3)
	assert.Len(t, s.Bench().Tests, 3)
	assert.Error(t, s.DropStrip(7))
	require.NoError(t, s.LeaveOut(0))
	s.ForgetStrip(s.Tests().Off[0])
	assert.Empty(t, s.Tests().Off)
	for range 2 {
		require.NoError(t, s.DropStrip(0))
	}
	assert.Empty(t, s.Spec().Tests)
	assert.Empty(t, s.Bench().Tests)
}

// Two strips that measure the same are two.
func TestTwins(t *testing.T) {
	s := New(tray(t))
	s.OpenStrip(-1)
	for range 2 {
		typed(t, s, "length", "100", "leg-a", "51", "leg-b", "51", "angle", "90")
	}
	assert.Len(t, s.Tests().Used, 2)
	assert.Len(t, s.Bench().Tests, 2)
	require.NoError(t, s.DropStrip(0))
	assert.Len(t, s.Bench().Tests, 1)
}

// The bench goes with the maker from part to part, by its text and by its file.
func TestBenchTravels(t *testing.T) {
	s := New(tray(t))
	three(t, s, 0.44)
	text := s.KeepBench()
	name, file := s.SaveBench()
	assert.True(t, strings.HasSuffix(name, ".drybends"))

	fresh := New(tray(t))
	require.NoError(t, fresh.TakeBench(text))
	assert.Empty(t, fresh.Spec().Tests, "offered, not taken")
	require.Len(t, fresh.Tests().Off, 3)
	require.NoError(t, fresh.UseStrips(fresh.Tests().Off))
	require.NoError(t, fresh.UseTests())
	require.NoError(t, s.UseTests())
	assert.InDelta(t, s.Part().Bends[0].K, fresh.Part().Bends[0].K, 1e-9)
	assert.Len(t, fresh.Bench().Tests, 3, "none twice")

	other := New(tray(t))
	said, err := other.MergeBench(file)
	require.NoError(t, err)
	assert.Equal(t, "3 test bends came in, of Stainless 304 1.0 mm. Under Metal: 3 test bends to use for this part’s sheet, Stainless 304 1.0 mm", said)
	said, err = other.MergeBench(file)
	require.NoError(t, err)
	assert.Contains(t, said, "no test bends came in; 3, of Stainless 304 1.0 mm, were there already")
	require.Len(t, other.Tests().Off, 3)
	_, err = other.MergeBench([]byte("two loaves"))
	assert.Error(t, err)
	assert.Error(t, other.TakeBench("{"))
	assert.Len(t, other.Bench().Tests, 3, "nothing is lost by what can't be read")

	require.NoError(t, other.SetThickness("2"))
	assert.Empty(t, other.Tests().Off, "of another thickness")

	// Opening a part that has strips leaves the bench alone.
	guest := New(tray(t))
	guest.OpenSpec(s.Spec())
	assert.Len(t, guest.Tests().Used, 3)
	assert.Empty(t, guest.Bench().Tests)
	require.NoError(t, guest.LeaveOut(0))
	assert.Len(t, guest.Tests().Off, 1, "left out is not lost")
}

func TestBenchMetals(t *testing.T) {
	s := New(tray(t))
	k := 0.4
	own := metal.Own{Name: "Shed brass", Like: "Brass", K: &k, Note: "cut from a tray"}
	next := s.Spec()
	next.Metals = []metal.Own{own}
	require.NoError(t, s.change(next))
	require.Len(t, s.Bench().Metals, 1)
	k2 := 0.45
	next.Metals = []metal.Own{{Name: "Shed brass", Like: "Brass", K: &k2}}
	require.NoError(t, s.change(next))
	require.Len(t, s.Bench().Metals, 1)
	assert.Equal(t, 0.45, *s.Bench().Metals[0].K)
	s.Undo()
	assert.Equal(t, 0.4, *s.Bench().Metals[0].K)

	_, file := s.SaveBench()
	fresh := New(tray(t))
	said, err := fresh.MergeBench(file)
	require.NoError(t, err)
	assert.Equal(t, "no test bends and 1 metal came in", said)
	s.Redo()
	said, err = s.MergeBench(file)
	require.NoError(t, err)
	assert.Contains(t, said, "yours stays")
	assert.Equal(t, 0.45, *s.Bench().Metals[0].K)
}

// A metal of the maker's own that gets another name has it on the bench too, with its strips.
func TestBenchFollowsNames(t *testing.T) {
	s := New(tray(t))
	next := s.Spec()
	next.Metals = []metal.Own{{Name: "Shed brass", Like: "Brass"}}
	next.Sheet.Metal = "Shed brass"
	require.NoError(t, s.change(next))
	three(t, s, 0.4)
	next = s.Spec()
	next.Metals = []metal.Own{{Name: "Red brass", Like: "Brass"}}
	next.Sheet.Metal = "Red brass"
	next.Tests = slices.Clone(next.Tests)
	for i := range next.Tests {
		next.Tests[i].Metal = "Red brass"
	}
	require.NoError(t, s.change(next))
	require.Len(t, s.Bench().Metals, 1)
	assert.Equal(t, "Red brass", s.Bench().Metals[0].Name)
	require.Len(t, s.Bench().Tests, 3)
	assert.Equal(t, "Red brass", s.Bench().Tests[0].Metal)
	s.Undo()
	assert.Equal(t, "Shed brass", s.Bench().Metals[0].Name)
	assert.Equal(t, "Shed brass", s.Bench().Tests[0].Metal)
}

// What is being typed outlasts a reload.
func TestStripFormIsKept(t *testing.T) {
	s := New(tray(t))
	s.OpenStrip(-1)
	at := s.Place()
	s.TypeStrip("leg-a", "51.")
	assert.NotEqual(t, at, s.Place(), "it is kept as it is typed")
	s.SetStripInside(true)
	at = s.Place()
	s.SetStripCalliper(true)
	assert.NotEqual(t, at, s.Place())
	again := New(tray(t))
	_, err := again.Restore(s.Keep(""))
	require.NoError(t, err)
	require.NotNil(t, again.Strip())
	assert.Equal(t, "51.", again.StripText("leg-a"))
	assert.True(t, again.Strip().Inside)
	assert.True(t, again.Strip().Calliper)
	again.OpenSpec(tray(t))
	assert.Nil(t, again.Strip(), "not for another part")
}

// Lengths read with a calliper tell K more closely, and the strip keeps how it was read.
func TestStripWithCalliper(t *testing.T) {
	spread := map[bool]float64{}
	for _, calliper := range []bool{false, true} {
		s := New(tray(t))
		th, r := s.Part().Thickness, s.Part().Bends[0].Radius
		s.OpenStrip(-1)
		for range 3 {
			s.SetStripCalliper(calliper)
			leg := FieldLength(legOf(100, 90, r, th, 0.42), fold.MM)
			for name, text := range map[string]string{"length": "100", "leg-a": leg, "leg-b": leg, "angle": "90", "radius": FieldLength(r, fold.MM)} {
				s.TypeStrip(name, text)
			}
			_, err := s.AddStrip()
			require.NoError(t, err)
		}
		require.Equal(t, calliper, s.Part().Spec.Tests[2].Calliper)
		s.OpenStrip(2)
		require.Equal(t, calliper, s.Strip().Calliper)
		s.CloseStrip()
		require.NoError(t, s.UseTests())
		spread[calliper] = s.Part().Bends[0].KSpread
	}
	require.Positive(t, spread[true])
	require.Less(t, spread[true], 0.7*spread[false])
}

// Where the strips have another radius than the part's bends, taking it makes both agree.
func TestUseRadius(t *testing.T) {
	s := New(tray(t))
	th := s.Part().Thickness
	was := s.Part().Sizes().Finished.Box()
	r := s.Part().Bends[0].Radius + 0.8
	s.OpenStrip(-1)
	for range 3 {
		leg := legOf(100, 90, r, th, 0.42)
		typed(t, s, "length", "100", "leg-a", fmt.Sprintf("%.2f", leg), "leg-b", fmt.Sprintf("%.2f", leg), "angle", "90", "radius", fmt.Sprint(r))
	}
	reach := s.Reaches()[0]
	assert.Nil(t, reach.Measured)
	require.False(t, reach.OK)
	assert.NotEmpty(t, reach.Why)
	require.Len(t, reach.Instead, 1)
	require.InDelta(t, r, reach.Instead[0].Radius, 0.01)
	require.NoError(t, s.UseRadius(reach.Radius, reach.Instead[0].Radius, reach.Instead[0].Known))
	assert.Equal(t, "strip", s.Spec().Bends[0].RadiusFrom)
	require.True(t, s.Reaches()[0].OK)
	for i, v := range s.Part().Sizes().Finished.Box() {
		assert.InDelta(t, was[i], v, 1e-4)
	}
}
