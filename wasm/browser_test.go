//go:build browser && !js

// Tests of the built site in a real browser. They want the site in build/site (or
// where DRYFOLD_SITE says) and a Chromium: `make browser-test` sees to both.
package main_test

import (
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/log"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
	"dryfold/wasm/session"
)

// patience is how long a condition may take to come true on a slow machine that
// draws without a graphics card.
const patience = 90 * time.Second

// tab is one tab of the browser on the site.
type tab struct {
	t    *testing.T
	ctx  context.Context
	site string
	mu   sync.Mutex
	bad  []string // what the browser complained of
}

func siteDir(t *testing.T) string {
	dir := os.Getenv("DRYFOLD_SITE")
	if dir == "" {
		dir = filepath.Join("..", "build", "site")
	}
	if _, err := os.Stat(filepath.Join(dir, "index.html")); err != nil {
		t.Fatalf("there is no site in %s: run make browser-test, which builds it, or set DRYFOLD_SITE", dir)
	}
	return dir
}

// openTab starts a browser with a window of the size, on the site's first page.
func openTab(t *testing.T, w, h int64) *tab {
	srv := httptest.NewServer(http.StripPrefix("/some/path/", http.FileServer(http.Dir(siteDir(t)))))
	t.Cleanup(srv.Close)
	opts := []chromedp.ExecAllocatorOption{
		chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck, chromedp.Flag("headless", "new"), chromedp.NoSandbox,
		chromedp.Flag("use-gl", "angle"), chromedp.Flag("use-angle", "swiftshader"), chromedp.Flag("enable-unsafe-swiftshader", true),
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
		chromedp.Flag("hide-scrollbars", true), chromedp.UserDataDir(t.TempDir()),
	}
	if exe := os.Getenv("CHROMIUM"); exe != "" {
		opts = append(opts, chromedp.ExecPath(exe))
	}
	alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	t.Cleanup(stop)
	ctx, closeTab := chromedp.NewContext(alloc)
	t.Cleanup(closeTab)
	ctx, cancel := context.WithTimeout(ctx, 15*time.Minute)
	t.Cleanup(cancel)
	b := &tab{t: t, ctx: ctx, site: srv.URL + "/some/path/"}
	if err := chromedp.Do(ctx); err != nil {
		t.Fatalf("no browser could be started (%v): install Chromium, or set CHROMIUM to one", err)
	}
	require.NoError(t, chromedp.Listen(ctx, b.listen))
	b.do(chromedp.EmulateViewport(w, h))
	_, err := chromedp.Call(ctx, log.Enable, struct{}{})
	require.NoError(t, err)
	_, err = chromedp.Call(ctx, emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: true, MaxTouchPoints: 2})
	require.NoError(t, err)
	b.theme("light")
	return b
}

func (b *tab) theme(name string) {
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: name}}})
	require.NoError(b.t, err)
}

// listen notes errors, broken promises and refusals by the page's security policy.
func (b *tab) listen(ev any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := ev.(type) {
	case *runtime.EventExceptionThrown:
		text := e.ExceptionDetails.Text
		if x := e.ExceptionDetails.Exception; x != nil {
			text += " " + x.Description
		}
		b.bad = append(b.bad, text)
	case *runtime.EventConsoleAPICalled:
		if e.Type != "error" {
			return
		}
		for _, a := range e.Args {
			b.bad = append(b.bad, string(a.Value)+a.Description)
		}
	case *log.EventEntryAdded:
		if e.Entry.Level == "error" {
			b.bad = append(b.bad, e.Entry.Text+" "+e.Entry.URL)
		}
	}
}

func (b *tab) complaints() []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return append([]string{}, b.bad...)
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b.ctx, steps...))
}

// eval runs a script and gives its value.
func eval[T any](b *tab, script string) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](script))
	require.NoError(b.t, err, script)
	return v
}

// until waits for a script to be true.
func (b *tab) until(what, script string) {
	b.t.Helper()
	deadline := time.Now().Add(patience)
	for {
		if eval[bool](b, "!!("+script+")") {
			return
		}
		if time.Now().After(deadline) {
			file := filepath.Join(os.TempDir(), "dryfold-browser-test.png")
			os.WriteFile(file, b.screenshot(), 0o644)
			b.t.Fatalf("waited %v for %s; the page as it stood is in %s; it had complained: %q", patience, what, file, b.complaints())
		}
		time.Sleep(100 * time.Millisecond)
	}
}

func (b *tab) open(address string) {
	b.t.Helper()
	b.do(chromedp.Navigate(b.site + address))
	b.until("the first picture", "document.documentElement.dataset.ready === '1'")
}

// words chooses one of the job's words.
func (b *tab) word(w string) {
	b.t.Helper()
	b.press(".words button", w)
	b.until("the word "+w, fmt.Sprintf("document.querySelector('.words .on').textContent === %q", w))
}

// press clicks the first element of a selector that has the words.
func (b *tab) press(selector, words string) {
	b.t.Helper()
	find := fmt.Sprintf("[...document.querySelectorAll(%q)].find(e => e.textContent.includes(%q) && !e.disabled)", selector, words)
	b.until(words+" to press", find)
	eval[any](b, find+".click()")
}

