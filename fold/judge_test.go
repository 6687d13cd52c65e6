package fold

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

// closedRing is a closed tube of five flats, 90 degrees each: the last wall comes to lie against the first's edge. short is what the last
// wall is short by (its gap); low is how far its face stands off the first's.
func closedRing(t, short, low float64) Spec {
	s := strip(t, []section{plain(20), plain(30), plain(40), plain(30 - low), plain(20 - short)},
		[]fold1{{90, 1, true}, {90, 1, true}, {90, 1, true}, {90, 1, true}})
	length := 0.0
	for _, v := range s.Outline {
		length = max(length, v.At[0])
	}
	s.Seams = []SeamSpec{{Name: "joint", A: geom.Vec2{0, 10}, B: geom.Vec2{length, 10}}}
	return s
}

func asJSON(t *testing.T, v any) string {
	b, err := json.Marshal(v)
	require.NoError(t, err)
	return string(b)
}

func theSeam(t *testing.T, s Spec) (*Part, Report, *SeamReport) {
	p := Build(s)
	require.True(t, p.Foldable, "%v", p.Troubles)
	r := p.Quick()
	require.Len(t, r.Seams, 1)
	return p, r, &r.Seams[0]
}

func rulesOf(r *Report) (out []string) {
	for _, t := range r.Troubles {
		out = append(out, t.Rule)
	}
	return out
}

// Every number in code stands in its row of the list, with the mark that it is used with; rows that are not used are those that
// fitup.go says give no figure for a gap.
func TestFitUpRows(t *testing.T) {
	f, err := os.Open("../testdata/published/weld_fitup.csv")
	require.NoError(t, err)
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	rows := map[string][]string{}
	for _, r := range all[1:] {
		rows[r[0]] = r
	}
	used := map[string]bool{burnRow: true}
	check := func(f fitRow, texts ...string) {
		r := rows[f.row]
		require.NotNil(t, r, f.row)
		used[f.row] = true
		want := map[string][]string{"published": {"read"}, "from memory": {"from memory"}}[f.kind]
		require.Contains(t, want, r[3], f.row)
		if f.kind == "from memory" {
			require.Contains(t, f.say, "from memory")
		}
		for _, x := range texts {
			require.Contains(t, r[0]+": "+r[1], x)
		}
	}
	require.Len(t, fitRows, 4)
	check(fitRows[0], "3/16 in", "0 to 1/32 in (0-0.8 mm)")
	require.Equal(t, []float64{3. / 16 * 25.4, 0.8, 0, 0}, []float64{fitRows[0].to, fitRows[0].widest, fitRows[0].perThick, fitRows[0].least})
	check(fitRows[1], "3/16-1/4 in", "(0.8-2.4 mm)")
	require.Equal(t, []float64{3. / 16 * 25.4, 25.4 / 4, 0.8, 2.4, 0}, []float64{fitRows[1].over, fitRows[1].to, fitRows[1].least, fitRows[1].widest, fitRows[1].perThick})
	check(fitRows[2], "t <= 4 mm", "gap b about = t")
	require.Equal(t, []float64{4, 0, 1}, []float64{fitRows[2].to, fitRows[2].widest, fitRows[2].perThick})
	check(fitRows[3], "t 0.5-3 mm", "C 0.3 mm+0.1a")
	require.InDeltaSlice(t, []float64{0.5, 3, 0.3, 0.07}, []float64{fitRows[3].over, fitRows[3].to, fitRows[3].widest, fitRows[3].perThick}, 1e-15)
	check(stepRow, "t 0.5-3 mm", "C 0.2 mm+0.15t")
	require.Equal(t, []float64{0.5, 3, 0.2, 0.15}, []float64{stepRow.over, stepRow.to, stepRow.widest, stepRow.perThick})
	require.Contains(t, rows[burnRow][1], "1/16 in")
	require.Equal(t, []string{"common practice", "read"}, rows[burnRow][2:])
	var left []string
	for name := range rows {
		if !used[name] {
			left = append(left, name)
		}
	}
	slices.Sort(left)
	require.Equal(t, []string{"AWS D1.3 scope", "ISO 5817 no.402 incomplete root, one-side butt, t 0.5-3 mm", "ISO 9692-1 root gap meaning",
		"square groove limit", "tack spacing thin sheet"}, left)
}

