package spread

// This file says in words what makes most of a spread, the largest first.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
)

// item is what makes a part of a spread: one error, or several of bends that make about as much each.
type item struct {
	part    float64 // of the most of them
	sum     float64 // of all of them
	percent int     // of each, in steps of shareStep
	causes  []*cause
	other   string // what it is where it is no bend's
}

// rounded is a share in steps that chance in the samples seldom changes (percent).
func rounded(part float64) int { return shareStep * int(math.Round(100*part/shareStep)) }

// largest lists what makes much of a spread, the largest first: no more than maxItems. Bends that make about as much, alike by angle or by
// line, are one item, in the part's order.
func (w *work) largest(shares []fold.Share) []item {
	shares = slices.Clone(shares)
	sortShares(shares)
	var all []item
	for _, x := range shares {
		k := item{part: x.Part, sum: x.Part, percent: rounded(x.Part)}
		switch x.Cause {
		case "together":
			continue
		case "cut edges":
			k.other = "cutting the edges"
		case "thickness":
			k.other = "the sheet's thickness"
		case "K":
			k.other = "K"
		default:
			c := w.c.cause(x.Cause)
			if c == nil {
				continue
			}
			k.causes = []*cause{c}
		}
		if k.percent < worthWatching {
			continue
		}
		i := slices.IndexFunc(all, func(y item) bool {
			return len(k.causes) > 0 && y.kind() == k.kind() && y.part-k.part <= max(asMuch*y.part, asMuchAnyway)
		})
		if i < 0 {
			all = append(all, k)
			continue
		}
		y := &all[i]
		at := 0
		for at < len(y.causes) && y.causes[at].bends[0] < k.causes[0].bends[0] {
			at++
		}
		y.causes = slices.Insert(y.causes, at, k.causes[0])
		y.sum += k.part
		y.percent = rounded(y.sum / float64(len(y.causes)))
	}
	for i := 1; i < len(all); i++ {
		for j := i; j > 0 && all[j].before(&all[j-1]); j-- {
			all[j], all[j-1] = all[j-1], all[j]
		}
	}
	return all[:min(len(all), maxItems)]
}

// kind is the bends' kindOf, -1 of what is no bend's.
func (k *item) kind() kindOf {
	if len(k.causes) == 0 {
		return -1
	}
	return k.causes[0].kind
}

// before puts the largest first, and items of as much in a fixed order: what is no bend's, angles, lines, each in the bends' order.
func (k *item) before(y *item) bool {
	switch {
	case k.percent != y.percent:
		return k.percent > y.percent
	case k.kind() != y.kind():
		return k.kind() < y.kind()
	}
	return len(k.causes) > 0 && k.causes[0].bends[0] < y.causes[0].bends[0]
}

// words are "cutting the edges" or `the angle of bend "back"`.
func (w *work) words(k *item) string {
	if len(k.causes) == 0 {
		return k.other
	}
	what := "angle"
	if k.kind() == byLine {
		what = "line"
	}
	if len(k.causes) == 1 {
		names := w.bendNames(k.causes[0])
		if len(names) > 1 {
			return fmt.Sprintf("the %s of %s in one swing", what, quotedBends(names))
		}
		return fmt.Sprintf("the %s of %s", what, quotedBends(names))
	}
	var of []string
	alone := true
	for _, c := range k.causes {
		alone = alone && len(c.bends) == 1
		of = append(of, w.bendNames(c)...)
	}
	if alone {
		return fmt.Sprintf("the %ss of %s", what, quotedBends(of))
	}
	of = of[:0]
	for _, c := range k.causes {
		of = append(of, quotedBends(w.bendNames(c)))
	}
	return fmt.Sprintf("the %ss of %s", what, strings.Join(of, ", and of "))
}

func (w *work) bendNames(c *cause) (names []string) {
	for _, b := range c.bends {
		names = append(names, w.part.Bends[b].Name)
	}
	return names
}

// quotedBends are bends by name, so that "back" is not read as springing back: `bend "back"`, `bends "left" and "right"`, `bend 3`. The
// first maxNames are named.
func quotedBends(names []string) string {
	quoted, numbered := []string{}, []string{}
	for _, n := range names[:min(len(names), maxNames)] {
		if strings.HasPrefix(n, "bend ") {
			numbered = append(numbered, n)
		} else {
			quoted = append(quoted, `"`+n+`"`)
		}
	}
	var out []string
	switch len(quoted) {
	case 0:
	case 1:
		out = append(out, "bend "+quoted[0])
	default:
		out = append(out, "bends "+andWords(quoted))
	}
	out = append(out, numbered...)
	if n := len(names) - maxNames; n > 0 {
		out = append(out, fmt.Sprintf("%d more", n))
	}
	return andWords(out)
}

// percents is how much each makes.
func (k *item) percents() string {
	if len(k.causes) > 1 {
		return fmt.Sprintf("(%d %% each)", k.percent)
	}
	return fmt.Sprintf("(%d %%)", k.percent)
}

// said puts items in words; worth says what the bends of one do, for the first that are bends'.
func (w *work) said(all []item, whole string, worth func(*item) string) string {
	if !slices.ContainsFunc(all, func(k item) bool { return len(k.causes) > 0 }) {
		if len(all) == 0 {
			return ""
		}
		k := all[0]
		measure := ""
		if k.other != "cutting the edges" {
			measure = "; measure it"
		}
		return fmt.Sprintf("No one bend makes much of %s: %s makes %d %%%s.", whole, k.other, k.percent, measure)
	}
	var out []string
	told := false
	for i := range all {
		k := &all[i]
		text := w.words(k) + " " + k.percents()
		if len(k.causes) > 0 && !told {
			told = true
			text += worth(k)
		}
		out = append(out, text)
	}
	head := "The largest part of " + whole + " is "
	if len(all[0].causes) > 1 {
		head = "The largest parts of " + whole + " are "
	}
	return head + strings.Join(out, "; then ") + "."
}

// cause finds a cause by its name.
func (c *causes) cause(name string) *cause {
	for i := range c.all {
		if c.all[i].name == name && c.all[i].kind != byCut {
			return &c.all[i]
		}
	}
	return nil
}

// plusWords is a cause's plus as a protractor or a rule shows it.
func (x *cause) plusWords() string {
	if x.kind == byAngle {
		deg := fmt.Sprintf("%.2g", x.plus*180/math.Pi)
		if deg == "1" {
			return "1 degree"
		}
		return deg + " degrees"
	}
	return fmt.Sprintf("%.2g mm", x.plus)
}