// fill types into a field and leaves it.
func (b *tab) fill(id, text string) {
	b.t.Helper()
	b.until("the field "+id, fmt.Sprintf("document.getElementById(%q)", id))
	eval[any](b, fmt.Sprintf("(() => { const f = document.getElementById(%q); f.focus(); f.value = %q; f.dispatchEvent(new Event('change', {bubbles: true})); f.blur(); })()", id, text))
}

// drag puts a finger down, moves it in steps and lifts it.
func (b *tab) drag(from, to [2]float64) {
	b.t.Helper()
	send := func(kind input.DispatchTouchEventType, p ...*input.TouchPoint) {
		if p == nil {
			p = []*input.TouchPoint{}
		}
		_, err := chromedp.Call(b.ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: p})
		require.NoError(b.t, err)
	}
	const steps = 8
	send(input.DispatchTouchEventTypeTouchStart, &input.TouchPoint{X: from[0], Y: from[1]})
	for i := 1; i <= steps; i++ {
		f := float64(i) / steps
		send(input.DispatchTouchEventTypeTouchMove, &input.TouchPoint{X: from[0] + f*(to[0]-from[0]), Y: from[1] + f*(to[1]-from[1])})
		time.Sleep(30 * time.Millisecond)
	}
	send(input.DispatchTouchEventTypeTouchEnd)
}

func (b *tab) screenshot() []byte {
	b.t.Helper()
	data, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
	require.NoError(b.t, err)
	return data
}

func (b *tab) picture() image.Image {
	b.t.Helper()
	img, err := png.Decode(bytes.NewReader(b.screenshot()))
	require.NoError(b.t, err)
	return img
}

// still waits until no more frames are drawn.
func (b *tab) still() {
	b.t.Helper()
	deadline, last, since := time.Now().Add(patience), -1, time.Now()
	for time.Now().Before(deadline) {
		if n := eval[int](b, "dryfoldBench.frames()"); n != last {
			last, since = n, time.Now()
		}
		if time.Since(since) > 700*time.Millisecond {
			return
		}
		time.Sleep(100 * time.Millisecond)
	}
	b.t.Fatal("the bench goes on drawing although nothing changes")
}

// at is where a panel's middle stands on the page.
func (b *tab) at(panel string) [2]float64 {
	b.t.Helper()
	p := eval[[]float64](b, fmt.Sprintf("dryfoldBench.panel(%q)", panel))
	require.Len(b.t, p, 2, "no panel "+panel)
	return [2]float64{p[0], p[1]}
}

func (b *tab) centre(selector string) [2]float64 {
	b.t.Helper()
	p := eval[[]float64](b, fmt.Sprintf("(() => { const r = document.querySelector(%q).getBoundingClientRect(); return [r.x + r.width/2, r.y + r.height/2]; })()", selector))
	return [2]float64{p[0], p[1]}
}

func rgb(c color.Color) (r, g, b int) {
	x, y, z, _ := c.RGBA()
	return int(x >> 8), int(y >> 8), int(z >> 8)
}

// around is the mean colour of a small square.
func around(img image.Image, p [2]float64) (r, g, b int) {
	n := 0
	for dx := -3; dx <= 3; dx++ {
		for dy := -3; dy <= 3; dy++ {
			x, y, z := rgb(img.At(int(p[0])+dx, int(p[1])+dy))
			r, g, b, n = r+x, g+y, b+z, n+1
		}
	}
	return r / n, g / n, b / n
}

const arcNow = "parseFloat(document.querySelector('.grab').getAttribute('aria-valuenow'))"

