// Package assets holds what is built into the page and the command: the demo
// parts, embedded as part files. They are made from their sizes by the code in
// this folder's tests (`go test ./assets -update`); LICENSE.md says whose they are.
package assets

import _ "embed"

// Demo is a ready part to open: a part file with its name and a line that says
// what it is.
type Demo struct {
	File string // the file's name, ending in .dryfold
	Name string // the part's name, as in the file
	Line string // what it shows, in a maker's words
	Data []byte // the file; not to be written to
}

var (
	//go:embed uncapping-tray.dryfold
	uncappingTray []byte
	//go:embed faulty-tray.dryfold
	faultyTray []byte
	//go:embed hive-roof.dryfold
	hiveRoof []byte
	//go:embed wax-pan.dryfold
	waxPan []byte
	//go:embed press-hopper.dryfold
	pressHopper []byte
	//go:embed stand-bracket.dryfold
	standBracket []byte
)

// Demos lists the demo parts in the order they are offered. The first opens when
// nothing else does; the last is spoilt on purpose.
func Demos() []Demo {
	return []Demo{
		{"uncapping-tray.dryfold", "Uncapping tray", "Stainless tray that hangs on a tub and drains by its spout", uncappingTray},
		{"hive-roof.dryfold", "Hive roof", "Square aluminium lid with a hemmed rim", hiveRoof},
		{"wax-pan.dryfold", "Wax-melter pan", "Plain pan with lapped, riveted corners", waxPan},
		{"press-hopper.dryfold", "Press hopper", "Flared hopper with a mitred lip", pressHopper},
		{"stand-bracket.dryfold", "Hive-stand bracket", "Channel with returns and bolt holes, in inches", standBracket},
		{"faulty-tray.dryfold", "Uncapping tray, spoilt", "The tray in a bad order, with one wall cut short", faultyTray},
	}
}