// Which figure holds for which joint, way, process, thickness and metal.
func TestGapLimits(t *testing.T) {
	pt := func(t float64, metal string) *Part {
		return &Part{Thickness: t, Spec: Spec{Sheet: Sheet{Metal: metal}}}
	}
	weld := func(process string) closing { return closing{way: "weld", process: process} }
	for _, c := range []struct {
		t       float64
		metal   string
		c       closing
		joint   string
		most    float64 // 0: none
		kind    string
		says    string
		neither string
	}{
		{1, "", weld("short arc"), jointButt, 0.8, "published", "1/32 in for short-arc", "not said"},
		{0.6, "", weld("short arc"), jointButt, 0.6, "from memory", "ISO 9692-1", "not said"}, // the narrowest that counts
		{1, "", weld("tig"), jointButt, 1, "from memory", "ISO 9692-1", "short"},
		{1, "", weld(""), jointButt, 1, "from memory", "for short arc 0.8 mm is published, and your process is not said", "burns"},
		{0.9, "", weld(""), jointButt, 0.9, "from memory", "a gap of 1/16 in already burns through in 20 gauge", ""},
		{4.5, "", weld(""), jointButt, 0, "none", "for short arc 0.8 mm is published, and your process is not said", ""},
		{4.5, "", weld("gas"), jointButt, 0, "none", "no published figure for welding butt joints of this thickness or metal by gas", "short arc"},
		{3. / 16 * 25.4, "", weld("short arc"), jointButt, 0.8, "published", "", ""},
		{3. / 16 * 25.4, "", weld("spray arc"), jointButt, 0, "none", "", ""},
		{5, "", weld("spray arc"), jointButt, 2.4, "published", "1/32 to 3/32 in", ""},
		{6.35, "", weld("spray arc"), jointButt, 2.4, "published", "", ""},
		{6.4, "", weld("spray arc"), jointButt, 0, "none", "", ""},
		{1, "", weld("spray arc"), jointButt, 1, "from memory", "ISO 9692-1", ""},
		{1, "aluminium", weld("tig"), jointButt, 0, "none", "no published figure", ""},
		{1, "stainless", weld("tig"), jointButt, 1, "from memory", "", ""},
		{1, "", weld(""), jointFillet, 0.37, "from memory", "no. 617 level C", ""},
		{0.4, "", weld(""), jointFillet, 0, "none", "", ""},
		{0.5, "", weld(""), jointFillet, 0.335, "from memory", "", ""},
		{1, "", weld("tig"), jointOpen, 0, "none", "no published figure for welding open outside corners by tig", ""},
		{1, "", weld("short arc"), jointClosed, 0, "none", "no published figure for welding closed outside corners by short arc", ""},
		{1, "", weld(""), jointLap, 0, "none", "no published figure", ""},
		{1, "", closing{way: "rivet"}, jointLap, 0, "none", "no published figure for riveted seams", ""},
		{1, "", closing{way: "spot"}, jointLap, 0, "none", "no published figure for spot welds", ""},
		{1, "", closing{way: "sealant"}, jointButt, 0, "none", "no published figure for seams closed with sealant", ""},
		{1, "", closing{}, jointButt, 0, "none", "yours is not said", ""},
		{1, "", closing{way: "open", widest: number(3)}, jointButt, 0, "none", "left open", ""},
		{1, "", closing{way: "rivet", widest: number(0.2)}, jointLap, 0.2, "yours", "that you close", ""},
		{1, "", closing{way: "weld", process: "short arc", widest: number(2)}, jointButt, 2, "yours", "", ""},
	} {
		l := pt(c.t, c.metal).gapLimit(Seam{}, c.c, c.joint)
		info := fmt.Sprintf("%+v: %+v", c, l)
		require.Equal(t, c.kind, l.kind, info)
		require.Contains(t, l.from, c.says, info)
		if c.neither != "" {
			require.NotContains(t, l.from, c.neither, info)
		}
		if c.most == 0 {
			require.Nil(t, l.most, info)
			continue
		}
		require.InDelta(t, c.most, *l.most, 1e-12, info)
	}
	// The maker's widest goes before all. A wanted gap and what marking and cutting take hold too, but for a list's figure of just such a
	// weld that is less; where no list speaks of the weld that is told.
	const wanted = "the wanted gap of 0.6 mm and 0.5 mm for marking and cutting (common practice)"
	for _, c := range []struct {
		t      float64
		wanted float64
		c      closing
		joint  string
		most   float64
		least  float64
		kind   string
		from   string
	}{
		{1, 0.6, closing{}, jointButt, 1.1, 0, "common practice", wanted},
		{1, 0.6, closing{way: "rivet"}, jointLap, 1.1, 0, "common practice", wanted},
		{1, 0.6, closing{way: "weld", widest: number(0.7)}, jointButt, 0.7, 0, "yours", "the widest that you close"},
		{1, 0.6, weld("short arc"), jointButt, 0.8, 0, "published", fitRows[0].say},
		{1, 0.3, weld("short arc"), jointButt, 0.8, 0, "common practice", strings.Replace(wanted, "0.6", "0.3", 1)},
		{1, 1.2, weld("short arc"), jointButt, 0.8, 0, "published", fitRows[0].say},
		{5, 0.6, weld("spray arc"), jointButt, 1.1, 0.8, "common practice", wanted},
		{1, 0.6, weld("tig"), jointOpen, 1.1, 0, "common practice", wanted + "; no published figure for welding open outside corners by tig"},
		{1, 0.6, weld(""), jointOpen, 1.1, 0, "common practice", wanted + "; no published figure for welding open outside corners"},
		{1, 0.6096, closing{}, jointOpen, 1.1096, 0, "common practice", strings.Replace(wanted, "0.6", "0.61", 1)},
	} {
		l := pt(c.t, "").gapLimit(Seam{Wanted: number(c.wanted)}, c.c, c.joint)
		info := fmt.Sprintf("%+v: %+v", c, l)
		require.InDelta(t, c.most, *l.most, 1e-12, info)
		require.Equal(t, []any{c.least, c.kind, c.from}, []any{l.least, l.kind, l.from}, info)
		require.Equal(t, c.least > 0, l.leastFrom == fitRows[1].say, info)
	}
}

