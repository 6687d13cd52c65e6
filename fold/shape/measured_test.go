package shape

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// plainSizes takes fields that are numbers, in units of unit mm.
func plainSizes(unit float64) func(path string, f sizes.Field) (float64, bool) {
	return func(path string, f sizes.Field) (float64, bool) {
		if strings.Contains(path, "angles") {
			return f.Number, true
		}
		return f.Number * unit, true
	}
}

// fields makes a list of sizes; 0 is one that was not measured.
func fields(list ...float64) []sizes.Field {
	var out []sizes.Field
	for _, x := range list {
		f := sizes.Is(x)
		if x == 0 {
			f = sizes.Field{}
		}
		out = append(out, f)
	}
	return out
}

func measure(m sizes.Measured) ([]geom.Vec2, []Misfit, []*Problem) {
	return measuredBase(&m, fold.MM, plainSizes(1))
}

func sameCorners(t *testing.T, want, got []geom.Vec2, within float64, more ...any) {
	t.Helper()
	require.Len(t, got, len(want), more...)
	for i := range want {
		assert.InDelta(t, want[i][0], got[i][0], within, more...)
		assert.InDelta(t, want[i][1], got[i][1], within, more...)
	}
}

// TestMeasuredClosedForms: shapes worked by hand.
func TestMeasuredClosedForms(t *testing.T) {
	h := math.Sqrt(240000) // of a trapezoid 600 and 400 wide with legs of 500: 500^2 - 100^2
	trapezoid := []geom.Vec2{{0, 0}, {600, 0}, {500, h}, {100, h}}
	hex := func(s float64) []geom.Vec2 {
		k := s * math.Sqrt(3) / 2
		return []geom.Vec2{{0, 0}, {s, 0}, {1.5 * s, k}, {s, 2 * k}, {0, 2 * k}, {-0.5 * s, k}}
	}
	for _, c := range []struct {
		name string
		m    sizes.Measured
		want []geom.Vec2
	}{
		{"3-4-5 triangle", sizes.Measured{Sides: fields(400, 300, 500)}, []geom.Vec2{{0, 0}, {400, 0}, {400, 300}}},
		{"triangle of two sides and the angle between them", sizes.Measured{Sides: fields(400, 300, 0), Angles: fields(0, 90)}, []geom.Vec2{{0, 0}, {400, 0}, {400, 300}}},
		{"rectangle by one diagonal", sizes.Measured{Sides: fields(800, 600, 800, 600), Diagonals: fields(1000)}, []geom.Vec2{{0, 0}, {800, 0}, {800, 600}, {0, 600}}},
		{"rectangle by the other", sizes.Measured{Sides: fields(800, 600, 800, 600), Diagonals: fields(0, 1000)}, []geom.Vec2{{0, 0}, {800, 0}, {800, 600}, {0, 600}}},
		{"rectangle by both", sizes.Measured{Sides: fields(800, 600, 800, 600), Diagonals: fields(1000, 1000)}, []geom.Vec2{{0, 0}, {800, 0}, {800, 600}, {0, 600}}},
		{"rectangle without its back", sizes.Measured{Sides: fields(800, 600, 0, 600), Diagonals: fields(1000, 1000)}, []geom.Vec2{{0, 0}, {800, 0}, {800, 600}, {0, 600}}},
		{"rectangle without its front", sizes.Measured{Sides: fields(0, 600, 800, 600), Diagonals: fields(1000, 1000)}, []geom.Vec2{{0, 0}, {800, 0}, {800, 600}, {0, 600}}},
		// Ptolemy: a trapezoid of equal legs lies on a circle, diagonal^2 = 500^2 + 600*400.
		{"trapezoid", sizes.Measured{Sides: fields(600, 500, 400, 500), Diagonals: fields(700, 700)}, trapezoid},
		{"trapezoid by one angle", sizes.Measured{Sides: fields(600, 500, 400, 500), Angles: fields(math.Acos(0.2) * 180 / math.Pi)}, trapezoid},
		{"parallelogram of 60 degrees", sizes.Measured{Sides: fields(200, 100, 200, 100), Diagonals: fields(0, math.Sqrt(200*200+100*100-200*100))},
			[]geom.Vec2{{0, 0}, {200, 0}, {250, 50 * math.Sqrt(3)}, {50, 50 * math.Sqrt(3)}}},
		{"kite, pointing in at the right by its angle", sizes.Measured{Sides: fields(50, 50, 100, 100), Diagonals: fields(60), Angles: fields(0, 360-2*math.Asin(0.6)*180/math.Pi)},
			settled([]geom.Vec2{{0, 0}, {-40, 30}, {0, 60}, {-math.Sqrt(100*100 - 30*30), 30}})},
		{"rectangle by angles", sizes.Measured{Way: sizes.ByAngles, Sides: fields(800, 600, 0, 0), Angles: fields(90, 90, 90)}, []geom.Vec2{{0, 0}, {800, 0}, {800, 600}, {0, 600}}},
		{"trapezoid by two angles", sizes.Measured{Way: sizes.ByAngles, Sides: fields(600, 500, 0, 500), Angles: fields(math.Acos(0.2)*180/math.Pi, math.Acos(0.2)*180/math.Pi)}, trapezoid},
		{"hexagon by angles", sizes.Measured{Way: sizes.ByAngles, Sides: fields(100, 100, 100, 100, 0, 0), Angles: fields(120, 120, 120, 120, 120)}, hex(100)},
		{"hexagon by diagonals", sizes.Measured{Sides: fields(100, 100, 100, 100, 100, 100), Diagonals: fields(100*math.Sqrt(3), 200, 100*math.Sqrt(3))}, hex(100)},
		{"L by angles", sizes.Measured{Way: sizes.ByAngles, Sides: fields(300, 100, 200, 150, 0, 0), Angles: fields(90, 90, 90, 270, 90)},
			[]geom.Vec2{{0, 0}, {300, 0}, {300, 100}, {100, 100}, {100, 250}, {0, 250}}},
	} {
		got, notes, problems := measure(c.m)
		require.Empty(t, problems, c.name)
		sameCorners(t, c.want, got, 1e-9*800, c.name)
		for _, n := range notes {
			assert.False(t, n.Watch, "%s: %s", c.name, n.Text)
			assert.InDelta(t, 0, n.Off, 1e-6, c.name)
		}
	}
}

