//go:build browser && !js

package main_test

// Marking out on the built site: the sheets, what is measured, printing, and what is saved.

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/wasm/session"
)

// catchSaved keeps what the page would save: window.saved[name] has its media type, length and first bytes.
const catchSaved = `(() => {
  const blobs = {}, make = URL.createObjectURL, click = HTMLAnchorElement.prototype.click;
  window.saved = {};
  URL.createObjectURL = b => { const u = make.call(URL, b); blobs[u] = b; return u; };
  HTMLAnchorElement.prototype.click = function () {
    const b = blobs[this.href];
    if (!this.download || !b) return click.call(this);
    b.slice(0, 90).arrayBuffer().then(a => { window.saved[this.download] = {kind: b.type, long: b.size, head: String.fromCharCode(...new Uint8Array(a))}; });
  };
})()`

// savedFile is a file that the page would have saved.
type savedFile struct {
	Kind, Head string
	Long       int
}

// save presses a button that saves a file, and gives what came.
func (b *tab) save(words, name string) savedFile {
	b.t.Helper()
	b.press(".scroll button, .col button", words)
	b.until(name, fmt.Sprintf("window.saved[%q]", name))
	b.until("to be done with it", "![...document.querySelectorAll('.col button')].some(e => e.textContent.includes('Making it'))")
	return eval[savedFile](b, fmt.Sprintf("window.saved[%q]", name))
}

// sheet waits for the open step's sheet, whole, by its name.
func (b *tab) sheet(name string) {
	b.t.Helper()
	b.until("the sheet "+name, fmt.Sprintf("(p => p && p.getAttribute('aria-label') === %q && [...p.querySelectorAll('img')].every(i => i.complete && i.naturalWidth > 100) && !document.querySelector('.col .checking'))(document.querySelector('.paper'))", name))
}