func TestPage(t *testing.T) {
	b := openTab(t, 1180, 820)
	step := func(name string, f func(t *testing.T)) {
		t.Helper()
		if !t.Run(name, func(t *testing.T) { b.t = t; f(t) }) {
			t.FailNow()
		}
		b.t = t
	}

	step("loads with a real part, half folded", func(t *testing.T) {
		b.open("")
		assert.Equal(t, "Uncapping tray - Dryfold", eval[string](b, "document.title"))
		assert.Contains(t, eval[string](b, "document.querySelector('.col').innerText"), "Start your own")
		b.until("the worker's verdict", "document.querySelector('.tro') && !document.querySelector('.tro.checking')")
		img := b.picture()
		metal := 0
		for x := 20; x < 800; x += 4 {
			for y := 180; y < 760; y += 4 {
				if r, g, bl := rgb(img.At(x, y)); bl >= r && r > 150 && g > 150 {
					metal++
				}
			}
		}
		assert.Greater(t, metal, 3000, "the good face's cool metal fills a part of the bench")
	})

	step("the bench says which swing it shows, and plays them", func(t *testing.T) {
		swing := "document.querySelector('.swing').innerText"
		assert.Contains(t, eval[string](b, swing), "5 Right rear and front")
		b.press(".swing .play", "Run through")
		b.until("another swing", "!"+swing+".includes('Right rear')")
		b.press(".swing .play", "Stop")
		b.press(".swing .card-of", "")
		b.until("its card", "document.querySelector('.words .on').textContent === 'Bends' && document.querySelector('.open')")
		b.word("Sizes")
		b.press(".spoilt", "spoilt")
		b.until("the spoilt part's stop", "document.querySelector('.tro.stop')")
		b.press(".undo", "")
		b.until("the first part again", "document.querySelector('h1').textContent === 'Uncapping tray' && document.querySelector('.tro') && !document.querySelector('.tro.checking, .tro.stop')")
	})

	step("draws nothing while idle", func(t *testing.T) {
		b.still()
		// An answer that comes late, with what hand and machine make of the gaps, is drawn once: then two quiet seconds follow.
		drawn := 0
		for range 5 {
			n := eval[int](b, "dryfoldBench.frames()")
			time.Sleep(2 * time.Second)
			if drawn = eval[int](b, "dryfoldBench.frames()") - n; drawn == 0 {
				break
			}
		}
		assert.Zero(t, drawn, "frames in two idle seconds")
	})

	step("the swing arc follows a finger", func(t *testing.T) {
		b.word("Bends")
		before := eval[float64](b, arcNow)
		g := b.centre(".grab .grip")
		b.drag(g, [2]float64{g[0] + 20, g[1] + 60})
		b.until("the leaf to follow the finger down", fmt.Sprintf("%s < %g - 5", arcNow, before))
	})

	step("a wall follows a finger", func(t *testing.T) {
		b.still()
		before := eval[float64](b, arcNow)
		card := eval[string](b, "document.querySelector('.run h2').textContent")
		w := b.at("right rear")
		b.drag(w, [2]float64{w[0] + 8, w[1] - 60})
		b.until("the leaf to follow the wall", fmt.Sprintf("Math.abs(%s - %g) > 5", arcNow, before))
		assert.Equal(t, card, eval[string](b, "document.querySelector('.run h2').textContent"), "the wall in hand belongs to the open card")
	})

	step("an angle is changed, a bad one refused", func(t *testing.T) {
		b.press(".cards .card .t", "Spout lip")
		b.until("its card", "document.querySelector('.open header').textContent.includes('Spout lip')")
		id := eval[string](b, "document.querySelector('.bf input').id")
		b.fill(id, "steep")
		b.until("what would do", "document.querySelector('.open .err').textContent.includes('degrees')")
		was := eval[string](b, "document.querySelector('.band').innerText")
		b.fill(id, "60")
		b.until("the new angle in figures", "document.querySelector('.set .v').textContent === '60°'")
		b.until("another finished size", fmt.Sprintf("document.querySelector('.band').innerText !== %q", was))
		assert.Nil(t, eval[any](b, "document.querySelector('.open .err')"))
		b.until("it to be kept", "localStorage.getItem('dryfold.work') && JSON.parse(JSON.parse(localStorage.getItem('dryfold.work')).part).blank.bends.some(x => x.angle === 60)")
	})

	step("a card is moved by keyboard and keeps the focus", func(t *testing.T) {
		name := "document.querySelector('.open header b').textContent"
		was, n := eval[string](b, name), eval[string](b, "document.querySelector('.open header .n').textContent")
		eval[any](b, "document.querySelector('.open header').focus()")
		eval[any](b, "document.activeElement.dispatchEvent(new KeyboardEvent('keydown', {key: 'ArrowUp', altKey: true, bubbles: true, cancelable: true}))")
		b.until("an earlier place", fmt.Sprintf("document.querySelector('.open header .n').textContent !== %q", n))
		assert.Equal(t, was, eval[string](b, name))
		assert.True(t, eval[bool](b, "document.activeElement === document.querySelector('.open header')"))
		b.press(".undo", "")
		b.press(".cards .card .t", "Spout lip")
		b.until("its card", "document.querySelector('.open header').textContent.includes('Spout lip')")
	})

	step("a reload finds the work again", func(t *testing.T) {
		b.open("")
		assert.Equal(t, "Bends", eval[string](b, "document.querySelector('.words .on').textContent"))
		assert.Equal(t, "60°", eval[string](b, "document.querySelector('.set .v').textContent"))
		b.press(".undo", "")
		b.until("undo after a reload", "document.querySelector('.set .v').textContent !== '60°'")
	})

	step("a trouble's tap goes to its place, and the clash shows", func(t *testing.T) {
		b.word("Sizes")
		b.press(".demo", "spoilt")
		b.until("the stop", "document.querySelector('.tro.stop')")
		red := func() (n int) {
			eval[any](b, "document.getElementById('labels').style.visibility = 'hidden'")
			b.still()
			img := b.picture()
			for x := 0; x < 815; x++ {
				for y := 170; y < 770; y++ {
					if r, g, bl := rgb(img.At(x, y)); r > 140 && g < 90 && bl < 90 {
						n++
					}
				}
			}
			return n
		}
		before := red()
		assert.Less(t, before, 20, "no stop colour on the bench yet")
		b.press(".tro.stop .show", "Show")
		b.until("the fouling card", "document.querySelector('.open.isstop') && document.querySelector('.arc .foul')")
		assert.Greater(t, red(), 100, "the clash is marked where the two meet")
		b.until("the repair that was found", "document.querySelector('.tro.stop .main')")
		b.press(".tro.stop .main", "before")
		b.until("the fouls to be gone", "!document.querySelector('.tro.stop') && !document.querySelector('.tro.checking')")
	})

	step("a part of one's own, and a folded wall hides what is behind it", func(t *testing.T) {
		b.word("Sizes")
		b.press(".shelf .starter", "Tray")
		b.until("the tray", "document.querySelector('.asked h2').textContent === 'Tray'")
		b.fill("f-sizes.named[2].is", "5000")
		b.until("the tall one", "document.querySelector('.band').innerText.includes('5000')")
		b.still()
		x := b.at("floor")
		assert.True(t, x[0] > 0 && x[0] < 820 && x[1] > 100 && x[1] < 780, "the tray stays in sight: %v", x)
		b.fill("f-sizes.named[1].is", "broad - 3")
		b.until("what would do", "document.querySelector('.asked .err') && document.querySelector('.asked .err').textContent.includes('broad')")
		b.fill("f-sizes.named[1].is", "240")
		b.until("the message to go", "!document.querySelector('.asked .err')")
		b.fill("f-sizes.named[2].is", "2 3/8\"")
		b.until("the finished size", "document.querySelector('.band').innerText.includes('240 × 200 × 60.3')")
		b.until("the blank of these sizes", "document.querySelector('.res').textContent.includes('Blank')")
		b.word("Bends")
		b.until("its cards", "document.querySelector('.run h2').textContent === 'Card 4 of 4'")
		b.press(".views button", "Front")
		b.still()
		p := b.at("floor")
		r, _, bl := around(b.picture(), p)
		assert.Greater(t, r, bl+20, "the front wall's warm outer face stands before the floor's middle")
		for range 3 {
			b.press(".prev", "")
		}
		b.until("the flat blank", "document.querySelector('.prev').disabled")
		b.still()
		flat := b.at("floor")
		assert.InDelta(t, p[0], flat[0], 2, "the view stayed")
		assert.InDelta(t, p[1], flat[1], 2)
		r, _, bl = around(b.picture(), flat)
		assert.LessOrEqual(t, r, bl+8, "flat, the floor's cool upper face is seen there")
	})

	step("the marking-out sheet stands on its page", func(t *testing.T) {
		b.word("Marking out")
		b.until("the sheet", "document.querySelector('.paper img') && document.querySelector('.paper img').naturalWidth > 100")
		b.word("Sizes")
	})

	var link string
	step("share copies a link", func(t *testing.T) {
		eval[any](b, "navigator.clipboard.writeText = (t) => { window.copied = t; return Promise.resolve(); }")
		b.press(".tools .b", "Share")
		b.until("the link", "window.copied")
		link = eval[string](b, "window.copied")
		_, fragment, _ := strings.Cut(link, "#")
		spec, err := partfile.Unpack(fragment)
		require.NoError(t, err)
		assert.Equal(t, "Tray", spec.Name)
		again, err := partfile.Pack(spec)
		require.NoError(t, err)
		assert.Equal(t, again, fragment, "the page packs as the command does")
	})

	step("the link opens view only, and a copy can be taken", func(t *testing.T) {
		b.do(chromedp.Navigate("about:blank"))
		b.do(chromedp.Navigate(link))
		b.until("the shared part", "document.documentElement.dataset.ready === '1' && document.documentElement.dataset.mode === 'shared'")
		assert.Equal(t, "Tray", eval[string](b, "document.querySelector('h1').textContent"))
		assert.Nil(t, eval[any](b, "document.querySelector('.undo, .words')"))
		b.press(".copy", "Take a copy")
		b.until("the copy to work on", "document.documentElement.dataset.mode === 'work' && document.querySelector('.words')")
	})

	step("a broken link says so and opens a ready part", func(t *testing.T) {
		b.do(chromedp.Navigate("about:blank"))
		b.open("#1.broken")
		b.until("the words", "document.querySelector('.notice.bad').textContent.includes('link')")
		assert.Equal(t, "Uncapping tray", eval[string](b, "document.querySelector('h1').textContent"))
	})

	step("a dropped file that is no part is named, and the part stays", func(t *testing.T) {
		drop := func(name, text string) {
			eval[any](b, fmt.Sprintf("(() => { const d = new DataTransfer(); d.items.add(new File([%q], %q)); document.querySelector('canvas').dispatchEvent(new DragEvent('drop', {dataTransfer: d, bubbles: true, cancelable: true})); })()", text, name))
		}
		drop("shopping.txt", "two loaves")
		b.until("what is wrong with it", "document.querySelector('.notice.bad').textContent.includes('shopping.txt')")
		assert.Equal(t, "Uncapping tray", eval[string](b, "document.querySelector('h1').textContent"))
		drop("evil.dryfold", `{"dryfold": 1, "name": "<img src=x onerror=alert(1)>", "units": "mm", "sheet": {"thickness": 1},
			"blank": {"outline": [[0,0],[90,0],[90,60],[0,60]], "bends": [{"name": "<b>fold</b>", "line": [[45,0],[45,60]], "angle": 90, "radius": 1, "way": "up"}]}}`)
		b.until("the other part", "document.querySelector('h1').textContent.startsWith('<img')")
		assert.Equal(t, 0, eval[int](b, "document.querySelectorAll('#app img').length"), "names stay text")
		b.press(".undo", "")
		b.until("the part before", "document.querySelector('h1').textContent === 'Uncapping tray'")
	})

	step("the sheet prints a page a page", func(t *testing.T) {
		b.word("Marking out")
		b.until("the sheets", "document.querySelectorAll('.leaf img').length > 0 && [...document.querySelectorAll('.paper img')].every(i => i.complete && i.naturalWidth)")
		pages := eval[int](b, "document.querySelectorAll('.paper img').length")
		pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(func(p *cdppage.PrintToPDFParams) { on := true; p.PreferCSSPageSize = &on }))
		require.NoError(t, err)
		var sizes []string
		for _, m := range regexp.MustCompile(`/MediaBox \[([^\]]*)\]`).FindAllSubmatch(pdf, -1) {
			sizes = append(sizes, string(m[1]))
		}
		require.Len(t, sizes, pages, "printed pages: %q", sizes)
		for _, size := range sizes {
			var x0, y0, w, h float64
			fmt.Sscan(size, &x0, &y0, &w, &h)
			assert.InDelta(t, 210*72/25.4, min(w, h), 1, "A4, in points")
			assert.InDelta(t, 297*72/25.4, max(w, h), 1)
		}
	})

	step("dark follows the device", func(t *testing.T) {
		b.theme("dark")
		b.until("a dark page", "getComputedStyle(document.documentElement).colorScheme && matchMedia('(prefers-color-scheme: dark)').matches")
		b.still()
		r, g, bl := rgb(b.picture().At(10, 760))
		assert.Less(t, r+g+bl, 150, "the bench is dark")
	})

	assert.Empty(t, b.complaints(), "what the browser complained of")
}

