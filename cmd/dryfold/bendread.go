package main

// Reading the lengths, angles and numbers of a command line. Lengths carry their
// unit; what a bare number may mean is decided over all of them at once, by settle.

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
)

const mmPerInch = 25.4

// length is a length as it was written. Its mm holds once settle has been through it.
type length struct {
	flag, text string
	number     float64     // in its unit
	scale      float64     // of the unit as it was written: 10 for cm, 0.001 for thou, else 1
	unit       string      // "mm", "in"; "" for a bare number; "gauge"
	gauge      metal.Gauge // with unit "gauge"
	mm         float64
	fraction   bool // written as 1/16: without a unit it is in inches, if -units doesn't say else
}

// lengthUnits are the endings that a length may have, longer ones before those they end in.
var lengthUnits = []struct {
	ending, unit string
	scale        float64
}{
	{"mm", "mm", 1}, {"cm", "mm", 10}, {"inches", "in", 1}, {"inch", "in", 1}, {"in.", "in", 1}, {"in", "in", 1},
	{`"`, "in", 1}, {"thou", "in", 0.001},
}

// lengthNeed is what a length that can't be read should have been.
const lengthNeed = `a length with its unit, as 1.5mm, 0.060in or "1/16 in"`

// readLength reads 1.5mm, 0.040in, .04", 1/16in, "1 1/2 in", 40thou, or a bare number.
func readLength(text string) (length, bool) {
	t := strings.ToLower(strings.TrimSpace(text))
	for _, mark := range []string{"”", "“", "″", "''"} {
		t = strings.ReplaceAll(t, mark, `"`)
	}
	l := length{text: text, scale: 1}
	for _, u := range lengthUnits {
		if rest, ok := strings.CutSuffix(t, u.ending); ok {
			t, l.unit, l.scale = strings.TrimSpace(rest), u.unit, u.scale
			break
		}
	}
	v, ok := readNumber(t)
	l.number, l.fraction = v*l.scale, strings.Contains(t, "/")
	return l, ok
}

// readNumber reads 12, -3.5, .04, 1/16, "1 1/2" and 1-1/2, and a decimal comma.
func readNumber(t string) (float64, bool) {
	sign := 1.0
	if rest, ok := strings.CutPrefix(t, "-"); ok {
		sign, t = -1, rest
	}
	sum := 0.0
	if over, under, ok := strings.Cut(t, "/"); ok {
		if i := strings.IndexAny(over, " -"); i > 0 {
			whole, err := strconv.ParseUint(over[:i], 10, 32)
			if err != nil {
				return 0, false
			}
			sum, over = float64(whole), over[i+1:]
		}
		a, errA := strconv.ParseUint(strings.TrimSpace(over), 10, 32)
		b, errB := strconv.ParseUint(strings.TrimSpace(under), 10, 32)
		if errA != nil || errB != nil || b == 0 {
			return 0, false
		}
		return sign * (sum + float64(a)/float64(b)), true
	}
	t = strings.Replace(t, ",", ".", 1)
	if strings.Trim(t, "0123456789.") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(t, 64)
	return sign * v, err == nil
}

// readAngle reads degrees: 90, 82.5, 45°, "30 deg".
func readAngle(text string) (float64, bool) {
	t := strings.ToLower(strings.TrimSpace(text))
	for _, ending := range []string{"°", "degrees", "deg"} {
		if rest, ok := strings.CutSuffix(t, ending); ok {
			t = strings.TrimSpace(rest)
			break
		}
	}
	return readNumber(t)
}

// splitList parts a list at its commas, or at semicolons where it has any: a
// decimal comma can stand in such a one.
func splitList(text string) []string {
	by := ","
	if strings.Contains(text, ";") {
		by = ";"
	}
	return strings.Split(text, by)
}

// flagProblem is what is wrong with the value of a flag.
func flagProblem(name, found, need string) *problem {
	return &problem{Path: &name, Found: found, Need: need}
}

// quoted is a text as it was typed, cut to what fits in a line.
func quoted(text string) string {
	r := []rune(strings.TrimSpace(text))
	if len(r) > 40 {
		r = append(r[:40], []rune("...")...)
	}
	return strconv.Quote(string(r))
}

