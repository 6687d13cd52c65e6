package sizes

import (
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	gotoken "go/token"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var seed = flag.Uint64("seed", 4, "seed of the random tests; 0 takes a new one")

// form has the named sizes "name = formula".
func form(lines ...string) *Form {
	f := &Form{}
	for _, l := range lines {
		name, is, _ := strings.Cut(l, " = ")
		f.Named = append(f.Named, Named{Name: name, Is: Of(is)})
	}
	return f
}

// TestFormulas: values worked by hand, in a part in mm and in one in inches.
func TestFormulas(t *testing.T) {
	for _, c := range []struct {
		formula  string
		mm, inch float64
	}{
		{"12", 12, 12},
		{" 12.5 ", 12.5, 12.5},
		{".5", 0.5, 0.5},
		{"1/2", 0.5, 0.5},
		{"2 3/8", 2.375, 2.375},
		{"-2 3/8", -2.375, -2.375},
		{"2 3/8 * 2", 4.75, 4.75},
		{"4 / 2 1/2", 1.6, 1.6},
		{"2 - 3/8", 1.625, 1.625},
		{"1/2 in", 12.7, 0.5},
		{`1/2"`, 12.7, 0.5},
		{`2 3/8"`, 60.325, 2.375},
		{"2 3/8in", 60.325, 2.375},
		{"25.4mm", 25.4, 1},
		{"1in + 2.54 mm", 27.94, 1.1},
		{"50.8 mm / 2", 25.4, 1},
		{"8/2 in", 101.6, 4},
		{"3/8/2", 0.1875, 0.1875},
		{"rail - 12", 388, 388},
		{"rail − 12", 388, 388},
		{"rail – 12 × 2", 376, 376},
		{"rail - 12 - 8", 380, 380},
		{"rail - (12 - 8)", 396, 396},
		{"rail/4/5", 20, 20},
		{"rail ÷ 4 · 5", 500, 500},
		{"2 + 3 * 4", 14, 14},
		{"(2 + 3) * 4", 20, 20},
		{"-rail", -400, -400},
		{"- -rail", 400, 400},
		{"3 - -2", 5, 5},
		{"-3 * -2", 6, 6},
		{"+3", 3, 3},
		{"0 * -1", 0, 0},
		{"min(rail, 120)", 120, 120},
		{"max(rail, 120, 500)", 500, 500},
		{"min(3,2,1)", 1, 1},
		{"sqrt(3*3 + 4*4)", 5, 5},
		{"sin(30)", 0.5, 0.5},
		{"cos(60)", 0.5, 0.5},
		{"cos(90)", 0, 0},
		{"sin(-90)", -1, -1},
		{"sin(210)", -0.5, -0.5},
		{"cos(480)", -0.5, -0.5},
		{"tan(45)", 1, 1},
		{"tan(-135)", 1, 1},
		{"asin(0.5)", 30, 30},
		{"acos(0.5)", 60, 60},
		{"acos(0)", 90, 90},
		{"atan(1)", 45, 45},
		{"90° - atan(3/4)", 53.13010235415598, 53.13010235415598}, // the 3-4-5 triangle's larger angle
		{"2 * pi", 2 * math.Pi, 2 * math.Pi},
		{"höhe_2 + 1", 8, 8},
		{"((((((((((((((((((((7))))))))))))))))))))", 7, 7},
		{"1234567890.5", 1234567890.5, 1234567890.5},
	} {
		for unit, want := range map[float64]float64{1: c.mm, 25.4: c.inch} {
			v, errs := form("rail = 400", "höhe_2 = 7").Values(unit)
			require.Empty(t, errs)
			got, err := v.Num(Of(c.formula))
			require.NoError(t, err, c.formula)
			assert.InDelta(t, want, got, 4e-16*math.Abs(want), "%q with units of %v mm", c.formula, unit)
			assert.False(t, got == 0 && math.Signbit(got), "minus zero from %q", c.formula)
		}
	}
}

// TestFormulasRefused: what is wrong and what would do, word for word.
func TestFormulasRefused(t *testing.T) {
	long := strings.Repeat("1+", 100) + "1"
	for _, c := range []struct{ formula, found, need string }{
		{" ", "nothing", "a number or a formula, such as 120 or rail - 12"},
		{"rial - 12", `the name rial in "rial - 12"`, "one of the named sizes: rail, depth"},
		{"rial", `the name rial`, "one of the named sizes: rail, depth"},
		{"rail -", `"rail -": it ends too soon`, "a number, a name or ( after -"},
		{"* 2", `"* 2": * too soon`, "a number, a name or ( to begin with"},
		{"rail + * 2", `"rail + * 2": * too soon`, "a number, a name or ( after +"},
		{"2 rail", `"2 rail": no sign between 2 and rail`, "+ - * or / between them"},
		{"2(3)", `"2(3)": no sign between 2 and (`, "+ - * or / between them"},
		{"2 3", `"2 3": no sign between 2 and 3`, "+ - * or / between them"},
		{"1e5", `"1e5": no sign between 1 and e5`, "+ - * or / between them"},
		{"0x10", `"0x10": no sign between 0 and x10`, "+ - * or / between them"},
		{"1_000", `"1_000": "_"`, ""},
		{"inf", `the name inf`, "one of the named sizes: rail, depth"},
		{"NaN", `the name NaN`, "one of the named sizes: rail, depth"},
		{"1.2.3", `"1.2.3": 1.2.3`, "a number with one point at most"},
		{".", `".": .`, "a number with one point at most"},
		{"12,5", `"12,5": a comma`, "a point in decimals, as 12.5; commas stand only between what min and max choose from"},
		{"(12,5)", `"(12,5)": a comma`, "a point in decimals, as 12.5; commas stand only between what min and max choose from"},
		{"sqrt(12,5)", `"sqrt(12,5)": sqrt of 2 numbers`, "one number; a point in decimals, as 12.5"},
		{"min(3)", `"min(3)": min of one number`, "two or more to choose from, with commas between them"},
		{"min()", `"min()": ) too soon`, "a number, a name or ( after ("},
		{"(rail", `"(rail": ( without its )`, "as many ) as ("},
		{"max(rail, 2", `"max(rail, 2": max( without its )`, "as many ) as ("},
		{"rail)", `"rail)": ) without its (`, "as many ( as )"},
		{"rail mm", `"rail mm": mm after "rail"`, "a unit only after a number"},
		{"12 mm mm", `"12 mm mm": mm after "mm"`, "a unit only after a number"},
		{"mm", `"mm": mm without a number`, "a number before it, as 12 mm"},
		{"sqrt 2", `"sqrt 2": sqrt without its (`, "what it is of in parentheses, as sqrt(2)"},
		{"rail(2)", `"rail(2)": rail before a (`, "* between them, or one of min, max, sqrt, sin, cos, tan, asin, acos, atan"},
		{"exp(2)", `"exp(2)": exp before a (`, "* between them, or one of min, max, sqrt, sin, cos, tan, asin, acos, atan"},
		{"rail & 2", `"rail & 2": "&"`, ""},
		{"& 2", `"& 2": "&"`, "numbers, names, + - * / ( ), mm, in, pi and min, max, sqrt, sin, cos, tan, asin, acos, atan"},
		{"rail / (depth - 388)", `"rail / (depth - 388)": it divides by (depth - 388), which is 0`, "anything but 0 to divide by"},
		{"1/0 in", `"1/0 in": it divides by 0`, "anything but 0 to divide by"},
		{"1/0", `"1/0": it divides by 0, which is 0`, ""},
		{"2 0/0", `"2 0/0": 2 0/0`, ""},
		{"2 12/8", `"2 12/8": 2 12/8`, "a fraction under 1 after the whole number, as 2 3/8; or a sign between them"},
		{"2-3/8", `"2-3/8": 2-3/8, which can be read in two ways`, "2 3/8 for the two together, or 2 - 3/8 with spaces for the difference"},
		{"sqrt(rail - 401)", `"sqrt(rail - 401)": sqrt of -1`, "0 or more to take the root of"},
		{"asin(1.5)", `"asin(1.5)": asin of 1.5`, "-1 to 1, such as a height divided by a slope"},
		{"tan(90)", `"tan(90)": tan of 90 degrees`, "another angle: tan has no value at 90 and 270 degrees"},
		{"1" + strings.Repeat("0", 16), "", "numbers up to 1000000000000000"},
		{strings.Repeat("9", 200), "", "numbers up to 1000000000000000"},
		{"999999999999 * 999999999999", `"999999999999 * 999999999999": it comes to too large a number`, "numbers up to 1000000000000000"},
		{"1 / 0.0000000000000001", "", "numbers up to 1000000000000000"},
		{long, "a formula of 201 characters", "at most 200: give its parts names of their own"},
		{strings.Repeat("(", 21) + "1" + strings.Repeat(")", 21), "", "its parts with names of their own"},
		{strings.Repeat("-", 21) + "1", "", "its parts with names of their own"},
		{"12 \x00", `"12": a character that can't be shown`, ""},
		{"12 \xff", "", ""},
	} {
		v, errs := form("rail = 400", "depth = rail - 12").Values(1)
		require.Empty(t, errs)
		got, err := v.At("sizes.gap", Of(c.formula))
		require.NotNil(t, err, "%q came to %v", c.formula, got)
		assert.Equal(t, "sizes.gap", err.Path)
		assert.Zero(t, got)
		if c.found != "" {
			assert.Contains(t, err.Found, c.found)
		}
		assert.NotEmpty(t, err.Need)
		if c.need != "" {
			assert.Equal(t, c.need, err.Need, c.formula)
		}
	}
	v := &Values{}
	for _, f := range []Field{{}, Is(math.NaN()), Is(math.Inf(1)), Is(-1e16), Of("rail")} {
		_, err := v.Num(f)
		assert.Error(t, err, "%+v", f)
	}
}

func TestNamedInAnyOrder(t *testing.T) {
	f := form("depth = rail - 12", "lid = depth + 2 * play", "rail = 400", "play = 1/2")
	f.Named[2].Is = Is(400)
	v, errs := f.Values(1)
	require.Empty(t, errs)
	got, err := v.Num(Of("lid"))
	require.NoError(t, err)
	assert.Equal(t, 389.0, got)
}

// TestNamedRefused: circles by name, one problem for each thing that is wrong, in the form's order.
func TestNamedRefused(t *testing.T) {
	for _, c := range []struct {
		lines []string
		want  []string
	}{
		{[]string{"depth = rail - 12", "rail = depth + 12", "lid = depth + 1", "play = 2"},
			[]string{"sizes.named[0].is: found depth uses rail, rail uses depth; need one of them given as a number, or by others"}},
		{[]string{"lid = c + 1", "a = b", "c = a", "b = c"},
			[]string{"sizes.named[1].is: found a uses b, b uses c, c uses a; need one of them given as a number, or by others"}},
		{[]string{"a = 2 * a"}, []string{"sizes.named[0].is: found a uses a; need a number, or a formula over other sizes"}},
		{[]string{"b = a + 1", "a = 1 / 0", "c = a"},
			[]string{`sizes.named[1].is: found "1 / 0": it divides by 0, which is 0; need anything but 0 to divide by`}},
		{[]string{"a = 1", "a = 2"}, []string{`sizes.named[1].name: found "a", which another size has; need a name of its own`}},
		{[]string{"2a = 1", "a b = 1", "_a = 1", " = 1", "pi = 3", "mm = 2", "sin = 2", strings.Repeat("x", 41) + " = 1"}, []string{
			`sizes.named[0].name: found "2a"; need letters, digits and _, beginning with a letter`,
			`sizes.named[1].name: found "a b"; need letters, digits and _, beginning with a letter`,
			`sizes.named[2].name: found "_a"; need letters, digits and _, beginning with a letter`,
			`sizes.named[3].name: found nothing; need a name, such as rail`,
			`sizes.named[4].name: found "pi", which formulas use themselves; need another name, such as pi_1`,
			`sizes.named[5].name: found "mm", which formulas use themselves; need another name, such as mm_1`,
			`sizes.named[6].name: found "sin", which formulas use themselves; need another name, such as sin_1`,
			`sizes.named[7].name: found 41 characters; need at most 40`}},
	} {
		_, errs := form(c.lines...).Values(1)
		var got []string
		for _, e := range errs {
			got = append(got, e.Error())
		}
		assert.Equal(t, c.want, got)
	}
	v, errs := form("b = a + 1", "a = 1 / 0").Values(1)
	assert.Len(t, errs, 1)
	_, err := v.Num(Of("b"))
	assert.EqualError(t, err, "found the size b, which can't be worked out itself; need b put right first")

	_, errs = (&Form{Named: make([]Named, 101)}).Values(1)
	require.Len(t, errs, 1)
	assert.EqualError(t, errs[0], "sizes.named: found 101 named sizes; need at most 100")

	// The longest chain there may be, each as deep as may be.
	f := &Form{}
	for i := range MaxNamed {
		f.Named = append(f.Named, Named{Name: fmt.Sprintf("n%d", i), Is: Of(strings.Repeat("(", 20) + fmt.Sprintf("n%d", i+1) + strings.Repeat(")", 20))})
	}
	f.Named[MaxNamed-1].Is = Is(3)
	v, errs = f.Values(1)
	require.Empty(t, errs)
	x, err := v.Num(Of("n0"))
	require.NoError(t, err)
	assert.Equal(t, 3.0, x)
	f.Named[MaxNamed-1].Is = Of("n0")
	_, errs = f.Values(1)
	require.Len(t, errs, 1)
	assert.Contains(t, errs[0].Found, "n0 uses n1, n1 uses n2")
	assert.Contains(t, errs[0].Found, "and so on, n99 uses n0")
}

// goValue works an expression out from Go's own parser's tree.
func goValue(e ast.Expr) float64 {
	switch e := e.(type) {
	case *ast.BasicLit:
		x, _ := strconv.ParseFloat(e.Value, 64)
		return x
	case *ast.ParenExpr:
		return goValue(e.X)
	case *ast.UnaryExpr:
		return -goValue(e.X)
	case *ast.BinaryExpr:
		x, y := goValue(e.X), goValue(e.Y)
		switch e.Op {
		case gotoken.ADD:
			return x + y
		case gotoken.SUB:
			return x - y
		case gotoken.MUL:
			return x * y
		}
		return x / y
	case *ast.CallExpr:
		x := goValue(e.Args[0])
		switch e.Fun.(*ast.Ident).Name {
		case "min":
			return math.Min(x, goValue(e.Args[1]))
		case "max":
			return math.Max(x, goValue(e.Args[1]))
		}
		return math.Sqrt(x)
	}
	panic(fmt.Sprintf("%T", e))
}

// TestFormulasAgainstGo: random formulas mean what they mean to Go's parser.
func TestFormulasAgainstGo(t *testing.T) {
	n := *seed
	if n == 0 {
		n = uint64(time.Now().UnixNano())
	}
	t.Logf("-seed %d", n)
	rnd := rand.New(rand.NewPCG(n, 1))
	var write func(depth int) string
	write = func(depth int) string {
		if depth == 0 || rnd.IntN(6) == 0 {
			return strconv.FormatFloat(math.Round(rnd.Float64()*1e4)/100, 'f', -1, 64)
		}
		switch rnd.IntN(8) {
		case 0:
			return "(" + write(depth-1) + ")"
		case 1:
			return "- " + write(0)
		case 2:
			return []string{"min", "max"}[rnd.IntN(2)] + "(" + write(depth-1) + ", " + write(depth-1) + ")"
		case 3:
			return "sqrt(" + write(depth-1) + ")"
		}
		return write(depth-1) + []string{" + ", " - ", " * ", " / "}[rnd.IntN(4)] + write(depth-1)
	}
	compared, refused := 0, 0
	for range 20000 {
		text := write(4)
		if len(text) > MaxFormula {
			continue
		}
		tree, err := parser.ParseExpr(text)
		require.NoError(t, err, text)
		want := goValue(tree)
		got, e := evaluate(text, 1, nil)
		if e != nil {
			// A step of it has no value or one too large; the whole then mostly has none either.
			refused++
			assert.Regexp(t, "sqrt of -|divides by|too large", e.Found, text)
			continue
		}
		compared++
		assert.Equal(t, want, got, text)
	}
	assert.Greater(t, compared, 10000)
	t.Logf("%d compared, %d refused", compared, refused)
}

// every is a form in which each field is given, with its path's number.
func every() *Form {
	p := []Point{{}, {Through: true}}
	f := &Form{
		Named:   []Named{{Name: "rail"}, {Name: "turn", Angle: true}},
		Base:    Base{Points: p, Measured: &Measured{Sides: make([]Field, 4), Diagonals: make([]Field, 2), Angles: make([]Field, 1), Stations: make([]Station, 1)}},
		Flanges: []Flange{{}, {Edge: append([]Point(nil), p...), Hem: &Hem{}, Joggle: &Joggle{}, Faces: new(Faces)}},
		Corners: []Corner{{}, {Relief: &Relief{}}},
		Holes:   []Hole{{Points: append([]Point(nil), p...)}},
	}
	return f
}

func TestFields(t *testing.T) {
	f := every()
	var paths []string
	var angles []string
	f.Fields(func(path string, field *Field, angle bool) {
		paths = append(paths, path)
		if angle {
			angles = append(angles, path)
		}
		*field = Is(float64(len(paths)))
	})
	assert.Equal(t, []string{"sizes.named[1].is", "sizes.base.measured.angles[0]", "sizes.flanges[0].angle", "sizes.flanges[0].lean_start", "sizes.flanges[0].lean_end",
		"sizes.flanges[1].angle", "sizes.flanges[1].lean_start", "sizes.flanges[1].lean_end", "sizes.flanges[1].joggle.angle", "sizes.holes[0].turn"}, angles)
	for _, p := range []string{"sizes.flanges[1].height_end", "sizes.base.wide_back", "sizes.base.measured.sides[1]", "sizes.holes[0].row_step",
		"sizes.base.points[1].through[1]", "sizes.holes[0].points[1].to[0]", "sizes.flanges[1].edge[0][1]", "sizes.corners[1].relief.size", "sizes.base.measured.stations[0].left"} {
		assert.Contains(t, paths, p)
	}
	seen := map[string]bool{}
	for _, p := range paths {
		assert.False(t, seen[p], p)
		seen[p] = true
	}
	// No Field is left out: of all that Go prints, the places of the arcs that are none alone are not given.
	printed := fmt.Sprintf("%+v %+v %+v %+v %+v", *f.Base.Measured, f.Flanges[1].Hem, f.Flanges[1].Joggle, f.Corners[1].Relief, *f)
	assert.Equal(t, 3*2, strings.Count(printed, "Given:false"), printed)
}

func TestClone(t *testing.T) {
	f := every()
	c := f.Clone()
	assert.Equal(t, f, c)
	c.Fields(func(_ string, field *Field, _ bool) { *field = Is(7) })
	*c.Flanges[1].Faces = Card
	assert.Equal(t, every(), f, "the form changed with its copy")
	assert.Nil(t, (*Form)(nil).Clone())
}

func TestUsesAndRename(t *testing.T) {
	f := form("rail = 400", "depth = rail - 12", "trail = 3")
	f.Base.Wide = Of("max(rail,trail)*rail")
	f.Gap = Of("trail")
	f.Holes = []Hole{{X: Of("rail / "), Y: Is(3)}} // wrong formulas count too
	assert.Equal(t, []string{"sizes.named[1].is", "sizes.base.wide", "sizes.holes[0].x"}, f.Uses("rail"))
	assert.Empty(t, f.Uses("ail"))
	assert.Empty(t, f.Uses(""))

	before := f.Clone()
	for _, c := range []struct{ old, name, want string }{
		{"rial", "x", `sizes.named: found no size of the name "rial"; need one that there is`},
		{"rail", "depth", `sizes.named[0].name: found "depth", which another size has; need a name of its own`},
		{"trail", "rail", `sizes.named[2].name: found "rail", which another size has; need a name of its own`},
		{"rail", "tan", `sizes.named[0].name: found "tan", which formulas use themselves; need another name, such as tan_1`},
	} {
		e := f.Rename(c.old, c.name)
		require.NotNil(t, e)
		assert.EqualError(t, e, c.want)
		assert.Equal(t, before, f)
	}
	require.Nil(t, f.Rename("rail", "width_over_rails"))
	assert.Equal(t, Of("max(width_over_rails,trail)*width_over_rails"), f.Base.Wide)
	assert.Equal(t, Of("width_over_rails / "), f.Holes[0].X)
	assert.Equal(t, Of("trail"), f.Gap)
	v, errs := f.Values(1)
	require.Empty(t, errs)
	x, err := v.Num(Of("depth"))
	require.NoError(t, err)
	assert.Equal(t, 388.0, x)

	f.Gap = Of(strings.Repeat("trail+", 30) + "1")
	before = f.Clone()
	e := f.Rename("trail", strings.Repeat("x", 40))
	require.NotNil(t, e)
	assert.Equal(t, "sizes.gap", e.Path)
	assert.Equal(t, before, f)
}

// FuzzFormula: any text is a finite number or refused, the same with its names changed
// and changed back.
func FuzzFormula(f *testing.F) {
	for _, s := range []string{"rail - 12", "2 3/8 in", "min(rail, -1/2\")", "((rail)", "1e309", "tan(90)/0", "2-3/8", "rail rail(rail", "\xff1"} {
		f.Add(s, false)
		f.Add(s, true)
	}
	f.Fuzz(func(t *testing.T, text string, inch bool) {
		unit := 1.0
		if inch {
			unit = 25.4
		}
		m := form("rail = 400", "depth = rail - 12")
		m.Gap = Of(text)
		v, errs := m.Values(unit)
		if len(errs) > 0 {
			t.Fatal(errs)
		}
		x, e := v.At("sizes.gap", m.Gap)
		if math.Abs(x) > maxValue || x != x || e != nil && (x != 0 || e.Need == "" || len(e.Error()) > 400) {
			t.Fatal(x, e)
		}
		if m.Rename("rail", "r9_") != nil || strings.Contains(text, "r9_") {
			return
		}
		v, _ = m.Values(unit)
		if y, e2 := v.At("sizes.gap", m.Gap); y != x || (e == nil) != (e2 == nil) {
			t.Fatalf("%q: %v %v; renamed %v %v", text, x, e, y, e2)
		}
		if e := m.Rename("r9_", "rail"); e == nil && m.Gap.Formula != text {
			t.Fatalf("%q became %q", text, m.Gap.Formula)
		}
	})
}
