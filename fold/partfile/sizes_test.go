package partfile

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

// randomSized is a part by sizes within every bound of Check, in normal form; it need make no sense as a part.
func randomSized(r *rand.Rand) fold.Spec {
	s := fold.Spec{Name: randomName(r), Units: fold.Units(r.IntN(2))}
	s.Sheet.Thickness = size(r, s.Units)
	if r.IntN(2) == 0 {
		s.Sheet.Rule = metal.Rules[r.IntN(len(metal.Rules))].ID
	}
	s.Sizes = (&formMaker{r, s.Units}).form()
	for _, i := range r.Perm(len(s.Sizes.Flanges)) {
		if r.IntN(2) == 0 {
			to := 0.001
			s.Order = append(s.Order, fold.Step{Bends: []string{s.Sizes.Flanges[i].Name}, To: &to})
		}
		if r.IntN(2) == 0 {
			s.Order = append(s.Order, fold.Step{Bends: []string{s.Sizes.Flanges[i].Name}})
		}
	}
	return s
}

type formMaker struct {
	r *rand.Rand
	u fold.Units
}

func (m *formMaker) coin() bool { return m.r.IntN(2) == 0 }

// field is a size of the value: a number, or a formula that comes to it; not given half the time unless it must be.
func (m *formMaker) field(v float64, must bool) sizes.Field {
	if !must && m.coin() {
		return sizes.Field{}
	}
	if v == 0 || m.coin() {
		return sizes.Is(v)
	}
	x := strconv.FormatFloat(max(v, -v), 'f', -1, 64)
	if v < 0 {
		x = "-" + x
	}
	return sizes.Of([]string{x, x + " + nought", "2 * (" + x + ") / 2", "max(" + x + ", " + x + ")"}[m.r.IntN(4)])
}

func (m *formMaker) size(must bool) sizes.Field  { return m.field(size(m.r, m.u), must) }
func (m *formMaker) place(must bool) sizes.Field { return m.field(place(m.r, m.u)[0], must) }
func (m *formMaker) fromNothing() sizes.Field {
	if m.r.IntN(4) == 0 {
		return sizes.Is(0)
	}
	return m.size(false)
}
func (m *formMaker) angle(lo, hi float64, must bool) sizes.Field {
	v := round(m.r, lo+(hi-lo)*m.r.Float64())
	return m.field(min(max(v, lo+0.001), hi), must)
}

func (m *formMaker) relief() sizes.Relief {
	return sizes.Relief{Kind: sizes.ReliefKind(m.r.IntN(4)), Size: m.fromNothing()}
}

// points are those of an outline, which an arc may close, or of an edge.
func (m *formMaker) points(closed bool) (all []sizes.Point) {
	for i := range 3 + m.r.IntN(5) {
		v := sizes.Point{X: m.place(true), Y: m.place(true)}
		if (closed || i > 0) && m.r.IntN(3) == 0 {
			v.Through, v.ThX, v.ThY = true, m.place(true), m.place(true)
		}
		all = append(all, v)
	}
	return all
}

func (m *formMaker) form() *sizes.Form {
	r := m.r
	f := &sizes.Form{Named: []sizes.Named{{Name: "nought", Is: sizes.Is(0)}}, Mirror: m.coin(), Faces: sizes.Faces(r.IntN(3)),
		Radius: m.fromNothing(), Gap: m.fromNothing(), Base: m.base()}
	for i := range r.IntN(4) {
		n := sizes.Named{Name: "größe_" + strconv.Itoa(i), Label: maybeName(r), Angle: m.coin(), Is: m.field(float64(r.IntN(300)), true)}
		f.Named = append(f.Named, n)
	}
	if m.coin() {
		f.Relief = m.relief()
	}
	for i := range r.IntN(6) {
		f.Flanges = append(f.Flanges, m.flange(i))
	}
	for i := range r.IntN(4) {
		c := sizes.Corner{A: strconv.Itoa(i) + suffix(r), B: randomName(r), Close: sizes.Closing(r.IntN(5)), Past: m.place(false),
			Gap: m.fromNothing(), InPlane: m.coin()}
		c.Over = []string{"", c.A, c.B}[r.IntN(3)]
		if m.coin() {
			k := m.relief()
			c.Relief = &k
		}
		f.Corners = append(f.Corners, c)
	}
	for range r.IntN(4) {
		f.Holes = append(f.Holes, m.hole())
	}
	return f
}

