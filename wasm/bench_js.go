package main

// This file ties the bench to the session: what was touched, what was swung, and
// the words that stand over the drawing.

import (
	"fmt"
	"syscall/js"

	"dryfold/fold/geom"
	"dryfold/render"
	"dryfold/render/scene"
)

func (p *page) callbacks() render.Callbacks {
	return render.Callbacks{
		OnTap: func(h scene.Hit) {
			p.c.Tapped(h)
			p.changed()
		},
		OnSwing: func(bend int, a geom.Angle, done bool) {
			p.running = false // who takes a panel in hand stops the run-through
			p.s.Swing(bend, a)
			if done {
				p.s.LetGo()
			}
			p.c.Swung()
			p.changed()
		},
		OnSize: func(path string, by float64, done bool) {
			p.c.DragSize(path, by, done)
			p.changed()
		},
		OnLabels: func(l []scene.ScreenLabel) { p.labels.show(l) },
		OnCamera: func() {
			p.c.Turned()
			p.patch.patch(p.c.Page())
		},
		OnFirstFrame: func() {
			p.first = true
			canvas := document.Call("querySelector", "canvas")
			canvas.Call("setAttribute", "tabindex", "0") // in its place among the others, not before them
			canvas.Call("setAttribute", "role", "img")
			canvas.Call("setAttribute", "aria-label", "The bench: the part as far as it is folded, on its blank. Arrow keys turn it; its numbers stand in the column")
			document.Call("getElementById", "load").Set("hidden", true)
			document.Get("documentElement").Get("dataset").Set("ready", "1")
			p.check.start()
			p.changed()
		},
	}
}

// expose lets tests and measurements ask the bench where a panel or a size's handle stands, in CSS px
// of the page, how many frames were drawn, and how long the last one took.
func (p *page) expose() {
	js.Global().Set("dryfoldBench", map[string]any{
		"panel": js.FuncOf(func(_ js.Value, args []js.Value) any { // or a place of it: a blank point, mm
			for i, q := range p.s.Part().Panels {
				if q.Name != args[0].String() {
					continue
				}
				if len(args) == 3 {
					return onPage(p.view.PointScreen(i, geom.Vec2{args[1].Float(), args[2].Float()}))
				}
				return onPage(p.view.PanelScreen(i))
			}
			return nil
		}),
		"grip": js.FuncOf(func(_ js.Value, args []js.Value) any {
			for i, m := range p.c.SizeMarks() {
				if m.Path != args[0].String() || !m.Grip {
					continue
				}
				if at := onPage(p.view.GripScreen(i)); at != nil {
					return at
				}
			}
			return nil
		}),
		"frames": js.FuncOf(func(js.Value, []js.Value) any { n, _ := p.view.Counters(); return n }),
		"ms":     js.FuncOf(func(js.Value, []js.Value) any { _, ms := p.view.Counters(); return ms }),
	})
}

// onPage is a place on the canvas as one on the page; nil where there is none.
func onPage(x, y float64, ok bool) any {
	if !ok {
		return nil
	}
	r := document.Get("body").Call("getBoundingClientRect")
	return []any{x + r.Get("left").Float(), y + r.Get("top").Float()}
}

// labels are the words over the drawing: HTML, so that they stay sharp and level.
type labels struct {
	el   js.Value
	kids []js.Value
	was  []scene.ScreenLabel
}

func newLabels() *labels { return &labels{el: document.Call("getElementById", "labels")} }

// show puts the labels where they fall now.
func (l *labels) show(list []scene.ScreenLabel) {
	for len(l.kids) < len(list) {
		k := document.Call("createElement", "span")
		l.el.Call("appendChild", k)
		l.kids = append(l.kids, k)
		l.was = append(l.was, scene.ScreenLabel{})
	}
	for len(l.kids) > len(list) {
		last := len(l.kids) - 1
		l.kids[last].Call("remove")
		l.kids, l.was = l.kids[:last], l.was[:last]
	}
	for i, s := range list {
		if s == l.was[i] {
			continue
		}
		k := l.kids[i]
		if s.Text != l.was[i].Text {
			k.Set("textContent", s.Text)
		}
		if s.Style != l.was[i].Style || l.was[i].Text == "" {
			k.Set("className", s.Style.String())
		}
		shift := [...]string{"0", "-50%", "-100%"}[min(max(s.Align, -1), 1)+1]
		k.Get("style").Set("transform", fmt.Sprintf("translate(%.1fpx,%.1fpx) translate(%s,-50%%)", s.X, s.Y, shift))
		l.was[i] = s
	}
}
