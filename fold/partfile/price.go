// What a maker charges by, in a part file: read, judged, written.

package partfile

import (
	"strconv"

	"dryfold/fold"
)

var priceFields = []string{"per_kg", "per_sheet", "sheet", "per_hour", "hours", "currency"}

const (
	priceNeed     = `prices: {"per_kg": ..., "per_hour": ..., "hours": ...}`
	sheetSizeNeed = "a whole sheet's width and height, [w, h]"
)

var currencyNeed = "text of 1 to " + strconv.Itoa(fold.MaxCurrency) + " characters without control characters"

func (d *decoder) price(p *path) (v fold.Price) {
	d.object(p, priceNeed, priceFields, func(key string, p *path) {
		switch key {
		case "per_kg":
			v.PerKg = d.number(p, priceBound().need)
		case "per_sheet":
			v.PerSheet = d.number(p, priceBound().need)
		case "sheet":
			v.Sheet = two(d, p, sheetSizeNeed, func(p *path) float64 { return d.given(p, stripBound(d.units)) })
		case "per_hour":
			v.PerHour = d.number(p, priceBound().need)
		case "hours":
			v.Hours = d.number(p, hoursBound().need)
		case "currency":
			v.Currency = d.word(p, currencyNeed)
		}
	})
	return v
}

func (c *checker) price(p *path) {
	v := c.spec.Price
	c.number(p.field("per_kg"), v.PerKg, priceBound())
	c.number(p.field("per_sheet"), v.PerSheet, priceBound())
	if v.Sheet != [2]float64{} {
		c.number(p.field("sheet").item(0), v.Sheet[0], stripBound(c.spec.Units))
		c.number(p.field("sheet").item(1), v.Sheet[1], stripBound(c.spec.Units))
	}
	c.number(p.field("per_hour"), v.PerHour, priceBound())
	c.number(p.field("hours"), v.Hours, hoursBound())
	if v.Currency != "" {
		c.string(p.field("currency"), v.Currency, 1, fold.MaxCurrency, "", currencyNeed)
	}
}

func priceText(v fold.Price) string {
	return object("per_kg", figure(v.PerKg), "per_sheet", figure(v.PerSheet), "sheet", pair(v.Sheet, number),
		"per_hour", figure(v.PerHour), "hours", figure(v.Hours), "currency", maybe(v.Currency))
}
