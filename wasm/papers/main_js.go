// The page's third program: it draws the sheets of Marking out, to be shown and printed, and tells what the column says of
// them, so that the page never waits. It is fetched when it is first needed.
package main

import (
	"dryfold/wasm/papers/desk"
	"dryfold/wasm/papers/press"
)

func main() { desk.Serve(press.Sheets) }
