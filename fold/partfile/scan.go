// The JSON grammar alone (RFC 8259): scan says whether a text is JSON and, where
// it is not, in which line and why. Numbers keep any size and keys may repeat:
// the values are decode.go's and check.go's matter.

package partfile

import (
	"fmt"
	"unicode/utf8"
)

// scan judges data, which is valid UTF-8. The recursion is bounded by MaxDepth.
func scan(data []byte, f *form) error {
	s := &scanner{data: data, form: f}
	s.space()
	if s.at == len(data) {
		return s.fail(0, "an empty file", f.need)
	}
	if err := s.value(0); err != nil {
		return err
	}
	s.space()
	if s.at < len(data) {
		return s.fail(s.at, "more text after the "+f.word+": "+s.shown(), `nothing after the closing "}"`)
	}
	return nil
}

type scanner struct {
	data []byte
	form *form
	at   int
}

func (s *scanner) fail(at int, found, need string) error {
	return &Error{Line: lineOf(s.data, at), Found: found, Need: need}
}

// peek is the byte at hand, 0 at the end. A NUL byte in the text is wrong wherever
// peek is asked.
func (s *scanner) peek() byte {
	if s.at < len(s.data) {
		return s.data[s.at]
	}
	return 0
}

func (s *scanner) space() {
	for s.at < len(s.data) {
		switch s.data[s.at] {
		case ' ', '\t', '\n', '\r':
			s.at++
		default:
			return
		}
	}
}

// shown is what stands at hand, for a message: a word, or one character.
func (s *scanner) shown() string {
	if s.at >= len(s.data) {
		return "the end of the file"
	}
	end := s.at
	for end < len(s.data) && inWord(s.data[end]) {
		end++
	}
	if end == s.at {
		_, n := utf8.DecodeRune(s.data[s.at:])
		end += n
	}
	return "`" + shorten(string(s.data[s.at:min(end, s.at+8*maxShown)])) + "`"
}

// inWord holds for what numbers and bare words are made of.
func inWord(c byte) bool {
	return c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' ||
		c == '_' || c == '.' || c == '+' || c == '-'
}

func (s *scanner) value(depth int) error {
	if depth >= MaxDepth {
		return s.fail(s.at, fmt.Sprintf("lists or objects more than %d deep", MaxDepth), fmt.Sprintf("no more than a %s takes, which is %d", s.form.word, s.form.depth))
	}
	switch c := s.peek(); {
	case c == '{':
		return s.object(depth)
	case c == '[':
		return s.list(depth)
	case c == '"':
		return s.str()
	case inWord(c):
		return s.word()
	}
	return s.fail(s.at, s.shown(), `a value: a number, "text", a list or an object`)
}

func (s *scanner) object(depth int) error {
	s.at++
	s.space()
	if s.peek() == '}' {
		s.at++
		return nil
	}
	for {
		if s.peek() != '"' {
			need := `a field's name in "double quotes"`
			if c := s.peek(); c >= '0' && c <= '9' {
				need += ", and numbers with a point: 1.5"
			}
			return s.fail(s.at, s.shown(), need)
		}
		if err := s.str(); err != nil {
			return err
		}
		s.space()
		if s.peek() != ':' {
			return s.fail(s.at, s.shown(), `":" after a field's name`)
		}
		s.at++
		s.space()
		if err := s.value(depth + 1); err != nil {
			return err
		}
		if done, err := s.next('}'); done || err != nil {
			return err
		}
	}
}

func (s *scanner) list(depth int) error {
	s.at++
	s.space()
	if s.peek() == ']' {
		s.at++
		return nil
	}
	for {
		if err := s.value(depth + 1); err != nil {
			return err
		}
		if done, err := s.next(']'); done || err != nil {
			return err
		}
	}
}

// next takes the comma before another member, or the closing bracket.
func (s *scanner) next(closing byte) (done bool, err error) {
	s.space()
	switch s.peek() {
	case ',':
		s.at++
		s.space()
		return false, nil
	case closing:
		s.at++
		return true, nil
	}
	return true, s.fail(s.at, s.shown(), fmt.Sprintf(`"," or "%c"`, closing))
}