func (m *formMaker) base() (b sizes.Base) {
	r := m.r
	b.AtTop = m.coin()
	if m.coin() {
		b.Name = "base" + suffix(r)
	}
	for i := range r.IntN(5) {
		b.Sides = append(b.Sides, strconv.Itoa(i)+suffix(r))
	}
	switch r.IntN(3) {
	case 0:
		b.Wide, b.WideBack, b.Long = m.size(true), m.size(false), m.size(true)
	case 1:
		b.Points = m.points(true)
	default:
		k := &sizes.Measured{Way: sizes.Way(r.IntN(3))}
		for range r.IntN(6) {
			k.Sides = append(k.Sides, m.size(false))
			k.Diagonals = append(k.Diagonals, m.size(false))
		}
		for range r.IntN(6) {
			k.Angles = append(k.Angles, m.angle(0, 359, false))
			k.Stations = append(k.Stations, sizes.Station{At: m.place(true), Left: m.place(false), Right: m.place(false), Wide: m.fromNothing()})
		}
		b.Measured = k
	}
	return b
}

func (m *formMaker) flange(i int) sizes.Flange {
	r := m.r
	l := sizes.Flange{Name: strconv.Itoa(i) + suffix(r), On: randomName(r), Side: maybeName(r), From: m.place(false), To: m.place(false),
		Height: m.size(true), Along: m.coin(), Down: m.coin(), HeightEnd: m.fromNothing(),
		LeanStart: m.angle(-89, 89, false), LeanEnd: m.angle(-89, 89, false)}
	if m.coin() {
		v := sizes.Faces(r.IntN(3))
		l.Faces = &v
	}
	if m.coin() {
		l.RadiusFrom = fold.RadiusKnown[r.IntN(len(fold.RadiusKnown))]
	}
	if m.coin() {
		l.Edge = m.points(false)
		if m.coin() {
			l.Height = sizes.Field{}
		}
	}
	if m.coin() {
		l.Hem = &sizes.Hem{Clear: m.fromNothing(), Teardrop: m.coin()}
	} else {
		l.Angle, l.Radius = m.angle(0, 240, false), m.fromNothing()
	}
	if m.coin() {
		l.Joggle = &sizes.Joggle{At: m.size(true), Depth: m.size(true), Angle: m.angle(0, 90, false), Out: m.coin()}
	}
	return l
}

func (m *formMaker) hole() sizes.Hole {
	r := m.r
	h := sizes.Hole{Name: maybeName(r), On: randomName(r), Side: maybeName(r), FromEnd: m.coin(), X: m.place(false), Y: m.place(false),
		Shape: sizes.HoleShape(r.IntN(4)), Wide: m.size(true), Long: m.size(true), Turn: m.angle(-360, 360, false),
		Count: r.IntN(40), Rows: r.IntN(30), Step: m.place(false), RowStep: m.place(false), Mirrored: m.coin()}
	h.Drilled = m.coin() && h.Shape <= sizes.Slot
	if h.Shape == sizes.Cutout {
		h.Points, h.Wide, h.Long = m.points(true), sizes.Field{}, sizes.Field{}
	}
	return h
}

