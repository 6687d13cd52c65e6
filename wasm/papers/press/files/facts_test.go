package files

// This file holds what is told beside the sheets against the rooms that know it, and the refusals against the page's fields.

import (
	"bytes"
	"fmt"
	"image"
	_ "image/gif"
	_ "image/png"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/ascut"
	"dryfold/fold/cutfile"
	"dryfold/fold/cutting"
	"dryfold/fold/geom"
	"dryfold/fold/paper"
	"dryfold/wasm/papers/press"
	"dryfold/wasm/session"
	"dryfold/wasm/session/ask"
)

// told makes a kind's sheet and gives what is told beside it.
func told(t testing.TB, q ask.PaperQuestion, kind string) ask.PaperFacts {
	t.Helper()
	q.Want, q.Ending = kind, ""
	made, err := press.Sheets(q, nil)
	require.NoError(t, err, kind)
	return ask.ReadFacts(made.Facts)
}

// mirrored is a point of the blank for the other hand, by the definition of it: turned over about the file's y axis.
func mirrored(p geom.Vec2) geom.Vec2 { return geom.Vec2{-p[0], p[1]} }

// What the column says of each demo part is what the rooms say of it, with nothing measured and with a size 3 mm out.
func TestFactsAreTheRooms(t *testing.T) {
	for _, d := range assets.Demos() {
		spec, q := question(t, d.Name)
		plan := cutting.Make(fold.Build(spec), q.Tools)
		f := told(t, q, "cutting")
		require.NotNil(t, f.Plan, d.Name)
		r, err := ask.ReadAnswer(q.Report)
		require.NoError(t, err)
		sheet, err := paper.CuttingWords(fold.Build(spec), &r, plan, q.Options)
		require.NoError(t, err)
		require.Len(t, f.Plan.Steps, len(plan.Steps), d.Name)
		for i, s := range plan.Steps {
			g := f.Plan.Steps[i]
			assert.Equal(t, ask.CutStep{Number: s.Number, Kind: s.Kind.String(), Do: s.Do, Why: s.Why, Waste: s.Waste, Hold: s.Hold, Sizes: s.Sizes, Where: sheet.Where[i]}, g, d.Name)
		}
		require.Len(t, f.Plan.Drills, len(plan.Drills), d.Name)
		for i, b := range plan.Drills {
			assert.Equal(t, []string{b.Size, b.When.String(), b.Why}, []string{f.Plan.Drills[i].Size, f.Plan.Drills[i].When, f.Plan.Drills[i].Why})
			w := f.Plan.Drills[i]
			assert.Equal(t, sheet.Drills[i], paper.DrillWords{No: w.No, A: w.A, B: w.B, Drill: w.Size, First: w.First, For: w.Where})
		}
		assert.Equal(t, ask.Write(plan.Problems), ask.Write(f.Plan.Problems), d.Name)
		// Of the other hand as well: its blank mirrored, measured from its own A; a row stands for each place.
		q.Options.Other = true
		other := told(t, q, "cutting")
		q.Options.Other = false
		require.Len(t, other.Plan.Steps, len(plan.Steps), d.Name)
		require.Len(t, other.Plan.Drills, len(plan.Drills), d.Name)
		assert.Nil(t, f.Check)

		for _, off := range []float64{0, 3} {
			r, err := ask.ReadAnswer(q.Report)
			require.NoError(t, err)
			k := spec.Units.Scale()
			first := ascut.Sizes(fold.Build(spec), &r)[0]
			own := spec
			if off != 0 {
				own.AsCut = []fold.CutSize{{From: first.From.Mul(1 / k), To: first.To.Mul(1 / k), Is: (first.Want + off) / k}}
			}
			asked := q
			asked.Part = ask.WriteQuestion(own)
			for _, u := range []fold.Units{fold.MM, fold.Inch} {
				if off == 0 && u != spec.Units {
					continue
				}
				asked.Options.Units = u
				f := told(t, asked, "check")
				p := fold.Build(own)
				list := ascut.Look(p, &r)
				v := ascut.Judge(p, &r, list.Sizes)
				c := f.Check
				require.NotNil(t, c, d.Name)
				assert.Nil(t, f.Plan)
				assert.Empty(t, f.Watch)
				require.Len(t, c.Sizes, len(list.Sizes), d.Name)
				assert.Equal(t, v.Word, c.Word)
				assert.Equal(t, v.Say, c.Say)
				assert.Equal(t, len(v.Seams), len(c.Seams))
				for i, s := range list.Sizes {
					s = s.In(u)
					g := c.Sizes[i]
					assert.Equal(t, s.No, g.No)
					assert.Equal(t, s.What, g.What)
					for n, pair := range [][2]float64{{s.Want, g.Want}, {s.Low, g.Low}, {s.High, g.High}} {
						assert.InDelta(t, pair[0], pair[1], 1e-6, "%s %d %d", d.Name, i, n) // as it is written
					}
					assert.Less(t, g.Low, g.High)
					assert.True(t, g.Low <= g.Want+1e-6 && g.Want <= g.High+1e-6, "%s: %s %g %g %g", d.Name, g.What, g.Low, g.Want, g.High)
					for n, text := range g.As { // the figures read back are the limits
						mm, err := session.ReadLength(text, u)
						require.NoError(t, err)
						assert.InDelta(t, []float64{g.Low, g.Want, g.High}[n], mm, map[fold.Units]float64{fold.MM: 0.051, fold.Inch: 25.4 / 64 / 2}[u], "%s %s", d.Name, text)
					}
					assert.Equal(t, v.Lines[i].State, g.State)
					if off == 0 {
						assert.Empty(t, g.State)
					}
				}
				if off != 0 {
					assert.NotEmpty(t, c.Sizes[0].State, d.Name)
				}
			}
		}
		for _, kind := range []string{"marking", "cards", "template", "card"} {
			assert.Equal(t, ask.PaperFacts{}, told(t, q, kind), kind)
		}
	}
}

