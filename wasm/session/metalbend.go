package session

// This file holds what the bends are reckoned with: K and where it comes from, and
// the inside radii with how they are known.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
)

func blank(text string) bool { return strings.TrimSpace(text) == "" }

// Ways in which K may be come by.
const (
	KByTests  = "tests"
	KByMetal  = "metal"
	KByRule   = "rule"
	KByFigure = "figure"
)

// KBy says how the shown part's K is come by: a figure given with the part, a rule that it names, test
// bends that fit, what the maker's own metal says, or the rule for want of all these.
func (s *Session) KBy() string {
	sh := s.Part().Spec.Sheet
	switch {
	case sh.K != nil:
		return KByFigure
	case sh.Rule != "":
		return KByRule
	}
	return s.KWays()[0]
}

// KWays lists the ways in which K can be come by here, what is taken unasked first.
func (s *Session) KWays() []string {
	var ways []string
	if s.FittingTests() > 0 {
		ways = append(ways, KByTests)
	} else if m, ok := s.TheMetal(); ok && m.K != nil {
		ways = append(ways, KByMetal)
	}
	return append(ways, KByRule, KByFigure)
}

// SetKBy chooses how K is come by; a figure begins with the K that the first bend has.
func (s *Session) SetKBy(way string) error {
	rule := s.RuleUsed().ID
	return s.reckon("k", "", func(next *fold.Spec) string {
		sh := &next.Sheet
		sh.K, sh.KFrom, sh.Rule = nil, "", ""
		switch {
		case way == KByFigure:
			k := 0.0
			if b := s.part.Bends; len(b) > 0 {
				k = math.Round(b[0].K*1000) / 1000
			}
			sh.K = &k
		case way == KByRule && (s.KWays()[0] != KByRule || rule != metal.DefaultRule):
			sh.Rule = rule
		}
		return ""
	})
}

// FittingTests counts the test bends of the shown part that are of its metal and thickness.
func (s *Session) FittingTests() int {
	spec := s.Part().Spec
	strips := slices.Clone(spec.Tests)
	for i := range strips { // all that is looked at besides the metal
		strips[i].Thickness *= spec.Units.Scale()
	}
	return len(metal.Matching(strips, spec.Sheet.Metal, spec.Metals, s.Part().Thickness))
}

// KUse is one K that is used, with the bends it is used for.
type KUse struct {
	K, Spread    float64
	Kind, Source string // Source is the whole of it, Kind included
	Bends        []string
}

// KsUsed lists the different Ks of the shown part, in the order of its bends.
func (s *Session) KsUsed() []KUse {
	var out []KUse
	for _, b := range s.Report().Bends {
		i := slices.IndexFunc(out, func(u KUse) bool {
			return math.Abs(u.K-b.K) < 5e-5 && u.Source == b.KSource && u.Spread == b.KSpread
		})
		if i < 0 {
			out = append(out, KUse{K: b.K, Spread: b.KSpread, Kind: b.KKind, Source: b.KSource})
			i = len(out) - 1
		}
		out[i].Bends = append(out[i].Bends, b.Name)
	}
	return out
}

// RuleUsed is the rule that gives K where no test bend and no figure does.
func (s *Session) RuleUsed() metal.Rule {
	id := s.Part().Spec.Sheet.Rule
	if id == "" {
		id = metal.DefaultRule
	}
	for _, r := range metal.Rules {
		if r.ID == id {
			return r
		}
	}
	return metal.Rules[0]
}

// SetRule chooses the rule for K by its ID, and takes a given figure away.
func (s *Session) SetRule(id string) error {
	return s.reckon("rule", "", func(next *fold.Spec) string {
		next.Sheet.K, next.Sheet.KFrom, next.Sheet.Rule = nil, "", id
		return ""
	})
}