// The words become one button, and the column a sheet from below.
func TestPhone(t *testing.T) {
	b := openTab(t, 390, 844)
	b.open("")
	assert.Equal(t, "none", eval[string](b, "getComputedStyle(document.querySelector('.words')).display"))
	b.press(".wordmenu", "Sizes")
	b.press(".words button", "Bends")
	b.until("the word", "document.querySelector('.wordmenu').textContent.includes('Bends')")
	small := eval[[]string](b, `[...document.querySelectorAll('#app button, #app input, #app .handle')].filter(e => { const r = e.getBoundingClientRect(); return r.width && (r.height < 30 || r.width < 24) && !e.closest('.quiet') && !e.classList.contains('hand') }).map(e => e.className + ' ' + e.textContent)`)
	assert.Empty(t, small, "targets too small for a thumb")
	assert.GreaterOrEqual(t, eval[float64](b, "document.querySelector('.hand').getBoundingClientRect().height"), 44.0)
	wide := eval[bool](b, "document.documentElement.scrollWidth > 391")
	assert.False(t, wide, "nothing reaches past the screen's side")
	before := eval[float64](b, "document.querySelector('.col').getBoundingClientRect().top")
	b.press(".hand", "")
	b.until("the sheet to come up", fmt.Sprintf("document.querySelector('.col').getBoundingClientRect().top < %g - 50", before))
	assert.Empty(t, b.complaints())
}

