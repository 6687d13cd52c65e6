package main

// This file opens the demo parts.

import (
	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/wasm/screen"
)

// firstPart is the demo part that opens when nothing else does.
func firstPart() fold.Spec {
	spec, err := partfile.Read(assets.Demos()[0].Data)
	if err != nil {
		panic(err) // built in, and tested to open
	}
	return spec
}

func demoList() []screen.Demo {
	var out []screen.Demo
	all := assets.Demos()
	for i, d := range all {
		out = append(out, screen.Demo{Name: d.File, Title: d.Name, Note: d.Line, Spoilt: i == len(all)-1})
	}
	return out
}

// openDemo puts a demo part on the bench; the part before is one undo away.
func (p *page) openDemo(file string) {
	for _, d := range assets.Demos() {
		if d.File == file {
			if err := p.s.Open(d.Data); err != nil {
				panic(err) // built in, and tested to open
			}
			p.turnTo = "home"
		}
	}
}