// TestMeasuredInches: the same shape in inches; its note in mm, as troubles are told.
func TestMeasuredInches(t *testing.T) {
	m := &sizes.Measured{Sides: fields(40, 30, 40, 30), Diagonals: fields(50, 50.5)}
	got, notes, problems := measuredBase(m, fold.Inch, plainSizes(25.4))
	require.Empty(t, problems)
	assert.InDelta(t, 1016, got[1][0], 4)
	require.Len(t, notes, 1)
	assert.Equal(t, "By the other readings the diagonal from front right to back left would be 1270 mm, but 1282.7 mm was read: 12.7 mm off. "+
		"Which of them is wrong they can't tell; measure the diagonals again first, then the others.", notes[0].Text)
	assert.InDelta(t, 12.7, notes[0].Off, 1e-6)
}

// TestMeasuredWords: what is told of readings that don't agree.
func TestMeasuredWords(t *testing.T) {
	for _, c := range []struct {
		m    sizes.Measured
		path string
		want string
	}{
		// A rectangle 800 x 600 whose second diagonal is 4 mm long.
		{sizes.Measured{Sides: fields(800, 600, 800, 600), Diagonals: fields(1000, 1004)}, "diagonals[1]",
			"By the other readings the diagonal from front right to back left would be 1000 mm, but 1004 mm was read: 4 mm off. " +
				"Which of them is wrong they can't tell; measure the diagonals again first, then the others."},
		// An angle is asked and was not read.
		{sizes.Measured{Sides: fields(800, 600, 800, 600), Diagonals: fields(1000, 1004), Angles: make([]sizes.Field, 4)}, "diagonals[1]",
			"By the other readings the diagonal from front right to back left would be 1000 mm, but 1004 mm was read: 4 mm off. " +
				"Which of them is wrong they can't tell; measure the diagonals again first, or measure the angle at front left too."},
		{sizes.Measured{Sides: fields(800, 600, 800, 600), Diagonals: fields(1000, 1000.6)}, "diagonals[1]",
			"More was measured than is needed, and it agrees: by the others, the diagonal from front right to back left would be 1000 mm, and 1000.6 mm was read. The base is fitted to all of it."},
		// With its angles the wrong one can be told.
		{sizes.Measured{Sides: fields(800, 620, 800, 600), Diagonals: fields(1000, 1000), Angles: fields(90, 90, 90, 90)}, "sides[1]",
			"By the other readings the right side would be 600 mm, but 620 mm was read: 20 mm off. The others agree without it: measure it again."},
		{sizes.Measured{Sides: fields(800, 620, 800, 600), Diagonals: fields(1000, 1000), Angles: fields(90, 90)}, "sides[1]",
			"By the other readings the right side would be 600 mm, but 620 mm was read: 20 mm off. " +
				"It or the diagonal from front left to back right is wrong: the others agree without either. Measure both again."},
		{sizes.Measured{Sides: fields(854, 600, 854, 600), Diagonals: fields(math.Hypot(854, 600), 0), Angles: fields(90, 90, 90, 95)}, "angles[3]",
			"The angles add up to 365 degrees and not to 360 degrees. By the other readings the angle at back left would be 90 degrees, but 95 degrees was read: 5 degrees off. " +
				"The others agree without it: measure it again."},
		// 845 written for 854.
		{sizes.Measured{Sides: fields(854, 600, 845, 600), Diagonals: fields(math.Hypot(854, 600), math.Hypot(854, 600)), Angles: fields(90, 90)}, "sides[2]",
			"By the other readings the back would be 854 mm, but 845 mm was read: 9 mm off. The others agree without it: measure it again. 854 mm for the back would agree: did two digits change places?"},
	} {
		_, notes, problems := measure(c.m)
		require.Empty(t, problems)
		require.Len(t, notes, 1)
		assert.Equal(t, measuredPath+"."+c.path, notes[0].Path)
		assert.Equal(t, c.want, notes[0].Text)
	}
	// The two sides of a taper changed about, and a corner that points inwards.
	p := []geom.Vec2{{0, 0}, {700, 0}, {640, 420}, {90, 510}}
	m := read(p)
	m.Sides[1], m.Sides[3] = m.Sides[3], m.Sides[1]
	_, notes, problems := measure(m)
	require.Empty(t, problems)
	require.Len(t, notes, 1)
	assert.Contains(t, notes[0].Text, "All would agree with the right side and the left side changed about: were they?")

	m = read([]geom.Vec2{{0, 0}, {700, 0}, {300, 200}, {0, 600}})
	m.Angles, m.Diagonals = nil, m.Diagonals[:1]
	_, notes, problems = measure(m)
	require.Empty(t, problems)
	require.Len(t, notes, 1)
	assert.Contains(t, notes[0].Text, "The corner at back right points inwards by these readings: 206.57 degrees inside.")
}

