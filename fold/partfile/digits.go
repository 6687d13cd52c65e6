// The numbers of a part, taken out of its text and written in few bits. They are
// most of what a link holds, and digits pack badly as text.
//
// takeNumbers leaves a "0" in the text for each number outside quotes. For each
// number it writes a class, and for a new one a form and bits:
//
//	class 0 to 62     the number again that stood so many different ones before
//	class 64 to 124   a decimal of class-64 binary digits without its point; then
//	                  form 128 + its decimals (to 31) + 32 if it is negative, and
//	                  the binary digits without the first, lowest first
//	class 127         any other, as the 64 bits of its float64
//
// Bits fill bytes from the lowest on. This is part of link version "a": frozen.

package partfile

import (
	"math"
	"math/bits"
	"strconv"
	"strings"
)

const (
	recentKept  = 63
	classNew    = 64
	maxBits     = 60
	classFloat  = 127
	formBase    = 128
	formMinus   = 32
	maxDecimals = 31
)

// takeNumbers splits a compact JSON text, as compact and Write make it, into the
// text without its numbers, their classes and forms, and their bits.
func takeNumbers(part []byte) (skeleton, classes, packed []byte) {
	var w bitWriter
	var seen recent
	eachToken(part, func(plain []byte) { skeleton = append(skeleton, plain...) }, func(digits []byte) {
		skeleton = append(skeleton, '0')
		s := string(digits)
		if i := seen.find(s); i >= 0 {
			classes = append(classes, byte(i))
			return
		}
		m, form, ok := decimal(s)
		if !ok {
			v, _ := strconv.ParseFloat(s, 64)
			classes = append(classes, classFloat)
			w.put(math.Float64bits(v), 64)
			return
		}
		n := bits.Len64(m)
		classes = append(classes, byte(classNew+n), form)
		w.put(m, max(n-1, 0))
	})
	return skeleton, classes, w.out
}

// putNumbers is the text that takeNumbers split, of at most MaxUnpacked bytes. It
// is false where the pieces do not fit each other.
func putNumbers(skeleton, classes, packed []byte) (part []byte, ok bool) {
	r := bitReader{data: packed}
	var seen recent
	ok = true
	next := func() byte {
		if len(classes) == 0 {
			ok = false
			return 0
		}
		c := classes[0]
		classes = classes[1:]
		return c
	}
	inText := false
	for i := 0; i < len(skeleton) && ok && len(part) <= MaxUnpacked; i++ {
		c := skeleton[i]
		switch {
		case inText && c == '\\' && i+1 < len(skeleton):
			part = append(part, c)
			i++
			c = skeleton[i]
		case c == '"':
			inText = !inText
		case c == '0' && !inText:
			class := next()
			var s string
			switch {
			case class < recentKept:
				s = seen.at(int(class))
				ok = ok && s != ""
			case class >= classNew && class <= classNew+maxBits:
				form := next()
				n := int(class) - classNew
				m := r.take(max(n-1, 0))
				if n > 0 {
					m |= 1 << (n - 1)
				}
				ok = ok && form >= formBase && form < formBase+2*formMinus
				s = undecimal(m, form-formBase)
				seen.add(s)
			case class == classFloat:
				s = number(math.Float64frombits(r.take(64)))
				seen.add(s)
			default:
				ok = false
			}
			part = append(part, s...)
			continue
		}
		part = append(part, c)
	}
	return part, ok && len(classes) == 0 && r.done() && len(part) <= MaxUnpacked
}

// eachToken goes through a compact JSON text: plain gets all but the numbers.
func eachToken(part []byte, plain, digits func([]byte)) {
	for i := 0; i < len(part); {
		c := part[i]
		j := i + 1
		switch {
		case c == '"':
			for j < len(part) && part[j] != '"' {
				if part[j] == '\\' {
					j++
				}
				j++
			}
			j = min(j+1, len(part))
		case c == '-' || c >= '0' && c <= '9':
			for j < len(part) && inWord(part[j]) {
				j++
			}
			digits(part[i:j])
			i = j
			continue
		}
		plain(part[i:j])
		i = j
	}
}

// decimal is the number without its point, and its form. Not those with an
// exponent or too many digits.
func decimal(s string) (m uint64, form byte, ok bool) {
	abs, minus := strings.CutPrefix(s, "-")
	whole, frac, _ := strings.Cut(abs, ".")
	m, err := strconv.ParseUint(whole+frac, 10, maxBits)
	if err != nil || len(frac) > maxDecimals {
		return 0, 0, false
	}
	form = formBase + byte(len(frac))
	if minus {
		form += formMinus
	}
	return m, form, true
}

// undecimal writes m with the decimals and sign of form (less formBase).
func undecimal(m uint64, form byte) string {
	s := strconv.FormatUint(m, 10)
	if d := int(form % formMinus); d > 0 {
		if len(s) <= d {
			s = strings.Repeat("0", d+1-len(s)) + s
		}
		s = s[:len(s)-d] + "." + s[len(s)-d:]
	}
	if form >= formMinus {
		s = "-" + s
	}
	return s
}

// recent holds the last different numbers, the latest first.
type recent []string

// find is how many others came after s, which becomes the latest; -1 where it is
// not held, and then it is added.
func (l *recent) find(s string) int {
	for i, t := range *l {
		if t == s {
			copy((*l)[1:i+1], (*l)[:i])
			(*l)[0] = s
			return i
		}
	}
	l.add(s)
	return -1
}

// at is the number at i, "" where there is none; it becomes the latest.
func (l *recent) at(i int) string {
	if i >= len(*l) {
		return ""
	}
	s := (*l)[i]
	copy((*l)[1:i+1], (*l)[:i])
	(*l)[0] = s
	return s
}

func (l *recent) add(s string) {
	if len(*l) < recentKept {
		*l = append(*l, "")
	}
	copy((*l)[1:], *l)
	(*l)[0] = s
}

type bitWriter struct {
	out  []byte
	used int // bits used in the last byte, 0 when it is full
}

// put writes the lowest n bits of v.
func (w *bitWriter) put(v uint64, n int) {
	for i := range n {
		if w.used == 0 {
			w.out = append(w.out, 0)
		}
		w.out[len(w.out)-1] |= byte(v>>i&1) << w.used
		w.used = (w.used + 1) % 8
	}
}

type bitReader struct {
	data []byte
	at   int // in bits
}

// take reads n bits; past the end they are 0, and done is false.
func (r *bitReader) take(n int) (v uint64) {
	for i := range n {
		if r.at < 8*len(r.data) {
			v |= uint64(r.data[r.at/8]>>(r.at%8)&1) << i
		}
		r.at++
	}
	return v
}

// done: the last byte was reached and not passed, and its unused bits are 0.
func (r *bitReader) done() bool {
	n := len(r.data)
	if (r.at+7)/8 != n {
		return false
	}
	return r.at%8 == 0 || r.data[n-1]>>(r.at%8) == 0
}
