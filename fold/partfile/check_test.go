package partfile

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// Values that no file can hold but a hand-made spec can.
func TestCheckOfHandMadeSpecs(t *testing.T) {
	to, nan := 45.0, math.NaN()
	for _, c := range []struct {
		want   string
		change func(s *fold.Spec)
	}{
		{"sheet.thickness: found NaN; need a thickness from 0.001 to 1000000 mm", func(s *fold.Spec) { s.Sheet.Thickness = math.NaN() }},
		{"blank.bends[0].radius: found +Inf; need an inside radius from 0 to 1000000 mm", func(s *fold.Spec) { s.Bends[0].Radius = math.Inf(1) }},
		{"blank.outline[1][0]: found -Inf; need a number from -1000000 to 1000000 mm", func(s *fold.Spec) { s.Outline[1].At[0] = math.Inf(-1) }},
		{"blank.bends[0].line[1][1]: found NaN; need a number from -1000000 to 1000000 mm", func(s *fold.Spec) { s.Bends[0].Line[1][1] = math.NaN() }},
		{`units: found 2; need "mm" or "in"`, func(s *fold.Spec) { s.Units = 2 }},
		{`sheet.good: found the text "top"; need "up" or "down"`, func(s *fold.Spec) { s.Sheet.Good = "top" }},
		{"name: found text that is not UTF-8; need text of 1 to 200 characters without control characters", func(s *fold.Spec) { s.Name = "\xff" }},
		{"order[0]: found a part bend of several bends; need one bend, or no part angle", func(s *fold.Spec) {
			s.Bends = append(s.Bends, s.Bends[0])
			s.Bends[1].Name = "b"
			s.Order = []fold.Step{{Bends: []string{"bend 1", "b"}, To: &to}}
		}},
		{`order[0]: found an empty list; need a bend's name, a list of names, or {"bend": name, "to": angle}`, func(s *fold.Spec) { s.Order = []fold.Step{{}} }},
		{"blank.holes: found 10001 entries; need at most 10000", func(s *fold.Spec) { s.Holes = make([]fold.Hole, fold.MaxHoles+1) }},
		{"blank.outline: found an outline of 0 points; need at least 3 points [x, y], or 2 and an arc", func(s *fold.Spec) { s.Outline = nil }},
		{"blank.outline: found more than 100000 points in all outlines together; need at most 100000", func(s *fold.Spec) {
			s.Outline = make(fold.Contour, fold.MaxOutline+1)
			s.Outline[0].At = geom.Vec2{1, 1}
		}},
		{`sheet.k_from: found where K comes from, but no K; need "k" beside it, or neither`, func(s *fold.Spec) { s.Sheet.KFrom = "strips" }},
		{"sheet.shortest_lip: found NaN; need a lip from 0.001 to 1000000 mm", func(s *fold.Spec) { s.Sheet.Lip = &nan }},
		{`blank.bends[0].radius_from: found the text "bar"; need one of "strip", "nose", "bar-back", "assumed"`, func(s *fold.Spec) { s.Bends[0].RadiusFrom = "bar" }},
		{"metals: found 51 entries; need at most 50", func(s *fold.Spec) { s.Metals = make([]metal.Own, fold.MaxMetals+1) }},
		{"metals[0].density: found -Inf; need a density from 100 to 30000 kg/m3", func(s *fold.Spec) {
			s.Metals = []metal.Own{{Name: "a", Density: math.Inf(-1)}}
		}},
		{"metals[0].yield_mpa[1]: found NaN; need a yield strength over 0 to 5000 MPa", func(s *fold.Spec) {
			s.Metals = []metal.Own{{Name: "a", Yield: [2]float64{200, nan}}}
		}},
		{`metals[1].name: found the name "--" a second time; need a name that metals[0] does not have: capital letters and punctuation tell no metals apart`,
			func(s *fold.Spec) { s.Metals = []metal.Own{{Name: "--"}, {Name: "--"}} }},
		{`metals[2].name: found the name "ALU-1" a second time; need a name that metals[1] does not have: capital letters and punctuation tell no metals apart`,
			func(s *fold.Spec) { s.Metals = []metal.Own{{Name: "b"}, {Name: " alu 1 "}, {Name: "ALU-1"}} }},
		{"tests: found 201 entries; need at most 200", func(s *fold.Spec) { s.Tests = make([]metal.Strip, fold.MaxTests+1) }},
		{"tests[0].length: found NaN; need a length from 0.001 to 1000000 mm", func(s *fold.Spec) {
			s.Tests = []metal.Strip{{Thickness: 1, Angle: 90, Length: nan, Legs: [2]float64{5, 5}}}
		}},
		{"tests[0].legs[1]: found 0; need a leg from 0.001 to 1000000 mm", func(s *fold.Spec) {
			s.Tests = []metal.Strip{{Thickness: 1, Angle: 90, Length: 10, Legs: [2]float64{5, 0}}}
		}},
		{"tests[0].set: found +Inf; need a set angle over 0 to 180 degrees", func(s *fold.Spec) {
			inf := math.Inf(1)
			s.Tests = []metal.Strip{{Thickness: 1, Angle: 90, Set: &inf}}
		}},
		{"joins: found 1002 entries; need at most 1001", func(s *fold.Spec) { s.Joins = make([]fold.JoinSpec, fold.MaxSeams+2) }},
		{"joins[0].widest: found NaN; need a gap from 0 to 1000000 mm", func(s *fold.Spec) { s.Joins = []fold.JoinSpec{{Widest: &nan}} }},
		{"as_cut: found 101 entries; need at most 100", func(s *fold.Spec) { s.AsCut = make([]fold.CutSize, fold.MaxAsCut+1) }},
		{"as_cut[0].to: found the same point as from; need two points apart from each other", func(s *fold.Spec) { s.AsCut = []fold.CutSize{{Is: 3}} }},
		{"as_cut[0].is: found 0; need a length from 0.001 to 1000000 mm", func(s *fold.Spec) { s.AsCut = []fold.CutSize{{To: geom.Vec2{1, 0}}} }},
		{"struck[0].line: found a line of no length; need two points apart from each other", func(s *fold.Spec) { s.Struck = []fold.StruckLine{{}} }},
		{"struck[0].line[1][0]: found NaN; need a number from -1000000 to 1000000 mm", func(s *fold.Spec) { s.Struck = []fold.StruckLine{{Line: [2]geom.Vec2{{}, {nan, 0}}}} }},
		{`joins[0].way: found the text "glue"; need one of "weld", "rivet", "spot", "sealant", "open"`, func(s *fold.Spec) { s.Joins = []fold.JoinSpec{{Way: "glue"}} }},
		{"errors.line: found NaN; need an error from 0 to 20 mm", func(s *fold.Spec) { s.Errors.Line = &nan }},
		{"errors.angle: found NaN; need an error over 0 to 10 degrees", func(s *fold.Spec) { s.Errors.Angle = &nan }},
		{"price.hours: found NaN; need a time from 0 to 1000000000 hours", func(s *fold.Spec) { s.Price.Hours = nan }},
		{"price.sheet[0]: found 0; need a length from 0.001 to 1000000 mm", func(s *fold.Spec) { s.Price.Sheet = [2]float64{0, 1000} }},
	} {
		s := fold.Spec{Name: "x", Sheet: fold.Sheet{Thickness: 1},
			Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{40, 0}}, {At: geom.Vec2{0, 30}}},
			Bends:   []fold.BendSpec{{Line: [2]geom.Vec2{{10, 0}, {10, 30}}, Angle: 90, Radius: 1}}}
		require.NoError(t, Check(s))
		c.change(&s)
		require.EqualError(t, Check(s), c.want)
		_, err := Pack(s)
		require.EqualError(t, err, c.want)
	}
}

