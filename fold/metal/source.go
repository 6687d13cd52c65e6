package metal

import "strings"

// This file holds where a figure comes from.

// Kind is what a figure rests on, the weakest first.
type Kind int

// The kinds of source.
const (
	Assumed   Kind = iota // nobody measured it, no list gives it
	Practice              // a fact of the trade, or trade lists without a named source
	Given                 // by the maker, in words of their own
	Published             // a named document
	Measured              // by whoever makes the part
)

// String is the kind as people read it.
func (k Kind) String() string {
	return [...]string{"assumed", "common practice", "given by you", "published", "measured by you"}[k]
}

// Source says where a figure comes from.
type Source struct {
	Kind   Kind
	Title  string // of the document, or of what was measured; "" where there is none
	Memory bool   // recalled, not read in a stored text of it
}

// FromWords is the source that the maker's own words name: "measured on three offcuts", "published: a mill's
// certificate", "common practice"; other words are Given, and none Assumed.
func FromWords(text string) Source {
	text = strings.TrimSpace(text)
	low := strings.ToLower(text)
	for _, kind := range []Kind{Measured, Published, Practice} {
		words := strings.TrimSuffix(kind.String(), " by you")
		if strings.HasPrefix(low, words) {
			rest := strings.TrimLeft(text[len(words):], " :,")
			if kind == Measured {
				rest = strings.TrimPrefix(strings.TrimPrefix(rest, "by you"), "by me")
				rest = strings.TrimLeft(rest, " :,")
			}
			return Source{Kind: kind, Title: rest}
		}
	}
	if text == "" {
		return Source{Kind: Assumed, Title: "given by you, without a source"}
	}
	return Source{Kind: Given, Title: text}
}

// String is "published: FAA-H-8083-31 ch. 4", "published, from memory: ...",
// "common practice, no source", "measured by you: 3 strips", "given by you: mill certificate", "assumed".
func (s Source) String() string {
	t := s.Kind.String()
	if s.Memory {
		t += ", from memory"
	}
	switch {
	case s.Title != "":
		return t + ": " + s.Title
	case s.Kind == Practice:
		return t + ", no source"
	}
	return t
}

// Range is a figure that sources give from Lo to Hi; Lo == Hi where they give one.
type Range struct{ Lo, Hi float64 }

// Mid is the middle of the range.
func (r Range) Mid() float64 { return (r.Lo + r.Hi) / 2 }

// Fact is a figure with its source. The zero Fact is not known.
type Fact struct {
	Range
	Source Source
}

// Known reports whether there is a figure at all.
func (f Fact) Known() bool { return f.Lo != 0 || f.Hi != 0 }
