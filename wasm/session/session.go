// Package session is the state behind the page: which part is open, how far it
// is folded, what was changed and can be undone, what is chosen. It is plain Go,
// tested natively; nothing in it knows the browser. This file holds Session and
// what is asked of it at every drawing; change.go holds the changes, order.go the
// order of the swings, keep.go opening and saving, start.go a part of one's own,
// sizes.go the part by sizes.
package session

import (
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
	"dryfold/fold/partfile"
	"dryfold/render/scene"
	"dryfold/wasm/session/ask"
)

// Word is one of the job's words along the top; the column follows it.
type Word int

// The job's words, in the order one does the job.
const (
	Sizes Word = iota
	Metal
	Seams
	Bends
	Marking
)

// Words are the job's words as shown.
var Words = [...]string{"Sizes", "Metal", "Seams", "Bends", "Marking out"}

// String is the word as shown.
func (w Word) String() string { return Words[w] }

// maxUndo bounds the history: as many changes as anyone steps back through, at
// most some MB of the largest parts.
const maxUndo = 200

// stage is how much of the report is known.
type stage int

const (
	knownSizes  stage = iota
	knownGaps         // seams too
	knownFouls        // clashes too
	knownSpread       // what hand and machine may be out by too
)

// Session is what one page is busy with. Use New. It is not safe for use by
// several goroutines at once.
type Session struct {
	spec       fold.Spec
	part       *fold.Part
	report     fold.Report
	known      stage // what report holds
	serial     int   // counts parts shown, so that late answers can be told apart
	partSerial int   // serial when a part that may be another was last shown

	undo, redo []past

	word     Word
	units    fold.Units
	open     int     // index of the open card
	frac     float64 // how far the open card's swing has gone, 0..1
	sel      scene.Select
	viewOnly bool
	repairs  []ask.Repair

	bySizes // of a part by sizes
	cutting cutting

	metal        metalState     // what stands open under Metal
	papers       Papers         // what is chosen under Marking out
	sheetFacts   ask.PaperFacts // what is told of the sheet there
	paperRefused []string       // the fields of which the third program refused what stands in them
	card         cardModel

	bench       partfile.Bench // the maker's own, lengths in mm
	benchSerial int
	strip       *StripForm // a test bend being typed; nil where none is
	fit         fit        // what the last change of test bends did to the blank
	told        telling    // what the last change of a number did
	calc        *Calc      // nil where it was never opened
	reckoned    metal.Answer
	reckonedOf  string // what it answers
	reckonedErr error
	tests       *Tests // of testsOf and testsBench
	testsOf     int
	testsBench  int

	// Errors hold what was wrong with the last thing typed in a field, by the
	// field's key, with the text that was typed.
	errors map[string]FieldError
}

// FieldError is what stands beside a field whose text was not taken.
type FieldError struct{ Typed, Message string }

// New opens a session on a part. The part is shown in its own units, half
// folded.
func New(spec fold.Spec) *Session {
	s := &Session{units: spec.Units, papers: usualPapers()}
	s.set(build(spec))
	s.halfway()
	return s
}

// set takes a part into the session without touching the history.
func (s *Session) set(b built) {
	part := b.part
	s.spec, s.part, s.repairs = b.spec, part, nil
	s.made, s.problems = b.made, b.problems
	s.known = knownSizes
	switch {
	case !part.Foldable: // nothing more to find where nothing folds
		s.report, s.known = part.Sizes(), knownSpread
	case b.made != nil || b.seams: // its seams are measured already, or wanted at once
		s.report, s.known = part.Quick(), knownGaps
	default:
		s.report = part.Sizes()
	}
	s.errors = map[string]FieldError{}
	s.noteSizes()
	s.serial++
	s.partSerial = s.serial
	if s.open >= len(part.Swings) {
		s.open, s.frac = max(0, len(part.Swings)-1), 1
	}
	if s.sel.Kind != scene.None && s.sel.Index >= s.count(s.sel.Kind) {
		s.sel = scene.Select{}
	}
}