// key presses one key.
func (b *tab) key(name string, code int64) {
	b.t.Helper()
	for _, kind := range []input.DispatchKeyEventType{input.DispatchKeyEventTypeRawKeyDown, input.DispatchKeyEventTypeKeyUp} {
		_, err := chromedp.Call(b.ctx, input.DispatchKeyEvent, input.DispatchKeyEventParams{Type: kind, Key: name, Code: name, WindowsVirtualKeyCode: code})
		require.NoError(b.t, err)
	}
}

// typed takes the focus to a field and types into it as a keyboard does.
func (b *tab) typed(id, text string) {
	b.t.Helper()
	b.until("the field "+id, fmt.Sprintf("document.getElementById(%q)", id))
	eval[any](b, fmt.Sprintf("(() => { const f = document.getElementById(%q); f.focus(); f.select(); })()", id))
	_, err := chromedp.Call(b.ctx, input.InsertText, input.InsertTextParams{Text: text})
	require.NoError(b.t, err)
	_, err = chromedp.Call(b.ctx, input.DispatchKeyEvent, input.DispatchKeyEventParams{Type: input.DispatchKeyEventTypeKeyDown, Key: "Enter", Code: "Enter", Text: "\r", WindowsVirtualKeyCode: 13})
	require.NoError(b.t, err)
}

// tap puts a finger down and lifts it.
func (b *tab) tap(at [2]float64) {
	b.t.Helper()
	for _, kind := range []input.DispatchTouchEventType{input.DispatchTouchEventTypeTouchStart, input.DispatchTouchEventTypeTouchEnd} {
		p := []*input.TouchPoint{}
		if kind == input.DispatchTouchEventTypeTouchStart {
			p = append(p, &input.TouchPoint{X: at[0], Y: at[1]})
		}
		_, err := chromedp.Call(b.ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: p})
		require.NoError(b.t, err)
	}
}

