// Package partfile reads and writes part files and links: their form, their
// versions and their bounds.
//
// Read and Write are the two directions of a part file (JSON, name.dryfold),
// Pack and Unpack those of a link's fragment, ReadBench and WriteBench those of
// what a maker knows of metals (JSON, name.drybends). This file holds Read and the
// error; scan.go judges whether text is JSON at all, decode.go takes the fields
// out, check.go judges the values, write.go writes, link.go packs; metals.go,
// strips.go, price.go, joins.go and cut.go have each their fields' three, sizes.go, sizesflange.go, sizescheck.go
// and sizeswrite.go those of a part by sizes, bench.go the smaller file and tools.go its tools.
//
// encoding/json is not used: it lets duplicate keys, other letter cases and
// broken UTF-8 pass, and its reflection would weigh on the page's program.
package partfile

import (
	"bytes"
	"fmt"
	"strconv"
	"unicode/utf8"

	"dryfold/fold"
)

// Version is the version of part files that is written, and the newest read.
const Version = 1

// Error says what is wrong with a part file or link. Either Path names the field
// (like blank.bends[0].radius, counted from 0), or Line the line (from 1) where
// the text isn't JSON or no part; with neither, the link itself is broken.
type Error struct {
	Path  string
	Line  int
	Found string // what stands there, shortened
	Need  string // what would do
}

// Error is one line: the place, what was found and what would do.
func (e *Error) Error() string {
	where := e.Path
	switch {
	case where == "" && e.Line > 0:
		where = "line " + strconv.Itoa(e.Line)
	case where == "":
		where = "link"
	}
	return where + ": found " + e.Found + "; need " + e.Need
}

// Read reads a part file. Nothing that it does not understand is passed over: the
// error, always an *Error, names the field or the line. A Spec without an error
// has passed Check. Contours lose a last point that repeats the first (an arc that
// ended there ends at the first vertex).
func Read(data []byte) (fold.Spec, error) {
	if err := judgeText(data, partForm); err != nil {
		return fold.Spec{}, err
	}
	spec, err := decode(data)
	if err != nil {
		return fold.Spec{}, err
	}
	spec = normal(spec)
	if err := Check(spec); err != nil {
		return fold.Spec{}, err
	}
	return spec, nil
}

// form is one of the two kinds of file.
type form struct {
	key   string // the field that holds the version
	a     string // such a file in words
	need  string // how it begins, for messages
	word  string // what it is, in short
	depth int    // how deep lists and objects lie in it
}

var (
	partForm  = &form{"dryfold", "a part file", `a part: {"dryfold": 1, "name": ...}`, "part", 7}
	benchForm = &form{"dryfold_bench", "a file of metals and test bends",
		`metals and test bends: {"dryfold_bench": 1, "units": ..., "metals": [...], "tests": [...]}`, "bench file", 4}
)

// judgeText refuses what is no JSON text of a bearable length.
func judgeText(data []byte, f *form) error {
	if err := judgeBytes(data); err != nil {
		return err
	}
	return scan(data, f)
}

// judgeBytes refuses what is not UTF-8 text of a bearable length.
func judgeBytes(data []byte) error {
	switch {
	case len(data) > MaxFile:
		return &Error{Line: 1, Found: fmt.Sprintf("a file of %d bytes", len(data)),
			Need: fmt.Sprintf("at most %d bytes", MaxFile)}
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		return &Error{Line: 1, Found: "a byte order mark", Need: "UTF-8 text without one"}
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("\xfe\xff")),
		len(data) > 1 && (data[0] == 0) != (data[1] == 0):
		return &Error{Line: 1, Found: "UTF-16 text", Need: "UTF-8 text: save the file as UTF-8"}
	case utf8.Valid(data):
		return nil
	}
	at := 0
	for {
		r, n := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && n == 1 {
			break
		}
		at += n
	}
	return &Error{Line: lineOf(data, at), Found: fmt.Sprintf("the byte 0x%02X, which is not UTF-8", data[at]),
		Need: "UTF-8 text: save the file as UTF-8"}
}

// lineOf is the line, from 1, in which the byte at offset at lies. Lines end with
// LF, CR LF or CR.
func lineOf(data []byte, at int) int {
	n := 1
	for i, c := range data[:at] {
		if c == '\n' || c == '\r' && (i+1 >= len(data) || data[i+1] != '\n') {
			n++
		}
	}
	return n
}

// shorten cuts long text for a message and makes it one line of plain characters.
func shorten(s string) string {
	q := make([]rune, 0, maxShown+1)
	for _, r := range s {
		if len(q) == maxShown {
			return string(q) + "..."
		}
		if !printable(r) {
			r = '\uFFFD'
		}
		q = append(q, r)
	}
	return string(q)
}
