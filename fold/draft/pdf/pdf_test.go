package pdf

import (
	"bytes"
	"testing"
	"time"

	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// A name may hold any letters; those that no font has must not keep a sheet from being printed.
func TestAnyLetters(t *testing.T) {
	for _, words := range []string{"tray 🔩🧰", "𝔸", "中文钣金", "לאורך", "a\u0301\u200d\ufffd\uffff\U0010ffff", "(\\)) endobj %%EOF", "\xff\xf0\x80"} {
		g := draft.Page{Title: words, W: 210, H: 297}
		for class := range draft.Styles {
			g.Text(class, draft.Middle, geom.Vec2{100, 100}, words)
		}
		data, err := Write(words, []draft.Page{g}, time.Unix(0, 0))
		if err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
			t.Errorf("%q: %v", words, err)
		}
	}
	if got := Missing("tray ø 🔩中中"); got != "🔩中" {
		t.Errorf("missing: %q", got)
	}
}
