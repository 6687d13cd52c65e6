package main

import (
	"bytes"
	"flag"
	"fmt"
	"mime"
	"net"
	"net/http"
	"os"
	"path"
	"strings"
	"time"
)

// serveAddress is where serve listens unless told otherwise, and where link's
// links point to.
const serveAddress = "127.0.0.1:8080"

type serveFlags struct{ addr, wasm string }

func serveVerb() *verb {
	return &verb{
		name: "serve", args: "[DIR] [-addr " + serveAddress + "]",
		what: "serves the page to a browser on this machine",
		more: `Serves a folder that site wrote; without one, the site is made in memory, as site
makes it. It runs until it is stopped (Ctrl-C). Port 0 takes any free port.`,
		shows: "dryfold serve -addr 127.0.0.1:0",
		flags: func(f *flag.FlagSet) any {
			o := &serveFlags{}
			f.StringVar(&o.addr, "addr", serveAddress, "the `address` to listen at")
			f.StringVar(&o.wasm, "wasm", "build", "the `folder` that holds the built programs, when no DIR is given")
			return o
		},
		run: serve,
	}
}

func serve(c *call) int {
	o := c.opt.(*serveFlags)
	var h http.Handler
	switch len(c.args) {
	case 0:
		files, err := makeSite(o.wasm, 0, c.err)
		if err != nil {
			c.fail(problem{Found: err.Error()})
			return statusInput
		}
		h = siteHandler(func(name string) ([]byte, bool) { d, ok := files[name]; return d, ok })
	case 1:
		dir := c.args[0]
		root, err := os.OpenRoot(dir)
		if err != nil {
			c.fail(problem{File: &dir, Found: plain(err), Need: "a folder that dryfold site wrote"})
			return statusInput
		}
		defer root.Close()
		if _, err := root.Stat("index.html"); err != nil {
			c.fail(problem{File: &dir, Found: "no index.html in it", Need: "a folder that dryfold site wrote"})
			return statusInput
		}
		h = siteHandler(func(name string) ([]byte, bool) { d, err := root.ReadFile(name); return d, err == nil })
	default:
		return c.usage("%d folders, where one at most is needed", len(c.args))
	}
	l, err := net.Listen("tcp", o.addr)
	if err != nil {
		return c.usage("-addr %s: %v", o.addr, err)
	}
	fmt.Fprintf(c.out, "http://%s/\n", l.Addr())
	s := &http.Server{Handler: h, ReadHeaderTimeout: 10 * time.Second}
	fmt.Fprintf(c.err, "dryfold: %v\n", s.Serve(l))
	return statusInput
}

// siteHandler serves files by name, under types that browsers accept. The .gz
// files go out as they are: the page unpacks them.
func siteHandler(file func(name string) ([]byte, bool)) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			w.Header().Set("Allow", "GET, HEAD")
			http.Error(w, "only GET and HEAD are served", http.StatusMethodNotAllowed)
			return
		}
		name := strings.TrimPrefix(path.Clean("/"+r.URL.Path), "/")
		if name == "" {
			name = "index.html"
		}
		data, ok := file(name)
		if !ok {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", contentType(name))
		w.Header().Set("X-Content-Type-Options", "nosniff")
		w.Header().Set("Cache-Control", "no-cache")
		http.ServeContent(w, r, name, time.Time{}, bytes.NewReader(data))
	})
}

// contentTypes are ours, whatever the machine's own table says.
var contentTypes = map[string]string{
	".html":        "text/html; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".svg":         "image/svg+xml",
	".png":         "image/png",
	".webmanifest": "application/manifest+json",
	".wasm":        "application/wasm",
	".gz":          "application/gzip",
	".br":          "application/octet-stream",
}

func contentType(name string) string {
	ext := path.Ext(name)
	if t, ok := contentTypes[ext]; ok {
		return t
	}
	if t := mime.TypeByExtension(ext); t != "" {
		return t
	}
	return "application/octet-stream"
}