// TestMeasuredRefused: what can't be, word for word.
func TestMeasuredRefused(t *testing.T) {
	st := func(at, left, right, wide float64) sizes.Station {
		f := fields(at, left, right, wide)
		s := sizes.Station{At: f[0], Left: f[1], Right: f[2], Wide: f[3]}
		if at == 0 {
			s.At = sizes.Is(0)
		}
		return s
	}
	for _, c := range []struct {
		m    sizes.Measured
		want string
	}{
		{sizes.Measured{Sides: fields(1, 2)}, "sides: found 2 sides; need 3 to 40, in order: the front, and on counter-clockwise seen from above"},
		{sizes.Measured{Sides: make([]sizes.Field, 41)}, "sides: found 41 sides; need 3 to 40, in order: the front, and on counter-clockwise seen from above"},
		{sizes.Measured{Sides: fields(3, 4, 5), Diagonals: fields(3)}, "diagonals[0]: found 1 diagonals; need none: a triangle is given by its sides"},
		{sizes.Measured{Sides: fields(3, 4, 5, 6), Diagonals: fields(3, 4, 5)}, "diagonals[2]: found 3 diagonals; need at most 2 for 4 sides: from the first corner to the third, and on"},
		{sizes.Measured{Sides: fields(3, 4, 5), Angles: fields(0, 0, 0, 60)}, "angles[3]: found 4 angles; need at most 3, one for each corner"},
		{sizes.Measured{Sides: fields(300, -400, 500)}, "sides[1]: found -400 mm; need a length over 0, at most 1000000 mm"},
		{sizes.Measured{Sides: fields(300, 400, 0), Angles: fields(0, 360)}, "angles[1]: found 360; need an angle inside the base, over 0 and under 360 degrees"},
		{sizes.Measured{Sides: fields(300, 400, 500, 1300)}, "sides[3]: found 1300 mm; need less than 1200 mm, which is all the other sides together: sides like these never close"},
		{sizes.Measured{Sides: fields(300, 400, 800)}, "sides[2]: found 800 mm; need less than 700 mm, which is all the other sides together: sides like these never close"},
		{sizes.Measured{Sides: fields(800, 600, 800, 600), Diagonals: fields(1500)}, "diagonals[0]: found 1500 mm; need more than 200 mm and less than 1400 mm: with the front and the right side nothing else closes"},
		{sizes.Measured{Sides: fields(800, 600, 700, 650), Diagonals: fields(0, 100)}, "diagonals[1]: found 100 mm; need more than 150 mm and less than 1300 mm: with the front and the left side nothing else closes"},
		{sizes.Measured{Sides: fields(800, 600, 800, 600)}, "diagonals[0]: found nothing; need the diagonal from front left to back right: without it the base can still change its shape"},
		{sizes.Measured{Sides: fields(800, 600, 800, 0), Diagonals: fields(1000)}, "sides[3]: found nothing; need the left side: without it the base can still change its shape"},
		{sizes.Measured{Sides: fields(800, 600, 0, 0)}, "sides[2]: found nothing; need the back: the base can still change its shape; 3 more readings hold it"},
		{sizes.Measured{Way: sizes.ByAngles, Sides: fields(800, 600, 0, 0), Angles: fields(90, 90)}, "sides[2]: found nothing; need the back: without it the base can still change its shape"},
		{sizes.Measured{Way: sizes.ByAngles, Sides: fields(800, 0, 0, 0), Angles: fields(90, 90, 90, 90)}, "sides[1]: found nothing; need the right side: without it the base can still change its shape"},
		{sizes.Measured{Way: sizes.ByAngles, Sides: fields(0, 0, 0), Angles: fields(60, 60, 60)}, "sides[0]: found nothing; need side 1: without it the base can still change its shape"},
		// Two sides and an angle that the third side can't reach: asin(250/600) is the most.
		{sizes.Measured{Way: sizes.ByAngles, Sides: fields(600, 250, 0), Angles: fields(30)}, "angles[0]: found 30 degrees; need at most about 24.62 degrees, which is as near as the other readings let it come"},
		// No base at all: with sides like these and a diagonal of 700, the other is sqrt(2*800^2 + 2*600^2 - 700^2).
		{sizes.Measured{Sides: fields(800, 600, 800, 600), Diagonals: fields(1000, 700)}, "diagonals[0]: found 1000 mm; need about 1228.8 mm, which the other readings make it, or another reading of them: as they are they agree with no base"},
		// All six together make sides that cross.
		{sizes.Measured{Sides: fields(812, 400, 310, 402), Diagonals: fields(503.3, 504.3)}, "sides[0]: found 812 mm; need about 300 mm, which the other readings make it, or another reading of them: as they are they agree with no base"},
		{sizes.Measured{Way: 7}, "way: found 7; need sides, stations or angles"},
		{sizes.Measured{Way: sizes.ByStations}, "stations: found 0 stations; need 2 to 200: one at the front, one at the back, and where the sides change between"},
		{sizes.Measured{Way: sizes.ByStations, Stations: []sizes.Station{st(0, 0, 0, 100), st(0, 0, 0, 120)}}, "stations[1].at: found 0 mm; need a place that no other station has"},
		{sizes.Measured{Way: sizes.ByStations, Stations: []sizes.Station{st(50, 0, 0, 100), st(90, 0, 0, 120)}}, "stations[0].at: found 50 mm; need a station at 0: the base begins at its front"},
		{sizes.Measured{Way: sizes.ByStations, Stations: []sizes.Station{st(0, 0, 0, 100), st(-90, 0, 0, 120)}}, "stations[1].at: found -90 mm; need 0 or more, from the front towards the back"},
		{sizes.Measured{Way: sizes.ByStations, Stations: []sizes.Station{st(0, 0, 0, 100), {Wide: sizes.Is(3)}}}, "stations[1].at: found nothing; need how far the station lies from the front"},
		{sizes.Measured{Way: sizes.ByStations, Stations: []sizes.Station{st(0, 0, 0, 100), st(500, 50, 0, 0)}}, "stations[1].right: found nothing; need how far the right side lies from the line, or the width"},
		{sizes.Measured{Way: sizes.ByStations, Stations: []sizes.Station{st(0, 0, 0, 100), st(500, 0, 50, 0)}}, "stations[1].left: found nothing; need how far the left side lies from the line, or the width"},
		{sizes.Measured{Way: sizes.ByStations, Stations: []sizes.Station{st(0, 0, 0, 100), st(500, 0, 0, 0)}}, "stations[1].wide: found nothing; need the width there, or how far both sides lie from the line"},
		{sizes.Measured{Way: sizes.ByStations, Stations: []sizes.Station{st(0, 0, 0, 100), st(500, -50, 20, 0)}}, "stations[1].right: found a width of -30 mm; need a width over 0"},
		{sizes.Measured{Way: sizes.ByStations, Stations: []sizes.Station{st(0, 0, 0, 100), st(500, 50, 50, 200)}}, "stations[1].wide: found 200 mm; need about 100 mm, which left and right make together, or another reading of them"},
	} {
		got, notes, problems := measure(c.m)
		if assert.NotEmpty(t, problems, c.want) {
			assert.Equal(t, measuredPath+"."+c.want, problems[0].Error())
		}
		assert.Nil(t, got)
		assert.Nil(t, notes)
	}
	// All that is asked for stands at its own field.
	_, _, problems := measure(sizes.Measured{Sides: fields(800, 600, 0, 0)})
	var paths []string
	for _, p := range problems {
		paths = append(paths, strings.TrimPrefix(p.Path, measuredPath+"."))
	}
	assert.Equal(t, []string{"sides[2]", "sides[3]", "diagonals[0]"}, paths)
	// A field that tells what is wrong itself is not told twice.
	got, _, problems := measuredBase(&sizes.Measured{Sides: fields(3, 4, 5)}, fold.MM, func(string, sizes.Field) (float64, bool) { return 0, false })
	assert.Nil(t, got)
	assert.Empty(t, problems)
}