// A part by its sizes: a stepped tray from the shelf, a size by the keyboard, a corner, a flange where the bench is touched, a
// height by its handle; and all of it back.
func TestBySizes(t *testing.T) {
	b := openTab(t, 1180, 820)
	b.open("")
	res := "document.querySelector('.res').innerText"
	b.press(".shelf .starter", "Stepped tray")
	b.until("the tray", "document.querySelector('.asked h2')?.textContent === 'Stepped tray'")
	b.until("the worker's verdict", "document.querySelector('.tro') && !document.querySelector('.tro.checking')")
	first := eval[string](b, res)

	high := -1
	st, _ := shape.StarterByID("stepped-tray")
	for i, n := range st.Make(fold.MM).Sizes.Named {
		if n.Name == "high" {
			high = i
		}
	}
	require.GreaterOrEqual(t, high, 0)
	field := fmt.Sprintf("f-sizes.named[%d].is", high)
	b.typed(field, "70")
	b.until("the blank to follow", fmt.Sprintf("%s !== %q", res, first))
	b.until("the size lit on the part", "document.querySelector('#labels .name')?.textContent.endsWith(' 70')")
	second := eval[string](b, res)
	b.key("ArrowUp", 38)
	b.until("a step more", fmt.Sprintf("document.getElementById(%q).value === '71' && %s !== %q", field, res, second))
	assert.Equal(t, field, eval[string](b, "document.activeElement.id"), "the focus stays")
	b.press(".undo", "")
	b.until("the step back", fmt.Sprintf("%s === %q", res, second))
	b.typed(field, "rail - 3")
	b.until("what would do", fmt.Sprintf("document.getElementById(%q)?.textContent.includes('rail')", field+"-e"))
	assert.Equal(t, second, eval[string](b, res), "the last good part stays")
	b.typed(field, "70")
	b.until("the message to go", fmt.Sprintf("!document.getElementById(%q)", field+"-e"))

	b.press(".itemhead", "Front and right")
	b.press(".ways button", "lap")
	b.until("the lap", "document.querySelector('.items .on small').textContent === 'lap · gap 0.50' && document.querySelector('.items .on .form').innerText.includes('Runs over the other')")
	b.press(".undo", "")
	b.until("edge to edge again", "document.querySelector('.items .on small').textContent.startsWith('edge to edge')")

	// Touch the middle of the front wall's upper edge, a little aside from its handle.
	eval[any](b, "navigator.clipboard.writeText = (t) => { window.copied = t; return Promise.resolve(); }")
	b.press(".tools .b", "Share")
	b.until("the link", "window.copied")
	_, fragment, _ := strings.Cut(eval[string](b, "window.copied"), "#")
	spec, err := partfile.Unpack(fragment)
	require.NoError(t, err)
	made, problems := shape.Make(spec)
	require.Empty(t, problems)
	p := fold.Build(made.Spec)
	b.still()
	for _, pn := range p.Panels {
		if pn.Name != "front" {
			continue
		}
		bend := p.Bends[pn.Parent]
		top, at := 0.0, 0
		for i, v := range pn.Region.Outer {
			w := pn.Region.Outer[(i+1)%len(pn.Region.Outer)]
			if _, s := bend.Coord(v.Add(w).Mul(.5)); s > top {
				top, at = s, i
			}
		}
		v, w := pn.Region.Outer[at], pn.Region.Outer[(at+1)%len(pn.Region.Outer)]
		q := v.Mul(.7).Add(w.Mul(.3))
		place := eval[[]float64](b, fmt.Sprintf("dryfoldBench.panel('front', %g, %g)", q[0], q[1]))
		b.tap([2]float64{place[0], place[1]})
	}
	b.until("what can be done there", "document.querySelector('.picked h2')?.textContent.includes('Top of front')")
	b.press(".picked .b", "Raise a flange here")
	b.until("the lip, its height to be typed", "document.querySelector('.items .on b')?.textContent === 'Front lip' && document.activeElement.id.endsWith('.height')")
	b.press(".undo", "")
	b.until("no lip", fmt.Sprintf("%s === %q", res, second))

	// Drag a handle up.
	b.still()
	grip := eval[[]float64](b, "(() => { for (let i = 0; i < 9; i++) { const g = dryfoldBench.grip(`sizes.flanges[${i}].height`); if (g && i > 0) return g; } })()")
	require.Len(t, grip, 2, "a height has a handle")
	b.drag([2]float64{grip[0], grip[1]}, [2]float64{grip[0], grip[1] - 60})
	b.until("the walls to follow", fmt.Sprintf("parseFloat(document.getElementById(%q).value) > 80", field))
	b.press(".undo", "")
	b.until("all of the drag back", fmt.Sprintf("%s === %q", res, second))
	b.press(".undo", "")
	b.until("the first size", fmt.Sprintf("%s === %q", res, first))
	b.press(".undo", "")
	b.until("the part before", "document.querySelector('h1').textContent === 'Uncapping tray'")
	assert.Empty(t, b.complaints())
}