// settle gives every length its mm. A bare number is in the unit that -units
// names; without it, a fraction is in inches, any other in the one unit that the other lengths are written in; where
// all are bare, in mm. read says which it was. Nothing else is guessed.
func settle(all []*length, units string) (read string, wrong *problem) {
	bare := units
	if bare == "" {
		for _, l := range all {
			if l.unit == "" && l.fraction {
				l.unit, read = "in", fractionsRead
			}
		}
		var named []string
		gauge := false
		for _, l := range all {
			switch {
			case l.unit == "gauge":
				gauge = true
			case l.unit != "" && !slices.Contains(named, l.unit):
				named = append(named, l.unit)
			}
		}
		switch {
		case len(named) == 1:
			bare = named[0]
		case len(named) == 0 && !gauge:
			bare = "mm"
		}
	}
	for _, l := range all {
		unit := l.unit
		if unit == "" {
			if bare == "" && l.number != 0 { // nothing is nothing in any unit
				n := strings.TrimSpace(l.text)
				return "", flagProblem(l.flag, n+" without a unit",
					fmt.Sprintf("%smm or %sin; or -units mm or -units in, for every number without a unit", n, n))
			}
			unit = bare
			if units == "" && l.number != 0 && read != fractionsRead {
				read = "Numbers without a unit are read as " + map[string]string{"mm": "mm; -units in reads them as inches.", "in": "inches; -units mm reads them as mm."}[bare]
			}
		}
		switch unit {
		case "gauge":
			l.mm = l.gauge.Thickness
		case "in":
			l.mm = l.number * mmPerInch
		default:
			l.mm = l.number
		}
	}
	return read, nil
}

// lastUnit gives the legs that have no unit that of the last, as in 1,2,1in, and says which it was; "" where there is none
// to take it.
func lastUnit(legs []*length) (taken string) {
	if len(legs) == 0 {
		return ""
	}
	unit := legs[len(legs)-1].unit
	if unit == "" {
		return ""
	}
	for _, l := range legs {
		if l.unit != "" {
			continue
		}
		l.unit, taken = unit, unit
		l.number *= legs[len(legs)-1].scale
	}
	return taken
}

const fractionsRead = "Fractions without a unit are read as inches; -units mm reads them as mm."

// number is a length in mm as people read it in a unit, without that unit: mm to 0.001, inches to
// 0.0001, which is finer than any handbook prints.
func number(mm float64, u fold.Units) string {
	if u == fold.Inch {
		return noMinus(fmt.Sprintf("%.4f", mm/mmPerInch))
	}
	return noMinus(fmt.Sprintf("%.3f", mm))
}

// both is a given length in the unit asked for, and beside it in the other.
func both(mm float64, u fold.Units) string {
	if u == fold.Inch {
		return fmt.Sprintf("%s (%s)", asGiven(mm, fold.Inch), asGiven(mm, fold.MM))
	}
	return fmt.Sprintf("%s (%s)", asGiven(mm, fold.MM), asGiven(mm, fold.Inch))
}

// asGiven is a length to all its places where they end within 1e-7, so that 0.0703125 in is not cut; else to 0.0001 in or
// 0.0001 mm.
func asGiven(mm float64, u fold.Units) string {
	v, least, most := mm, 3, 4
	if u == fold.Inch {
		v, least, most = mm/mmPerInch, 4, 4
	}
	if math.Abs(v*1e7-math.Round(v*1e7)) < 1e-12*1e7*math.Max(1, math.Abs(v)) {
		most = 7
	}
	return trimTo(v, least, most) + " " + u.String()
}

// trimTo writes a number with at least so many places, and up to most where it has them.
func trimTo(v float64, least, most int) string {
	s := noMinus(fmt.Sprintf("%.*f", most, v))
	for strings.HasSuffix(s, "0") && len(s)-strings.IndexByte(s, '.')-1 > least {
		s = s[:len(s)-1]
	}
	return s
}

func other(u fold.Units) fold.Units {
	if u == fold.Inch {
		return fold.MM
	}
	return fold.Inch
}

// degrees writes an angle with as many places as it has, up to 4.
func degrees(d float64) string {
	return noMinus(trimZeros(fmt.Sprintf("%.4f", math.Round(d*1e4)/1e4)))
}
