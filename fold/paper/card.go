package paper

// This file makes the card model: the part again in cardboard, so that a mock-up of it can be cut, folded and tried in its
// place before any metal is. What is measured on it goes back into the sizes: see cardsizes.go.

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// The ways to make a fold in card.
const (
	// Scored: cut half through on the outside of the fold, which then opens. The fold is sharp and the card's inside face
	// keeps its length: inside radius 0, K 0. Assumed.
	Scored = "scored"
	// Creased: pressed with a blunt edge on the inside of the fold. The card's middle keeps its length: inside radius 0,
	// K 0.5. Assumed.
	Creased = "creased"
)

// CardOptions say how a card model is printed and made. Its zero value is scored card of 1.5 mm on A4.
type CardOptions struct {
	TemplateOptions
	Thickness float64 // of the card, mm; 0 is 1.5
	Crease    string  // Scored or Creased; "" is Scored
	// Make makes a part by sizes in card: of the form in what CardSpec gives, as fold/shape does. nil, as for a part by its blank, or
	// where it fails: the blank is laid out anew with the same outside sizes.
	Make  func(fold.Spec) (fold.Spec, error) `json:"-"`
	Sizes []CardSize                         // what the sheet asks for; nil is CardSizes of the part
}

// CardSpec is a part's Spec with card for its metal: of a thickness (mm; 0 is 1.5), its folds scored or creased ("" is scored), in the
// form of a part by sizes too. Its blank is still the metal's: it has to be made or laid out anew.
func CardSpec(s fold.Spec, thickness float64, crease string) fold.Spec {
	if thickness == 0 {
		thickness = usualCard
	}
	if crease == "" {
		crease = Scored
	}
	k := 0.0
	if crease == Creased {
		k = 0.5
	}
	s.Sheet = fold.Sheet{Thickness: thickness / s.Units.Scale(), Metal: "card", K: &k, KFrom: crease + ", assumed", Good: s.Sheet.Good}
	s.Metals, s.Tests, s.Price, s.AsCut, s.Struck = nil, nil, fold.Price{}, nil, nil
	s.Bends = slices.Clone(s.Bends)
	for i := range s.Bends {
		s.Bends[i].Radius, s.Bends[i].RadiusFrom = 0, ""
	}
	if s.Sizes != nil {
		s.Sizes = s.Sizes.Clone()
		s.Sizes.Radius = sizes.Is(0)
		for i := range s.Sizes.Flanges {
			s.Sizes.Flanges[i].Radius, s.Sizes.Flanges[i].RadiusFrom = sizes.Field{}, ""
		}
	}
	return s
}

// Card gives the pages of a part's card model, its blank in card at full size as Template has it and a list of the sizes to
// take back from it; and the card's own Spec, given by its blank. An option that can't be is a *FieldError; a part that can't
// be folded is another error.
func Card(p *fold.Part, o CardOptions) ([]draft.Page, fold.Spec, error) {
	if !p.Foldable {
		return nil, fold.Spec{}, cantFold(p, "made in card")
	}
	from := "as you gave it"
	if o.Thickness == 0 || o.Thickness == usualCard { // the page always gives one: the usual is not known to be the maker's
		o.Thickness, from = usualCard, "assumed"
	}
	if !(o.Thickness >= thinnestCard && o.Thickness <= thickestCard) {
		return nil, fold.Spec{}, refused("thickness", strconv.FormatFloat(o.Thickness, 'g', 6, 64)+" mm", "card from %g mm to %g mm thick", thinnestCard, thickestCard)
	}
	switch o.Crease {
	case "":
		o.Crease = Scored
	case Scored, Creased:
	default:
		return nil, fold.Spec{}, refused("crease", strconv.Quote(draft.Clip(o.Crease, 3, 60)), "%q or %q", Scored, Creased)
	}
	m, err := makeCard(p, &o)
	if err != nil {
		return nil, fold.Spec{}, err
	}
	t := newTemplate(m.card, nil, o.TemplateOptions)
	t.kind, t.bare, t.stamp = "CARD MODEL, not for metal", true, "card model"
	t.work = "Thick lines: cut. Thin: fold. A card model shows shape and place, not strength."
	t.word = func(b *fold.Bend) string {
		if b.Up {
			return "up, valley"
		}
		return "down, mountain"
	}
	t.facts = m.facts(p, &o, from)
	pages, err := t.pages()
	if err != nil {
		return nil, fold.Spec{}, err
	}
	list := o.Sizes
	switch {
	case p.Spec.Sizes == nil && !slices.ContainsFunc(list, func(c CardSize) bool { return c.Path != "" }): // what it measures over all is the card's own
		list = CardSizes(m.card)
	case list == nil:
		list = CardSizes(p)
		for i := range list {
			list[i].Changed = list[i].Changed && !m.made
		}
	}
	more := sizesPages(p, &o, list)
	for i := range more {
		more[i].Title = fmt.Sprintf("%s, card model, sizes, page %d of %d", p.Spec.Name, i+1, len(more))
	}
	return append(pages, more...), m.card.Spec, nil
}

