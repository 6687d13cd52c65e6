package sizes

// This file holds the names of named sizes: which may be, where they are used, and
// their change.

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// checkName refuses a name for Named[at] that formulas could not use.
func (f *Form) checkName(i int, name string) *Error {
	fail := func(found, need string) *Error {
		return &Error{Path: at("sizes.named", i) + ".name", Found: found, Need: need}
	}
	if name == "" {
		return fail("nothing", "a name, such as rail")
	}
	if n := utf8.RuneCountInString(name); n > MaxNameLength {
		return fail(strconv.Itoa(n)+" characters", "at most "+strconv.Itoa(MaxNameLength))
	}
	for k, r := range name {
		if r == utf8.RuneError || k == 0 && !unicode.IsLetter(r) || !nameRune(r) {
			return fail(Quote(name), "letters, digits and _, beginning with a letter")
		}
	}
	if function(name) || unitName(name) || name == "pi" {
		return fail(Quote(name)+", which formulas use themselves", "another name, such as "+name+"_1")
	}
	for k, n := range f.Named {
		if n.Name == name && k < i {
			return fail(Quote(name)+", which another size has", "a name of its own")
		}
	}
	return nil
}

// Uses gives the paths of the fields whose formula uses the named size, in the form's order:
// of other named sizes too, but not of what uses those.
func (f *Form) Uses(name string) []string {
	var out []string
	f.Fields(func(path string, field *Field, _ bool) {
		if field.uses(name) {
			out = append(out, path)
		}
	})
	return out
}

func (f *Field) uses(name string) bool {
	if !f.Given || !strings.Contains(f.Formula, name) {
		return false
	}
	list := tokens(f.Formula)
	for i, t := range list {
		if t.names(list, i, name) {
			return true
		}
	}
	return false
}

// names reports whether token i is the named size and no function.
func (t token) names(list []token, i int, name string) bool {
	return t.kind == nameToken && t.text == name && list[i+1].kind != '('
}

// Rename changes a named size's name, there and in every formula that uses it. Nothing
// is changed with an error. To keep the form as it was, Rename in a Clone.
func (f *Form) Rename(old, name string) *Error {
	which := -1
	for i, n := range f.Named {
		if n.Name == old {
			which = i
			break
		}
	}
	if which < 0 {
		return &Error{Path: "sizes.named", Found: "no size of the name " + Quote(old), Need: "one that there is"}
	}
	if old == name {
		return nil
	}
	if e := f.checkName(which, name); e != nil {
		return e
	}
	for i, n := range f.Named {
		if i != which && n.Name == name {
			return &Error{Path: at("sizes.named", which) + ".name", Found: Quote(name) + ", which another size has", Need: "a name of its own"}
		}
	}
	var long *Error
	f.Fields(func(path string, field *Field, _ bool) {
		if long == nil && field.uses(old) {
			if n := utf8.RuneCountInString(field.renamed(old, name)); n > MaxFormula {
				long = &Error{Path: path, Found: "a formula of " + strconv.Itoa(n) + " characters with the new name", Need: "at most " + strconv.Itoa(MaxFormula) + ": a shorter name, or a shorter formula"}
			}
		}
	})
	if long != nil {
		return long
	}
	f.Fields(func(_ string, field *Field, _ bool) {
		if field.uses(old) {
			field.Formula = field.renamed(old, name)
		}
	})
	f.Named[which].Name = name
	return nil
}

// renamed is the field's formula with the name changed and all else as it was written.
func (f *Field) renamed(old, name string) string {
	var out strings.Builder
	list := tokens(f.Formula)
	from := 0
	for i, t := range list {
		if t.names(list, i, old) {
			out.WriteString(f.Formula[from:t.from])
			out.WriteString(name)
			from = t.from + len(t.text)
		}
	}
	out.WriteString(f.Formula[from:])
	return out.String()
}
