package paper

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
	"dryfold/fold/partfile"
	errors "dryfold/fold/spread"
)

var updateFlag = flag.Bool("update", false, "write the golden files")

// cardRead is a job card as it is printed.
type cardRead struct {
	box   geom.Box2
	texts []draft.Item
}

func (c cardRead) all() string {
	var out []string
	for _, x := range c.texts {
		out = append(out, x.Words)
	}
	return strings.Join(out, " ")
}

func (c cardRead) of(class string) (out []string) {
	for _, x := range c.texts {
		if x.Class == class {
			out = append(out, x.Words)
		}
	}
	return out
}

// readCards takes the cards of pages apart again.
func readCards(pages []draft.Page) (out []cardRead) {
	for _, g := range pages {
		depth := 0
		for _, x := range g.Items {
			switch {
			case x.Kind == draft.Open && x.Class == "card":
				depth = 1
				out = append(out, cardRead{})
			case x.Kind == draft.Open && depth > 0:
				depth++
			case x.Kind == draft.Close && depth > 0:
				depth--
			case depth > 0 && x.Class == "cutcard":
				out[len(out)-1].box = geom.Box2{Min: x.At, Max: x.At.Add(geom.Vec2{x.W, x.H})}
			case depth > 0 && x.Kind == draft.Text:
				out[len(out)-1].texts = append(out[len(out)-1].texts, x)
			}
		}
	}
	return out
}

// inkOf is the box that a text takes: bold letters run a twentieth wider than draft.Width reckons.
func inkOf(x draft.Item) geom.Box2 {
	s := draft.Styles[x.Class]
	size := s.Size
	if x.Size > 0 {
		size = x.Size
	}
	w := draft.Width(x.Words, size)
	at := x.At
	switch x.To {
	case draft.Middle:
		at[0] -= w / 2
	case draft.End:
		at[0] -= w
	}
	return geom.Box2{Min: geom.Vec2{at[0], at[1] - 0.73*size}, Max: geom.Vec2{at[0] + w, at[1] + 0.21*size}}
}

// tidyPages fails where a text leaves its card or its page, or lies over another.
func tidyPages(t *testing.T, pages []draft.Page) {
	t.Helper()
	for _, c := range readCards(pages) {
		for i, x := range c.texts {
			b := inkOf(x)
			if b.Min[0] < c.box.Min[0]+1 || b.Max[0] > c.box.Max[0]-0.5 || b.Min[1] < c.box.Min[1]+1 || b.Max[1] > c.box.Max[1]-1 {
				t.Errorf("%q at %v leaves its card %v", x.Words, b, c.box)
			}
			for _, y := range c.texts[:i] {
				if o := inkOf(y); b.Min[0] < o.Max[0]-0.01 && o.Min[0] < b.Max[0]-0.01 && b.Min[1] < o.Max[1]-0.01 && o.Min[1] < b.Max[1]-0.01 {
					t.Errorf("%q at %v lies over %q at %v", x.Words, b, y.Words, o)
				}
			}
		}
	}
	for _, g := range pages {
		for _, x := range g.Items {
			if x.Kind != draft.Text {
				continue
			}
			if b := inkOf(x); b.Min[0] < margin-0.5 || b.Max[0] > g.W-margin+6 || b.Min[1] < margin-1 || b.Max[1] > g.H-4 {
				t.Errorf("%q at %v leaves the page", x.Words, b)
			}
		}
	}
}

func whole(t testing.TB, s fold.Spec) (*fold.Part, *fold.Report) {
	t.Helper()
	p := fold.Build(s)
	if !p.Foldable {
		t.Fatal("the part can't be folded")
	}
	rep := p.Check()
	errors.Add(p, &rep, errors.Options{Samples: 64})
	return p, &rep
}