// halfway opens a card past the middle of the order, half swung: there is
// something standing, and something to swing.
func (s *Session) halfway() {
	s.open, s.frac = len(s.part.Swings)*2/3, 0.5
	s.sel = scene.Select{}
}

// Part is the open part.
func (s *Session) Part() *fold.Part { return s.part }

// Spec is the open part as its file would say it.
func (s *Session) Spec() fold.Spec { return s.spec }

// Serial changes whenever another part is shown.
func (s *Session) Serial() int { return s.serial }

// PartSerial is Serial when a part of other shape, metal or joints was last shown: what was measured on its blank since, and lines
// struck out, leave its report as it is.
func (s *Session) PartSerial() int { return s.partSerial }

// Report is what is known about the part shown. Checked says whether it holds
// clashes, which come later than the rest.
func (s *Session) Report() *fold.Report { return &s.report }

// Checked reports whether clashes have been looked for.
func (s *Session) Checked() bool { return s.known >= knownFouls }

// Measured reports whether the Report holds seams.
func (s *Session) Measured() bool { return s.known >= knownGaps }

// SpreadKnown reports whether what hand and machine make of the part has been worked out.
func (s *Session) SpreadKnown() bool { return s.known == knownSpread }

// stages are the reports that ask.Check gives, in turn.
var stages = []string{"", "gaps", "report", "spread"}

// Answer takes what ask.Check told of the part of the given serial number; it says whether that changes what is shown.
func (s *Session) Answer(serial int, kind, text string) bool {
	known := stage(slices.Index(stages, kind))
	if serial != s.partSerial || known <= s.known {
		return false
	}
	r, err := ask.ReadAnswer(text)
	if err != nil {
		return false
	}
	s.report, s.known = r, known
	s.noteSizes()
	return true
}

// Name is the part's name, or words for a part without one.
func (s *Session) Name() string {
	if n := s.Part().Spec.Name; n != "" {
		return n
	}
	return "Unnamed part"
}

// OwnName is the open part's name within a sentence.
func (s *Session) OwnName() string {
	if s.spec.Name != "" {
		return s.spec.Name
	}
	return "the part"
}

// Word is the job's word the column follows.
func (s *Session) Word() Word { return s.word }

// SetWord turns the column to a word.
func (s *Session) SetWord(w Word) {
	if w < Sizes || w > Marking {
		return
	}
	if w != s.word {
		s.sel = scene.Select{}
	}
	s.word = w
}

// Units are the units shown, whatever the file's.
func (s *Session) Units() fold.Units { return s.units }

// SetUnits shows lengths in other units; the part keeps its own. The check square is another one in them: what it measured is
// reckoned into the scale first.
func (s *Session) SetUnits(u fold.Units) {
	if u != s.units && s.papers.Printed != [2]float64{} {
		s.TemplatePrinted()
	}
	s.units = u
}

// ViewOnly reports whether a shared part is shown that can't be changed.
func (s *Session) ViewOnly() bool { return s.viewOnly }

// Selected is the thing that is lit and whose numbers are shown.
func (s *Session) Selected() scene.Select { return s.sel }

// Select lights a thing; one that isn't there lights nothing.
func (s *Session) Select(sel scene.Select) {
	if sel.Kind == scene.None || sel.Index < 0 || sel.Index >= s.count(sel.Kind) {
		sel = scene.Select{}
	}
	s.sel = sel
}

// count is how many things of a kind the part has.
func (s *Session) count(k scene.Kind) int {
	p := s.Part()
	switch k {
	case scene.Panel:
		return len(p.Panels)
	case scene.Bend:
		return len(p.Bends)
	case scene.Hole:
		return len(p.Spec.Holes)
	case scene.Cutout:
		return len(p.Spec.Cutouts)
	case scene.Seam:
		return len(s.Report().Seams)
	case scene.Edge:
		n := len(p.Spec.Outline)
		for _, c := range p.Spec.Cutouts {
			n += len(c)
		}
		return n
	}
	return 0
}

