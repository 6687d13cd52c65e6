package paper

// styles are drawn as attributes, not as a style sheet: they hold in every
// reader of SVG and under every content security policy.
// Line kinds follow ISO 128: outlines wide continuous, bend lines and
// dimensions narrow continuous, centre lines long-dash dotted.
var styles = map[string]string{
	"outline":   `fill="none" stroke="#000" stroke-width="0.5" stroke-linejoin="round" stroke-linecap="round"`,
	"metal":     `fill="#f4f5f3" stroke="none"`,
	"bendline":  `fill="none" stroke="#000" stroke-width="0.25"`,
	"tangent":   `fill="none" stroke="#555" stroke-width="0.18" stroke-dasharray="1.6 0.8"`,
	"centre":    `fill="none" stroke="#000" stroke-width="0.2" stroke-dasharray="2.4 0.6 0.4 0.6"`,
	"diagonal":  `fill="none" stroke="#555" stroke-width="0.2" stroke-dasharray="0.35 1.1"`,
	"dimline":   `fill="none" stroke="#555" stroke-width="0.18"`,
	"extension": `fill="none" stroke="#b4b4b4" stroke-width="0.13"`,
	"leader":    `fill="none" stroke="#777" stroke-width="0.13"`,
	"datum":     `fill="none" stroke="#000" stroke-width="0.7"`,
	"sheetedge": `fill="none" stroke="#999" stroke-width="0.18" stroke-dasharray="4 0.8 0.5 0.8 0.5 0.8"`,
	"rule":      `fill="none" stroke="#000" stroke-width="0.3"`,
	"hair":      `fill="none" stroke="#aaa" stroke-width="0.18"`,
	"box":       `fill="#fff" stroke="#000" stroke-width="0.3"`,
	"tick":      `fill="none" stroke="#000" stroke-width="0.25"`,
	"arrow":     `fill="none" stroke="#000" stroke-width="0.35" stroke-linecap="round" stroke-linejoin="round"`,
	"dot":       `fill="#000" stroke="none"`,
	"paper":     `fill="#fff" stroke="none"`,

	"name":  `font-size="7.2" font-weight="700" font-family="Georgia, Charter, 'Times New Roman', serif"`,
	"head":  `font-size="3.6" font-weight="700"`,
	"fact":  `font-size="4.2" font-weight="700"`,
	"body":  `font-size="3.1"`,
	"bold":  `font-size="3.1" font-weight="700"`,
	"note":  `font-size="2.8"`,
	"loud":  `font-size="3.3" font-weight="700"`,
	"dim":   `font-size="2.9"`,
	"dimb":  `font-size="2.9" font-weight="700"`,
	"small": `font-size="2.4"`,
	"ball":  `font-size="2.9" font-weight="700"`,
	"way":   `font-size="2.9"`,
}

// attrs is a class with its style.
func attrs(class string) string { return `class="` + class + `" ` + styles[class] }