// A part by sizes comes back from what is written, the same bytes, through a file and through a link.
func TestRandomSizesComeBack(t *testing.T) {
	for seed := uint64(0); seed < seeds; seed++ {
		s := randomSized(rand.New(rand.NewPCG(seed, 4)))
		require.NoError(t, Check(s), "seed %d\n%s", seed, Write(s))
		require.True(t, json.Valid(Write(s)), "seed %d", seed)
		comesBack(t, s)
		got, err := Read(compact(Write(s)))
		require.NoError(t, err, "seed %d", seed)
		require.Equal(t, s, got, "seed %d", seed)
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

const plainSizes = `{"dryfold": 1, "name": "x", "units": "mm", "sheet": {"thickness": 1}, "sizes": {"base": {"wide": 300, "long": 200}}}`

// What is made of the sizes is not written, and makes no other link.
func TestMadeIsNotWritten(t *testing.T) {
	s, err := Read([]byte(plainSizes))
	require.NoError(t, err)
	require.Equal(t, &sizes.Form{Base: sizes.Base{Wide: sizes.Is(300), Long: sizes.Is(200)}}, s.Sizes)
	made := s
	made.Outline = fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{300, 0}}, {At: geom.Vec2{300, 200}}}
	made.Holes = []fold.Hole{{At: geom.Vec2{9, 9}, Diameter: 3}}
	made.Bends = []fold.BendSpec{{Name: "front"}}
	made.Panels = []fold.PanelName{{Name: "floor"}}
	made.Base = "floor"
	made.Seams = []fold.SeamSpec{{Name: "s"}}
	require.NoError(t, Check(made))
	require.Equal(t, string(Write(s)), string(Write(made)))
	a, err := Pack(s)
	require.NoError(t, err)
	b, err := Pack(made)
	require.NoError(t, err)
	require.Equal(t, a, b)
}

// Other ways to say the same.
func TestSizesNormalForm(t *testing.T) {
	read := func(text string) *sizes.Form {
		s, err := Read([]byte(`{"dryfold": 1, "name": "x", "units": "mm", "sheet": {"thickness": 1}, "sizes": ` + text + `}`))
		require.NoError(t, err)
		return s.Sizes
	}
	require.Equal(t, read(`{"base": {"wide": 300, "long": 200}}`),
		read(`{"base": {"wide": 3e2, "long": 200, "at_top": false, "sides": []}, "faces": "outside", "relief": {"kind": "snipped"}, "mirror": false,
			"named": [], "flanges": [], "corners": [], "holes": []}`))
	open := read(`{"base": {"points": [[0, 0], ["8 + 2", 0], [10, 10]]}}`)
	require.Equal(t, open, read(`{"base": {"points": [[0, 0], ["8 + 2", 0], [10, 10], [0, -0]]}}`))
	require.Equal(t, open, read(`{"base": {"points": [[0, 0], ["8 + 2", 0], [10, 10], [0, 0], [0, 0]]}}`))
	closing := read(`{"base": {"points": [[0, 0], [10, 0], {"through": ["9", 9], "to": [0, 0]}]}}`)
	require.Equal(t, []sizes.Point{{X: sizes.Is(0), Y: sizes.Is(0), Through: true, ThX: sizes.Of("9"), ThY: sizes.Is(9)}, {X: sizes.Is(10), Y: sizes.Is(0)}}, closing.Base.Points)

	// A form made in memory is written as it would be read.
	s := fold.Spec{Name: "x", Sheet: fold.Sheet{Thickness: 1}, Sizes: &sizes.Form{Base: sizes.Base{Wide: sizes.Field{Formula: "30 + 2", Number: 7, Given: true},
		WideBack: sizes.Field{Number: 3}, Long: sizes.Is(3), Points: []sizes.Point{}}, Flanges: []sizes.Flange{}}}
	again, err := Read(Write(s))
	require.NoError(t, err)
	require.Equal(t, &sizes.Form{Base: sizes.Base{Wide: sizes.Of("30 + 2"), Long: sizes.Is(3)}}, again.Sizes)
	require.Equal(t, 7.0, s.Sizes.Base.Wide.Number, "the form given stays as it is")
}

