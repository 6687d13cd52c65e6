// A cursor takes values out of a text that scan has found to be JSON. It keeps
// the first thing that is wrong; after that every call does nothing.

package partfile

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// path is a place in a part file. nil is the whole file. It is spelled out only for a message.
type path struct {
	up    *path
	key   string // a field of an object, or ""
	index int    // a place in a list, where key is ""
}

func (p *path) field(key string) *path { return &path{up: p, key: key} }
func (p *path) item(i int) *path       { return &path{up: p, index: i} }

// String is like blank.bends[0].radius. A key that isn't a plain word is written as in Go, shortened.
func (p *path) String() string {
	switch {
	case p == nil:
		return ""
	case p.key == "":
		return p.up.String() + "[" + strconv.Itoa(p.index) + "]"
	}
	key := p.key
	for _, c := range []byte(key) {
		if !inWord(c) || c == '.' || len(key) > maxShown {
			key = strconv.Quote(shorten(key))
			break
		}
	}
	if p.up == nil {
		return key
	}
	return p.up.String() + "." + key
}

type cursor struct {
	data []byte
	at   int
	err  error
}

func (c *cursor) fail(p *path, found, need string) {
	if c.err == nil {
		e := &Error{Path: p.String(), Found: found, Need: need}
		if e.Path == "" {
			e.Line = lineOf(c.data, c.at)
		}
		c.err = e
	}
}

// kind is the first byte of the value at hand: one of { [ " t f n - or a digit.
func (c *cursor) kind() byte {
	for c.at < len(c.data) {
		switch b := c.data[c.at]; b {
		case ' ', '\t', '\n', '\r':
			c.at++
		default:
			return b
		}
	}
	return 0
}

// found describes the value at hand.
func (c *cursor) found() string {
	switch c.kind() {
	case '{':
		return "an object"
	case '[':
		return "a list"
	case '"':
		save := *c
		s := save.rawText()
		return "the text " + quote(s)
	}
	save := *c
	return shorten(string(save.rawWord()))
}

func quote(s string) string { return `"` + shorten(s) + `"` }

// object takes an object, calling read for each field in the order of the text.
// read must take the value. Fields other than known, and repeated ones, are
// wrong. It says which of known were there.
func (c *cursor) object(p *path, need string, known []string, read func(key string, p *path)) (seen []bool) {
	seen = make([]bool, len(known))
	if c.err != nil {
		return seen
	}
	if c.kind() != '{' {
		c.fail(p, c.found(), need)
		return seen
	}
	c.at++
	for c.err == nil && c.more('}') {
		key := c.rawText()
		c.kind()
		c.at++ // the colon
		i := slices.Index(known, key)
		fp := p.field(key)
		switch {
		case i < 0:
			c.unknown(fp, key, known)
		case seen[i]:
			c.fail(fp, "the field a second time", "each field once")
		default:
			seen[i] = true
			read(key, fp)
		}
	}
	return seen
}

func (c *cursor) unknown(p *path, key string, known []string) {
	for _, k := range known {
		if strings.EqualFold(k, key) {
			c.fail(p, "the field "+quote(key), quote(k)+": capital and small letters count")
			return
		}
	}
	c.fail(p, "an unknown field", "one of "+strings.Join(known, ", "))
}

// require says what is missing where a field was not seen.
func (c *cursor) require(p *path, known []string, seen []bool, key, need string) {
	if c.err == nil && !seen[slices.Index(known, key)] {
		c.fail(p.field(key), "nothing", need)
	}
}

// list takes a list, calling read for each item; read must take the value.
func (c *cursor) list(p *path, need string, read func(i int, p *path)) {
	if c.err != nil {
		return
	}
	if c.kind() != '[' {
		c.fail(p, c.found(), need)
		return
	}
	c.at++
	item := p.item(0) // one for all: no item's path is kept
	for i := 0; c.err == nil && c.more(']'); i++ {
		item.index = i
		read(i, item)
	}
}

// more goes to the next member of a list or object, taking the comma before it
// or the closing bracket.
func (c *cursor) more(closing byte) bool {
	b := c.kind()
	if b == ',' {
		c.at++
		b = c.kind()
	}
	if b == closing {
		c.at++
		return false
	}
	return true
}

// skip takes any value.
func (c *cursor) skip() {
	for depth := 0; ; {
		switch c.kind() {
		case '{', '[':
			c.at++
			depth++
		case '}', ']':
			c.at++
			depth--
		case ',', ':':
			c.at++
			continue
		case '"':
			c.rawText()
		default:
			c.rawWord()
		}
		if depth == 0 {
			return
		}
	}
}

// number takes a number. One too large for a float64, or one that would become 0
// though it is not, is wrong. A minus zero becomes 0.
func (c *cursor) number(p *path, need func() string) float64 {
	if c.err != nil {
		return 0
	}
	if k := c.kind(); k != '-' && (k < '0' || k > '9') {
		c.fail(p, c.found(), need())
		return 0
	}
	w := string(c.rawWord())
	v, err := strconv.ParseFloat(w, 64)
	mantissa, _, _ := strings.Cut(strings.ToLower(w), "e")
	switch {
	case err != nil || math.IsInf(v, 0):
		c.fail(p, shorten(w)+", which is too large", need())
		return 0
	case v == 0 && strings.ContainsAny(mantissa, "123456789"):
		c.fail(p, shorten(w)+", which is too small to be told from 0", need())
		return 0
	case v == 0:
		return 0
	}
	return v
}

// text takes a string.
func (c *cursor) text(p *path, need string) string {
	if c.err != nil {
		return ""
	}
	if c.kind() != '"' {
		c.fail(p, c.found(), need)
		return ""
	}
	return c.rawText()
}

// flag takes true or false.
func (c *cursor) flag(p *path, need string) bool {
	if c.err != nil {
		return false
	}
	if k := c.kind(); k != 't' && k != 'f' {
		c.fail(p, c.found(), need)
		return false
	}
	return string(c.rawWord()) == "true"
}

// rawWord takes a number, true, false or null.
func (c *cursor) rawWord() []byte {
	c.kind()
	start := c.at
	for c.at < len(c.data) && inWord(c.data[c.at]) {
		c.at++
	}
	return c.data[start:c.at]
}

// rawText takes a string, which must be at hand, without its quotes and escapes.
func (c *cursor) rawText() string {
	c.kind()
	c.at++
	start := c.at
	for c.data[c.at] != '"' && c.data[c.at] != '\\' {
		c.at++
	}
	if c.data[c.at] == '"' {
		c.at++
		return string(c.data[start : c.at-1])
	}
	out := append([]byte(nil), c.data[start:c.at]...)
	for {
		switch b := c.data[c.at]; b {
		case '"':
			c.at++
			return string(out)
		case '\\':
			if c.data[c.at+1] == 'u' {
				r, n := unescape(c.data[c.at:])
				out = utf8.AppendRune(out, r)
				c.at += n
				continue
			}
			out = append(out, escaped[c.data[c.at+1]])
			c.at += 2
		default:
			out = append(out, b)
			c.at++
		}
	}
}

// escaped is what each one-letter escape stands for.
var escaped = [256]byte{'"': '"', '\\': '\\', '/': '/', 'b': '\b', 'f': '\f', 'n': '\n', 'r': '\r', 't': '\t'}