func TestMeasuredStations(t *testing.T) {
	at := func(at, left, right, wide float64) sizes.Station {
		s := sizes.Station{At: sizes.Is(at)}
		for _, f := range []struct {
			to *sizes.Field
			x  float64
		}{{&s.Left, left}, {&s.Right, right}, {&s.Wide, wide}} {
			if !math.IsNaN(f.x) {
				*f.to = sizes.Is(f.x)
			}
		}
		return s
	}
	no := math.NaN()
	for _, c := range []struct {
		name  string
		s     []sizes.Station
		want  []geom.Vec2
		notes []string
	}{
		{"trapezoid by widths", []sizes.Station{at(0, no, no, 600), at(500, no, no, 400)}, []geom.Vec2{{0, 0}, {600, 0}, {500, 500}, {100, 500}}, nil},
		{"any order", []sizes.Station{at(500, no, no, 400), at(0, no, no, 600)}, []geom.Vec2{{0, 0}, {600, 0}, {500, 500}, {100, 500}}, nil},
		{"a wing's bay, one side straight", []sizes.Station{at(0, 0, 600, no), at(200, 0, 650, no), at(500, no, 640, 640)},
			[]geom.Vec2{{0, 0}, {600, 0}, {650, 200}, {640, 500}, {0, 500}}, nil},
		{"right from width", []sizes.Station{at(0, -10, no, 300), at(200, 20, no, 330)}, []geom.Vec2{{0, 0}, {300, 0}, {300, 200}, {-30, 200}}, nil},
		{"nearly straight", []sizes.Station{at(0, no, no, 600), at(250, no, no, 500.8), at(500, no, no, 400)}, []geom.Vec2{{0, 0}, {600, 0}, {500, 500}, {100, 500}},
			[]string{"The right side is taken as straight past this station: it lies 0.4 mm off the line, less than a tape tells.",
				"The left side is taken as straight past this station: it lies 0.4 mm off the line, less than a tape tells."}},
		{"not straight", []sizes.Station{at(0, 300, 300, no), at(250, 250, 251, no), at(500, 200, 200, no)}, []geom.Vec2{{0, 0}, {600, 0}, {551, 250}, {500, 500}, {100, 500}}, nil},
		{"three readings", []sizes.Station{at(0, 300, 300, 600.6), at(500, 200, 200, no)}, []geom.Vec2{{0, 0}, {600.4, 0}, {500.2, 500}, {100.2, 500}},
			[]string{"Left and right make 600 mm together, and the width was read as 600.6 mm. The base is fitted to all three."}},
		{"three that disagree", []sizes.Station{at(0, 300, 300, 606), at(500, 200, 200, no)}, []geom.Vec2{{0, 0}, {604, 0}, {502, 500}, {102, 500}},
			[]string{"Left and right make 600 mm together, and the width was read as 606 mm. Which of the three is wrong they can't tell: measure them again."}},
	} {
		got, notes, problems := measure(sizes.Measured{Way: sizes.ByStations, Stations: c.s})
		require.Empty(t, problems, c.name)
		sameCorners(t, c.want, got, 1e-9, c.name)
		var texts []string
		for _, n := range notes {
			texts = append(texts, n.Text)
		}
		assert.Equal(t, c.notes, texts, c.name)
	}
}

