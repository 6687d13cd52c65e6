package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"dryfold/fold"
	"dryfold/fold/partfile"
)

// readPart reads a part file; nil is no problem.
func readPart(file string) (fold.Spec, *problem) {
	data, err := readBounded(file, partfile.MaxFile)
	if err != nil {
		return fold.Spec{}, &problem{File: &file, Found: plain(err), Need: "a part file, as NAME.dryfold"}
	}
	spec, err := partfile.Read(data)
	if err != nil {
		return fold.Spec{}, partProblem(&file, err)
	}
	return spec, nil
}

// readBounded reads a file, but no more than one byte past most: what reads it
// then refuses it, and a device that never ends can't fill the memory.
func readBounded(file string, most int) ([]byte, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, int64(most)+1))
}

// partProblem turns a part file's or link's error into a problem.
func partProblem(file *string, err error) *problem {
	p := &problem{File: file, Found: err.Error()}
	var e *partfile.Error
	if errors.As(err, &e) {
		p.Found, p.Need = e.Found, e.Need
		if e.Path != "" {
			p.Path = &e.Path
		} else if e.Line > 0 {
			p.Line = &e.Line
		}
	}
	return p
}

// plain says a file error without naming the file twice.
func plain(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "no such file"
	case errors.Is(err, fs.ErrPermission):
		return "no permission"
	}
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return pe.Err.Error()
	}
	return err.Error()
}

// writeFile writes a result whole, and says so where it can't.
func (c *call) writeFile(file string, data []byte) int {
	if err := os.WriteFile(file, data, 0o644); err != nil {
		c.fail(problem{File: &file, Found: plain(err), Need: "a name that can be written to"})
		return statusInput
	}
	fmt.Fprintf(c.err, "wrote %s\n", file)
	return statusOK
}