// How a seam is closed: by its own JoinSpec, its own words, the JoinSpec for all.
func TestClosing(t *testing.T) {
	p := &Part{Spec: Spec{Units: Inch, Joins: []JoinSpec{
		{Way: "weld", Process: "tig", Widest: number(0.02)}, {Seam: "b", Way: "rivet"}, {Seam: "c", Widest: number(0.1)}, {Seam: "d", Process: "gas"}}}}
	got := func(s Seam) string {
		c := p.closing(s)
		w := "-"
		if c.widest != nil {
			w = fmt.Sprintf("%.2f", *c.widest)
		}
		return c.way + "/" + c.process + "/" + w
	}
	for _, c := range []struct {
		s    Seam
		want string
	}{
		{Seam{Name: "a"}, "weld/tig/0.51"},
		{Seam{Name: "a", Join: "tacked"}, "weld/tig/0.51"},
		{Seam{Name: "a", Join: "spot"}, "spot//0.51"},
		{Seam{Name: "a", Open: true}, "open//0.51"},
		{Seam{Name: "b"}, "rivet//-"},
		{Seam{Name: "b", Open: true}, "rivet//-"}, // said of this very seam, and later than the file's mark
		{Seam{Name: "c"}, "//2.54"},               // nothing of the one for all
		{Seam{Name: "c", Join: "weld"}, "weld//2.54"},
		{Seam{Name: "d"}, "weld/gas/-"},
	} {
		require.Equal(t, c.want, got(c.s), "%+v", c.s)
	}
	p.Spec.Joins = nil
	require.Equal(t, "//-", got(Seam{Name: "a"}))
}

