//go:build js

package render

import (
	_ "embed"

	"github.com/hajimehoshi/ebiten/v2"
)

// The programs of the four passes; each says in its head what it does.
var (
	//go:embed shaders/high.kage
	highSource []byte
	//go:embed shaders/low.kage
	lowSource []byte
	//go:embed shaders/solid.kage
	solidSource []byte
	//go:embed shaders/line.kage
	lineSource []byte
)

type shaders struct{ high, low, solid, line *ebiten.Shader }

func newShaders() (s shaders, err error) {
	for _, p := range []struct {
		to  **ebiten.Shader
		src []byte
	}{{&s.high, highSource}, {&s.low, lowSource}, {&s.solid, solidSource}, {&s.line, lineSource}} {
		if *p.to, err = ebiten.NewShader(p.src); err != nil {
			return s, err
		}
	}
	return s, nil
}