// A height follows the finger by the scale at which the part is shown, and rests when the finger rests.
func TestDragHeight(t *testing.T) {
	b := openTab(t, 1180, 820)
	b.open("")
	b.press(".shelf .starter", "Tray")
	b.until("the tray", "document.querySelector('.asked h2')?.textContent === 'Tray'")
	b.still()
	st, _ := shape.StarterByID("tray")
	spec := st.Make(fold.MM)
	made, problems := shape.Make(spec)
	require.Empty(t, problems)
	field := ""
	for i, n := range spec.Sizes.Named {
		if n.Name == "high" {
			field = fmt.Sprintf("parseFloat(document.getElementById('f-sizes.named[%d].is').value)", i)
		}
	}
	require.NotEmpty(t, field)
	b.until("a handle at a height", "[0, 1, 2, 3].some(i => dryfoldBench.grip(`sizes.flanges[${i}].height`))")
	wall, grip := "", []float64(nil)
	for i, f := range spec.Sizes.Flanges {
		if at := eval[[]float64](b, fmt.Sprintf("dryfoldBench.grip('sizes.flanges[%d].height')", i)); len(at) == 2 {
			wall, grip = f.Name, at
		}
	}
	require.Len(t, grip, 2, "a height has a handle")
	scale := 0.0 // px per mm up that wall, by two of its points
	for _, pn := range made.Part.Panels {
		if pn.Name != wall {
			continue
		}
		bend := made.Part.Bends[pn.Parent]
		q := bend.Line[0].Add(bend.Line[1]).Mul(.5)
		point := func(up float64) []float64 {
			v := q.Add(bend.N.Mul(up))
			return eval[[]float64](b, fmt.Sprintf("dryfoldBench.panel(%q, %g, %g)", wall, v[0], v[1]))
		}
		lower, upper := point(40), point(50)
		scale = math.Hypot(upper[0]-lower[0], upper[1]-lower[1]) / 10
	}
	require.Greater(t, scale, 0.)
	before := eval[float64](b, field)
	const way, steps = 100.0, 10
	finger := func(kind input.DispatchTouchEventType, up float64) {
		p := []*input.TouchPoint{{X: grip[0], Y: grip[1] - up}}
		if kind == input.DispatchTouchEventTypeTouchEnd {
			p = []*input.TouchPoint{}
		}
		_, err := chromedp.Call(b.ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: p})
		require.NoError(t, err)
	}
	finger(input.DispatchTouchEventTypeTouchStart, 0)
	last := before
	for i := 1; i <= steps; i++ {
		finger(input.DispatchTouchEventTypeTouchMove, way*float64(i)/steps)
		b.still()
		now := eval[float64](b, field)
		assert.Greater(t, now, last, "%g px up", way*float64(i)/steps)
		last = now
	}
	assert.InEpsilon(t, way/scale, last-before, .1, "shown at %g px a mm", scale)
	at := eval[[]float64](b, fmt.Sprintf("dryfoldBench.panel(%q)", wall))
	time.Sleep(time.Second)
	assert.Equal(t, last, eval[float64](b, field), "the finger rests")
	assert.Equal(t, at, eval[[]float64](b, fmt.Sprintf("dryfoldBench.panel(%q)", wall)), "nothing moves")
	finger(input.DispatchTouchEventTypeTouchEnd, 0)
	b.still()
	assert.Equal(t, last, eval[float64](b, field), "let go")
	b.press(".undo", "")
	b.until("all of the drag back", fmt.Sprintf("%s === %g", field, before))
	assert.Empty(t, b.complaints())
}

// What is fetched before the first picture and after it stays within its bounds.
func TestSizes(t *testing.T) {
	dir := siteDir(t)
	size := func(name string) int64 { // as gzip: what is not packed yet every host packs
		data, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		if strings.HasSuffix(name, ".gz") {
			return int64(len(data))
		}
		var b bytes.Buffer
		z := gzip.NewWriter(&b)
		_, err = z.Write(data)
		require.NoError(t, err)
		require.NoError(t, z.Close())
		return int64(b.Len())
	}
	first := int64(0)
	for _, f := range []string{"index.html", "style.css", "boot.js", "wasm_exec.js", "dryfold.wasm.gz"} {
		first += size(f)
	}
	assert.Less(t, first, int64(3_600_000), "before the first picture")
	assert.Less(t, size("worker.wasm.gz"), int64(1_500_000), "the worker")
	assert.Less(t, size("papers.wasm.gz"), int64(2_000_000), "what draws the sheets")
	assert.Less(t, size("files.wasm.gz"), int64(3_000_000), "what makes files")
}

// dropFile lets a file fall on the page.
func (b *tab) dropFile(name, text string) {
	b.t.Helper()
	eval[any](b, fmt.Sprintf("(() => { const d = new DataTransfer(); d.items.add(new File([%q], %q)); document.querySelector('canvas').dispatchEvent(new DragEvent('drop', {dataTransfer: d, bubbles: true, cancelable: true})); })()", text, name))
}

