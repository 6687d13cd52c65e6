package session

import (
	"strings"
	"testing"

	"dryfold/fold"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestGauge(t *testing.T) {
	for _, text := range []string{"16 ga", "16ga", "16 GAUGE", "20 swg"} {
		_, err := ReadLength(text, fold.MM)
		assert.ErrorContains(t, err, "gauge number", text)
	}
	_, err := ReadLength("mega", fold.MM)
	assert.ErrorContains(t, err, "not a length")
}

func TestReadLength(t *testing.T) {
	for _, c := range []struct {
		text  string
		shown fold.Units
		mm    float64
	}{
		{"12", fold.MM, 12},
		{"12", fold.Inch, 304.8},
		{"12.5", fold.MM, 12.5},
		{"12,5", fold.MM, 12.5},
		{" .5 ", fold.MM, 0.5},
		{"1/2", fold.MM, 0.5},
		{"1/2", fold.Inch, 12.7},
		{`2 3/8"`, fold.MM, 60.325},
		{"2-3/8 in", fold.MM, 60.325},
		{"2 3/8”", fold.Inch, 60.325},
		{"60mm", fold.Inch, 60},
		{"60 MM", fold.MM, 60},
		{"4.5 cm", fold.MM, 45},
		{"0.5 in", fold.MM, 12.7},
		{"3 inches", fold.MM, 76.2},
		{"-2", fold.MM, -2},
		{"0", fold.MM, 0},
	} {
		got, err := ReadLength(c.text, c.shown)
		require.NoError(t, err, c.text)
		assert.InDelta(t, c.mm, got, 1e-9, c.text)
	}
	for _, text := range []string{"", " ", "abc", "1,234", "12 12", "1/0", "1//2", "1e9", "NaN", "inf", "0x10", "12..5", "1.5/2", "1 2 3/4", "--3", "1_000", "9999999999999", "mm", `"`, "5 ft", "½½"} {
		_, err := ReadLength(text, fold.MM)
		if assert.Error(t, err, text) {
			assert.Contains(t, err.Error(), "12.5", "says what would do")
		}
	}
	_, err := ReadLength(strings.Repeat("9", 5000), fold.MM)
	require.Error(t, err)
	assert.Less(t, len(err.Error()), 200)
}

func TestReadAngle(t *testing.T) {
	for text, want := range map[string]float64{"90": 90, "82.5": 82.5, "45°": 45, "30 deg": 30, "180 degrees": 180} {
		got, err := ReadAngle(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got)
	}
	_, err := ReadAngle("square")
	assert.ErrorContains(t, err, "degrees")
}

func TestLengthsAsShown(t *testing.T) {
	assert.Equal(t, "12.5", Length(12.54, fold.MM))
	assert.Equal(t, "0.492", Length(12.5, fold.Inch))
	assert.Equal(t, "0.0", Length(-0.01, fold.MM), "no minus zero")
	assert.Equal(t, "-0.1", Length(-0.1, fold.MM))
	assert.Equal(t, "280", Size(280.02, fold.MM))
	assert.Equal(t, "280.4", Size(280.4, fold.MM))
	assert.Equal(t, "1.0", Thickness(1, fold.MM))
	assert.Equal(t, "1.25", Thickness(1.25, fold.MM))
	assert.Equal(t, "0.0598", Thickness(0.0598*25.4, fold.Inch))
	assert.Equal(t, "0.040", Thickness(0.04*25.4, fold.Inch))
	assert.Equal(t, "77.5", Degrees(77.5))
	assert.Equal(t, "90", Degrees(90))
	n, u := Mass(1.0834)
	assert.Equal(t, "1.08 kg", n+" "+u)
	n, u = Mass(0.0834)
	assert.Equal(t, "83 g", n+" "+u)
}

// What a field shows reads back as what it was.
func TestFieldsReadBack(t *testing.T) {
	for _, mm := range []float64{1, 0.5, 12.7, 60.325, 304.8, 1.5, 0.0598 * 25.4, 999.9999} {
		for _, shown := range []fold.Units{fold.MM, fold.Inch} {
			got, err := ReadLength(FieldLength(mm, shown), shown)
			require.NoError(t, err)
			assert.InDelta(t, mm, got, 2e-4)
		}
	}
}

// The unit beside a field never says another thing than the text in it.
func TestUnitBeside(t *testing.T) {
	for _, x := range []struct {
		text, unit string
		shown      fold.Units
		want       string
	}{
		{"12", "mm", fold.MM, "mm"}, {"", "mm", fold.MM, "mm"}, {"2in", "mm", fold.MM, "= 50.8 mm"}, {`2"`, "mm", fold.MM, "= 50.8 mm"},
		{"2 3/8”", "mm", fold.MM, "= 60.3 mm"}, {"51mm", "mm", fold.MM, ""}, {"5.1 cm", "mm", fold.MM, "= 51 mm"}, {"1/16in", "mm", fold.MM, "= 1.59 mm"}, {"4ft", "mm", fold.MM, ""}, {"16 ga", "mm", fold.MM, ""},
		{"16 ga Manufacturers' Standard", "mm", fold.MM, ""}, {`1250 x 48"`, "mm", fold.MM, ""}, {"1250 x 2500", "mm", fold.MM, "mm"},
		{"40 + 60", "mm", fold.MM, "mm"}, {"1in + 60", "mm", fold.MM, ""}, {"60mm", "in", fold.Inch, "= 2.362 in"}, {"2in", "in", fold.Inch, ""},
		{"2", "in", fold.Inch, "in"}, {"wide in", "mm", fold.MM, ""}, {"90", "°", fold.MM, "°"}, {"90°", "°", fold.MM, ""}, {"7.9", "kg/m³", fold.MM, "kg/m³"}, {"x", "", fold.MM, ""},
	} {
		assert.Equal(t, x.want, UnitBeside(x.text, x.unit, x.shown), x.text)
	}
}

// An empty field is told what it wants.
func TestEmptyField(t *testing.T) {
	for _, text := range []string{"", "  ", "mm", `"`} {
		_, err := ReadLength(text, fold.MM)
		require.ErrorContains(t, err, "a length is wanted here")
	}
	_, err := ReadAngle(" ")
	require.ErrorContains(t, err, "an angle is wanted here")
	_, err = ReadPlain("")
	require.ErrorContains(t, err, "a number is wanted here")
}