// Every swing has its card, in order, with what the report says of it; the last card has every seam.
func TestCardsSay(t *testing.T) {
	specs := testParts(t)
	stops := 0
	for _, name := range keys(specs) {
		spec := specs[name]
		if !fold.Build(spec).Foldable {
			continue
		}
		p, rep := whole(t, spec)
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			pages, err := JobCards(p, rep, Options{Units: u})
			require.NoError(t, err)
			tidyPages(t, pages)
			cards := readCards(pages)
			marks, err := MarkingOut(p, rep, Options{Units: u})
			require.NoError(t, err)
			sheet := readSheet(t, draft.Joined("", marks))
			at := 0
			for i := range p.Swings {
				c := p.Card(rep, i)
				var of []cardRead
				for ; at < len(cards) && len(cards[at].of("cardno")) > 0 && cards[at].of("cardno")[0] == fmt.Sprint(c.Number); at++ {
					of = append(of, cards[at])
				}
				require.NotEmpty(t, of, "%s: card %d", name, c.Number)
				first, last := of[0], of[len(of)-1]
				figures := last.of("figure")
				assert.Equal(t, stopWords(&c).Figure+"°", figures[len(figures)-1], name)
				require.Len(t, first.of("cardname"), 1)
				assert.True(t, first.of("cardname")[0] == c.Name || strings.HasSuffix(first.of("cardname")[0], "…"), name)
				assert.Contains(t, last.of("loud"), map[string]string{"ok": "nothing fouls", "watch": "watch", "stop": "stop"}[rep.Swings[i].State], name)
				assert.Equal(t, c.Up, first.of("fact")[0] == "up", name)
				assert.Contains(t, first.all(), "Hold "+p.Panels[p.Bends[c.Bends[0]].A].Name, name)
				if c.Foul != nil {
					stops++
					_, msg, _ := strings.Cut(fold.InUnits(rep.FoulTrouble(c.Foul).Message, u), ": ")
					assert.Contains(t, last.all(), fold.Title(strings.Join(strings.Fields(msg)[:4], " ")), name)
				}
				for _, b := range c.Bends { // the radius and the mark as the marking-out sheet has them
					for k, row := range sheet.tables["bends"] {
						if b == c.Bends[0] && row[1] == p.Bends[b].Name {
							assert.Contains(t, first.all(), "Radius "+sheet.tables["basis"][k][1]+" "+u.String(), name)
							if mark, edge, one := strings.Cut(row[3], " from "); one && len(c.Bends) == 1 && !strings.Contains(mark, " to ") && strings.Contains(first.all(), "Sight line") {
								assert.Contains(t, first.all(), mark+" "+u.String()+" from "+edge, name)
							}
						}
					}
				}
			}
			rest := ""
			for _, c := range cards[at:] {
				require.Empty(t, c.of("cardno"), name)
				rest += c.all() + " "
			}
			assert.Contains(t, rest, "Check the finished part")
			for _, x := range rep.Seams {
				short := strings.TrimSuffix(draft.Clip(x.Name, textSize, 25), "…")
				assert.Contains(t, rest, short, name)
				assert.Contains(t, rest, (&sheetRule{u}).say(x.Spread.Least.Low)+" to "+(&sheetRule{u}).say(x.Spread.Widest.High), name)
			}
			z := rep.Finished.Box()
			for _, v := range z {
				assert.Contains(t, rest, map[fold.Units]string{fold.MM: fmt.Sprintf("%.1f", v), fold.Inch: fmt.Sprintf("%.3f", v/25.4)}[u], name)
			}
		}
	}
	assert.Positive(t, stops, "no part with a clash")
}

// sheetRule writes gaps: 0.01 mm, 0.001 in.
type sheetRule struct{ u fold.Units }

func (r *sheetRule) say(mm float64) string {
	if r.u == fold.Inch {
		return fold.Fixed(mm/25.4, 3)
	}
	return fold.Fixed(mm, 2)
}