// The exact bytes of a part by sizes, every field used.
func TestWriteSizesLayout(t *testing.T) {
	inside := sizes.Inside
	s := fold.Spec{Name: "Tray", Units: fold.MM, Sheet: fold.Sheet{Thickness: 1},
		Sizes: &sizes.Form{
			Named:  []sizes.Named{{Name: "rail", Is: sizes.Is(450), Label: "Between the rails"}, {Name: "lean", Is: sizes.Of("10 + 2"), Angle: true}},
			Faces:  sizes.Card,
			Radius: sizes.Is(1.5), Gap: sizes.Is(0.5), Relief: sizes.Relief{Kind: sizes.Drilled, Size: sizes.Is(5)}, Mirror: true,
			Base: sizes.Base{Name: "floor", Sides: []string{"front", "right", "back"}, AtTop: true, Measured: &sizes.Measured{Way: sizes.ByStations,
				Sides: []sizes.Field{sizes.Is(300), {}, sizes.Of("rail - 12")}, Diagonals: []sizes.Field{{}, sizes.Is(700)}, Angles: []sizes.Field{{}, sizes.Is(90)},
				Stations: []sizes.Station{{At: sizes.Is(0), Wide: sizes.Is(300)}, {At: sizes.Is(600), Left: sizes.Is(140), Right: sizes.Is(150)}}}},
			Flanges: []sizes.Flange{{Name: "wall", On: "floor", Side: "front", From: sizes.Is(0), To: sizes.Is(-2), Height: sizes.Of("rail / 6"), Along: true,
				Faces: &inside, Angle: sizes.Of("90 - lean"), Down: true, Radius: sizes.Is(2), RadiusFrom: "nose", HeightEnd: sizes.Is(60),
				Edge:      []sizes.Point{{X: sizes.Is(0), Y: sizes.Is(75)}, {X: sizes.Of("rail"), Y: sizes.Is(70), Through: true, ThX: sizes.Is(200), ThY: sizes.Is(90)}},
				LeanStart: sizes.Is(5), LeanEnd: sizes.Is(-5), Joggle: &sizes.Joggle{At: sizes.Is(20), Depth: sizes.Is(1.2), Angle: sizes.Is(45), Out: true}},
				{Name: "hem", On: "wall", Height: sizes.Is(8), Hem: &sizes.Hem{Clear: sizes.Is(0), Teardrop: true}}, {Name: "lip", On: "floor", Side: "back", Height: sizes.Is(8), Hem: &sizes.Hem{}}},
			Corners: []sizes.Corner{{A: "wall", B: "lip", Close: sizes.Lap, Over: "lip", Past: sizes.Is(12), Gap: sizes.Is(0), Relief: &sizes.Relief{Kind: sizes.Bare}, InPlane: true}},
			Holes: []sizes.Hole{{Name: "drain", On: "floor", Side: "right", FromEnd: true, X: sizes.Is(20), Y: sizes.Is(30), Shape: sizes.Slot, Wide: sizes.Is(6), Long: sizes.Is(20),
				Turn: sizes.Is(45), Drilled: true, Count: 3, Rows: 2, Step: sizes.Is(40), RowStep: sizes.Of("rail / 9"), Mirrored: true},
				{On: "wall", X: sizes.Is(9), Y: sizes.Is(9), Wide: sizes.Is(5)},
				{On: "wall", Shape: sizes.Cutout, Points: []sizes.Point{{X: sizes.Is(0), Y: sizes.Is(0), Through: true, ThX: sizes.Is(5), ThY: sizes.Is(9)}, {X: sizes.Is(9), Y: sizes.Is(0)}}}},
		},
		Order: []fold.Step{{Bends: []string{"hem", "wall"}}}}
	require.NoError(t, Check(s))
	comesBack(t, s)
	require.Equal(t, `{
  "dryfold": 1,
  "name": "Tray",
  "units": "mm",
  "sheet": {"thickness": 1},
  "sizes": {
    "named": [
      {"name": "rail", "is": 450, "label": "Between the rails"},
      {"name": "lean", "is": "10 + 2", "angle": true}
    ],
    "faces": "card",
    "radius": 1.5,
    "gap": 0.5,
    "relief": {"kind": "drilled", "size": 5},
    "mirror": true,
    "base": {
      "name": "floor",
      "sides": ["front", "right", "back"],
      "at_top": true,
      "measured": {
        "way": "stations",
        "sides": [300, "?", "rail - 12"],
        "diagonals": ["?", 700],
        "angles": ["?", 90],
        "stations": [
          {"at": 0, "wide": 300},
          {"at": 600, "left": 140, "right": 150}
        ]
      }
    },
    "flanges": [
      {"name": "wall", "on": "floor", "side": "front", "from": 0, "to": -2, "height": "rail / 6", "along": true, "faces": "inside", "angle": "90 - lean", "down": true, "radius": 2, "radius_from": "nose", "height_end": 60, "edge": [[0, 75], {"through": [200, 90], "to": ["rail", 70]}], "lean_start": 5, "lean_end": -5, "joggle": {"at": 20, "depth": 1.2, "angle": 45, "out": true}},
      {"name": "hem", "on": "wall", "height": 8, "hem": {"clear": 0, "teardrop": true}},
      {"name": "lip", "on": "floor", "side": "back", "height": 8, "hem": {}}
    ],
    "corners": [
      {"a": "wall", "b": "lip", "close": "lap", "over": "lip", "past": 12, "gap": 0, "relief": {"kind": "none"}, "in_plane": true}
    ],
    "holes": [
      {"name": "drain", "on": "floor", "side": "right", "from_end": true, "x": 20, "y": 30, "shape": "slot", "wide": 6, "long": 20, "turn": 45, "drilled": true, "count": 3, "rows": 2, "step": 40, "row_step": "rail / 9", "mirrored": true},
      {"on": "wall", "x": 9, "y": 9, "wide": 5},
      {"on": "wall", "shape": "cutout", "points": [[0, 0], [9, 0], {"through": [5, 9], "to": [0, 0]}]}
    ]
  },
  "order": [
    ["hem", "wall"]
  ]
}
`, string(Write(s)))

	s.Sizes.Base = sizes.Base{WideBack: sizes.Is(250), Wide: sizes.Is(300), Long: sizes.Is(400)}
	require.Contains(t, string(Write(s)), "\n    \"base\": {\"wide\": 300, \"wide_back\": 250, \"long\": 400},\n")
	s.Sizes.Base = sizes.Base{Points: []sizes.Point{{X: sizes.Is(0), Y: sizes.Is(0)}, {X: sizes.Is(9), Y: sizes.Is(0)}, {X: sizes.Is(0), Y: sizes.Is(9)}}}
	require.Contains(t, string(Write(s)), "\n    \"base\": {\n      \"points\": [\n        [0, 0], [9, 0], [0, 9]\n      ]\n    },\n")
}