// With the sheet for the other hand, the order of cuts and what is measured are that hand's too.
func TestFactsOfTheOtherHand(t *testing.T) {
	spec, q := question(t, "Wax-melter pan")
	spec.Struck = []fold.StruckLine{{Line: [2]geom.Vec2{{10, -500}, {10, 500}}}}
	q.Part = ask.WriteQuestion(spec)
	own := told(t, q, "check")
	q.Options.Other = true
	f := told(t, q, "cutting")
	plan := cutting.Make(fold.Build(spec.Mirrored()), q.Tools)
	require.Len(t, f.Plan.Steps, len(plan.Steps))
	for i := range plan.Steps {
		assert.Equal(t, plan.Steps[i].Do, f.Plan.Steps[i].Do)
	}
	require.Len(t, f.Watch, 1)
	assert.Contains(t, f.Watch[0], "Struck")
	f = told(t, q, "check")
	assert.Empty(t, f.Watch)
	require.Len(t, f.Check.Sizes, len(own.Check.Sizes))
	other, r := fold.Build(spec.Mirrored()), fold.Report{}
	r = other.Quick()
	for i, x := range ascut.Sizes(other, &r) {
		assert.Equal(t, [2]geom.Vec2{x.From, x.To}, [2]geom.Vec2{f.Check.Sizes[i].From, f.Check.Sizes[i].To})
	}
}