// word takes true, false, null or a number.
func (s *scanner) word() error {
	start := s.at
	for s.at < len(s.data) && inWord(s.data[s.at]) {
		s.at++
	}
	w := s.data[start:s.at]
	switch string(w) {
	case "true", "false", "null":
		return nil
	}
	if isNumber(w) {
		return nil
	}
	s.at = start
	return s.fail(start, s.shown(), "a value: a number such as 12, -0.5 or 1.5e3, true or false, or \"text\" in double quotes")
}

// isNumber holds for JSON's numbers: no +, no leading zeros, a digit on each side of the point.
func isNumber(w []byte) bool {
	digits := func() bool {
		n := 0
		for n < len(w) && w[n] >= '0' && w[n] <= '9' {
			n++
		}
		w = w[n:]
		return n > 0
	}
	if len(w) > 0 && w[0] == '-' {
		w = w[1:]
	}
	if len(w) > 0 && w[0] == '0' {
		w = w[1:]
	} else if !digits() {
		return false
	}
	if len(w) > 0 && w[0] == '.' {
		w = w[1:]
		if !digits() {
			return false
		}
	}
	if len(w) > 0 && (w[0] == 'e' || w[0] == 'E') {
		w = w[1:]
		if len(w) > 0 && (w[0] == '+' || w[0] == '-') {
			w = w[1:]
		}
		if !digits() {
			return false
		}
	}
	return len(w) == 0
}

// str takes a string. Half a surrogate pair is refused: it stands for no character.
func (s *scanner) str() error {
	start := s.at
	s.at++
	for s.at < len(s.data) {
		switch c := s.data[s.at]; {
		case c == '"':
			s.at++
			return nil
		case c == '\n' || c == '\r':
			return s.fail(s.at, "text that goes on past the end of its line", `a closing quote, or \n for a new line`)
		case c < ' ':
			return s.fail(s.at, fmt.Sprintf("the control character 0x%02X inside text", c),
				`an escape (a tab as \t)`)
		case c == '\\':
			if err := s.escape(); err != nil {
				return err
			}
		default:
			s.at++
		}
	}
	return s.fail(start, "text without a closing quote", `"text" in double quotes`)
}

func (s *scanner) escape() error {
	rest := s.data[s.at:]
	need := `one of \" \\ \/ \b \f \n \r \t or \u with four hexadecimal digits`
	if len(rest) < 2 {
		return s.fail(s.at, "the end of the file after `\\`", need)
	}
	switch rest[1] {
	case '"', '\\', '/', 'b', 'f', 'n', 'r', 't':
		s.at += 2
		return nil
	case 'u':
		r, n := unescape(rest)
		if n == 0 {
			return s.fail(s.at, "`"+shorten(string(rest[:min(6, len(rest))]))+"`", need)
		}
		if r < 0 {
			return s.fail(s.at, "`"+string(rest[:6])+"`, half a pair of escapes", "both halves, or the character itself")
		}
		s.at += n
		return nil
	}
	_, n := utf8.DecodeRune(rest[1:])
	return s.fail(s.at, "`"+shorten(string(rest[:1+n]))+"`", need)
}

// unescape reads a \u escape, or a pair of them, at the start of b: the character
// and the bytes taken. n is 0 where it is no such escape, r -1 for half a pair.
func unescape(b []byte) (r rune, n int) {
	hi, ok := hex4(b)
	if !ok {
		return 0, 0
	}
	if hi < 0xD800 || hi > 0xDFFF {
		return hi, 6
	}
	if hi < 0xDC00 && len(b) > 6 {
		if lo, ok := hex4(b[6:]); ok && lo >= 0xDC00 && lo <= 0xDFFF {
			return 0x10000 + (hi-0xD800)<<10 + (lo - 0xDC00), 12
		}
	}
	return -1, 6
}

func hex4(b []byte) (rune, bool) {
	if len(b) < 6 || b[0] != '\\' || b[1] != 'u' {
		return 0, false
	}
	var v rune
	for _, c := range b[2:6] {
		switch {
		case c >= '0' && c <= '9':
			v = v<<4 | rune(c-'0')
		case c >= 'a' && c <= 'f':
			v = v<<4 | rune(c-'a'+10)
		case c >= 'A' && c <= 'F':
			v = v<<4 | rune(c-'A'+10)
		default:
			return 0, false
		}
	}
	return v, true
}
