package screen

import (
	"testing"

	"dryfold/fold"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A shared page tells the price where the maker wrote one that can be reckoned, and nothing of K or of how it is reckoned.
func TestSharedPrice(t *testing.T) {
	shared := func(price fold.Price, metal string) string {
		c := springy(t, func(s *fold.Spec) { s.Price, s.Sheet.Metal = price, metal })
		link, err := c.S.Link()
		require.NoError(t, err)
		require.NoError(t, c.S.OpenLink(link))
		page := body(c)
		soundPage(t, page, "shared")
		return page.Words()
	}
	words := shared(fold.Price{PerHour: 55, Hours: 2.5, Currency: "EUR"}, "Stainless 304")
	assert.Contains(t, words, "Price 137.50 EUR")
	assert.NotRegexp(t, `\bK\b`, words)
	assert.NotContains(t, words, "an hour")
	assert.NotContains(t, shared(fold.Price{}, "Stainless 304"), "Price")
	assert.NotContains(t, shared(fold.Price{PerKg: 6, PerHour: 55, Hours: 2.5}, "some metal"), "Price", "what the metal costs is not known")
}