// Verdicts of the exact part: one trouble for each seam that a limit speaks of, one for all that nobody speaks of.
func TestJudge(t *testing.T) {
	with := func(s Spec, j ...JoinSpec) Spec { s.Joins = j; return s }
	for _, c := range []struct {
		name  string
		spec  Spec
		state string
		kind  string
		rules []string
		weld  float64
	}{
		{"half the thickness, nobody speaks", closedRing(1, 0.5, 0), "ok", "none", nil, 0},
		{"a hair more", closedRing(1, 0.501, 0), "watch", "none", []string{"seam-no-figure"}, 0},
		{"short arc", with(closedRing(1, 0.8, 0), JoinSpec{Way: "weld", Process: "short arc"}), "ok", "published", nil, 100},
		{"short arc, a hair more", with(closedRing(1, 0.801, 0), JoinSpec{Way: "weld", Process: "short arc"}), "watch", "published", []string{"seam-wide"}, 100},
		{"mine is wider", with(closedRing(1, 1.2, 0), JoinSpec{Way: "weld", Process: "short arc", Widest: number(1.2)}), "ok", "yours", nil, 100},
		{"mine is narrower", with(closedRing(1, 0.3, 0), JoinSpec{Widest: number(0.25)}), "watch", "yours", []string{"seam-wide"}, 0},
		{"spray arc, too near", with(closedRing(5, 0.5, 0), JoinSpec{Way: "weld", Process: "spray arc"}), "watch", "published", []string{"seam-tight"}, 100},
		{"spray arc", with(closedRing(5, 0.9, 0), JoinSpec{Way: "weld", Process: "spray arc"}), "ok", "published", nil, 100},
		{"open", with(closedRing(1, 4, 0.7), JoinSpec{Way: "open"}), "ok", "none", nil, 0},
		{"step under half", closedRing(1, 0.3, 0.45), "ok", "none", nil, 0},
		{"step under half, welded", with(closedRing(1, 0.3, 0.45), JoinSpec{Way: "weld", Process: "tig"}), "watch", "from memory", []string{"seam-step"}, 100},
		{"step of 0.35, welded", with(closedRing(1, 0.3, 0.3499), JoinSpec{Way: "weld", Process: "tig"}), "ok", "from memory", nil, 100},
		{"in each other", with(closedRing(1, -0.3, 0), JoinSpec{Way: "weld"}), "stop", "from memory", []string{"seam-overlap"}, 100},
		{"no such seam", with(closedRing(1, 0.2, 0), JoinSpec{Seam: "left corner", Way: "weld"}), "ok", "none", []string{"seam-join"}, 0},
	} {
		_, r, s := theSeam(t, c.spec)
		info := fmt.Sprintf("%s: gap %v, step %v, %v %s, %v", c.name, s.GapMax, s.Step, s.Limit, s.LimitFrom, r.Troubles)
		require.Equal(t, c.state, s.State, info)
		require.Equal(t, c.kind, s.LimitKind, info)
		require.Equal(t, c.rules, rulesOf(&r), info)
		require.InDelta(t, c.weld/100*s.Length, r.Weld, 1e-9, info)
		require.Equal(t, c.kind == "none", s.Limit == nil, info)
	}
}

// With Spread the verdict is by what 95 of 100 stay within: watch, never stop, in one trouble for the part. Judged again without, all
// is as it was before.
func TestJudgeSpread(t *testing.T) {
	s := closedRing(1, 0.4, 0)
	s.Joins = []JoinSpec{{Way: "weld", Process: "short arc"}}
	p, r, seam := theSeam(t, s)
	r.Troubles = append([]TroubleReport{{Rule: "sharp-bend"}}, append(r.Troubles, TroubleReport{Rule: "clash"})...)
	before := asJSON(t, r)

	seam.Spread = &SeamSpread{Least: Spread{Low: 0.1}, Widest: Spread{High: 0.79}, Watch: "Watch the angle of b2."}
	r.Spread = &SpreadReport{}
	p.JudgeSeams(&r)
	require.Equal(t, "ok", seam.State)
	require.Equal(t, []string{"sharp-bend", "clash"}, rulesOf(&r))
	require.InDelta(t, 20, r.Spread.Weld, 1e-9)

	seam.Spread.Widest.High = 0.83
	for range 2 { // again, and nothing doubles
		p.JudgeSeams(&r)
		require.Equal(t, "watch", seam.State)
		require.Equal(t, []string{"sharp-bend", "seam-spread", "clash"}, rulesOf(&r))
		require.Equal(t, "By the errors of hand and machine 1 seam may open past its limit. Most of all "+seam.Name+
			": 0.40 mm as drawn, 95 of 100 stay under 0.83 mm, and the limit is 0.80 mm. Watch the angle of b2.", r.Troubles[1].Message)
		require.Equal(t, 0.83, *r.Troubles[1].Have)
		require.Equal(t, 0.8, *r.Troubles[1].Need)
	}
	seam.Spread.Least.Low = -0.6
	p.JudgeSeams(&r)
	require.Equal(t, "watch", seam.State)
	require.Contains(t, r.Troubles[1].Message, "1 seam may open past its limit and 1 seam may touch before its panels are at their angles: be ready to dress the edge. Most of all ")
	seam.Spread.Widest.High = 0.7
	p.JudgeSeams(&r)
	require.Contains(t, r.Troubles[1].Message, ": 0.40 mm as drawn, and in 5 of 100 its panels meet 0.60 mm too soon.")
	require.Equal(t, "watch", seam.State)

	seam.Spread, r.Spread = nil, nil
	p.JudgeSeams(&r)
	require.Equal(t, before, asJSON(t, r))

	// Where nobody gives a limit, the spread decides too.
	p, r, seam = theSeam(t, closedRing(1, 0.4, 0))
	require.Equal(t, "ok", seam.State)
	seam.Spread = &SeamSpread{Least: Spread{Low: 0.1}, Widest: Spread{High: 0.6}}
	p.JudgeSeams(&r)
	require.Equal(t, "watch", seam.State)
	require.Equal(t, []string{"seam-no-figure"}, rulesOf(&r))
	require.Contains(t, r.Troubles[0].Message, "1 seam may open past half the thickness, and nobody says how wide is too wide: joint (may open to 0.6 mm).")
	// What may open to no more than half the thickness as it is shown is told with more places.
	seam.Spread.Widest.High = 0.504
	p.JudgeSeams(&r)
	require.Contains(t, r.Troubles[0].Message, "(may open to 0.504 mm)")
}

