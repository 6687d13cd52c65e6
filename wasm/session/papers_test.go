package session

// This file tests the choices under Marking out: what they can be, how they are kept, and what they make of the question and the
// key of the sheet.

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/cutfile"
	"dryfold/fold/geom"
	"dryfold/fold/paper"
	"dryfold/render/scene"
	"dryfold/wasm/session/ask"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A length is taken from its least to its most and refused past them, at its field, with the last good one left standing; nothing
// goes back to what is usual. In inches no message has mm.
func TestPaperLengthBounds(t *testing.T) {
	for _, units := range []fold.Units{fold.MM, fold.Inch} {
		s := New(tray(t))
		s.SetUnits(units)
		for key, f := range paperFields {
			usual := s.PaperLength(key)
			least, most := f.least, f.most
			if key == "across" || key == "down" { // by 2 % of the square
				least, most = 98, 102
				if units == fold.Inch {
					least, most = 98*1.016, 102*1.016
				}
			}
			for _, good := range []float64{least, most, (least + most) / 2} {
				require.NoError(t, s.SetPaperLength(key, trimmed(good, 6)+"mm"), "%s %g", key, good)
				p := s.Papers()
				assert.InDelta(t, good, *f.of(&p), 1e-9, key)
			}
			was, shown := s.Papers(), s.PaperLength(key)
			for _, bad := range []string{trimmed(least-0.01, 6) + "mm", trimmed(most*1.0001+0.001, 6) + "mm", "wide", "-3", "1/0"} {
				if f.none && bad == trimmed(-0.01, 6)+"mm" {
					bad = "-0.01mm"
				}
				require.Error(t, s.SetPaperLength(key, bad), "%s %q", key, bad)
				e, ok := s.Error(PaperField(key))
				require.True(t, ok, "%s %q", key, bad)
				assert.Equal(t, bad, e.Typed)
				if units == fold.Inch {
					assert.NotContains(t, strings.NewReplacer(quoted(bad), "", "60mm", "").Replace(e.Message), "mm", key)
				}
				assert.Equal(t, was, s.Papers(), key)
				assert.Equal(t, shown, s.PaperLength(key))
			}
			require.NoError(t, s.SetPaperLength(key, " "))
			assert.Equal(t, usual, s.PaperLength(key), "%s: back to usual", key)
			_, ok := s.Error(PaperField(key))
			assert.False(t, ok)
		}
		assert.Equal(t, usualPapers(), s.Papers())
	}
}

// What the fields take the rooms take, on a blank with room enough.
func TestPaperLengthsSuitTheRooms(t *testing.T) {
	s := New(fold.Spec{Name: "angle", Sheet: fold.Sheet{Thickness: 1}, Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{600, 0}}, {At: geom.Vec2{600, 400}}, {At: geom.Vec2{0, 400}}},
		Bends: []fold.BendSpec{{Name: "fold", Line: [2]geom.Vec2{{300, 0}, {300, 400}}, Angle: 90, Radius: 1, Up: true}}})
	require.True(t, s.Part().Foldable)
	s.SetPapers(func() Papers { p := s.Papers(); p.Gaps, p.Bends = 2, int(cutfile.BendVees); return p }())
	for key, f := range paperFields {
		for _, v := range []float64{f.least, f.most} {
			switch key {
			case "across", "down":
				continue // the template's own bounds
			case "roll":
				v = max(v, 130) // by the margins: the room tells, below
			}
			require.NoError(t, s.SetPaperLength(key, trimmed(v, 3)), key)
			var err error
			switch key {
			case "kerf", "gapwide", "notch":
				if key == "kerf" { // a notch has to be deeper than the cut is wide
					require.NoError(t, s.SetPaperLength("notch", "20"))
				}
				_, err = cutfile.Make(s.Part(), s.PaperQuestion("machine", "dxf").Machine)
			case "cardthick":
				require.NoError(t, s.SetPaperLength(key, trimmed(min(v, 1.5), 3))) // what is thicker takes up more than the bend's own zone
				q := s.PaperQuestion("card", "")
				_, _, err = paper.Card(s.Part(), paper.CardOptions{TemplateOptions: q.Template, Thickness: q.Card.Thickness, Crease: q.Card.Crease})
			default:
				p := s.Papers()
				p.OnPaper = "A3"
				if key == "roll" {
					p.OnPaper = paper.Roll
				}
				s.SetPapers(p)
				_, err = paper.Template(s.Part(), s.Report(), s.PaperQuestion("template", "").Template)
			}
			assert.NoError(t, err, "%s %g", key, v)
			require.NoError(t, s.SetPaperLength(key, ""))
		}
	}
	p := s.Papers()
	p.OnPaper, p.Roll = paper.Roll, 60
	s.SetPapers(p)
	_, err := paper.Template(s.Part(), s.Report(), s.PaperQuestion("template", "").Template)
	var e *paper.FieldError
	require.ErrorAs(t, err, &e)
	assert.True(t, s.HasPaperField(e.Field), e.Field)
}

