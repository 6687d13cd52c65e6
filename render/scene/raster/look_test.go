package raster

import (
	"image/png"
	"os"
	"testing"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/render/scene"
)

func TestLook(t *testing.T) {
	k := .44
	at := func(x, y float64) fold.Vertex { return fold.Vertex{At: geom.Vec2{x, y}} }
	bend := func(name string, x0, y0, x1, y1, angle float64, up bool) fold.BendSpec {
		return fold.BendSpec{Name: name, Line: [2]geom.Vec2{{x0, y0}, {x1, y1}}, Angle: angle, Radius: 1.5, Up: up}
	}
	p := fold.Build(fold.Spec{
		Name:  "tray",
		Sheet: fold.Sheet{Thickness: 1, K: &k},
		Outline: fold.Contour{
			at(3, -50), at(197, -50), at(197, 3), at(250, 3), at(250, 147), at(197, 147), at(197, 200), at(220, 200), at(220, 245),
			at(-20, 245), at(-20, 200), at(3, 200), at(3, 147), at(-50, 147), at(-50, 3), at(3, 3),
		},
		Holes: []fold.Hole{{At: geom.Vec2{100, 70}, Diameter: 24}},
		Bends: []fold.BendSpec{
			bend("right", 200, 3, 200, 147, 90, true),
			bend("left", 0, 3, 0, 147, 90, true),
			bend("front", 3, 0, 197, 0, 90, true),
			bend("back", 3, 150, 197, 150, 90, true),
			bend("hook out", -20, 205, 220, 205, 90, false),
			bend("hook down", -20, 230, 220, 230, 90, false),
		},
	})
	for _, tr := range p.Troubles {
		t.Log(tr.Message)
	}
	shot := func(name string, pic scene.Picture, view string, w, h, k float64) {
		pic.Part = p
		s := scene.Make(pic)
		c := scene.NewCamera(w, h)
		s.SetView(&c, view)
		img, err := Draw(s, c, k)
		if err != nil {
			t.Fatal(err)
		}
		f, _ := os.Create("/tmp/look-" + name + ".png")
		png.Encode(f, img)
		f.Close()
	}
	shot("half", scene.Picture{State: p.StateAt(1, .6), Turning: []int{1}, Dims: true}, "home", 820, 680, 1)
	shot("done", scene.Picture{State: p.Finished(), Dims: true, Select: scene.Select{Kind: scene.Panel, Index: 1}}, "home", 820, 680, 1)
	shot("dark", scene.Picture{State: p.StateAt(3, .6), Turning: []int{3}, Dark: true, Dims: true}, "home", 820, 680, 1)
	shot("brake", scene.Picture{State: p.StateAt(4, .6), Turning: []int{4}}, "at the brake", 820, 680, 1)
	shot("above", scene.Picture{State: p.StateAt(4, .6), Turning: []int{4}, Dims: true}, "above", 390, 680, 2)
}
