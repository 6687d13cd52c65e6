package shape

import (
	"slices"
	"sort"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// This file sets a part's named sizes from text.

// SetSizes gives the part with some of its named sizes changed. The text of each is read
// by ReadSize. All that is wrong is told, with the size's name for its path; then the part is as it was.
func SetSizes(s fold.Spec, changes map[string]string) (fold.Spec, []*Problem) {
	names := make([]string, 0, len(changes))
	for name := range changes {
		names = append(names, name)
	}
	sort.Strings(names)
	var known []string
	if s.Sizes != nil {
		for _, n := range s.Sizes.Named {
			known = append(known, n.Name)
		}
	}
	out := s
	out.Sizes = s.Sizes.Clone()
	var bad []*Problem
	for _, name := range names {
		if i := slices.Index(known, name); i >= 0 {
			out.Sizes.Named[i].Is = ReadSize(changes[name])
		}
	}
	values := &sizes.Values{}
	if out.Sizes != nil {
		values, _ = out.Sizes.Values(s.Units.Scale())
	}
	for _, name := range names {
		if i := slices.Index(known, name); i >= 0 {
			if _, e := values.At(name, out.Sizes.Named[i].Is); e != nil {
				bad = append(bad, &Problem{name, e.Found, e.Need})
			}
			continue
		}
		need := "a part with named sizes"
		if known != nil {
			need = "one of " + strings.Join(known, ", ")
		}
		bad = append(bad, &Problem{name, "no such size", need})
	}
	if bad != nil {
		return s, bad
	}
	return out, nil
}

// ReadSize reads a size as a maker writes it: a number, or a formula as sizes has them ("2 3/8", "60 mm",
// "rail - 12"). A lone 2-3/8 is the shop's fraction, not a difference. Nothing is a size that is not given. Whether the formula
// can be worked out is seen when it is.
func ReadSize(text string) sizes.Field {
	t := strings.TrimSpace(text)
	if t == "" {
		return sizes.Field{}
	}
	if x, err := strconv.ParseFloat(t, 64); err == nil && strings.Trim(t, "-0123456789.") == "" {
		return sizes.Is(x)
	}
	digits := func(t string) bool { return t != "" && strings.Trim(t, "0123456789") == "" }
	if whole, rest, ok := strings.Cut(t, "-"); ok && digits(whole) {
		if a, b, ok := strings.Cut(rest, "/"); ok && digits(a) && digits(strings.TrimRight(b, ` "inm`)) {
			t = whole + " " + rest
		}
	}
	return sizes.Of(t)
}
