package ask

// This file writes and reads values as JSON: what the browser keeps, and what the
// page and its worker say to each other. The standard library's package would make
// each of the two programs a tenth of a megabyte larger. Part files are not read
// here; partfile does that, with its own care.

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// maxDepth bounds how deep values may lie in each other.
const maxDepth = 40

// Write writes booleans, numbers, strings, slices, arrays, pointers and structs
// of such. A field is named by its json tag, or by itself where it has none or the
// tag is "-": here nothing is left out but what a type keeps to itself. Numbers that are not finite become null.
func Write(v any) string {
	var b strings.Builder
	writeValue(&b, reflect.ValueOf(v))
	return b.String()
}

func writeValue(b *strings.Builder, v reflect.Value) {
	switch v.Kind() {
	case reflect.Bool:
		b.WriteString(strconv.FormatBool(v.Bool()))
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		b.WriteString(strconv.FormatInt(v.Int(), 10))
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			b.WriteString("null")
		} else {
			b.WriteString(strconv.FormatFloat(f, 'g', -1, 64))
		}
	case reflect.String:
		writeText(b, v.String())
	case reflect.Pointer:
		if v.IsNil() {
			b.WriteString("null")
		} else {
			writeValue(b, v.Elem())
		}
	case reflect.Slice:
		if v.IsNil() {
			b.WriteString("null")
			return
		}
		writeList(b, v)
	case reflect.Array:
		writeList(b, v)
	case reflect.Struct:
		b.WriteByte('{')
		first := true
		for i := range v.NumField() {
			if !v.Type().Field(i).IsExported() {
				continue
			}
			if !first {
				b.WriteByte(',')
			}
			first = false
			writeText(b, fieldName(v.Type().Field(i)))
			b.WriteByte(':')
			writeValue(b, v.Field(i))
		}
		b.WriteByte('}')
	default:
		panic("a value of a kind that is not written: " + v.Kind().String())
	}
}

func writeList(b *strings.Builder, v reflect.Value) {
	b.WriteByte('[')
	for i := range v.Len() {
		if i > 0 {
			b.WriteByte(',')
		}
		writeValue(b, v.Index(i))
	}
	b.WriteByte(']')
}

func fieldName(f reflect.StructField) string {
	if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); name != "" && name != "-" {
		return name
	}
	return f.Name
}

func writeText(b *strings.Builder, s string) {
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r < ' ' || r == 0x2028 || r == 0x2029:
			fmt.Fprintf(b, `\u%04x`, r)
		default:
			b.WriteRune(r) // what is no UTF-8 becomes the replacement character
		}
	}
	b.WriteByte('"')
}

// Read reads what Write wrote into the value that into points to. Fields
// that the text doesn't name stay as they are, names it has besides are passed
// over. Any other text is an error, never a panic.
func Read(text string, into any) error {
	r := jsonReader{text: text}
	r.value(reflect.ValueOf(into).Elem(), 0)
	r.space()
	if r.err == nil && r.at < len(r.text) {
		r.fail("text after the value")
	}
	return r.err
}

type jsonReader struct {
	text string
	at   int
	err  error
}

func (r *jsonReader) fail(what string) {
	if r.err == nil {
		r.err = fmt.Errorf("%s at byte %d", what, r.at)
	}
	r.at = len(r.text)
}

func (r *jsonReader) space() {
	for r.at < len(r.text) && strings.IndexByte(" \t\r\n", r.text[r.at]) >= 0 {
		r.at++
	}
}

// take passes over a byte if it is the next.
func (r *jsonReader) take(c byte) bool {
	r.space()
	if r.at < len(r.text) && r.text[r.at] == c {
		r.at++
		return true
	}
	return false
}

// word passes over a literal if it is the next.
func (r *jsonReader) word(w string) bool {
	r.space()
	if strings.HasPrefix(r.text[r.at:], w) {
		r.at += len(w)
		return true
	}
	return false
}

// value reads the next value into v; into an invalid v it only passes over it.
func (r *jsonReader) value(v reflect.Value, depth int) {
	if depth > maxDepth {
		r.fail("values too deep in each other")
		return
	}
	r.space()
	if r.word("null") {
		if v.IsValid() {
			v.SetZero()
		}
		return
	}
	for v.IsValid() && v.Kind() == reflect.Pointer {
		v.Set(reflect.New(v.Type().Elem()))
		v = v.Elem()
	}
	switch {
	case r.at >= len(r.text):
		r.fail("the text ends where a value should be")
	case r.text[r.at] == '{':
		r.object(v, depth)
	case r.text[r.at] == '[':
		r.list(v, depth)
	case r.text[r.at] == '"':
		s := r.string()
		if v.IsValid() && r.wants(v, reflect.String) {
			v.SetString(s)
		}
	case r.text[r.at] == 't' || r.text[r.at] == 'f':
		is := r.word("true")
		if !is && !r.word("false") {
			r.fail("no value")
			return
		}
		if v.IsValid() && r.wants(v, reflect.Bool) {
			v.SetBool(is)
		}
	default:
		r.number(v)
	}
}

