package paper

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/ascut"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"

	"github.com/stretchr/testify/require"
)

// checkOf is a demo part's check sheet.
func checkOf(t *testing.T, file string, o Options) (*fold.Part, *ascut.List, []draft.Page) {
	t.Helper()
	for _, d := range assets.Demos() {
		if d.File != file {
			continue
		}
		s, err := partfile.Read(d.Data)
		require.NoError(t, err)
		p := fold.Build(s)
		r := p.Quick()
		l := ascut.Look(p, &r)
		pages, err := Check(p, &r, l, o)
		require.NoError(t, err)
		return p, l, pages
	}
	t.Fatal(file)
	return nil, nil, nil
}

// words are all the texts of pages.
func words(pages []draft.Page) (out []string) {
	for _, g := range pages {
		for _, it := range g.Items {
			if it.Kind == draft.Text {
				out = append(out, it.Words)
			}
		}
	}
	return out
}

// TestCheckSheet: every size with its figures stands on one page, nothing runs off it, and no number stands on another.
func TestCheckSheet(t *testing.T) {
	for _, d := range assets.Demos() {
		for _, o := range []Options{{}, {Units: fold.Inch}, {Paper: "Letter", Hand: "left"}, {Units: fold.Inch, Paper: "Letter", Other: true, Hand: "right"}} {
			name := fmt.Sprintf("%s %v", d.File, o)
			_, l, pages := checkOf(t, d.File, o)
			if o.Paper == "" && len(l.Sizes) <= 10 {
				require.Len(t, pages, 1, name)
			}
			text := "\n" + strings.Join(words(pages), "\n") + "\n"
			if !o.Other {
				for _, s := range l.Sizes {
					s = s.In(o.Units)
					require.Contains(t, text, "\n"+ascut.Length(s.Low, o.Units, s.Step)+"\n", name)
					require.Contains(t, text, "\n"+ascut.Length(s.High, o.Units, s.Step)+"\n", name)
				}
			}
			require.Contains(t, text, "Do not bend before every line is ticked.", name)
			require.Contains(t, text, "THIS FACE UP", name)
			stamp := strings.Contains(strings.ReplaceAll(text, "\n", " "), "BOTH HANDS ALIKE")
			require.Equal(t, l.Own && (o.Hand != "" || o.Other), stamp, name)
			if o.Other && !stamp {
				require.Contains(t, strings.ReplaceAll(text, "\n", " "), "OTHER HAND: LEFT", name)
			} else if o.Hand != "" && !stamp {
				require.Contains(t, strings.ReplaceAll(text, "\n", " "), "LEFT HAND", name)
			}
			numbers := 0
			for _, g := range pages {
				var balls []geom.Vec2
				for _, it := range g.Items {
					switch it.Kind {
					case draft.Text:
						style := draft.Styles[it.Class]
						size := style.Size
						if it.Size > 0 {
							size = it.Size
						}
						x, w := it.At[0], draft.Width(it.Words, size)/1.06
						if it.To == draft.Middle {
							x -= w / 2
						} else if it.To == draft.End {
							x -= w
						}
						require.GreaterOrEqual(t, x, 5.0, "%s: %q", name, it.Words)
						require.LessOrEqual(t, x+w, g.W-5, "%s: %q", name, it.Words)
						require.LessOrEqual(t, it.At[1], g.H-5, "%s: %q", name, it.Words)
					case draft.Circle:
						if it.Class != "box" {
							continue
						}
						numbers++
						for _, b := range balls {
							require.Greater(t, b.Sub(it.At).Len(), 4.0, "%s: two numbers on one another", name)
						}
						balls = append(balls, it.At)
					}
				}
			}
			require.Equal(t, 2*len(l.Sizes), numbers, name)
		}
	}
}

// TestCheckLines: each size's line is drawn between its two points, at the scale that is stated.
func TestCheckLines(t *testing.T) {
	for _, d := range assets.Demos() {
		_, l, pages := checkOf(t, d.File, Options{})
		scale := 0.0
		for _, w := range words(pages) {
			if n, err := fmt.Sscanf(w, "Drawn 1 : %g", &scale); n == 1 && err == nil {
				break
			}
		}
		require.Positive(t, scale, d.File)
		left := map[int]bool{}
		for i := range l.Sizes {
			left[i] = true
		}
		for _, it := range pages[0].Items {
			if it.Kind != draft.Line || it.Class != "rule" || len(it.Path) != 2 {
				continue
			}
			v := it.Path[1].To.Sub(it.Path[0].To)
			for i := range left {
				s := &l.Sizes[i]
				w := s.To.Sub(s.From).Mul(1 / scale)
				w[1] = -w[1]
				if v.Sub(w).Len() < 1e-9 {
					delete(left, i)
				}
			}
		}
		for i := range left {
			require.Less(t, l.Sizes[i].Want/scale, 7.0, "%s: size %d is not drawn", d.File, i+1) // short ones have their arrows outside
		}
	}
}

// TestCheckRefused: what can't be checked is said.
func TestCheckRefused(t *testing.T) {
	p := fold.Build(fold.Spec{})
	r := p.Quick()
	_, err := Check(p, &r, nil, Options{})
	require.ErrorContains(t, err, "can't be checked until it can be folded")
	p = fold.Build(fold.Spec{Sheet: fold.Sheet{Thickness: 1}, Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{10, 0}, Through: &geom.Vec2{5, -5}}}})
	r = p.Quick()
	_, err = Check(p, &r, nil, Options{})
	require.ErrorContains(t, err, "there is nothing to measure on this blank")
}

// TestCheckGolden holds two sheets against their golden files.
func TestCheckGolden(t *testing.T) {
	for _, c := range []struct {
		file string
		o    Options
	}{{"uncapping-tray.dryfold", Options{}}, {"stand-bracket.dryfold", Options{Units: fold.Inch}}} {
		_, _, pages := checkOf(t, c.file, c.o)
		got := draft.Joined("check", pages)
		at := filepath.Join("testdata", "check-"+strings.TrimSuffix(c.file, ".dryfold")+".svg")
		if *updateFlag {
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(at, got, 0o644))
			continue
		}
		want, err := os.ReadFile(at)
		require.NoError(t, err, "go test ./fold/paper -update writes it")
		require.Equal(t, string(want), string(got), "%s differs; look at it, then go test ./fold/paper -update", at)
	}
}

func BenchmarkCheck(b *testing.B) {
	s, _ := partfile.Read(assets.Demos()[0].Data)
	p := fold.Build(s)
	r := p.Quick()
	l := ascut.Look(p, &r)
	for range b.N {
		if _, err := Check(p, &r, l, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
