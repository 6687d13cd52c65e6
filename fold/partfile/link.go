// Links: a whole part in the fragment of an address, so that it never leaves the
// page of whoever opens it.
//
// A fragment is a version letter and base64url text (RFC 4648, unpadded). Version
// "a" holds four bytes of CRC-32 (IEEE, of the part file without white space, as
// Pack writes it, least byte first), then deflated (RFC 1951, dictA before it)
// that text without its numbers, a zero byte and the numbers' classes, and last
// the numbers' bits: digits.go. Formulas of a part by sizes are text, and stay in it. The sum is there since a link that lost or changed
// a character must never open as another part.
//
// Made links must open for ever: neither a version's meaning nor its dictionary
// may change. A new form takes the next letter.

package partfile

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"
	"strings"

	"dryfold/fold"
)

const linkVersion = 'a'

// dictA is what version "a" takes as already said. Frozen.
const dictA = `"notes":"metal":"stainless","metal":"mild steel","metal":"aluminium","k":0,"grain":0,"good":"up"},"good":"down"},` +
	`"cutouts":[[[0,0],{"through":[0,0],"to":[0,0]},{"through":[0,0],"to":[0,0]}],"holes":[{"at":[0,0],"diameter":0},{"at":[0,0],"diameter":0}` +
	`"seams":[{"name":"","a":[0,0],"b":[0,0],"gap":0,"join":"","open":true}],"order":[["","{"bend":"","to":0},"hem","lip",` +
	`"floor","at":[0,0]},{"name":"left","at":[0,0]},{"name":"right","at":[0,0]},{"name":"front","at":[0,0]},{"name":"back","at":[0,0]},` +
	`"angle":0,"radius":0,"way":"down"},{"name":"","line":[[0,0],[0,0]],"angle":0,"radius":0,"way":"up"},` +
	`"panels":[{"name":"],"base":"floor","bends":[{"name":"{"dryfold":0,"name":"","units":"in","sheet":{"thickness":` +
	`{"dryfold":0,"name":"","units":"mm","sheet":{"thickness":0,"k":0},"blank":{"outline":[[0,0],[0,0],[0,0],[0,0],`

var linkText = base64.RawURLEncoding.Strict()

// Pack is the fragment of a link that holds the part; Unpack gives it back in
// normal form (see Write). The error is an *Error: Check's, or that the part is
// too large for a link. The same part gives the same text on every platform.
func Pack(s fold.Spec) (string, error) {
	s = normal(s)
	if err := Check(s); err != nil {
		return "", err
	}
	part := compact(Write(s))
	fragment := packText(part)
	if len(fragment) > MaxPacked || len(part) > MaxUnpacked {
		return "", &Error{Found: fmt.Sprintf("a part that takes %d characters", len(fragment)),
			Need: fmt.Sprintf("at most %d: send it as a file", MaxPacked)}
	}
	return fragment, nil
}

// packText is the fragment of a part file without white space.
func packText(part []byte) string {
	skeleton, classes, packed := takeNumbers(part)
	var out bytes.Buffer
	out.Write(binary.LittleEndian.AppendUint32(nil, crc32.ChecksumIEEE(part)))
	w, err := flate.NewWriterDict(&out, flate.BestCompression, []byte(dictA))
	if err != nil {
		panic(err) // only for a compression level that does not exist
	}
	for _, b := range [][]byte{skeleton, {0}, classes} {
		w.Write(b) // to a bytes.Buffer: can't fail
	}
	w.Close()
	out.Write(packed)
	return string(linkVersion) + linkText.EncodeToString(out.Bytes())
}

// Unpack reads a fragment that Pack made. The error is an *Error: without path or
// line where the link is broken, else Read's.
func Unpack(fragment string) (fold.Spec, error) {
	broken := func(found, need string) (fold.Spec, error) {
		return fold.Spec{}, &Error{Found: found, Need: need}
	}
	const whole = "the whole link: copy it again, or ask for the part as a file"
	switch {
	case fragment == "":
		return broken("no part in it", "a link that holds a part after its #")
	case len(fragment) > MaxPacked:
		return broken(fmt.Sprintf("%d characters", len(fragment)), fmt.Sprintf("at most %d", MaxPacked))
	case fragment[0] != linkVersion:
		return broken("no part that this program can read: "+quote(fragment),
			"a link that holds a part after its #, or a newer version of this program")
	}
	packed, err := linkText.DecodeString(fragment[1:])
	if err != nil {
		return broken("a broken link: a character that does not belong, or one missing", whole)
	}
	if len(packed) < 5 {
		return broken("a broken link: its end is missing", whole)
	}
	rest := bytes.NewReader(packed[4:])
	text, err := io.ReadAll(io.LimitReader(flate.NewReaderDict(rest, []byte(dictA)), MaxUnpacked+1))
	switch {
	case len(text) > MaxUnpacked:
		return broken("a part of too many bytes", fmt.Sprintf("at most %d", MaxUnpacked))
	case err == io.ErrUnexpectedEOF:
		return broken("a broken link: its end is missing", whole)
	case err != nil:
		return broken("a broken link: some characters have changed", whole)
	}
	skeleton, classes, _ := bytes.Cut(text, []byte{0})
	part, ok := putNumbers(skeleton, classes, packed[len(packed)-rest.Len():])
	if !ok || crc32.ChecksumIEEE(part) != binary.LittleEndian.Uint32(packed) {
		return broken("a broken link: its end is missing, or some characters have changed", whole)
	}
	return Read(part)
}

// Link is the address base with the part in its fragment, in place of one that
// base has. The error is Pack's.
func Link(base string, s fold.Spec) (string, error) {
	f, err := Pack(s)
	if err != nil {
		return "", err
	}
	base, _, _ = strings.Cut(base, "#")
	return base + "#" + f, nil
}

// Fragment is the text after a link's first #, for Unpack: without white space
// around it, and the whole text where it has no # and is no address.
func Fragment(link string) string {
	link = strings.TrimSpace(link)
	if _, f, ok := strings.Cut(link, "#"); ok {
		return f
	}
	if strings.ContainsAny(link, ":/.?") {
		return ""
	}
	return link
}
