// The page's fourth program: it makes the files that leave the page: sheets as PDF, the blank for cutting by machine, pictures,
// the part in space. It is fetched when the first of them is saved.
package main

import (
	"dryfold/wasm/papers/desk"
	"dryfold/wasm/papers/press/files"
)

func main() { desk.Serve(files.Make) }