// SetK sets the K factor of all bends from typed text; "" takes a given figure away.
func (s *Session) SetK(text string) error {
	if blank(text) {
		given := s.Part().Spec.Sheet.K != nil
		err := s.reckon("k", text, func(next *fold.Spec) string {
			next.Sheet.K, next.Sheet.KFrom = nil, ""
			return ""
		})
		if err == nil && given {
			s.tell("k", s.kNow(), s.told.words)
		}
		return err
	}
	k, err := ReadPlain(text)
	if err == nil && !(k >= 0 && k <= fold.MaxK) {
		err = fmt.Errorf("%s is no K factor. 0 to %g would do, or nothing for the rule", quoted(text), fold.MaxK)
	}
	if err != nil {
		return s.refuse("k", text, err)
	}
	return s.reckon("k", text, func(next *fold.Spec) string {
		next.Sheet.K = &k
		return ""
	})
}

// kNow says what K is by where no figure is given any more: "No figure is given: K is now by your test bends, 0.402."
func (s *Session) kNow() string {
	by := "a rule, " + s.RuleUsed().Name
	switch s.KBy() {
	case KByTests:
		by = "your test bends"
	case KByMetal:
		by = "your metal"
	}
	var ks []string
	for _, u := range s.KsUsed() {
		ks = append(ks, fixed(u.K, 3))
	}
	return "No figure is given: K is now by " + by + ", " + List(ks) + "."
}

// SetKFrom says in the maker's words where a given K comes from; "" leaves it assumed.
func (s *Session) SetKFrom(text string) error {
	from, err := readName(text)
	if err != nil {
		return s.refuse("k-from", text, err)
	}
	next := s.spec
	next.Sheet.KFrom = from
	return s.take("k-from", text, next)
}

// RadiusRow is one inside radius of the shown part, with all the bends that have it.
type RadiusRow struct {
	Radius float64 // mm
	Bends  []int
	Names  []string
	From   string             // how it is known: one of fold.RadiusKnown; "" where the bends don't agree
	Least  []fold.LeastRadius // by each list that speaks of metal and thickness, the greatest first, mere advice last
	State  string             // ok; watch where every list asks for more, note where some do, or a list's own range does; "" where none speaks of it
}

// Radii lists the different inside radii, the smallest first.
func (s *Session) Radii() []RadiusRow {
	p, r := s.Part(), s.Report()
	var out []RadiusRow
	for i, b := range p.Bends {
		from := p.Spec.Bends[i].RadiusFrom
		if from == "" {
			from = "assumed"
		}
		k := 0
		for k < len(out) && out[k].Radius < b.Radius-1e-9 {
			k++
		}
		if k == len(out) || out[k].Radius > b.Radius+1e-9 {
			out = slices.Insert(out, k, RadiusRow{Radius: b.Radius, From: from})
		}
		row := &out[k]
		row.Bends, row.Names = append(row.Bends, i), append(row.Names, b.Name)
		if row.From != from {
			row.From = ""
		}
		if i >= len(r.Bends) {
			continue
		}
		row.lists(r.Bends[i])
	}
	return out
}

// lists takes in what the lists say of one more bend of the row. A hem is flattened: they speak of
// square bends.
func (row *RadiusRow) lists(b fold.BendReport) {
	if b.Angle >= 180 || len(b.LeastRadius) == 0 {
		return
	}
	under, within, all := 0, 0, 0
	for _, l := range b.LeastRadius {
		if !slices.Contains(row.Least, l) {
			at := 0
			for at < len(row.Least) && (row.Least[at].Advice == l.Advice && row.Least[at].Radius >= l.Radius || l.Advice && !row.Least[at].Advice) {
				at++
			}
			row.Least = slices.Insert(row.Least, at, l)
		}
		if l.Advice { // what forms easily, not the least
			continue
		}
		all++
		if b.Radius < l.Radius-shortOf {
			under++
		} else if b.Radius < l.High-shortOf { // the list itself leaves it open
			within++
		}
	}
	switch {
	case all == 0:
	case under == all:
		row.State = "watch"
	case under+within > 0 && row.State != "watch":
		row.State = "note"
	case row.State == "":
		row.State = "ok"
	}
}

