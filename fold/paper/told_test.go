package paper

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/draft"
)

// A part that can't be made as it is says so on every sheet, in the same words; one that can says nothing. How many stops there are
// is counted from the report.
func TestEverySheetTellsOfStops(t *testing.T) {
	for _, part := range []struct {
		name  string
		ready bool
	}{{"fouls", false}, {"slot", true}} {
		p := fold.Build(testParts(t)["testdata/parts/"+part.name+".dryfold"])
		rep := p.Quick()
		n := 0
		for _, x := range rep.Troubles {
			if x.Severity == "stop" {
				n++
			}
		}
		require.Equal(t, part.ready, n == 0, part.name)
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			for _, kind := range []string{"marking", "cutting", "check", "cards", "template"} {
				pages, err := Sheets(kind, p, &rep, Job{Options: Options{Units: u}, Template: TemplateOptions{Units: u}})
				require.NoError(t, err, kind)
				told := strings.Contains(pageWords(pages[0]), fmt.Sprintf("NOT READY TO CUT: %d to put right.", n))
				require.Equal(t, !part.ready, told, "%s, %s, %s", part.name, kind, u)
			}
		}
	}
}

// The blank's sizes read alike on every sheet, whatever the rule.
func TestOneBlankOnAllSheets(t *testing.T) {
	p := fold.Build(testParts(t)["testdata/parts/tray.dryfold"])
	rep := p.Quick()
	for u, want := range map[fold.Units]string{fold.MM: "146.4 × 146.4", fold.Inch: "5.764 × 5.764"} {
		for _, kind := range []string{"marking", "cutting", "check", "template"} {
			pages, err := Sheets(kind, p, &rep, Job{Options: Options{Units: u}, Template: TemplateOptions{Units: u}})
			require.NoError(t, err, kind)
			require.Contains(t, pageWords(pages[0]), want, kind)
		}
	}
}

// pageWords is all that is written on a page.
func pageWords(g draft.Page) string {
	var b strings.Builder
	for _, x := range g.Items {
		b.WriteString(x.Words + " ")
	}
	return b.String()
}