func TestPaperCounts(t *testing.T) {
	s := New(tray(t))
	for _, c := range []struct {
		key         string
		least, most int
	}{{"gaps", 0, 20}, {"picw", 100, 4000}, {"pich", 100, 4000}, {"gifw", 120, 1000}, {"gifh", 120, 1000}} {
		usual := s.PaperCount(c.key)
		for _, good := range []int{c.least, c.most} {
			require.NoError(t, s.SetPaperCount(c.key, fmt.Sprint(good)))
			assert.Equal(t, fmt.Sprint(good), s.PaperCount(c.key))
		}
		was := s.Papers()
		for _, bad := range []string{fmt.Sprint(c.least - 1), fmt.Sprint(c.most + 1), "2.5", "many", "1e9", "NaN"} {
			err := s.SetPaperCount(c.key, bad)
			require.Error(t, err, "%s %s", c.key, bad)
			e, ok := s.Error(PaperField(c.key))
			require.True(t, ok)
			assert.Equal(t, bad, e.Typed)
			assert.Equal(t, was, s.Papers())
		}
		require.NoError(t, s.SetPaperCount(c.key, ""))
		assert.Equal(t, usual, s.PaperCount(c.key))
	}
	assert.Equal(t, usualPapers(), s.Papers())
}

func TestPaperRules(t *testing.T) {
	s := New(tray(t))
	for _, units := range []fold.Units{fold.MM, fold.Inch} {
		s.SetUnits(units)
		list, now := s.PaperRules()
		assert.True(t, slices.ContainsFunc(list, func(x [2]string) bool { return x[0] == now }))
		for _, x := range list {
			s.SetPaperRule(x[0])
			_, now := s.PaperRules()
			assert.Equal(t, x[0], now)
			want, err := ReadPlain(x[0])
			require.NoError(t, err)
			assert.Equal(t, want, s.PaperQuestion("marking", "").Options.Rule)
			s.SetPaperRule("7")
			_, now = s.PaperRules()
			assert.Equal(t, x[0], now, "there is no such rule")
		}
	}
}

// otherPapers are choices of which none is usual.
func otherPapers() Papers {
	return Papers{Step: "template", RuleMM: 1, RuleIn: 1.0 / 32, Paper: "Letter", Hand: "left", Other: true, Card: true, OnPaper: paper.Roll, Roll: 914, Margin: 5, Overlap: 12,
		Printed: [2]float64{99.5, 100.5}, Scale: [2]float64{1.01, 0.99}, CardThick: 2, Crease: paper.Creased, Kerf: 0.2, GapWide: 0.8, Notch: 2, Gaps: 3, Bends: 2, Holes: 1,
		Tangents: true, Words: false, Mirror: true, PicW: 800, PicH: 600, PicView: scene.Views[1], PicDark: true, PicPlain: true, GIFW: 320, GIFH: 240, AsNow: true}
}

func TestPapersAreKept(t *testing.T) {
	u, o := reflect.ValueOf(usualPapers()), reflect.ValueOf(otherPapers())
	for i := range u.NumField() {
		require.False(t, reflect.DeepEqual(u.Field(i).Interface(), o.Field(i).Interface()), u.Type().Field(i).Name)
	}
	s := New(tray(t))
	place := s.Place()
	s.SetPapers(otherPapers())
	assert.Equal(t, otherPapers(), s.Papers(), "all of them can be")
	assert.NotEqual(t, place, s.Place(), "and are to be kept")
	r := New(demo(t, "hive-roof.dryfold"))
	_, err := r.Restore(s.Keep(""))
	require.NoError(t, err)
	assert.Equal(t, otherPapers(), r.Papers())
	for _, k := range []string{"{}", "null"} { // kept by a version without the choice, or with none
		text := s.Keep("")
		at := strings.Index(text, `"papers":{`)
		require.Positive(t, at)
		end := at + strings.IndexByte(text[at:], '}') + 1
		_, err = r.Restore(text[:at] + `"papers":` + k + text[end:])
		require.NoError(t, err)
	}
}

