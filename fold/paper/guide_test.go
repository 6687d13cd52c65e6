package paper

import (
	"encoding/xml"
	"html"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/draft"
)

// Every text of the guide stands on its page, and what is to be filled in has room.
func TestGuide(t *testing.T) {
	for _, o := range []GuideOptions{{}, {Metal: "Stainless 304", Thickness: 1.2}, {Units: fold.Inch, Metal: strings.Repeat("5052-H32 ", 30), Thickness: 1.6}, {Metal: `<&">`, Thickness: 6}} {
		page := draft.SVG(Guide(o))
		text := string(page)
		if file := os.Getenv("GUIDE_OUT"); file != "" {
			require.NoError(t, os.WriteFile(file, page, 0o644))
		}
		assert.Contains(t, text, `width="210mm" height="297mm"`)
		d := xml.NewDecoder(strings.NewReader(text))
		for {
			tok, err := d.Token()
			if tok == nil {
				break
			}
			require.NoError(t, err)
		}
		lowest := 0.0
		for _, m := range regexp.MustCompile(`<text class="(\w+)"[^>]*? x="([-0-9.]+)" y="([-0-9.]+)"( text-anchor="middle")?>([^<]*)<`).FindAllStringSubmatch(text, -1) {
			x, _ := strconv.ParseFloat(m[2], 64)
			y, _ := strconv.ParseFloat(m[3], 64)
			size := draft.Styles[m[1]].Size
			w := draft.Width(html.UnescapeString(m[5]), size)
			if m[4] != "" {
				x -= w / 2
			}
			assert.True(t, x >= margin-0.1 && x+w <= 210-margin+1 && y > margin && y < 297-5, "%q at %g %g, %g wide", m[5], x, y, w)
			lowest = max(lowest, y)
		}
		assert.Greater(t, lowest, 250.0, "the page is filled")
		words := strings.Join(strings.Fields(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(text, " ")), " ")
		for _, want := range []string{"razor edges", "gloves", "pinch point", "One person works the brake", "manual", "outside", "inside", "drill shank", "Leaf stopped at"} {
			assert.Contains(t, words, want)
		}
		assert.Equal(t, guideRows*2, strings.Count(text, `width="2.5"`), "two boxes to tick a strip")
		assert.NotRegexp(t, `NaN|Inf|%!`, text)
	}
	assert.Equal(t, Guide(GuideOptions{Thickness: 1}), Guide(GuideOptions{Thickness: 1}))
}

// The worth that is printed is what the formula for K by hand gives: 0.1 mm at 1 mm
// of thickness, a square bend.
func TestGuideWorth(t *testing.T) {
	k := func(length, a, b, r, th float64) float64 { return ((length-a-b+2*(r+th))/(math.Pi/2) - r) / th }
	was := k(100, 51, 51, 1.5, 1)
	words := GuideOptions{}.worthWords(1)
	assert.Contains(t, words, "makes K "+strconv.FormatFloat(was-k(100, 51.1, 51, 1.5, 1), 'f', 3, 64)+" too small")
	assert.Contains(t, words, "makes it "+strconv.FormatFloat(k(100, 51, 51, 1.6, 1)-was, 'f', 3, 64)+" too great")
}

// A bent strip as drawn is as thick everywhere, and its legs meet its bend.
func TestBentStrip(t *testing.T) {
	for _, deg := range []float64{20, 62, 90} {
		b := bentStrip{angle: deg * math.Pi / 180, radius: 3, t: 2, legA: 20, legB: 20}
		r := b.radius + b.t
		x, y := b.legPoint(0, 0)
		assert.InDelta(t, r, math.Hypot(x, y-r), 1e-12)
		ix, iy := b.legPoint(0, -b.t)
		assert.InDelta(t, b.radius, math.Hypot(ix, iy-r), 1e-12)
		// The sharp lies on both outside faces.
		sx, sy := b.sharp(false)
		assert.InDelta(t, 0, (sx-x)*b.out()[0]+(sy-y)*b.out()[1], 1e-12)
		sx, sy = b.sharp(true)
		assert.InDelta(t, 0, (sx-ix)*b.out()[0]+(sy-iy)*b.out()[1], 1e-12)
		assert.InDelta(t, b.t, sy, 1e-12)
	}
}
