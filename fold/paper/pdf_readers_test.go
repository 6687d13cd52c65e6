//go:build readers

package paper

import (
	"encoding/xml"
	"fmt"
	"image"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/draft/pdf"
	"dryfold/testdata/readers"
)

// bare is text without its spaces, and with what a PDF can't hold as SVG writes it.
func bare(t string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '\u00ad' {
			return -1
		}
		return r
	}, t)
}

// sheetsOf are all sheets of a part, by kind.
func sheetsOf(t *testing.T, s fold.Spec, u fold.Units) map[string][]draft.Page {
	t.Helper()
	p, rep := whole(t, s)
	out := map[string][]draft.Page{"guide": {Guide(GuideOptions{Units: u, Metal: s.Sheet.Metal, Thickness: p.Thickness})}}
	for _, kind := range Kinds {
		if kind == "all" {
			continue
		}
		pages, err := Sheets(kind, p, rep, Job{Options: Options{Units: u}, Template: TemplateOptions{Units: u}, Card: CardOptions{TemplateOptions: TemplateOptions{Units: u}}})
		require.NoError(t, err, kind)
		require.NotEmpty(t, pages, kind)
		out[kind] = pages
	}
	return out
}

func written(t *testing.T, pages []draft.Page) []byte {
	t.Helper()
	data, err := pdf.Write("sheets", pages, time.Unix(0, 0))
	require.NoError(t, err)
	return data
}

// saysAll fails where a text of the pages is not in their PDF letter for letter, or another stands there.
func saysAll(t *testing.T, pages []draft.Page, what string) {
	t.Helper()
	text := strings.Split(readers.PDFText(t, written(t, pages), "-raw"), "\f")
	require.Len(t, text, len(pages)+1, what)
	for i, g := range pages {
		got, letters := bare(text[i]), 0
		for _, x := range g.Items {
			if x.Kind != draft.Text {
				continue
			}
			want := bare(x.Words)
			letters += len([]rune(want))
			if !strings.Contains(got, want) {
				t.Errorf("%s, page %d: the PDF does not say %q", what, i+1, x.Words)
			}
		}
		assert.Equal(t, letters, len([]rune(got)), "%s, page %d: letters", what, i+1)
	}
}

// All that stands on a sheet stands in its PDF, on pages of their size, in mm and inches.
func TestReaderSheetsText(t *testing.T) {
	specs := testParts(t)
	for _, name := range []string{"assets/uncapping-tray.dryfold", "assets/hive-roof.dryfold", "assets/stand-bracket.dryfold"} {
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			for kind, pages := range sheetsOf(t, specs[name], u) {
				what := fmt.Sprint(name, " ", kind, " ", u)
				saysAll(t, pages, what)
				info := readers.PDFInfo(t, written(t, pages), "-f", "1", "-l", fmt.Sprint(len(pages)))
				sizes := regexp.MustCompile(`Page +\d+ size: +([0-9.]+) x ([0-9.]+) pts`).FindAllStringSubmatch(info, -1)
				require.Len(t, sizes, len(pages), what)
				for i, g := range pages {
					for k, mm := range []float64{g.W, g.H} {
						pt, err := strconv.ParseFloat(sizes[i][k+1], 64)
						require.NoError(t, err)
						assert.InDelta(t, mm, pt*25.4/72, 0.01, "%s, page %d", what, i+1)
					}
				}
			}
		}
	}
}

// Names in letters of all kinds come out of the PDF as they went in; those that no font has are told, and stand for themselves
// all the same.
func TestReaderUnusualLetters(t *testing.T) {
	for _, name := range []string{"Würfel & Ølkande — «20 €»", "Σκάφη για μέλι, 90°", "Лоток для воска № 7", "Łódź, Čapek, Őr", "½ ″ ≤ ≈ −", `</text> (a) \b %c`, "fi fl ffi"} {
		spec := testParts(t)["testdata/parts/hem.dryfold"]
		spec.Name, spec.Sheet.Metal = name, name
		for i := range spec.Bends {
			spec.Bends[i].Name = fmt.Sprint(name, " ", i)
		}
		spec.Order = nil
		assert.Empty(t, pdf.Missing(name), name)
		for kind, pages := range sheetsOf(t, spec, fold.MM) {
			saysAll(t, pages, name+", "+kind)
		}
	}
}

// box is a word as pdftotext finds it, mm from the page's upper left corner.
type word struct {
	x0, y0, x1, y1 float64
	text           string
}

func wordsOf(t *testing.T, data []byte) (pages [][]word) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(readers.PDFText(t, data, "-bbox")))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	var w *word
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return pages
		}
		require.NoError(t, err)
		switch e := tok.(type) {
		case xml.StartElement:
			at := map[string]float64{}
			for _, a := range e.Attr {
				v, _ := strconv.ParseFloat(a.Value, 64)
				at[a.Name.Local] = v * 25.4 / 72
			}
			switch e.Name.Local {
			case "page":
				pages = append(pages, nil)
			case "word":
				w = &word{at["xMin"], at["yMin"], at["xMax"], at["yMax"], ""}
			}
		case xml.CharData:
			if w != nil {
				w.text += string(e)
			}
		case xml.EndElement:
			if e.Name.Local == "word" {
				pages[len(pages)-1] = append(pages[len(pages)-1], *w)
				w = nil
			}
		}
	}
}

