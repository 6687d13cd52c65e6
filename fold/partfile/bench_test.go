package partfile

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/fold/sizes"
)

// ReadBench(WriteBench(b)) is b but for the rounding of lengths, in either unit, and
// what was written once is written the same ever after.
func TestRandomBenchesComeBack(t *testing.T) {
	for seed := uint64(0); seed < seeds; seed++ {
		r := rand.New(rand.NewPCG(seed, 2))
		b := Bench{Metals: randomMetals(r), Tests: randomStrips(r, fold.MM), Tools: randomTools(r)}
		if r.IntN(2) == 0 {
			b.Lip = size(r, fold.MM)
		}
		require.NoError(t, b.Check(), "seed %d", seed)
		benchComesBack(t, b)
	}
}

// randomTools are tools within every bound, some at it.
func randomTools(r *rand.Rand) (t sizes.Tools) {
	if r.IntN(3) == 0 {
		return t
	}
	span := func(lo, hi float64) float64 {
		switch r.IntN(10) {
		case 0:
			return lo
		case 1:
			return hi
		}
		return min(max(round(r, lo*math.Pow(hi/lo, r.Float64())), lo), hi)
	}
	t.NoSaw, t.NoSnips = r.IntN(2) == 0, r.IntN(2) == 0
	for range r.IntN(9) {
		t.Drills = append(t.Drills, span(sizes.LeastTool, sizes.MaxDrill))
	}
	for _, l := range t.Lines() {
		if r.IntN(2) == 0 {
			most := 10.0
			for _, m := range []float64{20, 170, 200, 2000, 1e5} { // the largest that this figure takes
				if one, _ := (sizes.Tools{}).Set(l.Key, m); one.Check() == nil {
					most = m
				}
			}
			t, _ = t.Set(l.Key, span(sizes.LeastTool, most))
		}
	}
	return t
}

func benchComesBack(t *testing.T, b Bench) {
	t.Helper()
	require.NoError(t, b.Check())
	for _, u := range []fold.Units{fold.MM, fold.Inch} {
		out := WriteBench(b, u)
		require.True(t, json.Valid(out))
		require.True(t, IsBench(out))
		got, err := ReadBench(out)
		require.NoError(t, err, "%s", out)
		sameBench(t, b, got)
		require.Equal(t, string(out), string(WriteBench(got, u)))
		small, err := ReadBench(compact(out))
		require.NoError(t, err)
		require.Equal(t, got, small)
	}
}

// sameBench holds all but lengths to be equal, and those within the rounding of files.
func sameBench(t *testing.T, want, got Bench) {
	t.Helper()
	near := func(a, b float64) { // 12 digits: half of 1e-11 at most
		t.Helper()
		require.LessOrEqual(t, math.Abs(a-b), 6e-12*math.Abs(a), "%v and %v", a, b)
	}
	near(want.Lip, got.Lip)
	require.Equal(t, want.Metals, got.Metals)
	require.Equal(t, len(want.Tools.Drills), len(got.Tools.Drills))
	for i, v := range want.Tools.Drills {
		near(v, got.Tools.Drills[i])
	}
	for _, l := range want.Tools.Lines() {
		a, _ := want.Tools.Get(l.Key)
		b, _ := got.Tools.Get(l.Key)
		near(a, b)
	}
	require.Equal(t, [2]bool{want.Tools.NoSaw, want.Tools.NoSnips}, [2]bool{got.Tools.NoSaw, got.Tools.NoSnips})
	require.Equal(t, len(want.Tests), len(got.Tests))
	for i, a := range want.Tests {
		b := got.Tests[i]
		near(a.Thickness, b.Thickness)
		near(a.Length, b.Length)
		near(a.Legs[0], b.Legs[0])
		near(a.Legs[1], b.Legs[1])
		near(a.Nose, b.Nose)
		require.Equal(t, a.Radius == nil, b.Radius == nil)
		if a.Radius != nil && *a.Radius > 1e-300 {
			near(*a.Radius, *b.Radius)
		}
		b.Thickness, b.Length, b.Legs, b.Nose, b.Radius = a.Thickness, a.Length, a.Legs, a.Nose, a.Radius
		require.Equal(t, a, b)
	}
}

// Lengths as people write them are the same after a file in the other unit, and so are those at the bounds.
func TestBenchLengthsKeepTheirDigits(t *testing.T) {
	for _, v := range []float64{0.04, 0.0625, 0.0598, 3.937, 4, 0.1, 1.0 / 64, 12.345, 0.8118} {
		b, err := ReadBench([]byte(`{"dryfold_bench": 1, "units": "in", "shortest_lip": ` + number(v) + `}`))
		require.NoError(t, err)
		require.InDelta(t, v*25.4, b.Lip, 1e-12)
		inMM, err := ReadBench(WriteBench(b, fold.MM))
		require.NoError(t, err)
		require.Contains(t, string(WriteBench(inMM, fold.Inch)), `"shortest_lip": `+number(v)+"\n")
	}
	for _, v := range []float64{1.6, 100, 62.35, 0.9525, 1234.56789, 0.1} {
		b, err := ReadBench(WriteBench(Bench{Lip: v}, fold.Inch))
		require.NoError(t, err)
		require.Contains(t, string(WriteBench(b, fold.MM)), `"shortest_lip": `+number(v)+"\n")
	}
	for _, v := range []float64{fold.MinSize, fold.MaxSize, math.Nextafter(fold.MinSize, 1), math.Nextafter(fold.MaxSize, 0)} {
		benchComesBack(t, Bench{Lip: v})
	}
}

