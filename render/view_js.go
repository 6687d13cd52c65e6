//go:build js

// Package render draws a scene in the browser with Ebitengine. This file holds
// View, the page's handle on the bench; draw_js.go draws it, input_js.go reads
// mouse, touch and keyboard.
package render

import (
	"math"
	"time"

	"github.com/hajimehoshi/ebiten/v2"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/render/scene"
)

// Callbacks are what the page hears from the bench. Any may be nil. They are
// called between frames, on the one thread there is, and may call any method of View.
type Callbacks struct {
	OnTap       func(scene.Hit) // Kind None: the empty bench
	OnDoubleTap func(scene.Hit) // the part has been framed already, unless the view is locked
	OnSwing     func(bend int, angle geom.Angle, done bool)
	// OnSize: a size is dragged by its handle and has changed by so much since the drag began: mm, or
	// radians of an angle. Path is its mark's.
	OnSize       func(path string, by float64, done bool)
	OnLabels     func([]scene.ScreenLabel) // after each drawn frame; the slice is used again
	OnFirstFrame func()
	OnCamera     func() // the view was turned, moved or zoomed by hand
}

// View is the bench: one per page. Its methods are for the page's one thread.
type View struct {
	cb      Callbacks
	picture scene.Picture
	mesher  *scene.Mesher
	scene   *scene.Scene // nil until the first Show
	stale   bool         // the picture is newer than the scene
	dirty   bool         // something changed since the last frame
	framed  bool         // the camera still stands where framing put it
	locked  bool
	held    float64 // the size of the part before a handle that is held changed it, mm; 0 where nothing waits to be framed

	camera scene.Camera
	screen *scene.Screen
	draw   *drawer
	ratio  float64 // device pixels per CSS pixel
	input  input

	frames int
	lastMS float64
}

// New makes a View; nothing is shown until Run.
func New(cb Callbacks) *View {
	return &View{cb: cb, ratio: 1, framed: true, camera: scene.NewCamera(1024, 768)}
}

// Show sets the picture; the next frame draws it. The first one is framed.
func (v *View) Show(p scene.Picture) {
	if v.mesher == nil || v.picture.Part != p.Part {
		v.mesher = scene.NewMesher(p.Part)
	}
	was, other := v.scene, v.picture.Part != p.Part
	size := 0.0
	if was != nil {
		size = was.Size() // before the scene is used again
	}
	v.picture, v.stale = p, true
	switch {
	case was == nil:
		v.frameAll()
	case !other || v.locked:
	case v.input.sizing: // under the hand nothing moves but the part; framed when it lets go
		if v.held == 0 {
			v.held = size
		}
		v.input.size.Follow(v.fresh(), &v.camera)
	case v.framed || outgrown(size, v.fresh().Size()):
		v.frameAll()
	}
	v.change()
}

// outgrown reports whether a part of another size would be lost from sight in a
// view that was turned by hand.
func outgrown(was, is float64) bool { return is > 1.5*was || is < was/1.5 }

// change asks for a frame.
func (v *View) change() {
	v.dirty = true
	ebiten.ScheduleFrame()
}

// fresh brings the scene up to the picture.
func (v *View) fresh() *scene.Scene {
	if v.stale || v.scene == nil {
		if v.mesher == nil {
			v.mesher = scene.NewMesher(nil)
		}
		v.scene = v.mesher.Make(v.picture, v.scene)
		v.stale = false
	}
	return v.scene
}

// SetView turns to a view by word, one of scene.Views: "front", "end", "above",
// "at the brake", "home". It reports whether the word is known.
func (v *View) SetView(word string) bool {
	if !v.fresh().SetView(&v.camera, word) {
		return false
	}
	v.framed = true
	v.change()
	return true
}

// FrameAll brings the whole part, as it is and as finished, and its blank into the
// free area of the canvas, keeping the direction.
func (v *View) FrameAll() {
	v.frameAll()
	v.change()
}

func (v *View) frameAll() {
	v.fresh().Frame(&v.camera)
	v.framed = true
}

// refit frames again after the free area changed, if the user left the view as framed.
func (v *View) refit() {
	switch {
	case !v.framed || v.scene == nil:
	case v.input.sizing:
		if v.held == 0 {
			v.held = v.scene.Size()
		}
	default:
		v.frameAll()
	}
	v.change()
}

// Direction is from where the bench is seen: the camera's yaw and pitch.
func (v *View) Direction() (yaw, pitch float64) { return v.camera.Yaw, v.camera.Pitch }

// Lock keeps the view: no orbit, pan or zoom by hand. Swinging panels and taps still work.
func (v *View) Lock(on bool) { v.locked = on }