// Level text stands in the PDF where the page has it: it begins, or ends, at its place, with its baseline.
func TestReaderTextPlaces(t *testing.T) {
	specs := testParts(t)
	n := 0
	for _, name := range []string{"assets/uncapping-tray.dryfold", "assets/stand-bracket.dryfold"} {
		for kind, pages := range sheetsOf(t, specs[name], specs[name].Units) {
			found := wordsOf(t, written(t, pages))
			require.Len(t, found, len(pages))
			for i, g := range pages {
				for _, x := range g.Items {
					f := strings.Fields(x.Words)
					if x.Kind != draft.Text || x.Turn != 0 || len(f) == 0 || x.To == draft.Middle {
						continue
					}
					n++
					near := math.Inf(1)
					for _, w := range found[i] {
						if x.At[1] < w.y0 || x.At[1] > w.y1 { // the baseline lies in the word's box
							continue
						}
						switch {
						case x.To == draft.Start && strings.HasPrefix(w.text, f[0]):
							near = min(near, math.Abs(w.x0-x.At[0]))
						case x.To == draft.End && strings.HasSuffix(w.text, f[len(f)-1]):
							near = min(near, math.Abs(w.x1-x.At[0]))
						}
					}
					assert.Less(t, near, 0.05, "%s, page %d, %q", kind, i+1, x.Words)
				}
			}
		}
	}
	assert.Greater(t, n, 500)
}

// Both writers draw the same: all but the text of each page, painted from its PDF and from its SVG by two libraries.
func TestReaderWritersAgree(t *testing.T) {
	specs := testParts(t)
	for _, name := range []string{"assets/hive-roof.dryfold", "assets/stand-bracket.dryfold"} {
		for kind, pages := range sheetsOf(t, specs[name], specs[name].Units) {
			if len(pages) > 1 {
				pages = []draft.Page{pages[0], pages[len(pages)-1]}
			}
			for i := range pages {
				pages[i].Items = withoutText(pages[i].Items)
			}
			painted := readers.PDFPages(t, written(t, pages), paintDPI, "-gray")
			require.Len(t, painted, len(pages))
			for i, g := range pages {
				alike(t, painted[i], readers.SVGPage(t, draft.SVG(g), paintDPI), fmt.Sprintf("%s, %s, page %d", name, kind, i+1))
			}
		}
	}
	// A difference is found.
	g := draft.Page{W: 100, H: 100}
	g.Box("strip", 10, 10, 30, 30)
	other := g
	other.Items = nil
	other.Box("strip", 10, 11, 30, 30)
	d := apart(readers.PDFPages(t, written(t, []draft.Page{g}), paintDPI, "-gray")[0], readers.SVGPage(t, draft.SVG(other), paintDPI))
	assert.Greater(t, d, 1.5*mostApart, "a box moved by 1 mm")
}

func withoutText(items []draft.Item) (out []draft.Item) {
	for _, x := range items {
		if x.Kind != draft.Text {
			out = append(out, x)
		}
	}
	return out
}

// paintDPI is fine enough that the thinnest line is a dot wide: under that poppler paints a whole one all the same.
const paintDPI = 200

// mostApart is how much of a patch may be inked otherwise by the two: they share out the grey at the edges of lines in their own
// ways, and set dashes off by half a dot.
const mostApart = 0.12

func alike(t *testing.T, a, b image.Image, what string) {
	t.Helper()
	if d := apart(a, b); d > mostApart {
		t.Errorf("%s: the PDF and the SVG differ by %.2f of a patch", what, d)
	}
}

// apart is the most that a patch of 16 by 16 dots, 2 mm, differs in its ink.
func apart(a, b image.Image) float64 {
	const patch = 16
	ba, bb := a.Bounds(), b.Bounds()
	if d := max(math.Abs(float64(ba.Dx()-bb.Dx())), math.Abs(float64(ba.Dy()-bb.Dy()))); d > 2 {
		return d
	}
	sa, sb := sums(a), sums(b)
	worst := 0.0
	for y := 0; y+patch <= min(ba.Dy(), bb.Dy()); y += patch / 2 {
		for x := 0; x+patch <= min(ba.Dx(), bb.Dx()); x += patch / 2 {
			worst = max(worst, math.Abs(sa(x, y, patch)-sb(x, y, patch))/(patch*patch))
		}
	}
	return worst
}

// sums gives the grey of square patches of an image, white dots counting 1.
func sums(im image.Image) func(x, y, side int) float64 {
	box := im.Bounds()
	w := box.Dx() + 1
	all := make([]float64, w*(box.Dy()+1)) // of all dots above and to the left
	for y := range box.Dy() {
		row := 0.0
		for x := range box.Dx() {
			switch i := im.(type) {
			case *image.Gray:
				row += float64(i.Pix[y*i.Stride+x]) / 255
			default:
				r, g, b, _ := im.At(box.Min.X+x, box.Min.Y+y).RGBA()
				row += float64(r+g+b) / (3 * 65535)
			}
			all[(y+1)*w+x+1] = all[y*w+x+1] + row
		}
	}
	return func(x, y, side int) float64 {
		return all[(y+side)*w+x+side] - all[y*w+x+side] - all[(y+side)*w+x] + all[y*w+x]
	}
}