// Absurd choices, as of another version or written by hand, are taken as usual, one by one; what is left can be printed.
func TestAbsurdPapersAreUsual(t *testing.T) {
	s := New(tray(t))
	keep := func(name string, v any) string {
		var m map[string]json.RawMessage
		require.NoError(t, json.Unmarshal([]byte(s.Keep("")), &m))
		var p map[string]any
		require.NoError(t, json.Unmarshal(m["papers"], &p))
		_, ok := p[name]
		require.True(t, ok, name)
		p[name] = v
		var err error
		m["papers"], err = json.Marshal(p)
		require.NoError(t, err)
		text, err := json.Marshal(m)
		require.NoError(t, err)
		return string(text)
	}
	usual := reflect.ValueOf(usualPapers())
	for i := range usual.NumField() {
		name := usual.Type().Field(i).Name
		var absurd []any
		switch usual.Field(i).Kind() {
		case reflect.String:
			absurd = []any{"absurd", strings.Repeat("x", 10000)}
		case reflect.Float64:
			absurd = []any{-1.0, 1e300}
		case reflect.Int:
			absurd = []any{-1, 1 << 40}
		case reflect.Array:
			absurd = []any{[]float64{1e300, 1}, []float64{-1, 5}, []float64{150, 0.6}, []float64{0, 0}}
		}
		for _, v := range absurd {
			r := New(demo(t, "hive-roof.dryfold"))
			_, err := r.Restore(keep(name, v))
			require.NoError(t, err, name)
			assert.Equal(t, usualPapers(), r.Papers(), "%s %v", name, v)
			assert.Equal(t, [2]float64{1, 1}, r.Scaled())
		}
	}
}

// The question for each want has what is chosen for it, and nothing else of the choices.
func TestPaperQuestion(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	s.SetPapers(otherPapers())
	s.SetCard(1, 0.25)
	p := otherPapers()
	for _, want := range append(slices.Clone(paper.Kinds), "blank", "machine", "picture", "run", "solid") {
		for _, units := range []fold.Units{fold.MM, fold.Inch} {
			s.SetUnits(units)
			q := s.PaperQuestion(want, "x")
			again, err := ask.ReadPaper(ask.WritePaper(q))
			require.NoError(t, err)
			assert.Equal(t, q, again, "%s: the whole question comes over", want)
			assert.Equal(t, want, q.Want)
			assert.Equal(t, "x", q.Ending)
			assert.Equal(t, s.Question(), q.Part)
			rule := 1.0
			if units == fold.Inch {
				rule = 1.0 / 32
			}
			assert.Equal(t, paper.Options{Units: units, Rule: rule, Paper: "Letter", Hand: "left", Other: true}, q.Options)
			assert.Equal(t, paper.Roll, q.Template.Paper)
			assert.Equal(t, []float64{914, 5, 12}, []float64{q.Template.Roll, *q.Template.Margin, *q.Template.Overlap})
			if want != "machine" {
				assert.Zero(t, q.Machine, want)
			}
			if want != "card" {
				assert.Zero(t, q.Card, want)
			}
			pic := ask.PictureQuestion{}
			switch want {
			case "card":
				assert.Equal(t, 2.0, q.Card.Thickness)
				assert.Equal(t, paper.Creased, q.Card.Crease)
				spec, err := ask.ReadQuestion(q.Card.Part)
				require.NoError(t, err)
				assert.InDelta(t, 2, spec.Sheet.Thickness, 1e-9, "made in card")
				assert.Nil(t, spec.Sizes)
			case "machine":
				assert.Equal(t, cutfile.Options{Units: units, Kerf: 0.2, Gaps: 3, GapWidth: 0.8, Bends: cutfile.BendVees, Notch: 2, Tangents: true, Holes: cutfile.MarkHoles, Mirror: true}, q.Machine)
			case "picture":
				pic = ask.PictureQuestion{W: 800, H: 600, View: p.PicView, Dark: true, Plain: true, Done: 1.25}
			case "run":
				pic = ask.PictureQuestion{W: 320, H: 240, View: p.PicView, Dark: true}
			case "solid":
				pic.Done = 1.25
			}
			assert.Equal(t, pic, q.Picture, want)
		}
	}
	p.AsNow = false
	s.SetPapers(p)
	assert.Equal(t, -1.0, s.PaperQuestion("solid", "stl").Picture.Done, "finished")

	blank := New(tray(t)) // given by its blank
	if blank.BySizes() {
		require.NoError(t, blank.Freeze())
	}
	assert.Empty(t, blank.PaperQuestion("card", "").Card.Part, "laid out anew")
}

