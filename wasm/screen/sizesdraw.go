package screen

// This file holds the tiny drawings under Sizes: to which faces sizes run, and how walls meet.

import (
	"dryfold/fold/sizes"
	"dryfold/wasm/node"
)

// tiny is a drawing of strokes by class: "k" the sheet, "d" a dimension, "l" a thin line.
func tiny(w, h string, strokes ...[2]string) *node.Node {
	n := node.E("svg.tiny", node.A("viewBox", "0 0 "+w+" "+h), node.A("aria-hidden", "true"))
	for _, s := range strokes {
		put(n, node.E("path."+s[0], node.A("d", s[1])))
	}
	return n
}

// faceSketch is a section of a tray with a size to the faces in question; of card its creases.
func faceSketch(f sizes.Faces) *node.Node {
	const sheet = "M9 6V30H55V6H50V25H14V6Z"
	switch f {
	case sizes.Inside:
		return tiny("64", "44", [2]string{"k", sheet}, [2]string{"d", "M14 13H50M14 13l5-2.500v5ZM50 13l-5-2.500v5Z"})
	case sizes.Card:
		return tiny("64", "44", [2]string{"l", "M4 12H60M4 26H60M4 12V26M60 12V26"}, [2]string{"c", "M18 12V26M46 12V26"}, [2]string{"d", "M18 37H46M18 37l5-2.500v5ZM46 37l-5-2.500v5Z"}, [2]string{"l", "M18 30V41M46 30V41"})
	}
	return tiny("64", "44", [2]string{"k", sheet}, [2]string{"l", "M9 33V42M55 33V42"}, [2]string{"d", "M9 38H55M9 38l5-2.500v5ZM55 38l-5-2.500v5Z"})
}

// closingSketch is two walls that meet, seen from above.
func closingSketch(c sizes.Closing) *node.Node {
	switch c {
	case sizes.Edges:
		return tiny("56", "40", [2]string{"k", "M4 8H41V15H4Z"}, [2]string{"k", "M42 17H49V38H42Z"})
	case sizes.Lap:
		return tiny("56", "40", [2]string{"k", "M4 8H54V15H4Z"}, [2]string{"k", "M42 17H49V38H42Z"})
	case sizes.Mitre:
		return tiny("56", "40", [2]string{"k", "M4 8H49L41.500 15H4Z"}, [2]string{"k", "M50 9.500V38H43V16Z"})
	}
	return tiny("56", "40", [2]string{"k", "M4 8H32V15H4Z"}, [2]string{"k", "M42 24H49V38H42Z"})
}
