package sizes

// This file reads and works out one formula.
//
//	sum     = product { ("+" | "-") product }
//	product = signed { ("*" | "/") signed }
//	signed  = ["-" | "+"] signed | value
//	value   = number | name | function "(" sum { "," sum } ")" | "(" sum ")"
//	number  = (decimal | whole "/" whole | whole whole "/" whole) ["mm" | "in" | `"` | "°"]
//
// A fraction without a unit and without a whole number before it is a division, which
// is the same. Angles that functions take and give are in degrees.

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// kind of a token: its character for signs, else one of these.
type kind rune

const (
	numberToken kind = '0'
	nameToken   kind = 'a'
	otherToken  kind = '?' // no formula holds it
	endToken    kind = 0
)

// token is a piece of a formula. Text is as it was written.
type token struct {
	kind  kind
	text  string
	from  int  // its first byte
	space bool // space stands before it
}

// signs are the characters that stand for themselves, and other ways to write them.
var signs = map[rune]kind{'+': '+', '-': '-', '−': '-', '–': '-', '*': '*', '×': '*', '·': '*', '/': '/', '÷': '/',
	'(': '(', ')': ')', ',': ',', '"': '"', '″': '"', '”': '"', '°': '°'}

// tokens cuts a formula into pieces; the last is an endToken. It takes any text.
func tokens(text string) []token {
	var out []token
	space := false
	for at := 0; at < len(text); {
		r, size := utf8.DecodeRuneInString(text[at:])
		from := at
		at += size
		t := token{kind: otherToken, from: from, space: space}
		run := func(in func(rune) bool) {
			for at < len(text) {
				r, size := utf8.DecodeRuneInString(text[at:])
				if !in(r) {
					break
				}
				at += size
			}
		}
		switch {
		case unicode.IsSpace(r):
			space = true
			continue
		case digit(r) || r == '.':
			t.kind = numberToken
			run(func(r rune) bool { return digit(r) || r == '.' })
		case unicode.IsLetter(r):
			t.kind = nameToken
			run(nameRune)
		default:
			if k, ok := signs[r]; ok {
				t.kind = k
			}
		}
		t.text = text[from:at]
		out = append(out, t)
		space = false
	}
	return append(out, token{kind: endToken, from: len(text), space: space})
}

func digit(r rune) bool    { return r >= '0' && r <= '9' }
func nameRune(r rune) bool { return unicode.IsLetter(r) || digit(r) || r == '_' }

// reader works a formula out as it reads it.
type reader struct {
	text  string
	list  []token
	next  int
	depth int
	inch  float64 // an inch and a mm in the part's units
	mm    float64
	look  func(string) (float64, *Error)
}

// evaluate gives what a formula comes to: finite, and within maxValue.
func evaluate(text string, unit float64, look func(string) (float64, *Error)) (float64, *Error) {
	if n := utf8.RuneCountInString(text); n > MaxFormula {
		return 0, &Error{Found: "a formula of " + strconv.Itoa(n) + " characters", Need: "at most " + strconv.Itoa(MaxFormula) + ": give its parts names of their own"}
	}
	r := &reader{text: text, list: tokens(text), inch: mmPerInch / unit, mm: 1 / unit, look: look}
	if r.peek(0).kind == endToken {
		return 0, &Error{Found: "nothing", Need: "a number or a formula, such as 120 or rail - 12"}
	}
	x, e := r.sum()
	if e == nil && r.peek(0).kind != endToken {
		e = r.leftOver()
	}
	if e != nil {
		return 0, e
	}
	return x + 0, nil // no minus zero
}

// peek is the i-th token that was not read yet.
func (r *reader) peek(i int) token { return r.list[min(r.next+i, len(r.list)-1)] }

func (r *reader) fail(found, need string) *Error {
	return &Error{Found: Quote(r.text) + ": " + found, Need: need}
}

// leftOver refuses what stands where a sign should.
func (r *reader) leftOver() *Error {
	t, before := r.peek(0), r.list[max(r.next-1, 0)]
	switch t.kind {
	case ')':
		return r.fail(") without its (", "as many ( as )")
	case ',':
		return r.fail("a comma", "a point in decimals, as 12.5; commas stand only between what min and max choose from")
	case otherToken:
		return r.other(t)
	case '"', '°':
		return r.fail(t.text+" after "+Quote(before.text), "a unit only after a number")
	case nameToken:
		if unitName(t.text) {
			return r.fail(t.text+" after "+Quote(before.text), "a unit only after a number")
		}
	}
	return r.fail("no sign between "+before.text+" and "+short(t.text), "+ - * or / between them")
}

