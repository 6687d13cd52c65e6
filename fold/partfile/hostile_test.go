package partfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// blankText is a part whose blank holds the given fields besides the outline.
func blankText(fields string) string {
	return `{"dryfold": 1, "name": "x", "units": "mm", "sheet": {"thickness": 1}, "blank": {` + fields + `}}`
}

const outline = `"outline": [[0, 0], [10, 0], [0, 10]]`

// fill repeats what as often as fits into size bytes, between head and tail.
func fill(size int, head, what, tail string) []byte {
	return []byte(head + strings.Repeat(what, (size-len(head)-len(tail))/len(what)) + tail)
}

// numbered is n texts made from their number, joined by commas.
func numbered(n int, one func(i int) string) string {
	var b strings.Builder
	for i := range n {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(one(i))
	}
	return b.String()
}

// Parts made to exhaust the reader are refused with few bytes taken: all that is
// ever allocated stays far under 256 MiB.
func TestHostileParts(t *testing.T) {
	const mb = 1 << 20
	points := blankText(`"outline": [[0, 0]%%]`)
	head, tail, _ := strings.Cut(points, "%%")
	cases := []struct {
		name string
		data []byte
		want string
	}{
		{"too long a file", fill(MaxFile+100, head, ",[0,0]", tail), "line 1: found a file of 335545"},
		{"millions of points", fill(MaxFile, head, ",[1,0]", tail), "blank.outline[100000]: found more than 100000 points in all outlines together; need at most 100000"},
		{"millions of arcs", fill(MaxFile, head, `,{"through":[1,1],"to":[2,0]}`, tail), "blank.outline[100000]: found more than 100000 points"},
		{"millions of cutouts", fill(MaxFile, strings.TrimSuffix(blankText(outline+`, "cutouts": [[[0,0]]`), "}}"), ",[[0,0]]", "]}}"),
			"blank.cutouts[99997][0]: found more than 100000 points"},
		{"millions of empty cutouts", fill(MaxFile, `{"dryfold":1,"blank":{"cutouts":[[]`, ",[]", "]}}"), "blank.cutouts[0]: found an empty list"},
		{"brackets", bytes.Repeat([]byte("["), 10*mb), "line 1: found lists or objects more than 32 deep"},
		{"braces", bytes.Repeat([]byte(`{"a":`), 2*mb), "line 1: found lists or objects more than 32 deep"},
		{"brackets in the outline", fill(10*mb, head+",", "[", tail), "line 1: found lists or objects more than 32 deep"},
		{"closing brackets", bytes.Repeat([]byte("]"), 10*mb), "line 1: found `]`"},
		{"lines", append(bytes.Repeat([]byte("\n"), 10*mb), 'x'), "line 10485761: found `x`"},
		{"a long point", fill(10*mb, head+",[0", ",0", "]"+tail), "blank.outline[1]: found a list of"},
		{"a long number", fill(10*mb, head+",[1", "0", ",0]"+tail), "blank.outline[1][0]: found 1000000000000000000000000000000000000000..., which is too large"},
		{"a long fraction", fill(10*mb, head+",[0.", "0", "1,0]"+tail), "blank.outline[1][0]: found 0.00000000000000000000000000000000000000..., which is too small"},
		{"a long name", fill(10*mb, `{"dryfold": 1, "name": "`, "x", `"}`), "units: found nothing"},
		{"a long wrong word", fill(10*mb, `{"dryfold": `, "x", `}`), "line 1: found `xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx...`"},
		{"a long wrong text", fill(10*mb, `{"dryfold": "`, `\u0041`, `"}`), `dryfold: found the text "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA..."`},
		{"a long key", fill(10*mb, `{"dryfold": 1, "`, "k", `": 1}`), `"kkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkkk...": found an unknown field`},
		{"a key again and again", fill(10*mb, `{"dryfold":1`, `,"name":""`, `}`), "name: found the field a second time"},
		{"versions", fill(10*mb, `{"dryfold":1`, `,"dryfold":1`, `}`), "dryfold: found the field a second time"},
		{"a key in other cases", fill(10*mb, `{"a":1`, `,"DRYFOLD":[1]`, `}`), "DRYFOLD: found the field"},
		{"bends", []byte(blankText(outline + `, "bends": [` + numbered(100_000, func(i int) string {
			return `{"line": [[0, 1], [10, 1]], "angle": 90, "radius": 1, "way": "up"}`
		}) + `]`)), "blank.bends[1000]: found more than 1000 bends; need at most 1000"},
		{"holes", []byte(blankText(outline + `, "holes": [` + numbered(100_000, func(i int) string {
			return `{"at": [1, 1], "diameter": 1}`
		}) + `]`)), "blank.holes[10000]: found more than 10000 holes; need at most 10000"},
		{"panels", []byte(blankText(outline + `, "panels": [` + numbered(100_000, func(i int) string {
			return `{"at": [1, 1], "name": "` + strconv.Itoa(i) + `"}`
		}) + `]`)), "blank.panels[1001]: found more than 1001 panels; need at most 1001"},
		{"seams", []byte(`{"dryfold": 1, "seams": [` + numbered(100_000, func(i int) string {
			return `{"a": [1, 1], "b": [1, 1]}`
		}) + `]}`), "seams[1000]: found more than 1000 seams; need at most 1000"},
		{"swings", fill(10*mb, `{"dryfold": 1, "order": ["a"`, `,"a"`, `]}`), "order[4000]: found more than 4000 swings; need at most 4000"},
		{"names in a swing", fill(10*mb, `{"dryfold": 1, "order": [["a"`, `,"a"`, `]]}`), "order[0][4000]: found more than 4000 names in the order; need at most 4000"},
		{"joins", fill(10*mb, `{"dryfold": 1, "joins": [{"way": "weld"}`, `,{"seam": "a", "way": "weld"}`, `]}`),
			"joins[1001]: found more than 1001 of them; need at most 1001"},
		{"metals", []byte(`{"dryfold": 1, "metals": [` + numbered(100_000, func(i int) string {
			return `{"name": "` + strconv.Itoa(i) + `"}`
		}) + `]}`), "metals[50]: found more than 50 metals; need at most 50"},
		{"test bends", fill(10*mb, `{"dryfold": 1, "tests": [{"thickness": 1, "angle": 90}`, `,{"thickness": 1, "angle": 90}`, `]}`),
			"tests[200]: found more than 200 test bends; need at most 200"},
		{"legs", fill(10*mb, `{"dryfold": 1, "tests": [{"legs": [1`, `,1`, `]}]}`), "tests[0].legs: found a list of"},
		{"yields", fill(10*mb, `{"dryfold": 1, "metals": [{"yield_mpa": [1`, `,1`, `]}]}`), "metals[0].yield_mpa: found a list of"},
		{"flanges", []byte(`{"dryfold": 1, "sizes": {"flanges": [` + numbered(100_000, func(i int) string {
			return `{"name": "` + strconv.Itoa(i) + `", "on": "floor"}`
		}) + `]}}`), "sizes.flanges[200]: found more than 200 flanges; need at most 200"},
		{"corners", fill(10*mb, `{"dryfold": 1, "sizes": {"corners": [{"a": "a", "b": "b"}`, `,{"a": "a", "b": "b"}`, `]}}`),
			"sizes.corners[200]: found more than 200 corners; need at most 200"},
		{"holes by sizes", fill(10*mb, `{"dryfold": 1, "sizes": {"holes": [{"on": "a"}`, `,{"on": "a"}`, `]}}`),
			"sizes.holes[1000]: found more than 1000 holes and patterns of holes; need at most 1000"},
		{"named sizes", fill(10*mb, `{"dryfold": 1, "sizes": {"named": [{"name": "a", "is": 1}`, `,{"name": "a", "is": 1}`, `]}}`),
			"sizes.named[100]: found more than 100 named sizes; need at most 100"},
		{"sides", fill(10*mb, `{"dryfold": 1, "sizes": {"base": {"sides": ["a"`, `,"a"`, `]}}}`), "sizes.base.sides[200]: found more than 200 sides; need at most 200"},
		{"measured sides", fill(10*mb, `{"dryfold": 1, "sizes": {"base": {"measured": {"sides": [1`, `,1`, `]}}}}`),
			"sizes.base.measured.sides[200]: found more than 200 entries; need at most 200"},
		{"stations", fill(10*mb, `{"dryfold": 1, "sizes": {"base": {"measured": {"stations": [{"at": 1}`, `,{"at": 1}`, `]}}}}`),
			"sizes.base.measured.stations[200]: found more than 200 stations; need at most 200"},
		{"points of a base", fill(10*mb, `{"dryfold": 1, "sizes": {"base": {"points": [[0,0]`, `,[1,0]`, `]}}}`),
			"sizes.base.points[50000]: found more than 50000 points in all outlines together; need at most 50000"},
		{"points of edges", fill(10*mb, `{"dryfold": 1, "sizes": {"flanges": [{"edge": [[0,0]`, `,{"through":[1,1],"to":[2,0]}`, `]}]}}`),
			"sizes.flanges[0].edge[50000]: found more than 50000 points"},
		{"a long formula", fill(10*mb, `{"dryfold": 1, "name": "x", "units": "mm", "sheet": {"thickness": 1}, "sizes": {"base": {"long": 1, "wide": "1`, `+1`, `"}}}`),
			"sizes.base.wide: found text of 1048"},
		{"a long named formula", fill(10*mb, `{"dryfold": 1, "name": "x", "units": "mm", "sheet": {"thickness": 1}, "sizes": {"base": {"long": 1, "wide": 1}, "named": [{"name": "a", "is": "1`, `+1`, `"}]}}`),
			"sizes.named[0].is: found a formula of 1048"},
		{"brackets in a formula", []byte(`{"dryfold": 1, "name": "x", "units": "mm", "sheet": {"thickness": 1}, "sizes": {"base": {"long": 1, "wide": "` + strings.Repeat("(", 200) + `"}}}`),
			"sizes.base.wide: found"},
		{"a formula of nothing but names", []byte(`{"dryfold": 1, "name": "x", "units": "mm", "sheet": {"thickness": 1}, "sizes": {"named": [` + numbered(100, func(i int) string {
			return fmt.Sprintf(`{"name": "n%d", "is": "n%d+n%d*2"}`, i, (i+1)%100, (i+1)%100)
		}) + `], "base": {"long": 1, "wide": 1}}}`), "sizes.named[0].is: found n0 uses n1, n1 uses n2"},
		{"a long gauge", fill(10*mb, `{"dryfold": 1, "sheet": {"thickness": "16 ga`, ` ga`, `"}}`), `sheet.thickness: found the text "16 ga ga`},
		{"a long rule", fill(10*mb, `{"dryfold": 1, "sheet": {"thickness": 1, "rule": "`, `f`, `"}}`), "name: found nothing"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var err error
			taken := allocated(func() { _, err = Read(c.data) })
			require.Error(t, err)
			require.True(t, strings.HasPrefix(err.Error(), c.want), "%s", err)
			require.Less(t, len(err.Error()), 400)
			require.Less(t, taken, uint64(100*mb))
		})
	}
}

