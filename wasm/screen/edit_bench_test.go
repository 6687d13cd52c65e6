package screen

// This file times an edit of a part by sizes, for the table in DEVELOPERS.md.

import (
	"fmt"
	"math"
	"testing"
	"time"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
	"dryfold/render/scene"
	"dryfold/wasm/session"
)

// What the page does at one edit of a part by sizes, all but what only a browser has: the part made anew and measured, the page's
// elements, the sizes drawn, the scene and its projection, the question for the second program, and what is kept.
func BenchmarkEditPage(b *testing.B) {
	for _, part := range []struct {
		name string
		spec fold.Spec
	}{{"stepped tray", rimmedTray(b)}, {"forty panels", fortyPanels()}} {
		b.Run(part.name, func(b *testing.B) {
			s := session.New(part.spec)
			if len(s.Problems()) > 0 {
				b.Fatal(s.Problems()[0])
			}
			c := New(s, Deeds{}, nil)
			camera := scene.NewCamera(820, 620)
			var sc *scene.Scene
			var out *scene.Screen
			last := time.Now()
			took := map[string]time.Duration{}
			lap := func(what string) {
				now := time.Now()
				took[what] += now.Sub(last)
				last = now
			}
			for i := 0; b.Loop(); i++ {
				last = time.Now()
				path := session.NamedField(0, "is")
				if len(s.Form().Named) == 0 {
					path = session.FlangeField(0, "height")
				}
				x, _ := s.SizeField(path)
				if err := s.SetField(path, fmt.Sprint(math.Round(x.Value)+float64(1-2*(i%2)))); err != nil {
					b.Fatal(err)
				}
				lap("edit")
				c.Page()
				lap("page")
				c.Mode()
				pic := s.Picture()
				lap("picture")
				pic.Sizes = c.SizeMarks()
				lap("marks")
				m := scene.NewMesher(pic.Part)
				lap("mesher")
				sc = m.Make(pic, sc)
				lap("scene")
				sc.Frame(&camera)
				lap("frame")
				out = sc.Project(&camera, out)
				lap("project")
				s.Question()
				lap("question")
				s.Place()
				s.Keep("12:00")
				lap("keep")
			}
			for what, d := range took {
				b.ReportMetric(float64(d.Microseconds())/1000/float64(b.N), what+"-ms")
			}
		})
	}
}

// rimmedTray is the starter "Stepped tray" with a lip and a hook on every wall.
func rimmedTray(b *testing.B) fold.Spec {
	st, ok := shape.StarterByID("stepped-tray")
	if !ok {
		b.Fatal("no such starter")
	}
	spec := st.Make(fold.MM)
	f := spec.Sizes
	for _, w := range append([]sizes.Flange(nil), f.Flanges...) {
		if w.Name != "floor 2" {
			f.Flanges = append(f.Flanges,
				sizes.Flange{Name: w.Name + " lip", On: w.Name, Side: "top", Height: sizes.Is(12), Down: true, Angle: sizes.Is(90)},
				sizes.Flange{Name: w.Name + " hook", On: w.Name + " lip", Side: "top", Height: sizes.Is(8), Down: true, Angle: sizes.Is(90)})
		}
	}
	return spec
}

// fortyPanels is a base of 13 sides, on each a wall with a lip and a return.
func fortyPanels() fold.Spec {
	f := &sizes.Form{Radius: sizes.Is(1), Gap: sizes.Is(0.5), Relief: sizes.Relief{Kind: sizes.Drilled, Size: sizes.Is(3)}}
	const n = 13
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		f.Base.Points = append(f.Base.Points, sizes.Point{X: sizes.Is(math.Round(3e8*cos) / 1e6), Y: sizes.Is(math.Round(3e8*sin) / 1e6)})
		wall := fmt.Sprintf("wall %d", i+1)
		f.Flanges = append(f.Flanges,
			sizes.Flange{Name: wall, On: "floor", Side: fmt.Sprintf("side %d", i+1), Height: sizes.Is(60), Angle: sizes.Is(80)},
			sizes.Flange{Name: wall + " lip", On: wall, Side: "top", Height: sizes.Is(20), Along: true, Down: true, Angle: sizes.Is(80)},
			sizes.Flange{Name: wall + " return", On: wall + " lip", Side: "top", Height: sizes.Is(10), Along: true, Down: true})
	}
	return fold.Spec{Name: "Forty", Sheet: fold.Sheet{Thickness: 1}, Sizes: f}
}
