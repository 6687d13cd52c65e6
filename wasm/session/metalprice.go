package session

// This file holds the price: what the maker charges by, as typed.

import (
	"fmt"
	"strings"

	"dryfold/fold"
)

// PriceFields are the names of the price's fields, for SetPrice and PriceText.
var PriceFields = []string{"per-kg", "per-sheet", "sheet", "per-hour", "hours", "currency"}

// PriceField is the key of a price's field, for errors and focus.
func PriceField(what string) string { return "price-" + what }

func priceAt(p *fold.Price, what string) *float64 {
	switch what {
	case "per-kg":
		return &p.PerKg
	case "per-sheet":
		return &p.PerSheet
	case "per-hour":
		return &p.PerHour
	case "hours":
		return &p.Hours
	}
	return nil
}

// PriceText is a price's field as it is shown, "" for what is not said.
func (s *Session) PriceText(what string) string {
	p := s.Part().Spec.Price
	switch k := s.Part().Spec.Units.Scale(); {
	case what == "currency":
		return p.Currency
	case what == "sheet" && p.Sheet[0] > 0:
		return FieldLength(p.Sheet[0]*k, s.units) + " × " + FieldLength(p.Sheet[1]*k, s.units)
	}
	if v := priceAt(&p, what); v != nil && *v != 0 {
		return trimmed(*v, 4)
	}
	return ""
}

// SetPrice takes what was typed in a field of the price; "" leaves it unsaid.
func (s *Session) SetPrice(what, text string) error {
	field := PriceField(what)
	next := s.spec
	if what == "currency" {
		name, err := readName(text)
		if err == nil && len([]rune(name)) > fold.MaxCurrency {
			err = fmt.Errorf("%s is no currency. Up to %d characters would do, as EUR, $ or kr", quoted(text), fold.MaxCurrency)
		}
		if err != nil {
			return s.refuse(field, text, err)
		}
		next.Price.Currency = name
		return s.take(field, text, next)
	}
	if what == "sheet" {
		z, err := s.readSheet(text)
		if err != nil {
			return s.refuse(field, text, err)
		}
		next.Price.Sheet = z
		return s.take(field, text, next)
	}
	at := priceAt(&next.Price, what)
	if at == nil {
		return fmt.Errorf("a price has no figure called %s", what)
	}
	v, err := 0.0, error(nil)
	switch {
	case blank(text):
	case what == "hours":
		v, err = readHours(text)
	default:
		var ok bool
		if v, ok = readNumber(strings.TrimSpace(text)); !ok || v < 0 || v > fold.MaxPrice {
			err = fmt.Errorf("%s is no price. A figure of 0 or more would do, as 4.20", quoted(text))
		}
	}
	if err != nil {
		return s.refuse(field, text, err)
	}
	*at = v
	return s.take(field, text, next)
}

// readSheet reads a whole sheet's size, "1250 x 2500", and gives it in the part's own units; zeros for
// one that is not said.
func (s *Session) readSheet(text string) (z [2]float64, err error) {
	if blank(text) {
		return z, nil
	}
	t := strings.ToLower(text)
	for _, by := range []string{"×", "*", "by"} {
		t = strings.ReplaceAll(t, by, "x")
	}
	sides := strings.Split(t, "x")
	if len(sides) != 2 {
		return z, fmt.Errorf("%s is no size of a sheet. Both sides would do, as 1250 x 2500mm or 48\" x 96\"", quoted(text))
	}
	for i, side := range sides {
		v, err := ReadLength(side, s.units)
		if err == nil && (v < fold.MinSize || v > fold.MaxSize) {
			err = fmt.Errorf("%s is no side of a sheet. It wants more than nothing", quoted(side))
		}
		if err != nil {
			return z, err
		}
		z[i] = s.own(v)
	}
	return z, nil
}

// mostHours is longer than anyone folds at one part.
const mostHours = 10_000

// readHours reads 1.5, 1 1/2 h, 90 min.
func readHours(text string) (float64, error) {
	t, by := strings.ToLower(strings.TrimSpace(text)), 1.0
	for _, u := range []scaled{{"hours", 1}, {"hour", 1}, {"h", 1}, {"minutes", 1. / 60}, {"min", 1. / 60}} {
		if rest, ok := strings.CutSuffix(t, u.suffix); ok {
			t, by = strings.TrimSpace(rest), u.by
			break
		}
	}
	v, ok := readNumber(t)
	if v *= by; !ok || v < 0 || v > mostHours {
		return 0, fmt.Errorf("%s is no time of work. Hours would do, as 1.5, or minutes, as 90 min", quoted(text))
	}
	return tidy(v), nil
}
