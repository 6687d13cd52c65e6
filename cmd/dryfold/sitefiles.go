package main

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/andybalholm/brotli"

	"dryfold/wasm/page"
)

// makeSite is every file of the site by its name: the page's own files, the three
// programs packed, and Go's script that runs them. Quality 0 leaves out brotli.
// Progress goes to say.
func makeSite(wasmDir string, quality int, say io.Writer) (map[string][]byte, error) {
	files := map[string][]byte{}
	own := page.Files()
	err := fs.WalkDir(own, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		files[p], err = fs.ReadFile(own, p)
		return err
	})
	if err != nil {
		return nil, err
	}
	built, err := programs(wasmDir, say)
	if err != nil {
		return nil, err
	}
	files[page.Exec] = built[page.Exec]
	for _, b := range page.Programs {
		name := b[0]
		files[name+".gz"] = gzipped(built[name])
		if quality > 0 {
			fmt.Fprintf(say, "packing %s.br\n", name)
			var b bytes.Buffer
			w := brotli.NewWriterOptions(&b, brotli.WriterOptions{Quality: quality, LGWin: 24})
			w.Write(built[name])
			w.Close()
			files[name+".br"] = b.Bytes()
		}
	}
	return files, nil
}

// gzipped packs data; the same data gives the same bytes.
func gzipped(data []byte) []byte {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		panic(err)
	}
	w.Write(data)
	w.Close()
	return b.Bytes()
}

// programs are the programs and Go's script, from a folder, or built.
func programs(dir string, say io.Writer) (map[string][]byte, error) {
	out := map[string][]byte{}
	names := []string{page.Exec}
	for _, b := range page.Programs {
		names = append(names, b[0])
	}
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if errors.Is(err, fs.ErrNotExist) {
			if out, err = buildPrograms(dir, say); err != nil {
				return nil, fmt.Errorf("%s does not hold %s, and %w", dir, strings.Join(names, ", "), err)
			}
			return out, nil
		}
		if err != nil {
			return nil, err
		}
		out[name] = data
	}
	return out, nil
}
