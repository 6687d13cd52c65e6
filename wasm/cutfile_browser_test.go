//go:build browser && !js

package main_test

// The SVG for cutting by machine, as Chromium reads it.

import (
	"encoding/base64"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/cutfile"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
)

// svgMeasure measures what Chromium has read. lengths is by getTotalLength, which Chromium works out with short
// numbers, by chords within half a unit and with curves that are nearly arcs, so it is asked of each piece a thousand times
// enlarged and is good to 1e-5; area and exact by the letters of each path as it stands in the document, arcs by SVG 1.1,
// appendix F.6.5. shown is the picture's size on the screen, in CSS pixels of 1/96 in.
const svgMeasure = `(() => {
  const out = {layers: [], area: {}, exact: {}, lengths: {}, closed: {}, box: [], shown: []};
  const add = (map, key, x) => { map[key] = (map[key] ?? 0) + x; };
  function read(d) {
    const t = d.match(/[MLAZ]|[-+.\d]+/g);
    let i = 0, x = 0, y = 0, x0 = 0, y0 = 0, area = 0, length = 0, closed = false;
    const num = () => Number(t[i++]);
    const to = (u, v, bow) => { area += ((x - x0) * (v - y0) - (u - x0) * (y - y0)) / 2 + bow; x = u; y = v; };
    while (i < t.length) {
      const op = t[i++];
      if (op === 'M') { x = x0 = num(); y = y0 = num(); }
      if (op === 'L') { const u = num(), v = num(); length += Math.hypot(u - x, v - y); to(u, v, 0); }
      if (op === 'Z') { length += Math.hypot(x0 - x, y0 - y); to(x0, y0, 0); closed = true; }
      if (op === 'A') {
        const r = num(), ry = num(), turn = num(), large = num(), sweep = num(), u = num(), v = num();
        if (r !== ry || turn !== 0) throw new Error('an ellipse');
        const half = Math.hypot(u - x, v - y) / 2;
        let angle = 2 * Math.asin(Math.min(1, half / r));
        if (large) angle = 2 * Math.PI - angle;
        length += r * angle;
        to(u, v, (sweep ? 1 : -1) * r * r / 2 * (angle - Math.sin(angle)));
      }
    }
    return {area, length, closed};
  }
  function enlarged(e) {
    const big = e.cloneNode();
    for (const a of ['cx', 'cy', 'r']) if (e.hasAttribute(a)) big.setAttribute(a, 1000 * Number(e.getAttribute(a)));
    if (e.hasAttribute('d')) {
      big.setAttribute('d', e.getAttribute('d').replace(/A(\S+) (\S+) (\S+ \S+ \S+) |[-+.\d]+/g,
        (all, rx, ry, flags) => rx === undefined ? String(1000 * Number(all)) : 'A' + 1000 * Number(rx) + ' ' + 1000 * Number(ry) + ' ' + flags + ' '));
    }
    e.parentNode.append(big);
    const length = big.getTotalLength() / 1000;
    big.remove();
    return length;
  }
  for (const g of document.querySelectorAll('svg > g')) {
    out.layers.push(g.id);
    for (const e of g.querySelectorAll('path, circle')) {
      add(out.lengths, g.id, enlarged(e));
      if (e.tagName === 'circle') {
        const r = Number(e.getAttribute('r'));
        add(out.area, g.id, Math.PI * r * r);
        add(out.exact, g.id, 2 * Math.PI * r);
        continue;
      }
      const p = read(e.getAttribute('d'));
      add(out.exact, g.id, p.length);
      if (p.closed) { add(out.area, g.id, Math.abs(p.area)); add(out.closed, g.id, 1); }
    }
  }
  const b = document.getElementById('CUT').getBBox();
  out.box = [b.width, b.height];
  const s = document.documentElement.getBoundingClientRect();
  out.shown = [s.width, s.height];
  return out;
})()`

// TestCutSVG: Chromium finds the demo parts' areas and lengths in their SVG for cutting, at true size, every outline closed.
func TestCutSVG(t *testing.T) {
	b := openTab(t, 800, 600)
	for _, d := range assets.Demos() {
		spec, err := partfile.Read(d.Data)
		require.NoError(t, err)
		if spec.Sizes != nil {
			made, wrong := shape.Make(spec)
			require.Empty(t, wrong)
			spec = made.Spec
		}
		p := fold.Build(spec)
		f, err := cutfile.Make(p, cutfile.Options{Bends: cutfile.BendLines, Text: true})
		require.NoError(t, err)
		b.do(chromedp.Navigate("data:image/svg+xml;base64," + base64.StdEncoding.EncodeToString(f.SVG())))
		got := eval[struct {
			Layers               []string
			Area, Exact, Lengths map[string]float64
			Closed               map[string]int
			Box, Shown           [2]float64
		}](b, svgMeasure)
		var want []string
		for _, l := range f.Layers {
			want = append(want, l.Name)
		}
		assert.Equal(t, want, got.Layers, d.Name)
		assert.InDelta(t, p.Blank.Area, got.Area["CUT"]-got.Area["CUTOUTS"]-got.Area["HOLES"], 1e-6, "%s: area", d.Name)
		assert.InDelta(t, f.Length, got.Exact["CUT"]+got.Exact["CUTOUTS"]+got.Exact["HOLES"], 1e-6, "%s: length", d.Name)
		measured := got.Lengths["CUT"] + got.Lengths["CUTOUTS"] + got.Lengths["HOLES"]
		t.Logf("%s: %.6f mm to cut, Chromium measures %.2g more", d.Name, f.Length, measured-f.Length)
		assert.InEpsilon(t, f.Length, measured, 1e-5, "%s: length as Chromium measures it", d.Name)
		assert.Equal(t, 1, got.Closed["CUT"], d.Name)
		assert.Equal(t, len(p.Spec.Cutouts), got.Closed["CUTOUTS"], d.Name)
		size := p.Blank.Box.Size()
		for k := range size {
			assert.InDelta(t, size[k], got.Box[k], 1e-3, "%s: the outline's box", d.Name)
			all := f.Box.Size()[k] + 4
			assert.InDelta(t, all*96/25.4, got.Shown[k], 0.05, "%s: size on the screen", d.Name)
		}
	}
}
