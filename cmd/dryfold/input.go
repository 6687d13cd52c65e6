package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
)

// given is a part file as it was read.
type given struct {
	spec fold.Spec   // with the blank that was made of its sizes
	made *shape.Made // what else was made of them; nil for a part given by its blank
}

// readPart reads a part file, and makes the blank of a part by sizes; nil is no problem.
func readPart(file string) (given, *problem) {
	data, err := readBounded(file, partfile.MaxFile)
	if err != nil {
		return given{}, &problem{File: &file, Found: plain(err), Need: "a part file, as NAME.dryfold"}
	}
	spec, err := partfile.Read(data)
	if err != nil {
		return given{}, partProblem(&file, err)
	}
	return makePart(&file, spec)
}

// makePart makes the blank of a part by sizes. Sizes that make no part are a problem, like any other value of a
// file that can't be; it stands for all of them.
func makePart(file *string, spec fold.Spec) (given, *problem) {
	if spec.Sizes == nil {
		return given{spec: spec}, nil
	}
	made, wrong := shape.Make(spec)
	if len(wrong) > 0 {
		return given{}, shapeProblem(file, wrong)
	}
	made.Spec.Sizes = spec.Sizes
	return given{made.Spec, &made}, nil
}

// shapeProblem is one problem of all that shape finds wrong.
func shapeProblem(file *string, wrong []*shape.Problem) *problem {
	p := &problem{File: file, Path: &wrong[0].Path, Found: wrong[0].Found, Need: wrong[0].Need}
	for _, w := range wrong[1:] {
		p.More = append(p.More, otherProblem{w.Path, w.Found, w.Need})
	}
	return p
}

// check is everything that is known of the part.
func (g given) check(p *fold.Part) fold.Report {
	r := p.Check()
	if g.made != nil {
		g.made.FindLights()
		g.made.Tell(&r)
		return r
	}
	for _, t := range shape.BlankTroubles(shape.Made{}, p) {
		r.AddTrouble(t)
	}
	return r
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