// cardModel is a part as it is made in card.
type cardModel struct {
	card *fold.Part
	made bool  // of its sizes, not from the metal's blank
	why  error // it could not be made of its sizes
	hems []int // bends that are folded round because they go right back
	hem  float64
}

// makeCard makes the part in card: of its sizes where it has them and they can be made in card, else from its blank.
func makeCard(p *fold.Part, o *CardOptions) (*cardModel, error) {
	m := &cardModel{}
	next := CardSpec(p.Spec, o.Thickness, o.Crease)
	if o.Make != nil {
		s, err := o.Make(next)
		if err == nil {
			s.Sizes = nil
			if m.card = fold.Build(s); m.card.Foldable {
				m.made = true
				return m, nil
			}
			err = cantFold(m.card, "made in card")
		}
		m.why = err
	}
	next.Sizes = nil
	err := m.layOut(p, next, o.Thickness)
	if err == nil {
		return m, nil
	}
	// How thick may it be? To a tenth.
	lo, hi := 0.0, o.Thickness
	for range cardTries {
		x := (lo + hi) / 2
		if (&cardModel{}).layOut(p, CardSpec(next, x, o.Crease), x) == nil {
			lo = x
		} else {
			hi = x
		}
	}
	need := "a part whose blank can be laid out anew for another thickness"
	if lo = float64(int(lo*10)) / 10; lo >= thinnestCard {
		need = fmt.Sprintf("card of %g mm at most", lo)
		if o.Crease == Scored {
			need += ", or creased instead of scored"
		}
	}
	return nil, refused("thickness", fmt.Sprintf("card of %g mm, from which this part can't be made (%s)", o.Thickness, err), "%s", need)
}

// layOut lays the metal's blank out anew for card. Bends that go right back are folded as closely round as can be.
func (m *cardModel) layOut(p *fold.Part, next fold.Spec, thickness float64) error {
	var hems []int
	for i := range p.Bends {
		if p.Bends[i].Angle.Degrees() >= foldedBack {
			hems = append(hems, i)
		}
	}
	var err error
	for _, r := range []float64{0, 0.5, 1, 1.5, 2} {
		m.hem = r * thickness
		for _, i := range hems {
			next.Bends[i].Radius = m.hem / next.Units.Scale()
		}
		var s fold.Spec
		if s, err = p.Redevelop(next); err == nil {
			if q := fold.Build(s); q.Foldable {
				m.card, m.hems = q, hems
				return nil
			} else if err = cantFold(q, "made in card"); len(hems) == 0 {
				return err
			}
		}
		if len(hems) == 0 {
			return err
		}
	}
	return err
}

// facts are what stands on every page of the card model.
func (m *cardModel) facts(p *fold.Part, o *CardOptions, from string) []string {
	u := marks{units: o.Units}
	t := template{opt: o.TemplateOptions}
	size := m.card.Blank.Box.Size()
	unit := unitName(o.Units)
	out := []string{fmt.Sprintf("Card, %s %s thick (%s). Blank %s × %s %s.", u.fine(o.Thickness), unit, from, t.length(size[0]), t.length(size[1]), unit)}
	if o.Crease == Creased {
		out = append(out, "Creased: press each fold with a blunt edge on its inside: valley folds on this face, mountain folds on the back. The middle of the card is taken to keep its length (assumed).")
	} else {
		out = append(out, "Scored: cut each fold half through on its outside: valley folds on the back, mountain folds on this face. The inside face of the card is taken to keep its length (assumed).")
	}
	box := func(q *fold.Part) string {
		z := q.Pose(q.Finished()).Box().Size()
		slices.SortFunc(z[:], func(a, b float64) int {
			if a > b {
				return -1
			}
			return 1
		})
		return strings.Join([]string{t.length(z[0]), t.length(z[1]), t.length(z[2])}, " × ")
	}
	was, is := box(p), box(m.card)
	words := "Folded it measures " + is + " " + unit + " over all, as the metal part does"
	if was != is { // in one line: the foot of every page is as high
		words = "Folded: " + is + " " + unit + " over all, in metal " + was
		if m.made {
			words += ". The form's sizes are the same"
		} else {
			words += ". Panels' outside sizes are the same"
		}
	}
	out = append(out, words+".")
	if len(m.hems) > 0 {
		var names []string
		for _, i := range m.hems {
			names = append(names, m.card.Bends[i].Name)
		}
		out = append(out, fmt.Sprintf("Folded right back, inside radius %s %s (assumed): %s. Press them with a blunt edge on the inside, do not score them.", u.fine(m.hem), unit, strings.Join(names, ", ")))
	}
	if m.why != nil {
		out = append(out, "It could not be made of its sizes in card ("+m.why.Error()+"): it is the metal's blank laid out anew with the same outside sizes; corners may stand open.")
	}
	return out
}