// There is a sheet under Marking out alone, for each step but Files.
func TestSheet(t *testing.T) {
	s := New(tray(t))
	kind, key := s.Sheet()
	assert.Equal(t, "", kind+key)
	s.SetWord(Marking)
	for _, x := range PaperSteps {
		p := s.Papers()
		p.Step = x.Key
		s.SetPapers(p)
		kind, key := s.Sheet()
		if x.Key == "files" {
			assert.Equal(t, "", kind+key)
			continue
		}
		assert.Equal(t, x.Key, kind)
		assert.True(t, strings.HasPrefix(key, kind+" "))
		p.Card = true
		s.SetPapers(p)
		kind, _ = s.Sheet()
		if x.Key == "template" {
			assert.Equal(t, "card", kind)
		} else {
			assert.Equal(t, x.Key, kind)
		}
		p.Card = false
		s.SetPapers(p)
	}
	link, err := s.Link()
	require.NoError(t, err)
	require.NoError(t, s.OpenLink(link))
	kind, key = s.Sheet()
	assert.Equal(t, "", kind+key, "a shared part has no column")
}

// A printer is corrected print after print: each measure is of a print scaled by what stood before.
func TestPrinterIsCorrected(t *testing.T) {
	s := New(tray(t))
	// A printer that makes 100 mm 99.2 across and 100.6 down, played: what its square measures is what it was scaled by
	// times that.
	printer := [2]float64{0.992, 1.006}
	for round := range 3 {
		scale := s.Scaled()
		s.TemplatePrinted()
		assert.Equal(t, scale, s.Scaled(), "what was printed stands")
		for k, key := range []string{"across", "down"} {
			require.NoError(t, s.SetPaperLength(key, trimmed(100*scale[k]*printer[k], 4)))
		}
		if now := s.Scaled(); round > 0 {
			for k := range now {
				assert.InDelta(t, 1/printer[k], now[k], 1e-5, "round %d", round)
			}
		}
	}
	// In inches the square is one of 4 in: what was measured of the other is reckoned in, not taken for this.
	scale := s.Scaled()
	s.SetUnits(fold.Inch)
	assert.Equal(t, scale, s.Scaled())
	assert.Empty(t, s.PaperLength("across"))
	require.NoError(t, s.SetPaperLength("across", "4"))
	assert.Equal(t, scale, s.Scaled(), "true")
	require.Error(t, s.SetPaperLength("across", "3.9"))
	assert.Equal(t, scale, s.Scaled())
	s.Unscaled()
	assert.Equal(t, [2]float64{1, 1}, s.Scaled())
	_, bad := s.Error(PaperField("across"))
	assert.False(t, bad)

	// Corrections that add up to more than a printer is out by are refused, with the way out.
	s.SetUnits(fold.MM)
	var err error
	for range 4 {
		s.TemplatePrinted()
		if err = s.SetPaperLength("down", "98.5"); err != nil {
			break
		}
	}
	require.Error(t, err)
	e, _ := s.Error(PaperField("down"))
	assert.Contains(t, e.Message, "begin anew without a correction")
	for _, x := range s.Scaled() {
		assert.False(t, math.Abs(x-1) > 0.03+1e-9)
	}
}