func TestMarkingOut(t *testing.T) {
	b := openTab(t, 1180, 820)
	b.open("")
	eval[any](b, catchSaved)
	eval[any](b, "window.print = () => { window.printed = (window.printed || 0) + 1 }")
	eval[any](b, "window.fetched = dryfoldModule; window.dryfoldModule = () => Promise.reject(new Error('off line')); 0")
	b.word("Marking out")
	b.until("that it could not be fetched", "document.querySelector('.col [role=alert]')?.innerText.includes('could not be fetched')")
	eval[any](b, "window.dryfoldModule = window.fetched; 0")
	b.press(".col button", "Try again")
	pdf := func() [][2]float64 { // the printed pages' sizes, mm
		data, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(func(p *cdppage.PrintToPDFParams) { on := true; p.PreferCSSPageSize = &on }))
		require.NoError(t, err)
		var out [][2]float64
		for _, m := range regexp.MustCompile(`/MediaBox \[([^\]]*)\]`).FindAllSubmatch(data, -1) {
			var x, y, w, h float64
			fmt.Sscan(string(m[1]), &x, &y, &w, &h)
			out = append(out, [2]float64{w * 25.4 / 72, h * 25.4 / 72})
		}
		return out
	}
	stated := func() [][2]float64 { // what the sheets say of themselves
		return eval[[][2]float64](b, "[...document.querySelectorAll('.leaf')].map(e => e.style.aspectRatio.split('/').map(Number))")
	}
	printsRight := func(what string) {
		t.Helper()
		got, want := pdf(), stated()
		if assert.Len(t, got, len(want), what) {
			for i := range got {
				assert.InDelta(t, want[i][0], got[i][0], 0.3, what)
				assert.InDelta(t, want[i][1], got[i][1], 0.3, what)
			}
		}
	}

	b.sheet("Marking-out sheet")
	printsRight("marking out")
	f := b.save("Save as PDF", "uncapping-tray-marking.pdf")
	assert.Equal(t, "application/pdf", f.Kind)
	assert.True(t, strings.HasPrefix(f.Head, "%PDF-1."), f.Head)
	assert.Greater(t, f.Long, 5000)
	f = b.save("Save the blank at true scale", "uncapping-tray-blank.svg")
	assert.Equal(t, "image/svg+xml", f.Kind)
	assert.True(t, strings.HasPrefix(f.Head, "<svg "), f.Head)

	// Nothing but the sheet is printed.
	beside := func() string {
		return eval[string](b, `[...document.body.querySelectorAll('*')].filter(e => {
			const r = e.getBoundingClientRect();
			return !e.closest('.leaf') && !e.querySelector('.leaf') && r.width > 1 && r.height > 1 && getComputedStyle(e).visibility !== 'hidden' && getComputedStyle(e).opacity !== '0';
		}).map(e => e.tagName + '.' + e.className).join(' ')`)
	}
	assert.Contains(t, beside(), "CANVAS", "on the screen")
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	require.NoError(t, err)
	assert.Empty(t, beside(), "printed too")
	b.theme("light")

	b.press(".steps button", "Cut")
	b.sheet("Cutting sheet")
	assert.Greater(t, eval[int](b, "document.querySelectorAll('.plan .order li').length"), 2)
	b.fill("f-strike", "20")
	b.until("the line struck out", "document.querySelector('.col').innerText.includes('Struck out: 20 mm from A')")
	b.until("it to be in the plan", "document.querySelector('.plan').innerText.toLowerCase().includes('struck')")
	b.press(".undo", "")
	b.until("it to be gone", "!document.querySelector('.col').innerText.includes('Struck out')")

	// What is measured on the blank turns the verdict.
	b.press(".steps button", "Check blank")
	b.sheet("Check before bending")
	verdict := "document.querySelector('.goword').innerText"
	b.until("that it wants measuring", verdict+".includes('Measure')")
	n := eval[int](b, "document.querySelectorAll('.cutsize').length")
	require.Greater(t, n, 2)
	want := make([]string, n)
	for i := range n {
		want[i] = eval[string](b, fmt.Sprintf("document.querySelectorAll('.cutsize')[%d].querySelector('.limits b').textContent", i))
		b.fill("f-"+session.CutField(i+1), want[i])
	}
	b.until("that it can be bent", verdict+".trim() === 'Bend'")
	var first float64
	fmt.Sscan(want[0], &first)
	b.fill("f-"+session.CutField(1), fmt.Sprint(first+2))
	b.until("that it can't", verdict+".includes('Trim') || "+verdict+".includes('cut again')")
	assert.Contains(t, eval[string](b, "document.querySelector('.cutsize').innerText"), "too large")
	b.sheet("Check before bending")

	b.press(".steps button", "Job cards")
	b.sheet("Job cards")
	printsRight("job cards")

	b.press(".steps button", "Template")
	b.sheet("Template")
	b.press(".seg button", "a card model")
	b.sheet("Card model")
	b.press(".seg button", "the blank")
	b.sheet("Template")
	b.fill("f-"+session.PaperField("across"), "99")
	b.until("the correction", "document.querySelector('.col').innerText.includes('scaled 101.01 % across')")
	b.sheet("Template")
	b.press(".col button", "Print")
	b.until("it to be printed", "window.printed === 1 && document.getElementById('f-paper-across').value === ''")
	b.press(".col button", "Without a correction")
	eval[any](b, "(e => { e.value = 'roll'; e.dispatchEvent(new Event('change', {bubbles: true})) })(document.getElementById('f-onpaper'))")
	b.until("the field of a roll", "document.getElementById('f-paper-roll')")
	b.sheet("Template")
	printsRight("a roll")
	b.fill("f-"+session.PaperField("roll"), "70") // the template refuses it, not the field
	b.until("why it can't be, at its field", "document.getElementById('f-paper-roll-e')?.innerText.includes('check square')")
	assert.Equal(t, 0, eval[int](b, "document.querySelectorAll('.leaf').length"))
	b.fill("f-"+session.PaperField("roll"), "")
	b.sheet("Template")
	assert.Nil(t, eval[any](b, "document.getElementById('f-paper-roll-e')"))

	b.press(".steps button", "Files")
	b.until("no sheet", "!document.querySelector('.paper')")
	for _, x := range []struct{ words, name, kind, begins string }{
		{"Save as DXF", "uncapping-tray.dxf", "image/vnd.dxf", "999\r\n"}, {"Save as SVG", "uncapping-tray-cut.svg", "image/svg+xml", "<svg "},
		{"Save as STL", "uncapping-tray.stl", "model/stl", ""}, {"Save as glTF", "uncapping-tray.glb", "model/gltf-binary", "glTF\x02\x00\x00\x00"},
		{"Save the picture", "uncapping-tray.png", "image/png", "\u0089PNG\r\n\x1a\n"},
	} {
		if strings.Contains(x.words, "picture") {
			b.fill("f-"+session.PaperField("picw"), "320")
			b.fill("f-"+session.PaperField("pich"), "240")
		}
		f := b.save(x.words, x.name)
		assert.Equal(t, x.kind, f.Kind, x.words)
		assert.True(t, strings.HasPrefix(f.Head, x.begins), "%s: %q", x.words, f.Head)
		assert.Greater(t, f.Long, 200)
		if strings.HasSuffix(x.name, ".stl") { // binary: 80 bytes, the count of triangles, 50 bytes each
			r := []rune(f.Head)
			n := int(r[80]) + int(r[81])<<8 + int(r[82])<<16 + int(r[83])<<24
			assert.Equal(t, 84+50*n, f.Long)
		}
	}
	b.fill("f-"+session.PaperField("kerf"), "15")
	b.press(".col button", "Save as DXF")
	b.until("why such a cut can't be, at its field", "document.getElementById('f-paper-kerf-e')?.innerText.includes('widest cut')")
	b.fill("f-"+session.PaperField("kerf"), "0.2")
	b.until("the message to go", "!document.getElementById('f-paper-kerf-e')")

	// A long job can be stopped, and made again.
	b.press(".col button", "Save the run-through as GIF")
	b.press(".col button", "tap to stop")
	b.until("it to be stopped", "![...document.querySelectorAll('.col button')].some(e => e.textContent.includes('Making it'))")
	assert.Nil(t, eval[any](b, "window.saved['uncapping-tray-run-through.gif'] ?? null"))
	b.fill("f-"+session.PaperField("gifw"), "120")
	b.fill("f-"+session.PaperField("gifh"), "120")
	f = b.save("Save the run-through as GIF", "uncapping-tray-run-through.gif")
	assert.Equal(t, "image/gif", f.Kind)
	assert.True(t, strings.HasPrefix(f.Head, "GIF89a\x78\x00\x78\x00"), "%q", f.Head)

	// What is chosen is found again.
	b.open("")
	b.until("the same step", "document.querySelector('.steps [aria-current]')?.textContent === 'Files'")
	assert.Equal(t, "0.2", eval[string](b, "document.getElementById('f-paper-kerf').value"))
	b.press(".steps button", "Check blank")
	b.sheet("Check before bending")
	assert.Equal(t, fmt.Sprint(first+2), eval[string](b, fmt.Sprintf("document.getElementById(%q).value", "f-"+session.CutField(1))))
	assert.Empty(t, b.complaints())
}