func (r *reader) other(t token) *Error {
	found := Quote(t.text)
	if c, _ := utf8.DecodeRuneInString(t.text); !unicode.IsPrint(c) {
		found = "a character that can't be shown"
	}
	return r.fail(found, "numbers, names, + - * / ( ), mm, in, pi and "+strings.Join(functionNames, ", "))
}

// kept refuses a number that no size can be.
func (r *reader) kept(x float64) (float64, *Error) {
	if !(math.Abs(x) <= maxValue) {
		return 0, r.fail("it comes to too large a number", "numbers up to "+fig(maxValue))
	}
	return x, nil
}

func (r *reader) sum() (float64, *Error) {
	x, e := r.product()
	for e == nil {
		k := r.peek(0).kind
		if k != '+' && k != '-' {
			break
		}
		r.next++
		var y float64
		if y, e = r.product(); e != nil {
			break
		}
		if k == '-' {
			y = -y
		}
		x, e = r.kept(x + y)
	}
	return x, e
}

func (r *reader) product() (float64, *Error) {
	x, e := r.signed()
	for e == nil {
		k := r.peek(0).kind
		if k != '*' && k != '/' {
			break
		}
		r.next++
		from := r.peek(0).from
		var y float64
		if y, e = r.signed(); e != nil {
			break
		}
		if k == '*' {
			x, e = r.kept(x * y)
			continue
		}
		if y == 0 {
			return 0, r.fail("it divides by "+r.since(from)+", which is 0", "anything but 0 to divide by")
		}
		x, e = r.kept(x / y)
	}
	return x, e
}

// since is the text from a byte to the last token that was read.
func (r *reader) since(from int) string {
	last := r.list[r.next-1]
	return short(r.text[from : last.from+len(last.text)])
}

// deeper counts how deep the text lies; leave with r.depth--.
func (r *reader) deeper() *Error {
	if r.depth++; r.depth > MaxNesting {
		return r.fail("more than "+strconv.Itoa(MaxNesting)+" parentheses and signs in each other", "its parts with names of their own")
	}
	return nil
}

func (r *reader) signed() (float64, *Error) {
	k := r.peek(0).kind
	if k != '-' && k != '+' {
		return r.value()
	}
	if e := r.deeper(); e != nil {
		return 0, e
	}
	r.next++
	x, e := r.signed()
	r.depth--
	if k == '-' {
		x = -x
	}
	return x, e
}

func (r *reader) value() (float64, *Error) {
	t := r.peek(0)
	switch t.kind {
	case numberToken:
		return r.number()
	case '(':
		r.next++
		list, e := r.inside("(")
		if e == nil && len(list) > 1 {
			e = r.fail("a comma", "a point in decimals, as 12.5; commas stand only between what min and max choose from")
		}
		if e != nil {
			return 0, e
		}
		return list[0], nil
	case nameToken:
		r.next++
		if r.peek(0).kind == '(' {
			return r.call(t.text)
		}
		if t.text == "pi" {
			return math.Pi, nil
		}
		if unitName(t.text) {
			return 0, r.fail(t.text+" without a number", "a number before it, as 12 "+t.text)
		}
		if function(t.text) {
			return 0, r.fail(t.text+" without its (", "what it is of in parentheses, as "+t.text+"("+example(t.text)+")")
		}
		x, e := r.look(t.text)
		if e != nil && !e.follows && len(r.list) > 2 {
			e.Found += " in " + Quote(r.text)
		}
		return x, e
	case otherToken:
		return 0, r.other(t)
	}
	need := "a number, a name or ( "
	if r.next == 0 {
		need += "to begin with"
	} else {
		need += "after " + r.list[r.next-1].text
	}
	if t.kind == endToken {
		return 0, r.fail("it ends too soon", need)
	}
	return 0, r.fail(t.text+" too soon", need)
}

// inside reads sums between commas up to the ), the ( being read.
func (r *reader) inside(open string) ([]float64, *Error) {
	if e := r.deeper(); e != nil {
		return nil, e
	}
	var list []float64
	for {
		x, e := r.sum()
		if e != nil {
			return nil, e
		}
		list = append(list, x)
		switch r.peek(0).kind {
		case ',':
			r.next++
			continue
		case ')':
			r.next++
			r.depth--
			return list, nil
		case endToken:
			return nil, r.fail(open+" without its )", "as many ) as (")
		}
		return nil, r.leftOver()
	}
}