// Where the leaf is to be stopped stands on the card where strips measured it, with what it springs back to.
func TestCardsSet(t *testing.T) {
	spec := tested(testParts(t)["assets/uncapping-tray.dryfold"])
	p, rep := whole(t, spec)
	pages, err := JobCards(p, rep, Options{})
	require.NoError(t, err)
	first := readCards(pages)[0]
	assert.Contains(t, first.of("figure"), "83.6°") // 80 x 94/90
	all := first.all()
	for _, want := range []string{"Stop the leaf at", "80° after spring", "give or take 0.5°", "measured by you: 3 strips"} {
		assert.Contains(t, all, want)
	}
	assert.NotContains(t, all, "bend a strip first")

	// Nobody tested: large stands past what the leaf must go, not the angle at which it is not to stop.
	p, rep = whole(t, testParts(t)["assets/uncapping-tray.dryfold"])
	pages, err = JobCards(p, rep, Options{})
	require.NoError(t, err)
	for i, c := range readCards(pages)[:len(p.Swings)] {
		all := c.all()
		least := p.Card(rep, i).Spring.Least
		require.Greater(t, least, p.Card(rep, i).To)
		assert.Contains(t, c.of("figure"), fold.ShownDegrees(least)+"°")
		for _, want := range []string{"Stop the leaf past", "lower limit, by formula", "bend a strip first", "finished " + fold.ShownDegrees(p.Card(rep, i).To) + "°"} {
			assert.Contains(t, all, want)
		}
		assert.NotContains(t, all, "Finished angle")
	}
}

// The arc beside an angle is as far round as the angle says: from the dashed line of flat to the leg.
func TestAngleArc(t *testing.T) {
	for _, deg := range []float64{5, 25, 80, 90, 135, 179, 200, 240} {
		s := &draft.Page{}
		anglePicture(s, geom.Box2{Max: geom.Vec2{19, 9}}, deg)
		var arcs, flat []draft.Item
		for _, x := range s.Items {
			switch x.Class {
			case "dimline":
				arcs = append(arcs, x)
			case "tangent":
				flat = append(flat, x)
			}
		}
		require.Len(t, arcs, 1)
		require.Len(t, flat, 1)
		a, ok := draft.ArcOf(arcs[0].Path[0].To, arcs[0].Path[1])
		require.True(t, ok)
		assert.InDelta(t, -deg, a.Sweep*180/math.Pi, 1e-9) // to the left, as the leaf goes
		from := flat[0].Path[0].To                         // where bend and dashes begin
		assert.InDelta(t, 0, from.Sub(a.Centre).Len(), 1e-9)
		assert.InDelta(t, from[1], arcs[0].Path[0].To[1], 1e-9)
		assert.Greater(t, arcs[0].Path[0].To[0], from[0])
	}
}

// The sheet is turned over where the way changes, end for end or a quarter where the held side changes: a tray's four walls, bent up
// and down about a floor, each told by hand.
func TestCardsTurning(t *testing.T) {
	k := 0.4
	wall := func(name string, x0, y0, x1, y1 float64, up bool) fold.BendSpec {
		return fold.BendSpec{Name: name, Line: [2]geom.Vec2{{x0, y0}, {x1, y1}}, Angle: 90, Radius: 1, Up: up}
	}
	s := fold.Spec{Name: "turning", Sheet: fold.Sheet{Thickness: 1, K: &k},
		Outline: foldtest.Points(20, 0, 80, 0, 80, 20, 100, 20, 100, 80, 80, 80, 80, 100, 20, 100, 20, 80, 0, 80, 0, 20, 20, 20),
		Bends:   []fold.BendSpec{wall("left", 17, 20, 17, 80, true), wall("right", 83, 20, 83, 80, true), wall("front", 20, 17, 80, 17, true), wall("back", 20, 83, 80, 83, false)},
		Panels:  []fold.PanelName{{Name: "floor", At: geom.Vec2{50, 50}}}, Base: "floor",
		Order: []fold.Step{{Bends: []string{"left"}}, {Bends: []string{"right"}}, {Bends: []string{"front"}}, {Bends: []string{"back"}}}}
	p, rep := whole(t, s)
	pages, err := JobCards(p, rep, Options{})
	require.NoError(t, err)
	want := []string{"Marked face up", "Turn end for end", "Turn a quarter", "Turn over, end for end"}
	for i, c := range readCards(pages)[:4] {
		assert.Equal(t, want[i], c.of("fact")[1])
		switch i {
		case 0:
			assert.NotContains(t, c.all(), "Stands up")
		case 1:
			assert.Contains(t, c.all(), "Stands up left")
		case 3:
			assert.Contains(t, c.all(), "Hangs down left, right, front")
			assert.Contains(t, c.all(), "Marked face down")
		}
	}
}

