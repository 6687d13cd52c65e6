package session

import (
	"strings"
	"testing"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
	"dryfold/fold/spread"
	"dryfold/render/scene"
	"dryfold/wasm/session/ask"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func demo(t testing.TB, file string) fold.Spec {
	t.Helper()
	for _, d := range assets.Demos() {
		if d.File == file {
			spec, err := partfile.Read(d.Data)
			require.NoError(t, err)
			return spec
		}
	}
	t.Fatalf("no demo part %s", file)
	return fold.Spec{}
}

// checked opens a demo part with its whole report, as the worker would give it.
func checked(t testing.TB, file string) *Session {
	t.Helper()
	s := New(demo(t, file))
	text := s.Question()
	require.NoError(t, ask.Check(text, func(kind, text string) {
		assert.True(t, s.Answer(s.Serial(), kind, text) || kind == "gaps")
	}))
	require.True(t, s.Checked())
	return s
}

// At every card exactly the bends whose cards are done are bent.
func TestStateFollowsTheCards(t *testing.T) {
	s := New(tray(t))
	p := s.Part()
	for card := range p.Swings {
		for _, f := range []float64{0, 0.25, 1} {
			s.SetCard(card, f)
			st := s.State()
			want := map[int]geom.Angle{}
			for i, sw := range p.Swings {
				for k, b := range sw.Bends {
					switch {
					case i < card:
						want[b] = sw.To[k]
					case i == card:
						want[b] = sw.From[k] + geom.Angle(f)*(sw.To[k]-sw.From[k])
					}
				}
			}
			for b := range p.Bends {
				assert.InDelta(t, float64(want[b]), float64(st[b]), 1e-12, "card %d at %g, bend %s", card, f, p.Bends[b].Name)
			}
			for i, c := range s.Cards() {
				stage := Waiting
				switch {
				case i < card, i == card && f == 1:
					stage = Done
				case i == card:
					stage = Now
				}
				assert.Equal(t, stage, c.Stage)
			}
		}
	}
	s.SetWord(Seams)
	assert.Equal(t, p.Finished(), s.State(), "seams are shown as finished")
	s.SetWord(Bends)
	assert.NotNil(t, s.Picture().State)
}

func TestSwingByHand(t *testing.T) {
	s := New(tray(t))
	p := s.Part()
	last := len(p.Swings) - 1
	b := p.Swings[last].Bends[0]
	s.Swing(b, p.Bends[b].Angle/2)
	card, frac := s.OpenCard()
	assert.Equal(t, last, card)
	assert.InDelta(t, 0.5, frac, 1e-9)
	assert.InDelta(t, float64(p.Bends[b].Angle)/2, float64(s.State()[b]), 1e-9)
	s.Turn(99)
	_, frac = s.OpenCard()
	assert.Equal(t, 1.0, frac, "a turn stays within the swing")
	s.Swing(99, 1) // no such bend: nothing happens
	again, _ := s.OpenCard()
	assert.Equal(t, last, again)
}

func TestRunThroughEnds(t *testing.T) {
	s := New(tray(t))
	s.SetFold(0)
	assert.Equal(t, s.Part().Flat(), s.State())
	steps := 0
	for s.Run(0.3) {
		steps++
		require.Less(t, steps, 100)
	}
	assert.Equal(t, s.Part().Finished(), s.State())
	assert.Equal(t, 1.0, s.Fold())
}

func TestChangesUndoAndRedo(t *testing.T) {
	s := New(tray(t))
	first := string(partfile.Write(s.Spec()))
	serial := s.Serial()
	k := 0.4
	changes := []func() error{
		func() error { return s.SetAngle(0, "77.5") },
		func() error { return s.SetRadius(0, "2mm") },
		func() error { return s.SetWay(0, !s.Part().Bends[0].Up) },
		func() error { return s.SetBendName(0, "odd hook") },
		func() error { return s.SetPanelName(0, "bottom") },
		func() error { return s.SetName("Tray for Tom") },
		func() error { return s.SetThickness("1.2") },
		func() error { return s.SetMetal("Copper") },
		func() error { return s.SetK("0.4") },
		func() error { return s.SetGood("down") },
		func() error { return s.MoveSwing(0, 2) },
	}
	texts := []string{first}
	for i, change := range changes {
		require.NoError(t, change(), "change %d", i)
		texts = append(texts, string(partfile.Write(s.Spec())))
		require.NotEqual(t, texts[i], texts[i+1], "change %d", i)
	}
	assert.NotEqual(t, serial, s.Serial())
	assert.Equal(t, 77.5, s.Spec().Bends[0].Angle)
	assert.Equal(t, "odd hook", s.Part().Bends[0].Name)
	assert.Equal(t, &k, s.Spec().Sheet.K)
	found := false
	for _, step := range s.Spec().Order {
		found = found || len(step.Bends) == 1 && step.Bends[0] == "odd hook"
	}
	assert.True(t, found, "the order follows a bend's new name")
	for i := len(changes); i > 0; i-- {
		require.True(t, s.CanUndo())
		s.Undo()
		assert.Equal(t, texts[i-1], string(partfile.Write(s.Spec())))
	}
	assert.False(t, s.CanUndo())
	for i := range changes {
		s.Redo()
		assert.Equal(t, texts[i+1], string(partfile.Write(s.Spec())))
	}
	assert.False(t, s.CanRedo())
	require.NoError(t, s.SetMetal("Copper"), "the same again")
	s.Undo()
	assert.Equal(t, texts[len(texts)-2], string(partfile.Write(s.Spec())), "a change to the same is no step")
}

func TestUndoIsBounded(t *testing.T) {
	s := New(tray(t))
	for i := range maxUndo + 50 {
		require.NoError(t, s.SetName(strings.Repeat("x", i%7+1)+string(rune('a'+i%20))))
	}
	assert.Len(t, s.undo, maxUndo)
}

// Bad input is named with what would do, and the last good part stays.
func TestRefusals(t *testing.T) {
	s := New(tray(t))
	before := string(partfile.Write(s.Spec()))
	for _, c := range []struct {
		do          func() error
		field, says string
	}{
		{func() error { return s.SetAngle(0, "steep") }, BendField(0, "angle"), "degrees"},
		{func() error { return s.SetAngle(0, "0") }, BendField(0, "angle"), "up to 180"},
		{func() error { return s.SetAngle(0, "241") }, BendField(0, "angle"), "240"},
		{func() error { return s.SetRadius(0, "-1") }, BendField(0, "radius"), "0 or more"},
		{func() error { return s.SetRadius(0, "900") }, BendField(0, "radius"), ""},
		{func() error { return s.SetThickness("0") }, "thickness", "1.5mm"},
		{func() error { return s.SetThickness("x") }, "thickness", "12.5"},
		{func() error { return s.SetK("0.7") }, "k", "0.6"},
		{func() error { return s.SetBendName(0, s.Part().Bends[1].Name) }, BendField(0, "name"), "Another name"},
		{func() error { return s.SetPanelName(0, s.Part().Panels[1].Name) }, "panel-0-name", "Another name"},
		{func() error { return s.SetPanelName(0, " ") }, "panel-0-name", "wants a name"},
		{func() error { return s.SetName(strings.Repeat("ä", 201)) }, "name", "200"},
		{func() error { return s.MoveSwing(0, 99) }, "order", "no such place"},
	} {
		err := c.do()
		require.Error(t, err, c.field)
		e, ok := s.Error(c.field)
		require.True(t, ok, c.field)
		assert.Contains(t, e.Message, c.says)
		assert.Equal(t, before, string(partfile.Write(s.Spec())), c.field)
	}
	require.NoError(t, s.SetAngle(0, "50"))
	_, ok := s.Error(BendField(0, "angle"))
	assert.False(t, ok, "a good text takes the message away")
}

// A shown unit changes what is typed, never the part's own units.
func TestUnits(t *testing.T) {
	s := New(demo(t, "stand-bracket.dryfold"))
	assert.Equal(t, fold.Inch, s.Units())
	s.SetUnits(fold.MM)
	require.NoError(t, s.SetRadius(0, "2.54"))
	assert.Equal(t, 0.1, s.Spec().Bends[0].Radius)
	assert.Equal(t, fold.Inch, s.Spec().Units)
}

func TestMoveSwingKeepsItsBendsAndTheOpenCard(t *testing.T) {
	s := New(tray(t))
	p := s.Part()
	joined := -1
	for i, sw := range p.Swings {
		if len(sw.Bends) > 1 {
			joined = i
			break
		}
	}
	require.GreaterOrEqual(t, joined, 1)
	name := s.Cards()[joined].Name
	s.SetCard(joined, 0.4)
	require.NoError(t, s.MoveSwing(joined, joined-1))
	card, frac := s.OpenCard()
	assert.Equal(t, joined-1, card)
	assert.Equal(t, 0.4, frac)
	assert.Equal(t, name, s.Cards()[joined-1].Name)
	assert.Greater(t, len(s.Part().Swings[joined-1].Bends), 1)
	assert.Len(t, s.Part().Swings, len(p.Swings))
}

// A bend that is made in two swings keeps them in their order.
func TestPartBendStaysInOrder(t *testing.T) {
	spec := tray(t)
	s := New(spec)
	b := s.Part().Bends[0]
	to := 30.0
	spec.Order = append([]fold.Step{{Bends: []string{b.Name}, To: &to}}, ask.Steps(s.Part())...)
	require.NoError(t, partfile.Check(spec))
	s = New(spec)
	assert.Contains(t, s.Cards()[0].Name, "to 30°")
	assert.ErrorContains(t, s.MoveSwing(0, len(s.Part().Swings)-1), "part of the way first")
	assert.ErrorContains(t, s.SetAngle(0, "20"), "30")
}

func TestTheFaultyTrayIsMended(t *testing.T) {
	s := checked(t, "faulty-tray.dryfold")
	advice := s.Advice()
	require.NotEmpty(t, advice)
	require.Equal(t, "stop", advice[0].Severity, "the worst first")
	s.GoTo(advice[0])
	assert.Equal(t, Bends, s.Word())
	card, frac := s.OpenCard()
	foul := s.Foul(card)
	require.NotNil(t, foul)
	assert.InDelta(t, foul.Clash.Fraction, frac, 1e-9, "the view goes to the moment of the foul")
	require.NotNil(t, s.Picture().Clash)
	assert.Equal(t, "stop", s.Cards()[card].State)

	found := ask.FindRepairs(s.Question(), func() bool { return false })
	require.Len(t, found, 1)
	s.repairs = found
	r := s.Advice()[0].Repair
	require.NotNil(t, r)
	require.NoError(t, s.Mend(*r))
	assert.Empty(t, s.Part().Clashes(), "the repair frees the swing")
	assert.Empty(t, ask.FindRepairs(ask.WriteQuestion(tray(t)), func() bool { return false }), "a good part needs none")

	var seam *Advice
	s = checked(t, "faulty-tray.dryfold")
	for _, a := range s.Advice() {
		if a.Severity == "watch" {
			seam = &a
		}
	}
	require.NotNil(t, seam)
	s.GoTo(*seam)
	assert.Equal(t, Seams, s.Word())
	assert.Equal(t, scene.Seam, s.Selected().Kind)
	assert.True(t, s.Picture().Ticks)
}

// An answer for a part that has been changed meanwhile is not taken.
func TestLateAnswers(t *testing.T) {
	s := New(tray(t))
	old := s.Serial()
	r := s.Part().Check()
	require.NoError(t, s.SetName("other"))
	assert.False(t, s.Answer(old, "report", ask.Write(r)))
	assert.False(t, s.Checked())
	assert.False(t, s.SetRepairs(old, "[]"))
}

// The worker's answer carries all that the drawing needs.
func TestAnswerIsWhole(t *testing.T) {
	s := checked(t, "faulty-tray.dryfold")
	want := s.Part().Check()
	require.True(t, spread.Add(s.Part(), &want, spread.Options{}))
	got := *s.Report()
	require.Equal(t, len(want.Seams), len(got.Seams))
	for i := range want.Seams {
		assert.Equal(t, want.Seams[i], got.Seams[i])
	}
	require.Equal(t, len(want.Clashes), len(got.Clashes))
	for i := range want.Clashes {
		assert.Equal(t, want.Clashes[i].Clash, got.Clashes[i].Clash)
	}
	assert.Equal(t, ask.Write(want), ask.Write(got)) // what is the kernel's own stays there
}

func TestKeepAndRestore(t *testing.T) {
	s := New(tray(t))
	require.NoError(t, s.SetAngle(1, "45"))
	s.SetWord(Bends)
	s.SetCard(2, 0.25)
	s.SetUnits(fold.Inch)
	text := s.Keep("12:30")
	r := New(demo(t, "hive-roof.dryfold"))
	stamp, err := r.Restore(text)
	require.NoError(t, err)
	assert.Equal(t, "12:30", stamp)
	assert.Equal(t, partfile.Write(s.Spec()), partfile.Write(r.Spec()))
	card, frac := r.OpenCard()
	assert.Equal(t, 2, card)
	assert.Equal(t, 0.25, frac)
	assert.Equal(t, Bends, r.Word())
	assert.Equal(t, fold.Inch, r.Units())
	r.Undo()
	assert.NotEqual(t, 45.0, r.Spec().Bends[1].Angle, "the last undo outlives a reload")
	old := strings.Replace(r.Keep(""), `{"part"`, `{"draft":{"Name":"My tray","Units":0,"Length":333},"part"`, 1)
	require.Contains(t, old, "333")
	again := New(demo(t, "hive-roof.dryfold"))
	_, err = again.Restore(old)
	require.NoError(t, err, "a tray that an earlier version kept, half made up, is passed over")
	assert.Equal(t, partfile.Write(r.Spec()), partfile.Write(again.Spec()))
	for _, bad := range []string{"", "{}", "null", `{"part":"{}"}`, text[:40], "[1]"} {
		before := string(partfile.Write(r.Spec()))
		_, err := r.Restore(bad)
		assert.Error(t, err, bad)
		assert.Equal(t, before, string(partfile.Write(r.Spec())), "nothing changes")
	}
	_, err = r.Restore(strings.Replace(text, `"card":2`, `"card":-7`, 1))
	require.NoError(t, err)
	card, _ = r.OpenCard()
	assert.Equal(t, 0, card)
}

func TestLinksAreViewOnlyUntilCopied(t *testing.T) {
	s := New(tray(t))
	mine := string(partfile.Write(s.Spec()))
	other := New(demo(t, "hive-roof.dryfold"))
	link, err := other.Link()
	require.NoError(t, err)
	require.NoError(t, s.OpenLink("#"+link))
	assert.True(t, s.ViewOnly())
	assert.Equal(t, s.Part().Finished(), s.State())
	assert.Error(t, s.SetName("mine now"))
	assert.False(t, s.CanUndo())
	assert.Empty(t, s.Picture().Draggable)
	s.TakeCopy()
	require.NoError(t, s.SetName("mine now"))
	s.Undo()
	s.Undo()
	assert.Equal(t, mine, string(partfile.Write(s.Spec())), "the work before is not lost")
	before := string(partfile.Write(s.Spec()))
	assert.Error(t, s.OpenLink("#broken"))
	assert.False(t, s.ViewOnly())
	assert.Equal(t, before, string(partfile.Write(s.Spec())))
}

func TestOpenBadFileKeepsThePart(t *testing.T) {
	s := New(tray(t))
	before := string(partfile.Write(s.Spec()))
	assert.Error(t, s.Open([]byte("no part")))
	assert.Equal(t, before, string(partfile.Write(s.Spec())))
	assert.False(t, s.CanUndo())
}

func TestEveryDemoOpens(t *testing.T) {
	s := New(tray(t))
	for _, d := range assets.Demos() {
		require.NoError(t, s.Open(d.Data), d.File)
		require.True(t, s.Part().Foldable, d.File)
		assert.Equal(t, d.Name, s.Name())
		card, frac := s.OpenCard()
		assert.True(t, frac > 0 && frac < 1 && card < len(s.Part().Swings), "half folded")
		for i := range s.Part().Swings {
			runs := s.Part().Section(s.Part().StateAt(i+1, 0), s.Part().Swings[i].Bends[0])
			assert.NotEmpty(t, runs, d.File)
		}
	}
}

func TestFacts(t *testing.T) {
	s := checked(t, "stand-bracket.dryfold")
	p := s.Part()
	for _, sel := range []scene.Select{{Kind: scene.Panel}, {Kind: scene.Panel, Index: len(p.Panels) - 1}, {Kind: scene.Bend}, {Kind: scene.Hole}, {Kind: scene.Edge, Index: len(p.Spec.Outline) - 1}} {
		s.Select(sel)
		f, ok := s.Facts()
		require.True(t, ok, sel.Kind.String())
		assert.NotEmpty(t, f.Name)
		assert.NotEmpty(t, f.Rows)
	}
	s.Select(scene.Select{Kind: scene.Hole, Index: 1000})
	_, ok := s.Facts()
	assert.False(t, ok)
	s.Select(scene.Select{Kind: scene.Edge, Contour: 12})
	_, ok = s.Facts()
	assert.False(t, ok)
}

func TestFileName(t *testing.T) {
	assert.Equal(t, "uncapping-tray.dryfold", FileName("Uncapping tray"))
	assert.Equal(t, "a-b.dryfold", FileName("../a/ b<>"))
	assert.Equal(t, "part.dryfold", FileName("…"))
	assert.LessOrEqual(t, len(FileName(strings.Repeat("long ", 100))), 70)
}
