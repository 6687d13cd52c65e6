// Links: a whole part in the fragment of an address, so that it never leaves the
// page of whoever opens it.
//
// A fragment is a version letter and base64url text (RFC 4648, unpadded) of four
// bytes of CRC-32 (IEEE, of the text, least byte first) and the deflated text (RFC
// 1951). Version "a": the text is a part file, without white space as Pack writes
// it, deflated with dictA before it. The sum is there since a link that lost or
// changed a character must never open as another part.
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
const dictA = `"notes":"metal":"stainless","metal":"mild steel","metal":"aluminium","k":0.4,"k":0.33,"grain":0,"good":"up"},"good":"down"},` +
	`"cutouts":[[[{"through":[],"to":[]},{"through":[],"to":[]},"holes":[{"at":[],"diameter":{"at":[],"diameter":` +
	`"seams":[{"name":"","a":[],"b":[],"gap":0.5,"join":"","open":true}],"order":[["","{"bend":"","to":120},"hem",` +
	`"floor","at":[]},{"name":"left","at":[]},{"name":"right","at":[]},{"name":"front","at":[]},{"name":"back","at":[]},` +
	`"angle":180,"radius":1,"way":"down"},{"name":"","line":[[],[]],"angle":90,"radius":1.5,"way":"up"},` +
	`"panels":[{"name":"],"base":"floor","bends":[{"name":"{"dryfold":1,"name":"","units":"in","sheet":{"thickness":` +
	`{"dryfold":1,"name":"","units":"mm","sheet":{"thickness":1,"k":0.4},"blank":{"outline":[[0,0],[`

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
	var out bytes.Buffer
	out.Write(binary.LittleEndian.AppendUint32(nil, crc32.ChecksumIEEE(part)))
	w, err := flate.NewWriterDict(&out, flate.BestCompression, []byte(dictA))
	if err == nil {
		w.Write(part) // to a bytes.Buffer: can't fail
		err = w.Close()
	}
	if err != nil {
		panic(err) // only for a wrong compression level
	}
	if n := 1 + linkText.EncodedLen(out.Len()); n > MaxPacked || len(part) > MaxUnpacked {
		return "", &Error{Found: fmt.Sprintf("a part that takes %d characters", n),
			Need: fmt.Sprintf("at most %d: send it as a file", MaxPacked)}
	}
	return string(linkVersion) + linkText.EncodeToString(out.Bytes()), nil
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
	case fragment[0] > linkVersion && fragment[0] <= 'z':
		return broken("a link of a newer version", "a newer version of this program")
	case fragment[0] != linkVersion:
		return broken("no part in it: "+quote(fragment), "a link that holds a part after its #")
	}
	packed, err := linkText.DecodeString(fragment[1:])
	if err != nil {
		return broken("a broken link: a character that does not belong, or one missing", whole)
	}
	if len(packed) < 5 {
		return broken("a broken link: its end is missing", whole)
	}
	rest := bytes.NewReader(packed[4:])
	part, err := io.ReadAll(io.LimitReader(flate.NewReaderDict(rest, []byte(dictA)), MaxUnpacked+1))
	switch {
	case len(part) > MaxUnpacked:
		return broken("a part of too many bytes", fmt.Sprintf("at most %d", MaxUnpacked))
	case err == io.ErrUnexpectedEOF:
		return broken("a broken link: its end is missing", whole)
	case err != nil || rest.Len() > 0 || crc32.ChecksumIEEE(part) != binary.LittleEndian.Uint32(packed):
		return broken("a broken link: some characters have changed", whole)
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