// OpenCard is the index of the open card and how far its swing has gone, 0..1.
func (s *Session) OpenCard() (card int, frac float64) { return s.open, s.frac }

// SetCard opens a card with its swing the fraction f of its way (clamped to 0..1).
func (s *Session) SetCard(card int, f float64) {
	n := len(s.Part().Swings)
	if n == 0 {
		s.open, s.frac = 0, 0
		return
	}
	s.open, s.frac = min(max(card, 0), n-1), min(max(f, 0), 1)
}

// Turn swings the open card's leaf to an angle of its first bend, from where the swing begins to where
// the leaf is stopped. There the bend stands at the set angle until LetGo.
func (s *Session) Turn(a geom.Angle) {
	if p := s.Part(); s.open < len(p.Swings) {
		s.turn(&p.Swings[s.open], 0, a)
	}
}

// turn swings a swing's bend k to an angle, where it swings it at all.
func (s *Session) turn(sw *fold.Swing, k int, a geom.Angle) {
	if sw.Set[k] > sw.From[k] {
		s.frac = sw.Fraction(k, a)
	}
}

// letGoNear is how near to where the leaf is stopped a finger that lets go of it means the end, as
// a share of the swing: about half a degree.
const letGoNear = 0.005

// LetGo takes the hand off the leaf. Where it had come to its stop the metal springs back, and the card is done.
func (s *Session) LetGo() {
	if p := s.Part(); s.open < len(p.Swings) && s.frac >= p.Swings[s.open].Out-letGoNear {
		s.frac = 1
	}
}

// Swing takes a panel in hand: it opens the card that turns the bend through the
// angle (the last one that turns it at all, if none does) and swings it there.
func (s *Session) Swing(bend int, a geom.Angle) {
	p := s.Part()
	at, k := -1, 0
	for i, sw := range p.Swings {
		for j, b := range sw.Bends {
			if b == bend && (at < 0 || a > sw.From[j]) {
				at, k = i, j
			}
		}
	}
	if at < 0 {
		return
	}
	s.open = at
	s.turn(&p.Swings[at], k, a)
}

// State is how far each bend is bent on the bench: exactly the bends whose cards
// are done, and the open card as far as its leaf has swung. Seams are shown as finished.
func (s *Session) State() fold.State {
	p := s.Part()
	if !p.Foldable {
		return nil
	}
	if s.AsFinished() {
		return p.Finished()
	}
	return p.StateAt(s.open, s.frac)
}

// AsFinished reports whether the bench shows the finished part whatever the card: while seams are looked
// at, and while the sizes of a part by sizes are.
func (s *Session) AsFinished() bool {
	return !s.viewOnly && (s.word == Seams || s.word == Sizes && s.made != nil)
}

// springTime is how long the run-through takes over the springing back, in swings: long enough to be seen.
const springTime = 0.3

// Run moves the run-through on by a step of time (0.02 is a fiftieth of what one swing takes) and
// reports whether there is more to come. It stops for a moment where the leaf is stopped, and the springing back takes
// springTime; a step of 1 or more goes on to the end of a swing.
func (s *Session) Run(step float64) bool {
	p := s.Part()
	n := len(p.Swings)
	if n == 0 {
		return false
	}
	if s.frac == 1 && s.open+1 < n {
		s.open, s.frac = s.open+1, 0
	}
	switch out := p.Swings[s.open].Out; {
	case step >= 1:
		s.frac = 1
	case out == 1: // the rest of the step goes to the next swing
		s.SetFold((float64(s.open) + s.frac + step) / float64(n))
	case s.frac < out:
		s.frac = min(s.frac+step*out, out)
	default:
		s.frac = min(s.frac+step*(1-out)/springTime, 1)
	}
	return s.Fold() < 1
}

