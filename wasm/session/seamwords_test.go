package session

import (
	"testing"

	"dryfold/fold"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// In inches a seam's trouble says the table's very figure.
func TestSeamWords(t *testing.T) {
	limit := 1.3
	x := &fold.SeamReport{Name: "left corner", GapMax: 1.3463, Limit: &limit}
	have, need := 1.3463, 1.3
	tr := &fold.TroubleReport{Rule: "seam-wide", Have: &have, Need: &need,
		Message: "The seam left corner opens to 1.35 mm, at its top; 1.30 mm is the limit here: a list, 11.35 mm and 2 mm."}
	assert.Equal(t, "The seam left corner opens to 1.35 mm, at its top; 1.30 mm is the limit here: a list, 11.35 mm and 2 mm.", seamWords(tr, x, fold.MM))
	require.Equal(t, "0.053", Gap(have, fold.Inch))
	assert.Equal(t, "The seam left corner opens to 0.053 in, at its top; 0.051 in is the limit here: a list, 0.447 in and 0.079 in.", seamWords(tr, x, fold.Inch))
	tr.Message = "It opens to 1.346 mm, at back, and 1.3 mm is the limit; 1.346e-01 mm, 1.346 mmx."
	assert.Equal(t, "It opens to 0.053 in, at back, and 0.051 in is the limit; 0.005 in, 1.346 mmx.", seamWords(tr, x, fold.Inch))

	limit = 0
	tr.Message = "The seam left corner opens to 0.6 mm, all along; 0.0 mm is the limit here: your own figure."
	assert.Equal(t, "The seam left corner opens to 0.6 mm, all along; its edges must touch: your own figure.", seamWords(tr, x, fold.MM))
}

// On every seam of every demo part each joint has words that are no way to close it.
func TestJointWords(t *testing.T) {
	for _, j := range fold.Joints {
		words := JointWords(j)
		assert.NotEmpty(t, words)
		assert.NotContains(t, words, "open")
		assert.NotContains(t, words, "closed")
	}
}

// Care with a bend is advised only where the seam is in order as drawn.
func TestWatchOnlyWhereCareMends(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	x := &s.report.Seams[0]
	limit := 1.0
	x.Limit, x.State, x.Open = &limit, "watch", false
	x.Spread.Watch, x.Spread.Widest.High = "Watch bend left.", 3
	x.GapMax = 0.6
	words := func() (out string) {
		for _, v := range s.GapSheet(0).Verdict {
			out += v[0] + ": " + v[1] + "\n"
		}
		return out
	}
	s.report.Troubles = nil
	assert.Contains(t, words(), "Watch bend left.")
	assert.Contains(t, words(), "5 in 100 parts open to more than 3.00 mm")
	x.GapMax = 2
	s.report.Troubles = []fold.TroubleReport{{Severity: "watch", Rule: "seam-wide", Where: fold.TroubleWhere{Seam: x.Name}, Message: "It opens to 2.00 mm; bring the edges nearer."}}
	assert.Equal(t, "watch: It opens to 2.00 mm; bring the edges nearer.\n", words())
}

// Of the trouble that speaks of many seams the first sentence is shown; the rest is a second look away.
func TestSpreadTroubleIsShort(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	found := false
	for _, a := range s.Advice() {
		if tr := s.report.Troubles[a.index]; tr.Rule == "seam-spread" {
			found = true
			assert.Equal(t, tr.Message, a.Message+" "+a.More)
			assert.Less(t, len(a.Message), 100)
			assert.NotEmpty(t, a.More)
		}
	}
	assert.True(t, found, "the part has no such trouble any more: take another")
}