// Each end of a range that a message prints is itself allowed, but for one said
// to be "over", and what lies past the range is not.
func TestPrintedBoundsAreAllowed(t *testing.T) {
	for _, u := range []fold.Units{fold.MM, fold.Inch} {
		for _, b := range []bound{placeBound(u), thicknessBound(u), diameterBound(u), radiusBound(u), gapBound(u), angleBound(), grainBound(), kBound(),
			lipBound(u), stripBound(u), legBound(u), noseBound(u), stripAngleBound(), setBound(), densityBound(), modulusBound(),
			yieldBound(), leastRadiusBound(), priceBound(), hoursBound(), errorBound(u), angleErrorBound(), kErrorBound()} {
			ends := regexp.MustCompile(`(from|over) (\S+) to (\S+)`).FindStringSubmatch(b.need())
			require.NotNil(t, ends, b.need())
			lo, err := strconv.ParseFloat(ends[2], 64)
			require.NoError(t, err)
			hi, err := strconv.ParseFloat(ends[3], 64)
			require.NoError(t, err)
			require.Equal(t, ends[1] == "from", b.holds(lo), b.need())
			require.True(t, b.holds(hi), b.need())
			require.True(t, b.holds((lo+hi)/2), b.need())
			require.False(t, b.holds(hi+1), b.need())
			require.False(t, b.holds(lo-1e-3*max(1, -lo)), b.need())
		}
	}
}

// Radius and angle of an arc against points taken from a circle.
func TestArcOf(t *testing.T) {
	for _, sweep := range []float64{0.01, 0.5, math.Pi / 2, math.Pi, 4, 6.2} {
		for _, dir := range []float64{1, -1} {
			at := func(f float64) geom.Vec2 {
				sin, cos := math.Sincos(0.3 + dir*sweep*f)
				return geom.Vec2{5 + 7*cos, -3 + 7*sin}
			}
			for _, f := range []float64{0.1, 0.5, 0.8} {
				r, got := arcOf(at(0), at(f), at(1))
				require.InDelta(t, 7, r, 1e-6)
				require.InDelta(t, sweep, got, 1e-8)
			}
		}
	}
	r, sweep := arcOf(geom.Vec2{0, 0}, geom.Vec2{1, 1}, geom.Vec2{3, 3})
	require.True(t, math.IsInf(r, 1) && sweep == 0)
	r, sweep = arcOf(geom.Vec2{0, 0}, geom.Vec2{4, 4}, geom.Vec2{3, 3})
	require.True(t, math.IsInf(r, 1) && sweep == 2*math.Pi)
}