// Fold is how far the whole order has gone, 0 flat to 1 finished.
func (s *Session) Fold() float64 {
	n := len(s.Part().Swings)
	if n == 0 {
		return 0
	}
	return (float64(s.open) + s.frac) / float64(n)
}

// SetFold folds the part to a share of its whole order, 0 flat to 1 finished.
func (s *Session) SetFold(share float64) {
	n := len(s.Part().Swings)
	at := min(max(share, 0), 1) * float64(n)
	card := min(int(at), max(0, n-1))
	s.SetCard(card, at-float64(card))
}

// Error is what was wrong with the last text typed in a field; ok is false where nothing was.
func (s *Session) Error(field string) (e FieldError, ok bool) {
	e, ok = s.errors[field]
	return e, ok
}

// ErrorUnder reports whether a text in a field whose key begins so was not taken.
func (s *Session) ErrorUnder(prefix string) bool {
	for key := range s.errors {
		if strings.HasPrefix(key, prefix) {
			return true
		}
	}
	return false
}

// refuse keeps a field's typed text with what would be accepted.
func (s *Session) refuse(field, typed string, err error) error {
	err = asFieldTells(err, field)
	same := func(k string) bool { return k == field }
	s.others, s.paperRefused = slices.DeleteFunc(s.others, same), slices.DeleteFunc(s.paperRefused, same)
	s.errors[field] = FieldError{typed, fold.InUnits(fmt.Sprint(err), s.units) + "."}
	return err
}

// Picture is what the bench shows, but for the camera and the light or dark ground.
func (s *Session) Picture() scene.Picture {
	p := s.Part()
	pic := scene.Picture{
		Part:   p,
		State:  s.State(),
		Report: s.Report(),
		Select: s.sel,
		Format: func(mm float64) string { return Size(mm, s.units) },
	}
	switch {
	case s.viewOnly:
		pic.Dims = s.Fold() == 1
		pic.NoBlank = s.Fold() == 1
	case s.word == Sizes && s.made != nil:
		pic.Touch = true // its own sizes are drawn
	case s.word == Sizes && s.Fold() == 1:
		pic.Dims = true
	case s.word == Seams:
		pic.Ticks = s.Measured()
		pic.Format = func(mm float64) string { return Length(mm, s.units) }
	}
	if !p.Foldable || s.AsFinished() {
		return pic
	}
	if !s.viewOnly {
		for b := range p.Bends {
			pic.Draggable = append(pic.Draggable, b)
		}
	}
	if s.open < len(p.Swings) && s.frac > 0 && s.frac < 1 || s.word == Bends && s.open < len(p.Swings) {
		pic.Turning = p.Swings[s.open].Bends
	}
	if c := s.Foul(s.open); c != nil && !s.viewOnly {
		pic.Clash = &c.Clash
		if len(c.Cuts) > 0 {
			pic.Cut = &c.Cuts[0]
		}
		pic.ClashText = fmt.Sprintf("%s meets %s at %.0f°", bodyName(p, c.Clash.A), bodyName(p, c.Clash.B), c.Angle)
		if c.Overbend {
			pic.ClashText += ", on overbend"
		}
	}
	return pic
}

// TickScales counts the seams whose feeler ticks are drawn longer than the gap, and
// those wide enough to be drawn as they are.
func (s *Session) TickScales() (enlarged, plain int) {
	r := s.Report()
	size := geom.Vec3(r.Finished.Box()).Len()
	for i := range r.Seams {
		if scene.TickScale(0, &r.Seams[i], size) > 1 {
			enlarged++
		} else {
			plain++
		}
	}
	return enlarged, plain
}

// bodyName names a solid as the shop does: the panel, or the bend of a name.
func bodyName(p *fold.Part, b fold.Body) string {
	if b.Zone {
		return "bend " + p.Bends[b.Index].Name
	}
	return p.Panels[b.Index].Name
}

// Foul is the first clash of a swing, nil if there is none or it isn't known yet.
func (s *Session) Foul(swing int) *fold.ClashReport { return s.report.Foul(swing) }