// allocated is how many bytes f takes in all, freed or not.
func allocated(f func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	f()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// The most that may stand in a part is read, within 256 MiB.
func TestLargestPart(t *testing.T) {
	points := numbered(100_000, func(i int) string {
		return `[` + strconv.Itoa(i%50_000) + `, ` + strconv.FormatFloat(float64(i/50_000*(i%7))+0.123456789012, 'g', -1, 64) + `]`
	})
	holes := numbered(10_000, func(i int) string { return `{"at": [1, 1], "diameter": 1}` })
	data := []byte(blankText(`"outline": [` + points + `], "holes": [` + holes + `]`))
	var err error
	taken := allocated(func() {
		s, e := Read(data)
		if err = e; err == nil {
			_, err = Read(Write(s))
		}
	})
	require.NoError(t, err)
	require.Less(t, taken, uint64(256<<20))
}

// What our own scanner calls JSON is JSON to encoding/json too, and the other way
// round, but for depth and half surrogate pairs.
func TestScanAgainstEncodingJSON(t *testing.T) {
	for _, text := range []string{
		``, ` `, `{}`, `[]`, `[1]`, `[1,]`, `[,1]`, `{,}`, `{"a":1,}`, `{"a"}`, `{"a":}`, `{"a" 1}`, `{a:1}`, `{1:1}`, `1`, `-`, `-0`, `-01`, `00`,
		`0.`, `.0`, `1e`, `1e+`, `1E-07`, `1.5e3`, `1ee3`, `--1`, `+1`, `1_0`, `0x1`, `true`, `True`, `truefalse`, `true false`, `nul`, `null`, `"`,
		`""`, `"\"`, `"\\"`, `"\x"`, `"\u12"`, `"\u12G4"`, `"\u1234"`, `"\ud83d\udc1d"`, "\"\t\"", "\"\x00\"", "\"\x7f\"", "\"\u2028\"", `"a""b"`,
		`[1 2]`, `[1,2`, `{"a":1`, `[}`, `{]`, `[1}`, `{"a":1]`, `// x`, `[1] // x`, `[1]]`, "\x00", "\v1", "\u00a01", `{"a":1,"a":2}`, `[[[[[]]]]]`, `'a'`,
	} {
		require.Equal(t, json.Valid([]byte(text)), scan([]byte(text), partForm) == nil, "%q", text)
	}
}

func TestBrokenLinks(t *testing.T) {
	spec, err := Read([]byte(blankText(outline)))
	require.NoError(t, err)
	good, err := Pack(spec)
	require.NoError(t, err)
	for _, c := range []struct{ name, fragment, want string }{
		{"nothing", "", "link: found no part in it; need a link that holds a part after its #"},
		{"another page's", "section-2", `link: found no part that this program can read: "section-2"; need a link that holds a part after its #, or a newer`},
		{"newer", "b" + good[1:], `link: found no part that this program can read: "b`},
		{"capital", "A" + good[1:], `link: found no part that this program can read: "A`},
		{"too long", good + strings.Repeat("A", MaxPacked), "link: found 65"},
		{"version alone", "a", "link: found a broken link: its end is missing"},
		{"sum alone", "aAAAAAA", "link: found a broken link: its end is missing"},
		{"strange character", good[:20] + "%" + good[21:], "link: found a broken link: a character that does not belong"},
		{"cut", good[:len(good)/8*4+1], "link: found a broken link: its end is missing; need the whole link"},
		{"cut anywhere", good[:len(good)/8*4+2], "link: found a broken link: a character that does not belong, or one missing; need the whole link"},
		{"longer", good + "AAAA", "link: found a broken link: its end is missing, or some characters have changed"},
		{"much longer text", packText(make([]byte, 8<<20)), "link: found a part of too many bytes; need at most 4194304"},
		{"wrong part", packText([]byte(`{"dryfold":2}`)), "dryfold: found 2, a newer version"},
		{"no part", packText([]byte(`hello`)), "line 1: found `hello`"},
		{"deep", packText(bytes.Repeat([]byte("["), 1<<20)), "line 1: found lists or objects more than 32 deep"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var err error
			taken := allocated(func() { _, err = Unpack(c.fragment) })
			require.Error(t, err)
			require.IsType(t, &Error{}, err)
			require.True(t, strings.HasPrefix(err.Error(), c.want), "%s", err)
			require.Less(t, taken, uint64(64<<20))
		})
	}
}

// A link that lost, gained or changed a character anywhere never opens as another part.
func TestDamagedLinksNeverOpen(t *testing.T) {
	for _, l := range frozen(t)[:3] {
		f := l[1]
		want, err := Unpack(f)
		require.NoError(t, err)
		opened := 0
		for i := range len(f) {
			for _, bad := range []string{f[:i], f[:i] + f[i+1:], f[:i] + "x" + f[i:], f[:i] + "_" + f[i+1:], f[:i] + "Q" + f[i+1:]} {
				if bad == f {
					continue
				}
				s, err := Unpack(bad)
				if err == nil { // bits that only fill up a byte say nothing
					require.Equal(t, want, s, "%s: %s", l[0], bad)
					opened++
					continue
				}
				require.True(t, utf8.ValidString(err.Error()))
			}
		}
		require.Less(t, opened, 10)
	}
}

// A mail program may break a link into lines.
func TestWrappedLinkOpens(t *testing.T) {
	for _, l := range frozen(t)[:3] {
		want, err := Unpack(l[1])
		require.NoError(t, err)
		got, err := Unpack(l[1][:76] + "\r\n" + l[1][76:])
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
}