// sizesPages list the sizes to take back from the card, with room to write.
func sizesPages(p *fold.Part, o *CardOptions, list []CardSize) []draft.Page {
	paper, ok := paperSizes[strings.ToLower(o.Paper)]
	if !ok {
		paper = paperSizes["a4"]
		if o.Units == fold.Inch {
			paper = paperSizes["letter"]
		}
	}
	const pitch = 8.5
	t := template{opt: o.TemplateOptions}
	unit := unitName(o.Units)
	var own []int // those that no formula gives
	for i := range list {
		if list[i].Formula == "" {
			own = append(own, i)
		}
	}
	var out []draft.Page
	for i := 0; i == 0 || i < len(own); {
		s := draft.Page{W: paper[0], H: paper[1]}
		s.Box("paper", 0, 0, s.W, s.H)
		title(&s, p.Spec.Name, s.W-2*margin)
		s.Text("body", draft.Start, geom.Vec2{margin, margin + 13}, "Card model: what to take back from it. All lengths in "+unit+".")
		s.Line("rule", geom.Vec2{margin, margin + 15.5}, geom.Vec2{s.W - margin, margin + 15.5})
		y := margin + 21.0
		say := "Trim the card until it fits its place, then measure what was changed, write it in its box and enter it on the page: the part and its blank follow. "
		if !slices.ContainsFunc(list, func(c CardSize) bool { return c.Path != "" }) {
			say = "Trim the card until it fits its place, and write here what it measures then. This part is given by its blank: the blank has to be changed by hand. "
		}
		if slices.ContainsFunc(list, func(c CardSize) bool { return c.Changed }) {
			say += "Sizes to inside faces are not the card's own, which is of another thickness: in their boxes write by how much was trimmed off (-) or was missing (+)."
		}
		if len(own) < len(list) {
			say += " Sizes that follow from others by a formula are left out."
		}
		for _, l := range draft.Wrap(say, textSize, s.W-2*margin) {
			s.Text("body", draft.Start, geom.Vec2{margin, y}, l)
			y += 4.2
		}
		y += 3
		boxAt, nowAt := s.W-margin-45, s.W-margin-52
		s.Group("sizes")
		s.Text("bold", draft.Start, geom.Vec2{margin, y}, "Size")
		s.Text("bold", draft.End, geom.Vec2{nowAt, y}, "now")
		s.Text("bold", draft.Start, geom.Vec2{boxAt, y}, "on the card as trimmed")
		y += 2
		for ; i < len(own) && y+pitch < s.H-margin-6; i++ {
			c := list[own[i]]
			s.Line("hair", geom.Vec2{margin, y}, geom.Vec2{s.W - margin, y})
			s.Text("body", draft.Start, geom.Vec2{margin, y + 5.4}, draft.Clip(fmt.Sprintf("%d  %s", i+1, c.Label), textSize, nowAt-margin-22))
			s.Text("bold", draft.End, geom.Vec2{nowAt, y + 5.4}, t.length(c.Is))
			s.Box("box", boxAt, y+1, 38, pitch-2)
			if c.Changed {
				s.Text("note", draft.Start, geom.Vec2{boxAt + 1.5, y + 5.4}, "+ or -")
			}
			y += pitch
		}
		s.Line("hair", geom.Vec2{margin, y}, geom.Vec2{s.W - margin, y})
		s.End()
		s.Text("note", draft.Start, geom.Vec2{margin, s.H - 6}, "A card model shows shape and place, not strength.")
		out = append(out, s)
		if len(out) >= maxSizePages {
			break
		}
	}
	return out
}
