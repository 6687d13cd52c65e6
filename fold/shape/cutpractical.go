package shape

// This file changes the reliefs and drilled holes of a part by sizes to what the maker's tools make.

import (
	"math"
	"slices"
	"strconv"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// Change is what Practical changed at a corner, at the reliefs beside bends' ends, or at a hole. Lengths in mm.
type Change struct {
	Path   string // the field, "sizes.corners[2].relief"
	What   string // the corner's or hole's name in words
	Corner bool   // the figures below are a corner's; else Was and Is are a hole's width or a relief's size

	WasKind, IsKind sizes.ReliefKind
	Was, Is         float64 // the relief's size as cut, a hole's width
	Need            float64 // the least size of the relief that does; 0 for holes

	Measured          bool // the gaps are known
	WasLeast, WasMost float64
	IsLeast, IsMost   float64
	WasLight, IsLight float64
	Formula           string // that stood in the field, "" where none did
	Words             string
}

// Practical changes what of a part by sizes the tools can't cut: reliefs to the next owned drill, or to a size or kind that
// can be cut, and the width of holes that are said to be drilled to the nearest owned drill. It gives the part
// with its form changed (make it anew with Make) and what was changed, each corner with its gap and relief
// before and after. A part by its blank, one that can't be made and one that can be cut come back as they were; so does
// what Practical gave before. What it can't mend stays for CheckCut to tell.
func Practical(s fold.Spec, tools sizes.Tools) (fold.Spec, []Change) {
	return PracticalInSteps(s, tools, func() bool { return true })
}

// PracticalInSteps is Practical for who has other things to do meanwhile: going is asked before each part that is made on trial, at most
// some hundred times. Where it says no the search ends, and the part comes back as it was.
func PracticalInSteps(s fold.Spec, tools sizes.Tools, going func() bool) (fold.Spec, []Change) {
	before, problems := Make(s)
	if s.Sizes == nil || len(problems) > 0 {
		return s, nil
	}
	m := &mender{going: going, own: tools, tools: tools.Filled(s.Units == fold.Inch), unit: s.Units.Scale()}
	m.set(s, before)
	for round := 0; round < maxMends; round++ {
		changed := m.drilledHoles()
		changed = m.corners() || changed
		changed = m.ends() || changed
		if !changed {
			break
		}
	}
	if m.given {
		return s, nil
	}
	return m.spec, m.tell(s, before)
}

// mender holds the part as it has become.
type mender struct {
	own   sizes.Tools // as they were said
	tools sizes.Tools // filled
	unit  float64
	spec  fold.Spec
	made  Made
	cuts  []Cut
	bad   int
	tries int
	going func() bool // asked before each try
	given bool        // it said no
}

func (m *mender) set(s fold.Spec, made Made) {
	m.spec, m.made = s, made
	m.cuts = CheckCut(made.Part, m.own)
	m.bad = badReliefs(m.cuts)
}

// badReliefs counts the places of the outline that can't be cut as they are.
func badReliefs(cuts []Cut) (n int) {
	for _, c := range cuts {
		if c.Contour == 0 && c.Rule != "" {
			n++
		}
	}
	return n
}

// try takes the changed form if the part can be made of it and good says so.
func (m *mender) try(f *sizes.Form, good func(bad int) bool) bool {
	if m.tries++; m.tries > maxMendTries {
		return false
	}
	s := m.spec
	s.Sizes = f
	// First without the corners' last correction, which takes most of the time and changes edges by hundredths of a mm.
	for _, rounds := range [2]int{0, maxRounds} {
		if m.given = m.given || !m.going(); m.given {
			return false
		}
		made, problems := makeIn(s, rounds)
		if len(problems) > 0 || !good(badReliefs(CheckCut(made.Part, m.own))) {
			return false
		}
		if rounds > 0 {
			m.set(s, made)
		}
	}
	return true
}

// relief is a relief that a corner may get.
type relief struct {
	kind sizes.ReliefKind
	size float64 // mm
}

func (r relief) field(unit float64) sizes.Relief {
	return sizes.Relief{Kind: r.kind, Size: sizes.Is(r.size / unit)}
}

// group is corners whose reliefs are alike.
type group struct {
	relief
	need    float64
	close   sizes.Closing
	corners []int // of made.Corners
}

// groups are the corners by their reliefs, in the order in which they were made.
func (m *mender) groups() (out []group) {
	for i, c := range m.made.Corners {
		if c.Size <= 0 {
			continue // no relief of its own
		}
		k := slices.IndexFunc(out, func(g group) bool {
			return g.kind == c.Relief && g.close == c.Close && math.Abs(g.size-c.Size) < mendNear && math.Abs(g.need-c.Need) < mendNear
		})
		if k < 0 {
			k = len(out)
			out = append(out, group{relief{c.Relief, c.Size}, c.Need, c.Close, nil})
		}
		out[k].corners = append(out[k].corners, i)
	}
	return out
}

// corners mends the reliefs at corners; it reports whether anything was changed.
func (m *mender) corners() (changed bool) {
	for k := 0; k < len(m.groups()); k++ {
		g := m.groups()[k]
		drilled := g.kind == sizes.Drilled && m.hasRound(g.size)
		odd := drilled && !m.owned(g.size)
		if !odd && !m.badAt(g) {
			continue
		}
		was := m.bad
		for _, r := range m.options(g, drilled) {
			good := func(bad int) bool {
				return bad < was || odd && bad <= was && (r.kind != sizes.Drilled || m.owned(r.size))
			}
			if m.try(m.withCorners(g.corners, r), good) {
				changed = true
				break
			}
		}
	}
	return changed
}

// badAt reports that a place beside one of the corners' flanges can't be cut as it is.
func (m *mender) badAt(g group) bool {
	return slices.ContainsFunc(m.cuts, func(c Cut) bool {
		return c.Contour == 0 && c.Rule != "" && slices.ContainsFunc(g.corners, func(i int) bool {
			x := m.made.Corners[i]
			return slices.Contains(c.Panels[:], x.A) || slices.Contains(c.Panels[:], x.B)
		})
	})
}

// hasRound reports that the outline has a round inside corner of a drill's size: a relief that is to be drilled may be so wide that
// it was sawn.
func (m *mender) hasRound(d float64) bool {
	return slices.ContainsFunc(m.cuts, func(c Cut) bool {
		return c.Contour == 0 && c.Kind == CutRound && math.Abs(c.Size-d) < mendNear
	})
}

func (m *mender) owned(d float64) bool {
	return slices.ContainsFunc(m.tools.Drills, func(x float64) bool { return math.Abs(x-d) < mendNear })
}

// options are the reliefs that a group of corners may get instead, the ones that change least first.
func (m *mender) options(g group, drilled bool) (out []relief) {
	drills := func(least float64) {
		n := 0
		for _, d := range m.tools.Drills {
			if d >= least-noise && n < mendOptions {
				out = append(out, relief{sizes.Drilled, d})
				n++
			}
		}
	}
	steps := func(kind sizes.ReliefKind, from float64) {
		step := mendStep
		if m.unit > 1 {
			step = m.unit / 64
		}
		first := math.Ceil((from+mendNear)/step) * step
		for k := range mendOptions {
			out = append(out, relief{kind, first + float64(k)*step})
		}
	}
	switch {
	case drilled:
		// As near as a drill is good for, where it is enough: 2.37 is a drill of 2.4 either way.
		drills(max(g.need, g.size-drillNear))
		steps(sizes.Sawn, m.tools.Slot/2)
	case g.kind == sizes.Drilled:
		steps(sizes.Sawn, g.size)
	default:
		kind := g.kind
		if kind == sizes.Bare {
			kind = sizes.Sawn
		}
		steps(kind, g.size)
		drills(2 * g.need)
	}
	return out
}

// withCorners is the form with a relief at those corners.
func (m *mender) withCorners(corners []int, r relief) *sizes.Form {
	f := m.spec.Sizes.Clone()
	for _, i := range corners {
		rel := r.field(m.unit)
		m.corner(f, m.made.Corners[i]).Relief = &rel
	}
	return f
}

// corner is a made corner's entry in a form, a new one where it has none.
func (m *mender) corner(f *sizes.Form, c MadeCorner) *sizes.Corner {
	for i := range f.Corners {
		if x := &f.Corners[i]; x.A == c.A && x.B == c.B || x.A == c.B && x.B == c.A {
			return x
		}
	}
	f.Corners = append(f.Corners, sizes.Corner{A: c.A, B: c.B})
	return &f.Corners[len(f.Corners)-1]
}

// ends mends the reliefs beside bends' ends, which all are as the form's relief says; the corners keep theirs.
func (m *mender) ends() bool {
	rel := m.spec.Sizes.Relief
	if m.bad == 0 {
		return false
	}
	values, errs := m.spec.Sizes.Values(m.unit)
	size, err := values.At("sizes.relief.size", rel.Size)
	if len(errs) > 0 || rel.Size.Given && err != nil {
		return false
	}
	pinned := m.spec.Sizes.Clone()
	for _, c := range m.made.Corners {
		if c.Size <= 0 {
			continue
		}
		if x := m.corner(pinned, c); x.Relief == nil {
			r := relief{c.Relief, c.Size}.field(m.unit)
			x.Relief = &r
		}
	}
	t := m.spec.Sheet.Thickness * m.unit
	was := m.bad
	for _, r := range m.options(group{relief: relief{rel.Kind, max(size*m.unit, t)}, need: t / 2}, rel.Kind == sizes.Drilled) {
		f := pinned.Clone()
		f.Relief = r.field(m.unit)
		if m.try(f, func(bad int) bool { return bad < was }) {
			return true
		}
	}
	return false
}

// drilledHoles brings the holes that are said to be drilled to the nearest owned drill.
func (m *mender) drilledHoles() (changed bool) {
	values, errs := m.spec.Sizes.Values(m.unit)
	if len(errs) > 0 {
		return false
	}
	for i, h := range m.spec.Sizes.Holes {
		if !h.Drilled || h.Shape != sizes.Round && h.Shape != sizes.Slot {
			continue
		}
		wide, err := values.At("", h.Wide)
		if err != nil {
			continue
		}
		wide *= m.unit
		best := m.tools.Drills[0]
		for _, d := range m.tools.Drills {
			if math.Abs(d-wide) <= math.Abs(best-wide)+noise {
				best = d
			}
		}
		if math.Abs(best-wide) < mendNear || wide > m.tools.Drills[len(m.tools.Drills)-1]+drillNear {
			continue
		}
		f := m.spec.Sizes.Clone()
		f.Holes[i].Wide = sizes.Is(best / m.unit)
		changed = m.try(f, func(int) bool { return true }) || changed
	}
	return changed
}

// tell lists what differs from the part as it was.
func (m *mender) tell(s fold.Spec, before Made) (out []Change) {
	mm := func(x float64) string { return fig(x) + " mm" }
	for i, c := range m.made.Corners {
		if i >= len(before.Corners) {
			break
		}
		b := before.Corners[i]
		if b.Relief == c.Relief && math.Abs(b.Size-c.Size) < mendNear {
			continue
		}
		x := Change{What: c.Name, Corner: true, WasKind: b.Relief, IsKind: c.Relief, Was: b.Size, Is: c.Size, Need: c.Need,
			Measured: b.Measured && c.Measured, WasLeast: b.Least, WasMost: b.Most, IsLeast: c.Least, IsMost: c.Most, WasLight: b.Light, IsLight: c.Light}
		if x.What == "" {
			x.What = "the corner of " + c.A + " and " + c.B
		}
		for k, e := range m.spec.Sizes.Corners {
			if e.A == c.A && e.B == c.B || e.A == c.B && e.B == c.A {
				x.Path = "sizes.corners[" + strconv.Itoa(k) + "].relief"
			}
		}
		if b.At >= 0 && s.Sizes.Corners[b.At].Relief != nil {
			x.Formula = s.Sizes.Corners[b.At].Relief.Size.Formula
		} else {
			x.Formula = s.Sizes.Relief.Size.Formula
		}
		x.Words = capital(x.What) + ": its relief was " + reliefWords(b.Relief, b.Size) + " and is now " + reliefWords(c.Relief, c.Size) +
			"; at least " + mm(c.Need) + " is needed."
		if x.Measured {
			was, is := span(b.Least, b.Most), span(c.Least, c.Most)
			if was == is {
				x.Words += " Its gap stays " + is + "."
			} else {
				x.Words += " Its gap was " + was + " and is now " + is + "."
			}
		}
		out = append(out, x)
	}
	was, is := s.Sizes.Relief, m.spec.Sizes.Relief
	if was != is {
		old, _ := m.number(s.Sizes, was.Size)
		now, _ := m.number(m.spec.Sizes, is.Size)
		x := Change{Path: "sizes.relief", What: "the reliefs beside bends’ ends", WasKind: was.Kind, IsKind: is.Kind, Was: old, Is: now, Formula: was.Size.Formula}
		x.Words = "The reliefs beside bends’ ends were " + reliefWords(was.Kind, old) + " and are now " + reliefWords(is.Kind, now) + "."
		if !was.Size.Given {
			x.Words = "The reliefs beside bends’ ends were as small as will do, and are now " + reliefWords(is.Kind, now) + "."
		}
		out = append(out, x)
	}
	for i, h := range m.spec.Sizes.Holes {
		if i >= len(s.Sizes.Holes) || s.Sizes.Holes[i].Wide == h.Wide {
			continue
		}
		old, _ := m.number(s.Sizes, s.Sizes.Holes[i].Wide)
		now, _ := m.number(m.spec.Sizes, h.Wide)
		x := Change{Path: "sizes.holes[" + strconv.Itoa(i) + "].wide", What: h.Name, Was: old, Is: now, Formula: s.Sizes.Holes[i].Wide.Formula}
		if x.What == "" {
			x.What = "hole " + strconv.Itoa(i+1) + " of the sizes"
		}
		x.Words = capital(x.What) + ": drilled " + mm(old) + " before, now " + mm(now) + "."
		out = append(out, x)
	}
	for i := range out {
		if f := out[i].Formula; f != "" {
			out[i].Words += " It was the formula " + f + "."
		}
	}
	return out
}

// number is a field's length in mm.
func (m *mender) number(f *sizes.Form, x sizes.Field) (float64, bool) {
	values, _ := f.Values(m.unit)
	v, err := values.At("", x)
	return v * m.unit, err == nil
}

// span is a gap in words: from least to most where they differ.
func span(least, most float64) string {
	if math.Abs(most-least) < gapShown {
		return fig(least) + " mm"
	}
	return fig(least) + " mm to " + fig(most) + " mm"
}

// reliefWords is a relief in words: its kind and size (mm).
func reliefWords(k sizes.ReliefKind, size float64) string {
	if k == sizes.Bare {
		return "none"
	}
	return k.String() + " " + fig(size) + " mm"
}
