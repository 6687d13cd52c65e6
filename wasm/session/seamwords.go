package session

// This file holds the words about seams: how the two edges lie, and the kernel's own sentences with the very figures that the
// table shows.

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
)

// jointNames are the kinds of joint as Sizes names them, so that none can be taken for a way to close it.
var jointNames = map[string]string{"outside corner, open": "corner, edge to edge", "outside corner, closed": "corner, lapped", "fillet": "tee (fillet)"}

// JointWords name a kind of joint within a sentence: "corner, edge to edge", "butt".
func JointWords(joint string) string {
	if words := jointNames[joint]; words != "" {
		return words
	}
	return joint
}

// badAsDrawn reports whether a rule's trouble is one of the exact part: care with a bend can't mend it.
func badAsDrawn(rule string) bool {
	return slices.Contains([]string{"seam-wide", "seam-tight", "seam-overlap"}, rule)
}

// seamWords are a trouble's words about the seam x.
func seamWords(t *fold.TroubleReport, x *fold.SeamReport, u fold.Units) string {
	words := t.Message
	if t.Rule == "seam-wide" && x.Limit != nil && *x.Limit == 0 {
		for _, zero := range []string{"0.0", "0.00", "0.000", "0.0000"} {
			words = strings.Replace(words, "; "+zero+" mm is the limit here", "; its edges must touch", 1)
		}
	}
	figures := []float64{x.GapMax, x.GapMin, x.Step}
	if x.Limit != nil {
		figures = append(figures, *x.Limit)
	}
	if x.Spread != nil {
		figures = append(figures, x.Spread.Widest.High, x.Spread.Least.Low)
	}
	if x.Wanted != nil {
		figures = append(figures, *x.Wanted, x.GapMax-*x.Wanted)
	}
	if x.Limit != nil {
		figures = append(figures, x.GapMax-*x.Limit)
	}
	for _, v := range []*float64{t.Have, t.Need} {
		if v != nil {
			figures = append(figures, *v)
		}
	}
	return withFigures(words, u, figures)
}

// withFigures is fold.InUnits for a message that speaks of some lengths (mm): in inches they are written as tables write them, not
// from what the message has rounded. Of two lengths that round to what is written the nearer is meant.
func withFigures(message string, u fold.Units, figures []float64) string {
	const unit = " mm"
	if u != fold.Inch {
		return message
	}
	var out strings.Builder
	for {
		before, after, found := strings.Cut(message, unit)
		if !found {
			break
		}
		start := len(strings.TrimRight(before, "0123456789."))
		written := before[start:]
		_, decimals, _ := strings.Cut(written, ".")
		exponent := strings.HasSuffix(strings.TrimRight(before[:start], "+-"), "e")
		v, err := strconv.ParseFloat(written, 64)
		best := math.Inf(1)
		for _, f := range figures {
			if f = math.Abs(f); err == nil && !exponent && fixed(f, len(decimals)) == written && math.Abs(f-v) < math.Abs(best-v) {
				best = f
			}
		}
		if math.IsInf(best, 0) || after != "" && after[0] >= 'a' && after[0] <= 'z' {
			out.WriteString(before + unit)
		} else {
			out.WriteString(before[:start] + Gap(best, u) + " " + u.String())
		}
		message = after
	}
	return fold.InUnits(out.String()+message, u)
}