// SetInsets says how much of the canvas, in CSS pixels, lies under the page's panels.
func (v *View) SetInsets(left, top, right, bottom float64) {
	n := [4]float64{left, top, right, bottom}
	if n != v.camera.Inset && !v.input.sizing { // the page gives them again at every change
		v.camera.Inset = n
		v.refit()
	}
}

// Counters are for tests and for measuring: frames drawn so far, and the Go side's
// milliseconds of the last one (meshing, projecting and drawing calls).
func (v *View) Counters() (frames int, lastMS float64) { return v.frames, v.lastMS }

// Screen gives where a point in space (mm, bench coordinates) falls, in CSS pixels
// from the canvas's upper left corner.
func (v *View) Screen(p geom.Vec3) (x, y float64) {
	x, y, _ = v.camera.Project(p)
	return x, y
}

// PanelScreen gives where a panel's label point falls, in CSS pixels; false where
// there is no such panel.
func (v *View) PanelScreen(panel int) (x, y float64, ok bool) {
	at, ok := v.fresh().PanelMiddle(panel)
	if !ok {
		return 0, 0, false
	}
	x, y = v.Screen(at)
	return x, y, true
}

// PointScreen gives where a blank point (mm) of a panel falls, on its upper face, in CSS pixels; false where there is no such panel.
func (v *View) PointScreen(panel int, p geom.Vec2) (x, y float64, ok bool) {
	s := v.fresh()
	if panel < 0 || panel >= len(s.Pose.Panels) {
		return 0, 0, false
	}
	x, y = v.Screen(s.Pose.PanelPoint(panel, p, s.Picture.Part.Thickness))
	return x, y, true
}

// GripScreen gives where the handle of the picture's size i was last drawn, in CSS pixels; false where it was not.
func (v *View) GripScreen(i int) (x, y float64, ok bool) {
	if v.screen != nil {
		for _, g := range v.screen.Grips {
			if g.Mark == i {
				return g.X, g.Y, true
			}
		}
	}
	return 0, 0, false
}

// Hit picks what lies under a point of the canvas, in CSS pixels: a handle before all else.
func (v *View) Hit(x, y float64) scene.Hit {
	h := v.fresh().Pick(&v.camera, x, y)
	if v.screen != nil {
		if m := v.screen.GripAt(x, y); m >= 0 && m < len(v.picture.Sizes) {
			h = scene.Hit{Body: fold.Body{Index: -1}, Swings: -1, Mark: m}
		}
	}
	return h
}

// Run hands the page's main goroutine to the drawing loop; it returns only on error.
func (v *View) Run() error {
	var err error
	if v.draw, err = newDrawer(); err != nil {
		return err
	}
	v.listen()
	ebiten.SetFPSMode(ebiten.FPSModeVsyncOffMinimum)
	ebiten.SetScreenClearedEveryFrame(false)
	ebiten.SetRunnableOnUnfocused(true)
	return ebiten.RunGameWithOptions((*game)(v), &ebiten.RunGameOptions{InitUnfocused: true})
}

// game is the View as Ebitengine sees it.
type game View

// Update implements ebiten.Game. Input comes from the canvas's own events, so that a
// quick tap between two frames is not lost.
func (g *game) Update() error { return nil }

// Layout implements ebiten.Game; LayoutF is used instead.
func (g *game) Layout(w, h int) (int, int) { return w, h }

// LayoutF gives the screen in device pixels for a canvas in CSS pixels.
func (g *game) LayoutF(w, h float64) (float64, float64) {
	v := (*View)(g)
	r := ebiten.Monitor().DeviceScaleFactor()
	if w != v.camera.W || h != v.camera.H || r != v.ratio {
		v.camera.W, v.camera.H, v.ratio = w, h, r
		v.refit()
	}
	return math.Ceil(w * r), math.Ceil(h * r)
}

// Draw implements ebiten.Game: nothing is done unless something changed.
func (g *game) Draw(screen *ebiten.Image) {
	v := (*View)(g)
	if !v.dirty {
		return
	}
	v.dirty = false
	t := time.Now()
	s := v.fresh()
	v.screen = s.Project(&v.camera, v.screen)
	v.draw.draw(screen, v.screen, &s.Shadow, v.ratio)
	v.lastMS = float64(time.Since(t).Microseconds()) / 1000
	v.frames++
	if v.cb.OnLabels != nil {
		v.cb.OnLabels(v.screen.Labels)
	}
	if v.frames == 1 && v.cb.OnFirstFrame != nil {
		v.cb.OnFirstFrame()
	}
}