// What is refused of a choice is told at a field that the page has.
func TestRefusalsHaveTheirField(t *testing.T) {
	_, q := question(t, assets.Demos()[0].Name)
	s := session.New(fold.Spec{})
	v := func(x float64) *float64 { return &x }
	for _, c := range []struct {
		want, field string
		set         func(q *ask.PaperQuestion)
	}{
		{"template", "margin", func(q *ask.PaperQuestion) { q.Template.Margin = v(55) }},
		{"template", "margin", func(q *ask.PaperQuestion) { q.Template.Margin = v(-1) }},
		{"template", "overlap", func(q *ask.PaperQuestion) { q.Template.Overlap = v(1) }},
		{"template", "roll", func(q *ask.PaperQuestion) { q.Template.Paper, q.Template.Roll = paper.Roll, 60 }},
		{"template", "across", func(q *ask.PaperQuestion) { q.Template.Printed[0] = 90 }},
		{"card", "down", func(q *ask.PaperQuestion) { q.Template.Printed[1] = 120 }},
		{"card", "cardthick", func(q *ask.PaperQuestion) { q.Card.Thickness = 11 }},
		{"card", "cardthick", func(q *ask.PaperQuestion) { q.Card.Thickness = 9 }}, // more than this tray's bends have room for
		{"machine", "kerf", func(q *ask.PaperQuestion) { q.Machine.Kerf = 21 }},
		{"machine", "kerf", func(q *ask.PaperQuestion) { q.Machine.Kerf = 15 }}, // wider than its notches
		{"machine", "gaps", func(q *ask.PaperQuestion) { q.Machine.Gaps = 1000 }},
		{"machine", "gapwide", func(q *ask.PaperQuestion) { q.Machine.Gaps, q.Machine.GapWidth = 2, 0 }},
		{"machine", "notch", func(q *ask.PaperQuestion) { q.Machine.Bends, q.Machine.Notch = cutfile.BendVees, 0.1 }},
		{"machine", "notch", func(q *ask.PaperQuestion) {
			q.Machine.Bends, q.Machine.Notch, q.Machine.Kerf = cutfile.BendVees, 1, 1.5
		}},
		{"template", "", func(q *ask.PaperQuestion) { q.Part = "{" }},
		{"run", "", func(q *ask.PaperQuestion) { q.Picture = ask.PictureQuestion{W: -1, H: 1 << 30} }},
		{"picture", "", func(q *ask.PaperQuestion) { q.Picture = ask.PictureQuestion{W: 1 << 30, H: 1 << 30} }},
		{"marking", "", func(q *ask.PaperQuestion) { q.Options.Paper = "A5" }},
	} {
		a := q
		a.Want, a.Ending = c.want, map[string]string{"machine": "dxf", "run": "gif", "picture": "png"}[c.want]
		c.set(&a)
		make := press.Sheets
		if a.Ending != "" {
			make = Make
		}
		_, err := make(a, nil)
		var w *press.Wrong
		require.ErrorAs(t, err, &w, "%s %s", c.want, c.field)
		assert.Equal(t, c.field, w.Field, w.Words)
		assert.NotEmpty(t, w.Words)
		assert.NotContains(t, w.Words, "mistake in Dryfold")
		if c.field != "" {
			assert.True(t, s.HasPaperField(c.field))
			s.SetUnits(fold.Inch)
			s.RefusePaper(w.Field, w.Words)
			e, _ := s.Error(session.PaperField(w.Field))
			assert.NotContains(t, e.Message, " mm", "%s: %s", c.field, w.Words)
			s.SetUnits(fold.MM)
		}
	}
}

// The least and the largest picture and run-through that the page's fields take are made.
func TestPicturesOfEverySize(t *testing.T) {
	_, q := question(t, "Hive-stand bracket")
	s := session.New(fold.Spec{})
	for _, c := range []struct{ want, ending, w, h, least, most string }{{"picture", "png", "picw", "pich", "100", "4000"}, {"run", "gif", "gifw", "gifh", "120", "1000"}} {
		for _, size := range [][2]string{{c.least, c.least}, {c.most, c.least}, {c.least, c.most}} {
			require.NoError(t, s.SetPaperCount(c.w, size[0]))
			require.NoError(t, s.SetPaperCount(c.h, size[1]))
			a := s.PaperQuestion(c.want, c.ending)
			a.Part, a.Report = q.Part, q.Report
			made, err := Make(a, nil)
			require.NoError(t, err, c.want)
			cfg, _, err := image.DecodeConfig(bytes.NewReader(made.File))
			require.NoError(t, err)
			assert.Equal(t, size, [2]string{fmt.Sprint(cfg.Width), fmt.Sprint(cfg.Height)}, c.want)
		}
	}
}