// A maker types three strips: K and blank follow, a reload finds them, and their file
// brings them to another browser.
func TestTestBends(t *testing.T) {
	b := openTab(t, 1180, 820)
	b.open("")
	b.word("Metal")
	k := "document.querySelector('.used .figure').textContent"
	before := eval[string](b, k)
	b.press(".addstrip", "Add a test bend")
	for i, legs := range [][2]string{{"51.4", "50.6"}, {"51 1/2", "2\""}, {"51.3mm", "50,7"}} {
		if i == 0 {
			b.fill("f-strip-length", "100")
			b.fill("f-strip-set", "93")
			b.fill("f-strip-radius", "1.5")
			b.fill("f-strip-angle", "900")
			b.until("what would do", "document.getElementById('f-strip-angle-e').textContent.includes('180')")
		}
		if i == 1 { // a longer one: 2 in is 50.8 mm
			b.fill("f-strip-length", "100.3")
		}
		b.fill("f-strip-leg-a", legs[0])
		b.fill("f-strip-leg-b", legs[1])
		b.fill("f-strip-angle", "90")
		b.fill("f-strip-radius", "1.5")
		b.until("what the strip says", "document.querySelector('.strip .now').textContent.includes('K 0.')")
		b.press(".takestrip", "Add this strip")
		b.until("its row", fmt.Sprintf("document.querySelectorAll('.strips tbody tr').length === %d", i+1))
		b.until("the focus in the next", "document.activeElement.id === 'f-strip-leg-a'")
	}
	b.press(".strip .acts .line", "Done")
	assert.Equal(t, before, eval[string](b, k), "a given K stays until it is asked for")
	b.press(".usetests", "Use my test bends")
	b.until("the blank to use it", "document.querySelector('.verdict').innerText.includes('The blank uses it now')")
	assert.NotEqual(t, before, eval[string](b, k))
	mine := eval[string](b, k)
	assert.Contains(t, eval[string](b, "document.querySelector('.used').innerText"), "easured by you: 3 strips")
	assert.Contains(t, eval[string](b, "document.querySelector('.verdict').innerText"), "stop the leaf at")
	b.until("the worker's verdict", "!document.querySelector('.tro.checking')")

	// The guide stands on one page of A4.
	eval[any](b, "window.print = () => { window.printed = true }")
	b.press(".guide", "Print the guide")
	b.until("the guide", "document.querySelector('.paper img') && document.querySelector('.paper img').naturalWidth > 100 && window.printed")
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(func(p *cdppage.PrintToPDFParams) { on := true; p.PreferCSSPageSize = &on }))
	require.NoError(t, err)
	assert.Len(t, regexp.MustCompile(`/MediaBox `).FindAll(pdf, -1), 1)
	b.press(".away", "Put the guide away")

	// A file of them, as the browser would save it.
	eval[any](b, "(() => { const f = URL.createObjectURL; URL.createObjectURL = x => { x.text().then(t => window.savedText = t); return f.call(URL, x); }; })()")
	b.press(".kept .b", "Save as a file")
	b.until("the file", "window.savedText && window.savedText.includes('dryfold_bench')")
	file := eval[string](b, "window.savedText")

	b.open("")
	b.until("the strips after a reload", "document.querySelectorAll('.strips tbody tr').length === 3")
	assert.Equal(t, mine, eval[string](b, k))

	// Another part of the same sheet is offered them; what can't be stored is said.
	b.dropFile("angle.dryfold", `{"dryfold": 1, "name": "Angle", "units": "mm", "sheet": {"thickness": 1, "metal": "stainless"},
		"blank": {"outline": [[0,0],[90,0],[90,60],[0,60]], "bends": [{"name": "fold", "line": [[45,0],[45,60]], "angle": 90, "radius": 1.5, "way": "up"}]}}`)
	b.until("the other part", "document.querySelector('h1').textContent === 'Angle'")
	b.word("Metal")
	b.press(".offer .main", "Use them")
	b.until("the blank to use them", "document.querySelector('.verdict').innerText.includes('The blank uses it now')")
	assert.Equal(t, mine, eval[string](b, k))
	eval[any](b, "(() => { Storage.prototype.setItem = () => { throw new Error('full') } })()")
	b.press(".strips .rowname", "1")
	b.press(".strips .more .b", "Delete")
	b.until("that it can't be kept", "document.querySelector('.kept .err')")
	assert.Empty(t, b.complaints())

	// Another browser.
	o := openTab(t, 390, 844)
	o.open("")
	o.dropFile("shed.drybends", file)
	o.until("what came in", "document.querySelector('.notice')?.textContent.includes('3 test bends came in')")
	o.press(".offer .main", "Use them")
	o.until("their rows", "document.querySelectorAll('.strips tbody tr').length === 3")
	o.press(".usetests", "Use my test bends")
	o.until("the same K", fmt.Sprintf("%s === %q", k, mine))
	o.dropFile("shed.drybends", file)
	o.until("that they were there", "document.querySelector('.notice')?.textContent.includes('3, of Stainless 304 1.0 mm, were there already')")
	o.dropFile("spoilt.drybends", "{")
	o.until("what is wrong with it", "document.querySelector('.notice.bad')?.textContent.includes('spoilt.drybends')")
	assert.Empty(t, o.complaints())
}

// The gap along a seam is drawn with its band once the spread is there; how seams are closed is said, judged at once and undone; what is no
// gap stands beside its field.
func TestSeams(t *testing.T) {
	b := openTab(t, 820, 1180)
	b.open("")
	b.word("Seams")
	b.press(".rowname", "Right corner")
	line := "document.querySelector('.gap .plot .exact')"
	b.until("the gap", line+" && "+line+".getBoundingClientRect().width > 100")
	b.until("the band", "document.querySelector('.gap .plot .spread') && !document.querySelector('.seams .spin')")
	assert.Contains(t, eval[string](b, "document.querySelector('.outby').innerText"), " parts tried with errors drawn at random")
	assert.Contains(t, eval[string](b, "document.querySelector('.says').innerText"), "With errors of hand and machine it may not")
	small := eval[float64](b, "Math.min(...[...document.querySelectorAll('.gap .plot text')].map(e => parseFloat(getComputedStyle(e).fontSize) * e.ownerSVGElement.getBoundingClientRect().width / e.ownerSVGElement.viewBox.baseVal.width))")
	assert.GreaterOrEqual(t, small, 14.5, "its words can be read")

	eval[any](b, "document.querySelector('.joins details.more').open = true")
	b.fill("f-"+session.JoinField("", "widest"), "wide")
	b.until("what would do", "document.querySelector('.joins .err')?.innerText.includes('is not a length')")
	b.fill("f-"+session.JoinField("", "widest"), "2")
	b.until("the limit", "document.querySelector('.says').innerText.includes('2.00 mm, yours')")
	b.until("the verdict by the new limit", "document.querySelector('.says').innerText.includes('It closes: all but 5 in 100')")
	b.press(".undo", "")
	b.until("the limit before", "document.querySelector('.says').innerText.includes('1.10 mm, common practice')")
	assert.Empty(t, b.complaints())
}
