package raster

import (
	"bytes"
	"fmt"
	"image/png"
	"strings"

	"dryfold/render/scene"
)

// PNG draws a picture w x h pixels large, seen as a word of scene.Views says, framed, and gives it as a PNG file.
func PNG(pic scene.Picture, view string, w, h int) ([]byte, error) {
	s, c, err := from(pic, view, w, h)
	if err != nil {
		return nil, err
	}
	return PNGSeen(s, c, 1)
}

// PNGSeen is PNG of a scene as a camera sees it, scale pixels for each of the camera's.
func PNGSeen(s *scene.Scene, c scene.Camera, scale float64) ([]byte, error) {
	img, err := Draw(s, c, scale)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	e := png.Encoder{CompressionLevel: png.BestCompression}
	if err := e.Encode(&b, img); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// from makes the scene and a camera of a view, "" being home.
func from(pic scene.Picture, view string, w, h int) (*scene.Scene, scene.Camera, error) {
	s, c := scene.Make(pic), scene.NewCamera(float64(w), float64(h))
	if view == "" {
		view = "home"
	}
	if !s.SetView(&c, view) {
		return nil, c, fmt.Errorf("a view %q; one of %s is needed", view, strings.Join(scene.Views, ", "))
	}
	return s, c, nil
}