// read measures a polygon: all that can be.
func read(p []geom.Vec2) sizes.Measured {
	n := len(p)
	var m sizes.Measured
	for i := range p {
		m.Sides = append(m.Sides, sizes.Is(p[(i+1)%n].Sub(p[i]).Len()))
		m.Angles = append(m.Angles, sizes.Is(reading{a: i, angle: true}.model(p)*180/math.Pi))
	}
	for i := 2; i < n-1; i++ {
		m.Diagonals = append(m.Diagonals, sizes.Is(p[i].Sub(p[0]).Len()))
	}
	if n == 4 {
		m.Diagonals = append(m.Diagonals, sizes.Is(p[3].Sub(p[1]).Len()))
	}
	return m
}

func TestCheckOutline(t *testing.T) {
	path := func(i int) string { return fmt.Sprintf("side%d", i) }
	for _, c := range []struct {
		p    []geom.Vec2
		want []string
	}{
		{[]geom.Vec2{{0, 0}, {10, 0}, {10, 10}}, nil},
		{[]geom.Vec2{{0, 0}, {0, 10}, {10, 10}}, nil},
		{[]geom.Vec2{{0, 0}, {10, 0}}, []string{"side0: found 2 corners; need 3 or more"}},
		{[]geom.Vec2{{0, 0}, {10, 0}, {10, 0}, {0, 10}}, []string{"side1: found side 2, from corner 2 to 3, of no length; need corners in different places, or one of the two left out"}},
		{[]geom.Vec2{{0, 0}, {10, 0}, {0, 10}, {0, 0}}, []string{"side3: found side 4, from corner 4 to 1, of no length; need corners in different places, or one of the two left out"}},
		{[]geom.Vec2{{0, 0}, {10, 10}, {10, 0}, {0, 10}}, []string{"side2: found side 3, which meets side 1; need an outline whose sides meet at its corners alone"}},
		{[]geom.Vec2{{0, 0}, {20, 0}, {20, 10}, {10, 0}, {0, 10}}, []string{"side2: found side 3, which meets side 1; need an outline whose sides meet at its corners alone",
			"side3: found side 4, which meets side 1; need an outline whose sides meet at its corners alone"}},
		{[]geom.Vec2{{0, 0}, {10, 0}, {10, 10}, {10, 5}}, []string{"side2: found side 3, which runs back along the side before it; need sides with metal between them"}},
		{[]geom.Vec2{{0, 0}, {10, 0}, {math.NaN(), 10}}, []string{"side2: found a corner that lies nowhere; need corners within 1000000 mm"}},
		{[]geom.Vec2{{0, 0}, {math.Inf(1), 0}, {5, 10}}, []string{"side1: found a corner that lies nowhere; need corners within 1000000 mm"}},
	} {
		var got []string
		for _, p := range checkOutline(c.p, path) {
			got = append(got, p.Error())
		}
		assert.Equal(t, c.want, got)
	}
	// Arcs: a half disc is good; one that bulges the other way, through the side opposite, is not; and a ring cut open.
	disc := around([]geom.Vec2{{0, 0}, {20, 0}, {20, 5}, {0, 5}})
	disc[0].through = &geom.Vec2{10, -10}
	assert.Empty(t, checkLines(disc, path))
	p, side := pieces(disc)
	assert.InDelta(t, 20*5+math.Pi*100/2, geom.Loop(p).Area(), 2)
	assert.Equal(t, []int{0, 1, 2, 3}, slices.Compact(side))
	disc[0].through = &geom.Vec2{10, 10}
	got := checkLines(disc, path)
	require.NotEmpty(t, got)
	assert.EqualError(t, got[0], "side2: found side 3, which meets side 1; need an outline whose sides meet at its corners alone")
	ring := around([]geom.Vec2{{1000, 1}, {1000, -1}, {1001, -1}, {1001, 1}}) // a millimetre wide all round
	ring[0].through, ring[2].through = &geom.Vec2{-1000, 0}, &geom.Vec2{-1001, 0}
	assert.Empty(t, checkLines(ring, path))
}
