package session

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var doesWords = regexp.MustCompile(`(up|down) to about (-?[0-9.]+)(°| mm) does$`)

// A size that something else forbids is refused by its own name, with the size that does: that one is taken, and
// a little more of it is not.
func TestRefusalSaysHowFar(t *testing.T) {
	open := func(with ...func(*Session) error) *Session {
		s := starter(t, "tray", fold.MM)
		for _, f := range with {
			require.NoError(t, f(s))
		}
		return s
	}
	lap := func(s *Session) error { return s.SetClosing("front", "right", sizes.Lap) }
	tape := func(s *Session) error { return s.SetBase(BySides) }
	lean, wide, high := NamedField(3, "is"), NamedField(0, "is"), NamedField(2, "is")
	for _, c := range []struct {
		s                 *Session
		path, text, begin string
	}{
		{open(), lean, "241", "Walls lean out: 241° is too much for the bend angle of front; up to about "},
		{open(), lean, "-100", "Walls lean out: -100° is too little for the bend angle of front; down to about "},
		{open(), wide, "0", "Wide at the top: 0 mm is too little; down to about "},
		{open(), wide, "-3", "Wide at the top: -3 mm is too little; down to about "},
		{open(), high, "0.1", "High: 0.1 mm is too little for the height of front; down to about "},
		{open(), "sizes.radius", "300", "Inside radius: 300 mm is too much for the height of front; up to about "},
		{open(), "sizes.flanges[0].from", "500", "In from the start of front: 500 mm is too much for the in from the end of front; up to about "},
		{open(lap), "sizes.corners[0].past", "-400", "Past the corner of the corner of front and right: -400 mm is too little for the panel front; down to about "},
		{open(tape), "sizes.base.measured.sides[0]", "5", "Front of floor: 5 mm is too little for the diagonal, front left to back right of floor; down to about "},
		{open(tape), "sizes.base.measured.sides[0]", "0", "Front of floor: 0 mm is too little; down to about "},
	} {
		was := file(c.s)
		err := c.s.SetField(c.path, c.text)
		require.Error(t, err, c.text)
		require.Equal(t, was, file(c.s))
		require.True(t, strings.HasPrefix(err.Error(), c.begin), "%s: %s", c.path, err)
		e, _ := c.s.Error(c.path)
		assert.Equal(t, FieldError{c.text, err.Error() + "."}, e)
		m := doesWords.FindStringSubmatch(err.Error())
		require.NotNil(t, m, err)
		x, _ := strconv.ParseFloat(m[2], 64)
		bad, _ := strconv.ParseFloat(c.text, 64)
		// With a hundredth of the size, or half of one mm or degree, more towards what was refused it is too much.
		step := max(.5, x/100)
		if bad < x {
			step = min(-.5, -x/100)
		}
		assert.Error(t, c.s.SetField(c.path, strconv.FormatFloat(x+step, 'f', -1, 64)), "%s past %g", c.path, x)
		assert.NoError(t, c.s.SetField(c.path, m[2]), c.path)
	}

	// In inches the same, and a message that says what would do of its own stays as it was.
	s := open(tape)
	s.SetUnits(fold.Inch)
	require.Error(t, s.SetField("sizes.base.measured.sides[0]", "0.2"))
	e, _ := s.Error("sizes.base.measured.sides[0]")
	assert.Regexp(t, `^Front of floor: 0\.2 in is too little .* down to about 5\.\d+ in does\.$`, e.Message)
	s.SetUnits(fold.MM)
	err := s.SetField("sizes.base.measured.diagonals[0]", "5")
	assert.ErrorContains(t, err, "more than 100 mm and less than 500 mm")
}

// A bend's angle under Bends is told so too.
func TestBendAngleSaysHowFar(t *testing.T) {
	s := starter(t, "stepped-tray", fold.MM)
	at := s.FlangeBend(flangeNamed(s.Form(), "floor 2"))
	err := s.SetAngle(at, "200")
	require.ErrorContains(t, err, "Bend angle of floor 2: 200° is too much for the height of ")
	m := doesWords.FindStringSubmatch(err.Error())
	require.NotNil(t, m, err)
	require.NoError(t, s.SetAngle(at, m[2]))
	_, bad := s.Error(BendField(at, "angle"))
	assert.False(t, bad)
}

// The sizes that are tried lie between, and come to an end.
func TestBetween(t *testing.T) {
	for _, c := range [][2]float64{{0, 500}, {240, 0}, {-5, 5}, {1, 1e6}, {-1e6, -1}, {.1, .3}, {50, 50.2}, {0, 1e-3}} {
		good, bad := c[0], c[1]
		n := 0
		for {
			x, ok := between(good, bad)
			if !ok {
				break
			}
			require.True(t, x > min(good, bad) && x < max(good, bad), "%v %g", c, x)
			if n++; n%2 == 0 {
				good = x
			} else {
				bad = x
			}
			require.Less(t, n, 60)
		}
	}
}