// shortOf is by how much a radius may be short of a list's least and not be called so (mm): lists in
// inches and sheets in mm differ by as much, and the advice on the part leaves it out too.
const shortOf = 0.05

// Range is what the lists give for the least radius, from the lowest to the highest, the upper end of a list's own
// range among them; ok is false where none does.
func (row RadiusRow) Range() (lo, hi float64, ok bool) {
	for _, l := range row.Least {
		switch {
		case l.Advice:
		case !ok:
			lo, hi, ok = l.Radius, max(l.Radius, l.High), true
		default:
			lo, hi = min(lo, l.Radius), max(hi, l.Radius, l.High)
		}
	}
	return lo, hi, ok
}

// Lists counts the lists that give a least radius, mere advice aside.
func (row RadiusRow) Lists() (n int) {
	for _, l := range row.Least {
		if !l.Advice {
			n++
		}
	}
	return n
}

// RadiusField is the key of the field that holds the radius of bends, for errors and focus.
func RadiusField(bends []int) string { return fmt.Sprintf("radius-%d", bends[0]) }

// SetRadii sets the inside radius of several bends at once from a typed length.
func (s *Session) SetRadii(bends []int, text string) error {
	field := RadiusField(bends)
	r, err := ReadLength(text, s.units)
	if err == nil && r < 0 {
		err = fmt.Errorf("%s is no inside radius. 0 or more would do", quoted(text))
	}
	if err != nil {
		return s.refuse(field, text, err)
	}
	measured := s.measuredHere()
	err = s.reckon(field, text, func(next *fold.Spec) string {
		was := ""
		for _, b := range bends {
			if w := s.giveRadius(next, b, r, measured); w != "" {
				was = w
			}
		}
		return assumedNow(was)
	})
	if s.told.field == field && s.told.serial == s.serial {
		for _, row := range s.Radii() { // it may stand in a row of more bends now
			if slices.Contains(row.Bends, bends[0]) {
				s.told.field = RadiusField(row.Bends)
			}
		}
	}
	return err
}

// SetRadiusFrom says how the radius of several bends is known: one of fold.RadiusKnown.
func (s *Session) SetRadiusFrom(bends []int, from string) error {
	if from == "assumed" {
		from = ""
	}
	field := RadiusField(bends) + "-from"
	if from == "strip" {
		r, measured := s.part.Bends[bends[0]].Radius, s.measuredHere()
		if len(measured) > 0 && !oneOf(r, measured) {
			return s.refuse(field, "", fmt.Errorf("no strip of yours has R %s: they came out with R %s. Give the bends that radius, or add the strip that has this one",
				inMMs(r), inMMs(measured...)))
		}
	}
	next := s.spec
	for _, bend := range bends {
		if err := s.editBend(&next, bend, func(b *fold.BendSpec) { b.RadiusFrom = from }); err != nil {
			return s.refuse(field, "", err)
		}
	}
	return s.take(field, "", next)
}

// inMMs writes radii within a sentence, to 0.01 mm: "1.5 mm and 2 mm".
func inMMs(radii ...float64) string {
	var words []string
	for _, r := range radii {
		words = append(words, Fine(r, fold.MM)+" mm")
	}
	return List(words)
}

// StripWords say what stands behind a radius that the part calls measured on a strip: "" where fitting strips
// came out with it. bad is whether they came out with another.
func (s *Session) StripWords(row RadiusRow) (words string, bad bool) {
	if row.From != "strip" {
		return "", false
	}
	switch measured := s.measuredHere(); {
	case len(measured) == 0:
		return "On your word: no strip of this sheet that tells its radius is among your test bends.", false
	case !oneOf(row.Radius, measured):
		return fold.InUnits("Your strips came out with R "+inMMs(measured...)+", not with this: give the bends that radius, or add the strip that has this one.", s.units), true
	}
	return "", false
}