// A seam that is too wide as drawn is told with what to do, and where.
func TestWideRemedy(t *testing.T) {
	s := closedRing(1, 1.7, 0)
	s.Seams[0].Gap = number(0.4)
	_, r, seam := theSeam(t, s)
	require.Equal(t, []string{"seam-wide"}, rulesOf(&r))
	require.Equal(t, fmt.Sprintf("The seam joint opens to 1.70 mm as drawn, all along; 0.90 mm is the limit here: the wanted gap of 0.4 mm and 0.5 mm for marking and cutting (common practice). "+
		"That is 1.30 mm farther apart than wanted: make %s or %s so much wider all along.", seam.A, seam.B), r.Troubles[0].Message)
	s = closedRing(1, 1.25, 0)
	s.Joins = []JoinSpec{{Widest: number(1)}}
	_, r, seam = theSeam(t, s)
	require.Contains(t, r.Troubles[0].Message, fmt.Sprintf("is the limit here: the widest that you close. Make %s or %s at least 0.25 mm wider all along.", seam.A, seam.B))
	// At an end.
	p, r, seam := theSeam(t, closedRing(1, 0.4, 0))
	seam.GapMin, seam.GapMax, seam.MaxAt = 0.1, 2.4, seam.Length
	ends := p.Ends(seam)
	j := seamJudge{part: p}
	require.Contains(t, j.wide(seam, 1, "a list"), " "+AtEnd(ends[1])+"; 1.00 mm is the limit here: a list. ")
	require.Contains(t, j.wide(seam, 1, "a list"), " 1.40 mm wider there.")
}

func TestAtEnd(t *testing.T) {
	for end, want := range map[string]string{"foot": "at its foot", "top": "at its top", "at back": "at its end at back", "free end": "at its free end",
		"one end": "at one end", "other end": "at its other end"} {
		require.Equal(t, want, AtEnd(end))
	}
}

// Rivets and spot welds want an overlap; all seams without make one trouble.
func TestNoOverlap(t *testing.T) {
	s := closedRing(1, 0.3, 0)
	for way, what := range map[string]string{"rivet": "rivet", "spot": "spot weld"} {
		s.Joins = []JoinSpec{{Way: way}}
		p, r, seam := theSeam(t, s)
		require.Equal(t, jointButt, seam.Joint)
		require.Equal(t, "watch", seam.State)
		require.Equal(t, []string{"seam-join"}, rulesOf(&r))
		require.Equal(t, "watch", r.Troubles[0].Severity)
		require.Equal(t, "At the seam joint there is no overlap to "+what+" through; give one panel a tab, or close it in another way.", r.Troubles[0].Message)
		more := *seam
		more.Name = "other"
		r.Seams = append(r.Seams, more)
		p.JudgeSeams(&r)
		require.Equal(t, []string{"seam-join"}, rulesOf(&r))
		require.Contains(t, r.Troubles[0].Message, "At the seams joint and other there is no overlap")
		for _, joint := range []string{jointLap, jointEdge} {
			for i := range r.Seams {
				r.Seams[i].Joint = joint
			}
			p.JudgeSeams(&r)
			require.Empty(t, r.Troubles, joint)
			require.Equal(t, "ok", r.Seams[0].State)
		}
	}
	s.Joins = []JoinSpec{{Way: "sealant"}}
	_, r, _ := theSeam(t, s)
	require.Empty(t, r.Troubles)
}