// A mistake of ours in a room is an error that says so, and the program goes on.
func TestPanicIsAnError(t *testing.T) {
	_, q := question(t, assets.Demos()[0].Name)
	q.Want, q.Ending, q.Picture = "run", "gif", ask.PictureQuestion{W: 120, H: 120}
	made, err := Make(q, func(done, all int) { panic("a slip") })
	var w *press.Wrong
	require.ErrorAs(t, err, &w)
	assert.Equal(t, press.Made{}, made)
	assert.Empty(t, w.Field)
	assert.Contains(t, w.Words, "by a mistake in Dryfold: a slip")
	n, all := 0, 0
	made, err = Make(q, func(done, of int) { assert.Greater(t, done, n); n, all = done, of })
	require.NoError(t, err)
	assert.NotEmpty(t, made.File)
	assert.Equal(t, all, n, "told to the end")
}

// A sheet that would come out another has another key, and choices of other steps leave it.
func TestSheetsKey(t *testing.T) {
	s := session.New(fold.Spec{})
	for _, d := range assets.Demos() {
		if d.Name == "Hive-stand bracket" {
			require.NoError(t, s.Open(d.Data))
		}
	}
	s.SetWord(session.Marking)
	usual := s.Papers()
	type change struct {
		name string
		do   func()
	}
	papers := func(name string, f func(p *session.Papers)) change {
		return change{name, func() { p := s.Papers(); f(&p); s.SetPapers(p) }}
	}
	changes := []change{
		papers("rule", func(p *session.Papers) { p.RuleMM = 0.1 }), papers("rule in", func(p *session.Papers) { p.RuleIn = 0.001 }), papers("paper", func(p *session.Papers) { p.Paper = "Letter" }),
		papers("hand", func(p *session.Papers) { p.Hand = "left" }), papers("other", func(p *session.Papers) { p.Other = true }),
		papers("on", func(p *session.Papers) { p.OnPaper = "A3" }), papers("roll", func(p *session.Papers) { p.Roll = 914 }), papers("margin", func(p *session.Papers) { p.Margin = 15 }),
		papers("overlap", func(p *session.Papers) { p.Overlap = 20 }), papers("printed", func(p *session.Papers) { p.Printed = [2]float64{99, 101} }), papers("scale", func(p *session.Papers) { p.Scale = [2]float64{1.01, 1} }),
		papers("thick", func(p *session.Papers) { p.CardThick = 1 }), papers("crease", func(p *session.Papers) { p.Crease = paper.Creased }),
		papers("files", func(p *session.Papers) {
			p.Kerf, p.GapWide, p.Notch, p.Gaps, p.Bends, p.Holes, p.Tangents, p.Words, p.Mirror = 0.2, 1, 2, 3, 2, 1, true, false, true
			p.PicW, p.PicH, p.PicView, p.PicDark, p.PicPlain, p.GIFW, p.GIFH, p.AsNow = 300, 200, "front", true, true, 200, 150, true
		}),
		{"units", func() { s.SetUnits(fold.Inch) }},
		{"tools", func() { s.SetSaw(false); s.SetSnips(false) }},
		{"printed, then as printed", func() { s.TemplatePrinted() }},
	}
	idle := map[string]bool{}
	for _, kind := range paper.Kinds[:6] {
		open := func(p session.Papers) {
			p.Step, p.Card = kind, kind == "card"
			if kind == "card" {
				p.Step = "template"
			}
			s.SetPapers(p)
			s.SetUnits(fold.MM)
		}
		look := func() (key, sheet string) {
			got, key := s.Sheet()
			require.Equal(t, kind, got)
			made, err := press.Sheets(s.PaperQuestion(kind, ""), nil)
			require.NoError(t, err, kind)
			return key, strings.Join(made.Pages, "") + made.Facts
		}
		open(usual)
		key, sheet := look()
		moved := 0
		for _, c := range changes {
			open(usual)
			key, sheet := key, sheet
			if kind == "cutting" { // the tools stay changed
				key, sheet = look()
			}
			c.do()
			k, now := look()
			if now != sheet {
				assert.NotEqual(t, key, k, "%s: %s changes the sheet", kind, c.name)
				moved++
			} else if k != key {
				idle[kind+": "+c.name] = true
			}
		}
		assert.Greater(t, moved, 1, kind)
		s.SetSaw(true)
		s.SetSnips(true)
	}
	delete(idle, "template: overlap") // this blank takes one page, where nothing overlaps
	delete(idle, "card: overlap")
	assert.Empty(t, idle, "drawn once more though nothing changes")
}