// joggled is a strip with a joggle, its bends in an order.
func joggled(flat float64, order ...string) fold.Spec {
	c := foldtest.Chain{Thickness: 1, K: 0.4, Width: 40, Flats: []float64{40, flat, 40, 30},
		Bends: []foldtest.ChainBend{{Angle: 45, Radius: 1, Up: true}, {Angle: 45, Radius: 1}, {Angle: 90, Radius: 1, Up: true}}}
	s := c.Spec()
	for _, n := range order {
		s.Order = append(s.Order, fold.Step{Bends: []string{n}})
	}
	return s
}

// What the leaf can't do alone has cards of its own: a hem two, a joggle one for both bends.
func TestHandCards(t *testing.T) {
	read := func(s fold.Spec) []cardRead {
		t.Helper()
		p, rep := whole(t, s)
		pages, err := JobCards(p, rep, Options{})
		require.NoError(t, err)
		tidyPages(t, pages)
		return readCards(pages)
	}
	nos := func(cards []cardRead) (out []string) {
		for _, c := range cards {
			out = append(out, strings.Join(c.of("cardno"), ""))
		}
		return out
	}
	oracle := func(name string) fold.Spec {
		data, err := os.ReadFile("../../testdata/oracle/" + name)
		require.NoError(t, err)
		s, err := partfile.Read(data)
		require.NoError(t, err)
		return s
	}

	hem := oracle("hem.dryfold") // to 120 first, then closed
	cards := read(hem)
	assert.Equal(t, []string{"1", "2", "3", ""}, nos(cards))
	assert.Contains(t, cards[0].all(), "For now to")
	assert.Contains(t, cards[1].all(), "close it under the bar")
	assert.Contains(t, cards[1].all(), "Lay a strip 0.80 mm thick") // clear gap: twice the inside radius of 0.4
	assert.Equal(t, []string{"0.80", "180°"}, cards[1].of("figure"))

	hem.Order = nil // at once: the leaf first, then the bar
	cards = read(hem)
	assert.Equal(t, []string{"1", "1", "2", ""}, nos(cards))
	assert.Contains(t, cards[0].all(), "step 1 of 2: with the leaf")
	assert.Contains(t, cards[1].all(), "step 2 of 2")

	hem.Bends[0].Angle, hem.Bends[0].Radius = 200, 0.8 // a teardrop
	cards = read(hem)
	assert.Equal(t, []string{"1", "1", "2", ""}, nos(cards))
	assert.Contains(t, cards[1].all(), "Lay a rod 1.60 mm thick")

	hem.Bends[0].Angle, hem.Bends[0].Radius = 180, 0
	assert.Contains(t, read(hem)[1].all(), "until it lies flat")

	assert.Equal(t, []string{"1", "2", ""}, nos(read(oracle("zed.dryfold"))), "a zed is no joggle")

	cards = read(joggled(1))
	assert.Equal(t, []string{"1+2", "3", ""}, nos(cards))
	assert.Contains(t, cards[0].all(), "joggle, by hand: both bends at once")
	assert.Equal(t, []string{"1+2", "3", ""}, nos(read(joggled(1, "bend 1", "bend 0", "bend 2"))))
	apart := read(joggled(1, "bend 0", "bend 2", "bend 1"))
	assert.Equal(t, []string{"1", "2", "3", ""}, nos(apart))
	assert.Contains(t, apart[0].all(), "A joggle of bend 0 and bend 1")
	assert.NotContains(t, apart[1].all(), "joggle")
	assert.Equal(t, []string{"1", "2", "3", ""}, nos(read(joggled(20))), "bends far apart are no joggle")
}

// The joggle's step is the one of the folded part.
func TestJoggleStep(t *testing.T) {
	for _, flat := range []float64{0, 0.3, 1, 1.5} {
		s := joggled(flat)
		if flat == 0 {
			s = joggled(1e-3)
		}
		p := fold.Build(s)
		g := p.Joggles()
		require.Len(t, g, 1)
		far := 2
		for i := range p.Panels {
			if p.Panels[i].Name == "leg 2" {
				far = i
			}
		}
		l := p.Panels[far].Label
		assert.InDelta(t, p.Pose(p.Finished()).PanelPoint(far, l, 0)[2], g[0].Step, 1e-9)
	}
}