// A corner's own trouble of a step stands for the seam's.
func TestJudgeKeepsCornerStep(t *testing.T) {
	p, r, seam := theSeam(t, closedRing(1, 0.3, 0.6))
	require.Equal(t, []string{"seam-step"}, rulesOf(&r))
	r.Troubles = []TroubleReport{{Severity: "watch", Rule: "corner-step", Where: TroubleWhere{Seam: seam.Name}}}
	p.JudgeSeams(&r)
	require.Equal(t, []string{"corner-step"}, rulesOf(&r))
	require.Equal(t, "watch", seam.State)
}

// Many seams that nobody speaks of make one trouble, which lists the first few.
func TestOneTroubleForAll(t *testing.T) {
	p, r, seam := theSeam(t, closedRing(1, 0.9, 0))
	one := *seam
	for i := range 8 {
		k := one
		k.Name = fmt.Sprint("seam ", i)
		r.Seams = append(r.Seams, k)
	}
	p.JudgeSeams(&r)
	require.Equal(t, []string{"seam-no-figure"}, rulesOf(&r))
	msg := r.Troubles[0].Message
	require.True(t, strings.HasPrefix(msg, "9 seams open past half the thickness, and nobody says how wide is too wide: "), msg)
	require.Contains(t, msg, "and 3 more")
}

// Kinds of joint in closed cases. Two strips lie on a line or at a turn: wall b stands on the edge of the floor, its own edge
// against a's in every way.
func TestJoints(t *testing.T) {
	// flats, turns (up) and the joint of the seam named from the first flat's free edge to the last's.
	for _, c := range []struct {
		name  string
		flats []float64
		turns []float64
		want  string
	}{
		// A ring: the last flat comes back to the first's free edge, in one plane with it.
		{"in one plane", []float64{20, 30, 40, 30, 19.5}, []float64{90, 90, 90, 90}, jointButt},
		{"nearly", []float64{20, 30, 40, 30, 19.5}, []float64{90, 90, 90, 88}, jointButt},
		{"on top", []float64{20, 30, 40, 28.4, 25}, []float64{90, 90, 90, 90}, jointLap},
		{"barely on top", []float64{20, 30, 40, 28.4, 20.7}, []float64{90, 90, 90, 90}, jointButt},
		// A square tube of four flats: the last wall's edge at the first's free edge.
		{"corner, edge to edge", []float64{40, 40, 40, 40}, []float64{90, 90, 90}, jointOpen},
		{"corner, covered", []float64{42.2, 40, 40, 39}, []float64{90, 90, 90}, jointClosed},
		{"corner, half covered and a little", []float64{41.8, 40, 40, 39}, []float64{90, 90, 90}, jointClosed},
		{"tee", []float64{46, 40, 40, 39}, []float64{90, 90, 90}, jointFillet},
		// A triangle of 60 degrees inside.
		{"sharp corner", []float64{40, 40, 40}, []float64{120, 120}, jointOpen},
		// A flattened tube: the walls come to lie face to face, ends flush or not.
		{"face to face, flush", []float64{30, 5, 30}, []float64{90, 90}, jointEdge},
		{"face to face, not flush", []float64{30, 3, 25}, []float64{90, 90}, jointLap},
	} {
		var secs []section
		var bends []fold1
		for _, f := range c.flats {
			secs = append(secs, plain(f))
		}
		for _, a := range c.turns {
			bends = append(bends, fold1{a, 1, true})
		}
		s := strip(1, secs, bends)
		length := 0.0
		for _, v := range s.Outline {
			length = max(length, v.At[0])
		}
		s.Seams = []SeamSpec{{Name: "joint", A: geom.Vec2{0, 10}, B: geom.Vec2{length, 10}}}
		p := Build(s)
		require.True(t, p.Foldable, "%s: %v", c.name, p.Troubles)
		r := p.Quick()
		require.NotEmpty(t, r.Seams, "%s: %v", c.name, r.Troubles)
		require.Equal(t, c.want, r.Seams[0].Joint, "%s: gap %v to %v", c.name, r.Seams[0].GapMin, r.Seams[0].GapMax)
	}
}