// A part that its sizes make can be frozen: its blank is one that a file may hold, and comes back from it.
func TestMadePartsCanBeFrozen(t *testing.T) {
	made := 0
	for seed := uint64(0); seed < 120; seed++ {
		r := rand.New(rand.NewPCG(seed, 6))
		s := shape.Starters[int(seed)%len(shape.Starters)].Make(fold.Units(r.IntN(2)))
		for i := range s.Sizes.Named {
			if n := &s.Sizes.Named[i]; n.Angle {
				n.Is = sizes.Is(n.Is.Number + 30*(r.Float64()-0.5))
			} else {
				n.Is = sizes.Is(n.Is.Number * math.Exp(r.Float64()-0.5))
			}
		}
		if Check(s) != nil {
			continue // an angle of less than nothing
		}
		m, wrong := shape.Make(s)
		if len(wrong) > 0 {
			for _, w := range wrong {
				require.NotEmpty(t, w.Path, "seed %d", seed)
			}
			continue
		}
		made++
		frozen := m.Spec
		frozen.Sizes = nil
		require.NoError(t, Check(frozen), "seed %d\n%s", seed, Write(s))
		got, err := Read(Write(frozen))
		require.NoError(t, err, "seed %d", seed)
		require.Equal(t, normal(frozen), got, "seed %d", seed)
		require.Equal(t, string(Write(s)), string(Write(m.Spec)), "seed %d: with its sizes it is the same file", seed)
	}
	require.Greater(t, made, 80)
}