// A closed fold's clear gap is what the folded part has between the faces: at the free edge, by its pose.
func TestClosingGap(t *testing.T) {
	for _, deg := range []float64{140, 165, 180, 184} {
		c := foldtest.Chain{Thickness: 0.8, K: 0.4, Width: 40, Flats: []float64{60, 9}, Bends: []foldtest.ChainBend{{Angle: deg, Radius: 1.1, Up: true}}}
		p := fold.Build(c.Spec())
		g, ok := p.Closing(0)
		require.True(t, ok)
		assert.True(t, g.Leaf)
		assert.Equal(t, 2.2, g.Gap)
		lip := 0
		if p.Panels[0].Name == "leg 0" {
			lip = 1
		}
		z := p.Pose(p.Finished()).PanelPoint(lip, geom.Vec2{c.Length(), 0}, 0.8)[2]
		assert.InDelta(t, z-0.8, g.End, 1e-9, "%g", deg)
	}
	c := foldtest.Chain{Thickness: 0.8, K: 0.4, Width: 40, Flats: []float64{60, 9}, Bends: []foldtest.ChainBend{{Angle: 130, Radius: 1.1, Up: true}}}
	_, ok := fold.Build(c.Spec()).Closing(0)
	assert.False(t, ok)
}

// Random parts, with long names and without: nothing leaves its card and nothing lies over another text.
func TestCardsOfRandomParts(t *testing.T) {
	seed := *seedFlag
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Log("seed", seed)
	r := rand.New(rand.NewPCG(seed, 5))
	done := 0
	for n := range 60 {
		s := foldtest.Random(r)
		switch n % 4 {
		case 0:
			s = foldtest.RandomTray(r)
		case 1:
			s = foldtest.RandomChain(r).Spec()
		}
		if n%3 == 0 {
			long := strings.Repeat("Wide name — ", 1+r.IntN(12))
			s.Name = long
			for i := range s.Bends {
				s.Bends[i].Name = fmt.Sprint(long, i)
			}
			s.Order = nil
			s.Sheet.Metal = strings.Repeat("metal W", 30)
		}
		if n%5 == 0 {
			set := 94.0
			for range 3 {
				s.Tests = append(s.Tests, metal.Strip{Metal: s.Sheet.Metal, Thickness: s.Sheet.Thickness, Angle: 90, Set: &set})
			}
		}
		p := fold.Build(s)
		if !p.Foldable {
			continue
		}
		done++
		rep := p.Quick()
		if len(p.Bends) < 8 {
			rep = p.Check()
		}
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			pages, err := JobCards(p, &rep, Options{Units: u})
			require.NoError(t, err)
			tidyPages(t, pages)
			assert.NotRegexp(t, `NaN|Inf|%!`, string(draft.Joined("", pages)))
			if t.Failed() {
				t.Fatalf("seed %d, part %d", seed, n)
			}
		}
	}
	assert.Greater(t, done, 30)
}

// The sections that a card draws lie in their boxes, and of a pair both are at one scale.
func TestCardsMany(t *testing.T) {
	c := foldtest.Chain{Thickness: 1, K: 0.4, Width: 30, Flats: []float64{10}}
	for i := range 200 {
		c.Flats = append(c.Flats, 10)
		c.Bends = append(c.Bends, foldtest.ChainBend{Angle: 20, Radius: 2, Up: i%2 == 0})
	}
	p := fold.Build(c.Spec())
	rep := p.Quick()
	start := time.Now()
	pages, err := JobCards(p, &rep, Options{})
	require.NoError(t, err)
	t.Log(time.Since(start))
	assert.Len(t, pages, 51) // 200 swings and the check, four to a page
	for _, g := range pages {
		assert.Less(t, len(g.Items), 8000)
		for _, x := range g.Items {
			if x.Kind == draft.Line {
				for _, q := range x.Path {
					assert.False(t, math.IsNaN(q.To[0]) || math.IsInf(q.To[0], 0))
				}
			}
		}
	}
}