// The exact bytes of a whole file, every field used, and what it reads as.
func TestWriteBenchLayout(t *testing.T) {
	k, rt, set, radius := 0.42, 0.5, 93.0, 1.27
	b := Bench{
		Metals: []metal.Own{{Name: "Shop \"A\"", Like: "Copper", Density: 8900, Modulus: 117, Yield: [2]float64{60, 80}, LeastRT: &rt, K: &k, Note: "slip"},
			{Name: "B"}},
		Tests: []metal.Strip{{Name: "one", Metal: "B", Brake: "vice", Thickness: 1.016, Length: 101.6, Legs: [2]float64{50.8, 50.8},
			Inside: true, Calliper: true, Angle: 60, Set: &set, Radius: &radius, Nose: 1.27}, {Thickness: 1, Angle: 88, Set: &set}},
		Lip: 12.7,
		Tools: sizes.Tools{Drills: []float64{6.35, 3.175}, NoSaw: true, Kerf: 1.27, SawStart: 2.54, Slot: 5.08, Nibbler: 6.35, NoSnips: true, SnipsThick: 1.27,
			SnipsPast: 1.27, SnipsLeft: 25.4, SnipsRight: 50.8, LeastNotch: 30, SnipsAcross: 12.7, ShearsLength: 1270},
	}
	require.NoError(t, b.Check())
	require.Equal(t, `{
  "dryfold_bench": 1,
  "units": "in",
  "shortest_lip": 0.5,
  "tools": {"drills": [0.25, 0.125], "no_saw": true, "no_snips": true, "kerf": 0.05, "saw_start": 0.1, "narrowest_slot": 0.2, "nibbler": 0.25, "snips_thickest": 0.05, "snips_past": 0.05, "snips_left": 1, "snips_right": 2, "least_notch": 30, "snips_across": 0.5, "shears": 50},
  "metals": [
    {"name": "Shop \"A\"", "like": "Copper", "density": 8900, "modulus_gpa": 117, "yield_mpa": [60, 80], "least_radius_t": 0.5, "k": 0.42, "note": "slip"},
    {"name": "B"}
  ],
  "tests": [
    {"name": "one", "metal": "B", "brake": "vice", "thickness": 0.04, "length": 4, "legs": [2, 2], "inside": true, "calliper": true, "angle": 60, "set": 93, "radius": 0.05, "nose": 0.05},
    {"thickness": 0.039370078740157, "angle": 88, "set": 93}
  ]
}
`, string(WriteBench(b, fold.Inch)))
	got, err := ReadBench(WriteBench(b, fold.MM))
	require.NoError(t, err)
	require.Equal(t, b, got)

	require.Equal(t, "{\n  \"dryfold_bench\": 1,\n  \"units\": \"mm\"\n}\n", string(WriteBench(Bench{}, fold.MM)))
	got, err = ReadBench([]byte(`{"dryfold_bench": 1, "units": "mm", "metals": [], "tests": []}`))
	require.NoError(t, err)
	require.Equal(t, Bench{}, got)
}

// Which file is which: by what it holds, whatever its name.
func TestIsBench(t *testing.T) {
	for name, want := range map[string]bool{
		partsDir + "/measured.drybends": true, partsDir + "/measured.dryfold": false,
		badDir + "/bench-newer.drybends": true, badDir + "/bench-nothing.drybends": false, badDir + "/bench-list.drybends": false,
		badDir + "/bench-cut-off.drybends": false, badDir + "/bench-letter-case.drybends": false, badDir + "/bom.dryfold": false,
	} {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		require.Equal(t, want, IsBench(data), name)
	}
}

// The test bends of the test parts hold what they were made with: K of about 0.42 from each, by
// legs' sum = length + 2 r' tan(A/2) - A(R + K*T), r' the radius of the measured faces.
func TestMeasuredPartsAgree(t *testing.T) {
	for _, name := range []string{"measured", "measured-inch"} {
		data, err := os.ReadFile(filepath.Join(partsDir, name+".dryfold"))
		require.NoError(t, err)
		s, err := Read(data)
		require.NoError(t, err)
		require.Len(t, s.Tests, 3)
		for _, b := range s.Tests {
			turn, face := b.Angle*math.Pi/180, *b.Radius
			if !b.Inside {
				face += b.Thickness
			}
			if b.Angle <= 90 {
				face *= math.Tan(turn / 2)
			}
			k := ((b.Length+2*face-b.Legs[0]-b.Legs[1])/turn - *b.Radius) / b.Thickness
			require.InDelta(t, 0.42, k, 0.01, "%s %s", name, b.Name)
		}
	}
}

// Any bytes are read or refused with our own error; what is read comes back in both units.
func FuzzReadBench(f *testing.F) {
	for _, pattern := range []string{partsDir + "/*", badDir + "/bench-*"} {
		files, err := filepath.Glob(pattern)
		require.NoError(f, err)
		for _, name := range files {
			data, err := os.ReadFile(name)
			require.NoError(f, err)
			f.Add(data)
		}
	}
	for seed := range uint64(10) {
		r := rand.New(rand.NewPCG(seed, 3))
		f.Add(WriteBench(Bench{Metals: randomMetals(r), Tests: randomStrips(r, fold.MM), Lip: 10}, fold.Units(seed%2)))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := ReadBench(data)
		if err != nil {
			var e *Error
			require.True(t, errors.As(err, &e))
			require.True(t, (e.Path == "") != (e.Line == 0), "%+v", e)
			require.True(t, utf8.ValidString(err.Error()))
			return
		}
		require.True(t, json.Valid(data) && utf8.Valid(data) && IsBench(data))
		_, err = Read(data)
		require.ErrorContains(t, err, "a file of metals and test bends")
		benchComesBack(t, b)
	})
}