func (r *jsonReader) wants(v reflect.Value, k reflect.Kind) bool {
	if r.err == nil && v.Kind() != k {
		r.fail("a " + k.String() + " where a " + v.Kind().String() + " should be")
	}
	return r.err == nil
}

func (r *jsonReader) number(v reflect.Value) {
	end := r.at
	for end < len(r.text) && strings.IndexByte("+-.0123456789eE", r.text[end]) >= 0 {
		end++
	}
	f, err := strconv.ParseFloat(r.text[r.at:end], 64)
	if err != nil {
		r.fail("no value")
		return
	}
	r.at = end
	if !v.IsValid() {
		return
	}
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(f)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		if f != math.Trunc(f) || math.Abs(f) > 1<<53 || v.OverflowInt(int64(f)) {
			r.fail("a number that is not whole")
			return
		}
		v.SetInt(int64(f))
	default:
		r.fail("a number where a " + v.Kind().String() + " should be")
	}
}

func (r *jsonReader) object(v reflect.Value, depth int) {
	r.take('{')
	if v.IsValid() && !r.wants(v, reflect.Struct) {
		return
	}
	for first := true; !r.take('}'); first = false {
		if r.err != nil || !first && !r.take(',') {
			r.fail("no comma between fields")
			return
		}
		name := r.string()
		if !r.take(':') {
			r.fail("no colon after a field's name")
			return
		}
		r.value(fieldNamed(v, name), depth+1)
	}
}

func fieldNamed(v reflect.Value, name string) reflect.Value {
	if v.IsValid() {
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && fieldName(f) == name {
				return v.Field(i)
			}
		}
	}
	return reflect.Value{}
}

func (r *jsonReader) list(v reflect.Value, depth int) {
	r.take('[')
	slice := v.IsValid() && v.Kind() == reflect.Slice
	if v.IsValid() && !slice && !r.wants(v, reflect.Array) {
		return
	}
	if slice {
		v.Set(reflect.MakeSlice(v.Type(), 0, 0))
	}
	for n := 0; !r.take(']'); n++ {
		if r.err != nil || n > 0 && !r.take(',') {
			r.fail("no comma between values")
			return
		}
		switch {
		case slice:
			item := reflect.New(v.Type().Elem()).Elem()
			r.value(item, depth+1)
			v.Set(reflect.Append(v, item))
		case v.IsValid() && n < v.Len():
			r.value(v.Index(n), depth+1)
		case v.IsValid():
			r.fail("too many values")
		default:
			r.value(reflect.Value{}, depth+1)
		}
	}
}

// string reads a string with its quotation marks.
func (r *jsonReader) string() string {
	if !r.take('"') {
		r.fail("no string")
		return ""
	}
	var b strings.Builder
	for r.at < len(r.text) {
		c := r.text[r.at]
		switch {
		case c == '"':
			r.at++
			return b.String()
		case c == '\\':
			s, n, err := unescape(r.text[r.at:])
			if err != nil {
				r.fail(err.Error())
				return ""
			}
			b.WriteString(s)
			r.at += n
		default:
			b.WriteByte(c)
			r.at++
		}
	}
	r.fail("a string without an end")
	return ""
}

var errEscape = errors.New("no such escape in a string")

// unescape reads the escape that t begins with, and says how long it is.
func unescape(t string) (s string, n int, err error) {
	if len(t) < 2 {
		return "", 0, errEscape
	}
	if i := strings.IndexByte(`"\/bfnrt`, t[1]); i >= 0 {
		return "\"\\/\b\f\n\r\t"[i : i+1], 2, nil
	}
	one := func(t string) (rune, bool) {
		if len(t) < 6 || t[:2] != `\u` {
			return 0, false
		}
		v, err := strconv.ParseUint(t[2:6], 16, 16)
		return rune(v), err == nil
	}
	a, ok := one(t)
	if !ok {
		return "", 0, errEscape
	}
	if utf16.IsSurrogate(a) {
		if b, ok := one(t[6:]); ok {
			if both := utf16.DecodeRune(a, b); both != utf8.RuneError {
				return string(both), 12, nil
			}
		}
		a = utf8.RuneError
	}
	return string(a), 6, nil
}
