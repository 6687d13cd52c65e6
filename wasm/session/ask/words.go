package ask

// This file holds what of words the page and the other programs share, and fold does not say.

import "strings"

// Lower takes the capital of Title off again, within a sentence.
func Lower(name string) string {
	r := []rune(name)
	if len(r) > 1 && strings.ToUpper(string(r[1])) != string(r[1]) {
		r[0] = []rune(strings.ToLower(string(r[0])))[0]
	}
	return string(r)
}