// The hand is that of one part: another begins without, whichever way it comes, and undo brings each its own.
func TestHandIsOfOnePart(t *testing.T) {
	hand := func(s *Session) string { return fmt.Sprint(s.Papers().Hand, " ", s.Papers().Other) }
	choose := func(s *Session, h string, other bool) {
		p := s.Papers()
		p.Hand, p.Other = h, other
		s.SetPapers(p)
	}
	s := New(tray(t))
	choose(s, "left", true)
	require.NoError(t, s.SetName("mine"))
	assert.Equal(t, "left true", hand(s), "a change leaves it")
	s.OpenSpec(demo(t, "hive-roof.dryfold"))
	assert.Equal(t, " false", hand(s))
	choose(s, "right", true)
	s.Undo()
	assert.Equal(t, "left false", hand(s))
	s.Undo()
	assert.Equal(t, "left false", hand(s), "within a part it stays")
	s.Redo()
	s.Redo()
	assert.Equal(t, "right false", hand(s))

	link, err := New(demo(t, "stand-bracket.dryfold")).Link()
	require.NoError(t, err)
	require.NoError(t, s.OpenLink(link))
	s.TakeCopy()
	assert.Equal(t, " false", hand(s), "a shared part is another one")
	s.Undo()
	assert.Equal(t, "right false", hand(s))
	require.NoError(t, s.StartWith("tray"))
	assert.Equal(t, " false", hand(s))
	choose(s, "right", false)
	r := New(tray(t))
	choose(r, "left", true)
	_, err = r.Restore(s.Keep(""))
	require.NoError(t, err)
	assert.Equal(t, "right false", hand(r))
	r.Undo()
	assert.Equal(t, " false", hand(r), "of the part before nothing is known")
}

// What is told of a sheet goes with its part.
func TestSheetFacts(t *testing.T) {
	s := New(tray(t))
	assert.NotNil(t, s.SheetFacts())
	told := ask.Write(ask.PaperFacts{Watch: []string{"told"}, Check: &ask.CutCheck{Word: "bend"}, Plan: &ask.CutPlan{}})
	s.SetSheetFacts(told)
	require.NoError(t, s.SetName("renamed"))
	assert.Equal(t, "bend", s.SheetFacts().Check.Word, "until its own come")
	s.OpenSpec(demo(t, "hive-roof.dryfold"))
	assert.Equal(t, &ask.PaperFacts{}, s.SheetFacts())
	s.SetSheetFacts(told)
	s.Undo()
	assert.Equal(t, &ask.PaperFacts{}, s.SheetFacts())
	s.SetSheetFacts(told)
	s.SetSheetFacts("")
	assert.Equal(t, &ask.PaperFacts{}, s.SheetFacts(), "a sheet that could not be drawn has none")
	for _, bad := range []string{"{", "[]", `{"Check": 7}`, `{"Unknown": 1}`} {
		s.SetSheetFacts(bad)
		assert.Nil(t, s.SheetFacts().Check, bad)
	}
}

// What the third program refuses stands at its field, in the units shown, until another choice is made.
func TestRefusedByTheThirdProgram(t *testing.T) {
	s := New(tray(t))
	s.SetUnits(fold.Inch)
	for _, field := range []string{"kerf", "gaps", "gapwide", "notch", "roll", "margin", "overlap", "across", "down", "cardthick"} {
		require.True(t, s.HasPaperField(field), field)
		s.RefusePaper(field, "Found 12.7 mm, need 25.4 mm to 50.8 mm.")
		e, ok := s.Error(PaperField(field))
		require.True(t, ok, field)
		assert.Equal(t, "Found 0.5 in, need 1 in to 2 in.", e.Message)
		if field == "gaps" {
			assert.Equal(t, s.PaperCount(field), e.Typed)
		} else {
			assert.Equal(t, s.PaperLength(field), e.Typed)
		}
	}
	for _, field := range []string{"", "paper", "hand", "crease", "before[0]", "units", "bends", "holes", "picw"} {
		assert.False(t, s.HasPaperField(field), field)
	}
	require.Error(t, s.SetPaperLength("overlap", "wide"))
	s.SetPapers(s.Papers())
	_, ok := s.Error(PaperField("margin"))
	assert.False(t, ok, "with another choice it may do")
	_, ok = s.Error(PaperField("overlap"))
	assert.True(t, ok, "what was typed stays refused")
	s.RefusePaper("gaps", "no")
	require.NoError(t, s.SetPaperCount("picw", "200"))
	_, ok = s.Error(PaperField("gaps"))
	assert.False(t, ok)
}

func TestFileFor(t *testing.T) {
	s := New(tray(t))
	assert.Equal(t, "uncapping-tray.stl", s.FileFor("", "stl"))
	assert.Equal(t, "uncapping-tray-sheets.pdf", s.FileFor("sheets", "pdf"))
}
