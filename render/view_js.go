//go:build js

// Package render draws a scene in the browser with Ebitengine. This file holds
// View, the page's handle on the bench; draw_js.go draws it, input_js.go reads
// mouse, touch and keyboard.
package render

import (
	"github.com/hajimehoshi/ebiten/v2"

	"dryfold/fold/geom"
	"dryfold/render/scene"
)

// Callbacks are what the page hears from the bench. Any may be nil. They are
// called from the drawing loop, between frames.
type Callbacks struct {
	OnTap        func(scene.Hit)
	OnDoubleTap  func(scene.Hit) // the part has been framed already
	OnSwing      func(bend int, angle geom.Angle, done bool)
	OnLabels     func([]scene.ScreenLabel) // after each drawn frame; the slice is reused
	OnFirstFrame func()
	OnCamera     func() // the view was turned, moved or zoomed by hand
}

// View is the bench: one per page.
type View struct{ cb Callbacks }

// New makes a View; nothing is shown until Run.
func New(cb Callbacks) *View { return &View{cb: cb} }

// Show sets the picture. The next frame draws it; nothing is drawn for an equal camera and no Show.
func (v *View) Show(p scene.Picture) {}

// SetView turns to a view by word: "front", "end", "above", "at the brake", "home".
// It reports whether the word is known.
func (v *View) SetView(word string) bool { return false }

// FrameAll brings the whole part into the free area of the canvas, keeping the direction.
func (v *View) FrameAll() {}

// Lock keeps the view: no orbit, pan or zoom by hand. Swinging panels and taps still work.
func (v *View) Lock(on bool) {}

// SetInsets says how much of the canvas, in CSS pixels, lies under the page's panels.
func (v *View) SetInsets(left, top, right, bottom float64) {}

// Counters are for tests and for measuring: frames drawn so far, and the Go
// side's milliseconds of the last frame.
func (v *View) Counters() (frames int, lastMS float64) { return 0, 0 }

// Screen gives where a point in space (mm, bench coordinates) falls, in CSS pixels.
func (v *View) Screen(p geom.Vec3) (x, y float64) { return 0, 0 }

// Hit picks what lies under a point of the canvas, in CSS pixels.
func (v *View) Hit(x, y float64) scene.Hit { return scene.Hit{} }

// Run hands the page's main goroutine to the drawing loop; it returns only on error.
func (v *View) Run() error { return ebiten.RunGame(nil) }
