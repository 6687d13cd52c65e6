package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"dryfold/wasm/page"
)

type siteFlags struct {
	out, wasm string
	brotli    int
	build     bool
}

func siteVerb() *verb {
	return &verb{
		name: "site", args: "-o DIR",
		what: "writes the page as a folder of static files",
		more: `The folder works from any static host, under any path: nothing runs behind it.
The programs come from -wasm; where they are missing they are built, if this is
run inside the source tree with Go at hand; -build builds them in any case, and
alone, without -o, does nothing else. The .wasm.gz files are what the page
fetches; a host that serves brotli itself can use the .wasm.br beside them.`,
		shows: "dryfold site -o site",
		flags: func(f *flag.FlagSet) any {
			o := &siteFlags{}
			f.StringVar(&o.out, "o", "", "the `folder` to write")
			f.StringVar(&o.wasm, "wasm", "build", "the `folder` that holds the built programs and "+page.Exec)
			f.IntVar(&o.brotli, "br", 9, "brotli quality, 1 to 11 (11 takes minutes), 0 for no .br files")
			f.BoolVar(&o.build, "build", false, "build the programs anew into the folder of -wasm first")
			return o
		},
		run: site,
	}
}

func site(c *call) int {
	o := c.opt.(*siteFlags)
	if len(c.args) != 0 {
		return c.usage("%q, where nothing more is needed", c.args[0])
	}
	if o.out == "" && !o.build {
		return c.usage("no -o")
	}
	if o.brotli < 0 || o.brotli > 11 {
		return c.usage("-br %d, where 0 to 11 is needed", o.brotli)
	}
	if o.build {
		if _, err := buildPrograms(o.wasm, c.err); err != nil {
			c.fail(problem{Found: err.Error()})
			return statusInput
		}
		if o.out == "" {
			return statusOK
		}
	}
	files, err := makeSite(o.wasm, o.brotli, c.err)
	if err != nil {
		c.fail(problem{Found: err.Error()})
		return statusInput
	}
	if err := os.MkdirAll(o.out, 0o755); err != nil {
		c.fail(problem{File: &o.out, Found: plain(err), Need: "a folder that can be written to"})
		return statusInput
	}
	for _, name := range sortedNames(files) {
		file := filepath.Join(o.out, filepath.FromSlash(name))
		if err := os.WriteFile(file, files[name], 0o644); err != nil {
			c.fail(problem{File: &file, Found: plain(err), Need: "a folder that can be written to"})
			return statusInput
		}
		fmt.Fprintf(c.out, "%10d  %s\n", len(files[name]), name)
	}
	w := siteWeight(files)
	fmt.Fprintf(c.out, "%10d  bytes (gzip) before the first picture, of %d\n%10d  bytes (gzip) for the worker, of %d\n%10d  bytes (gzip) for sheets when they are wanted, of %d\n%10d  bytes (gzip) for files when they are wanted, of %d\n",
		w.first, maxFirst, w.worker, maxWorker, w.papers, maxPapers, w.exports, maxExports)
	if w.first > maxFirst || w.worker > maxWorker || w.papers > maxPapers || w.exports > maxExports {
		c.fail(problem{File: &o.out, Found: "a site heavier than it may be", Need: "a smaller program"})
		return statusInput
	}
	return statusOK
}

// What a visitor has to fetch, at most, in bytes of gzip: all of it but the
// worker and what makes sheets and files before the first picture, the worker's program after it;
// those for sheets and for files when they are first wanted.
const (
	maxFirst   = 3_600_000
	maxWorker  = 1_500_000
	maxPapers  = 2_000_000
	maxExports = 3_000_000 // half of it writes PDF and draws pictures
)

// siteWeights is what a site weighs as gzip: before the first picture, after it, for the sheets and for files.
type siteWeights struct{ first, worker, papers, exports int }

func siteWeight(files map[string][]byte) (w siteWeights) {
	for name, data := range files {
		switch {
		case filepath.Ext(name) == ".br":
		case name == page.Worker+".gz":
			w.worker += len(data)
		case name == page.Papers+".gz":
			w.papers += len(data)
		case name == page.Exports+".gz":
			w.exports += len(data)
		case filepath.Ext(name) == ".gz":
			w.first += len(data)
		default:
			w.first += len(gzipped(data))
		}
	}
	return w
}

func sortedNames(files map[string][]byte) []string {
	names := make([]string, 0, len(files))
	for n := range files {
		names = append(names, n)
	}
	slices.Sort(names)
	return names
}