// A part that can't be folded has no cards, and says why.
func TestCardsUnfoldable(t *testing.T) {
	p := fold.Build(fold.Spec{Name: "bow tie", Sheet: fold.Sheet{Thickness: 1},
		Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{100, 100}}, {At: geom.Vec2{100, 0}}, {At: geom.Vec2{0, 100}}}})
	rep := p.Quick()
	_, err := JobCards(p, &rep, Options{})
	assert.ErrorContains(t, err, "outline")
}

// The words of the demo parts' cards, each with its place.
func TestCardsGolden(t *testing.T) {
	for name, u := range map[string]fold.Units{"uncapping-tray": fold.MM, "stand-bracket": fold.Inch} {
		p, rep := whole(t, testParts(t)["assets/"+name+".dryfold"])
		pages, err := JobCards(p, rep, Options{Units: u})
		require.NoError(t, err)
		golden(t, "testdata/cards-"+name+".txt", pages)
	}
}

// golden compares the words of pages, each with its class and place, with a file.
func golden(t *testing.T, file string, pages []draft.Page) {
	t.Helper()
	var b strings.Builder
	for _, g := range pages {
		fmt.Fprintf(&b, "%s, %g x %g mm\n", g.Title, g.W, g.H)
		for _, x := range g.Items {
			if x.Kind == draft.Text {
				fmt.Fprintf(&b, "%.1f %.1f %s: %s\n", x.At[0], x.At[1], x.Class, x.Words)
			}
		}
	}
	if *updateFlag {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), b.String(), "go test ./fold/paper -update writes it anew: read the difference")
}

// The mark lies one inside radius from the tangent line that is held, whatever way the bend runs: the nose, of that radius, reaches so
// far over it once the bend is round it. FAA-H-8083-31 ch. 4 has it so.
func TestMarkUnderNose(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 1))
	for range 100 {
		c := foldtest.RandomChain(r)
		p := fold.Build(c.Spec())
		d := &deck{sheet: &sheet{part: p, m: takeMarks(p, calliper(fold.MM, 0))}}
		x := 0.0
		for i := range c.Bends {
			x += c.Flats[i] // the tangent line towards leg 0, which is held
			if at := x + c.Bends[i].Radius; at < c.Length() {
				m := d.markAt(sightLine, i)
				assert.Equal(t, "A", m.Edge)
				assert.InDelta(t, at, m.From, 1e-9*max(1, x))
			}
			x += c.Allowance(i)
		}
	}
}

// Cards for the other hand say of the mirror image what is known of the part; they fill other papers; wrong options are named.
func TestCardsOptions(t *testing.T) {
	p, rep := whole(t, testParts(t)["assets/faulty-tray.dryfold"])
	here, err := JobCards(p, rep, Options{})
	require.NoError(t, err)
	other, err := JobCards(p, rep, Options{Other: true, Hand: "left"})
	require.NoError(t, err)
	tidyPages(t, other)
	a, b := readCards(here), readCards(other)
	require.Len(t, b, len(a))
	for i := range a {
		if i == len(a)-1 { // the seams of the other hand stand in their own order
			break
		}
		assert.Equal(t, fold.Title(fold.OtherHand(a[i].of("cardname")[0])), fold.Title(b[i].of("cardname")[0]))
		assert.Equal(t, a[i].of("loud"), b[i].of("loud"), "states")
		assert.Equal(t, strings.Contains(a[i].all(), " meets "), strings.Contains(b[i].all(), " meets "), "reasons")
	}
	words := ""
	for _, x := range other[0].Items {
		words += x.Words + " "
	}
	assert.Contains(t, words, "RIGHT")
	for i := range rep.Seams {
		want := fmt.Sprintf("%.2f to %.2f", rep.Seams[i].Spread.Least.Low, rep.Seams[i].Spread.Widest.High)
		assert.Contains(t, b[len(b)-1].all(), want)
	}

	for _, paper := range Papers {
		pages, err := JobCards(p, rep, Options{Paper: paper, Units: fold.Inch})
		require.NoError(t, err)
		tidyPages(t, pages)
		assert.Equal(t, papersFrom(paper)[0], [2]float64{pages[0].W, pages[0].H})
	}
	for _, bad := range []Options{{Paper: "A99"}, {Rule: -1}, {Hand: "up"}} {
		_, err := JobCards(p, rep, bad)
		assert.Error(t, err)
	}
}
