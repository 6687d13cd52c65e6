// Package page holds the files of the page that are not made by a compiler:
// index.html, its style, the small script that fetches and starts the program,
// the worker's script and the manifest. The site is these files with the three
// programs and Go's own wasm_exec.js beside them, all under one folder:
//
//	index.html style.css boot.js worker.js manifest.webmanifest icon.svg
//	wasm_exec.js dryfold.wasm.gz worker.wasm.gz papers.wasm.gz files.wasm.gz
//
// Every address in them is relative, so that the folder works under any path.
package page

import (
	"embed"
	"io/fs"
)

//go:embed index.html style.css boot.js worker.js manifest.webmanifest icon.svg
var files embed.FS

// Files gives the page's own files, by the names the site has them under.
func Files() fs.FS { return files }

// The names under which the site holds the programs; .wasm.gz is what the page fetches.
const (
	Program = "dryfold.wasm"
	Worker  = "worker.wasm"
	Papers  = "papers.wasm"
	Exports = "files.wasm"
	Exec    = "wasm_exec.js" // from the Go that built the programs
)

// Programs are the four programs: the page's own, and those that are fetched after it, with the packages that they are built of.
var Programs = [][2]string{{Program, "./wasm"}, {Worker, "./wasm/worker"}, {Papers, "./wasm/papers"}, {Exports, "./wasm/files"}}
