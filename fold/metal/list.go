package metal

// This file holds the list of metals, each figure with its source. A source marked as from memory
// was recalled, not read in a stored text; a figure that no source gives is left out.

const (
	lbPerIn3 = 27679.9047      // kg/m3 in one lb/in3, by definition of pound and inch
	ksi      = 6.8947572931684 // MPa in one ksi, by definition of pound and inch
)

// read is a figure read in a stored text of the document, recalled one that was remembered of it.
func read(lo, hi, unit float64, title string) Fact {
	return Fact{Range{lo * unit, hi * unit}, Source{Kind: Published, Title: title}}
}

func recalled(lo, hi, unit float64, title string) Fact {
	f := read(lo, hi, unit, title)
	f.Source.Memory = true
	return f
}

const (
	a36      = "textbook table for A36 steel"
	a304     = "AISI 304 data sheet"
	alTable  = "aluminium property table"
	alHand   = "handbook table of aluminium alloys"
	alTyp    = "Aluminum Association, Aluminum Standards and Data"
	c26000   = "C26000 alloy data"
	cda      = "C11000 handbook value, CDA/ASM"
	acrossIt = "Bend lines at 90 degrees to the grain where possible (FAA-H-8083-31 ch. 4)."
	steelWay = acrossIt + " By DIN 6935 (from memory) steel up to 3 mm bends as tight along it as across."
	brassWay = acrossIt + " The harder tempers want more radius along it (C26000 data sheet)."
	filler   = " Tack at both ends and the middle, then between; cool between tacks (common practice)."
)

var (
	steelDensity = read(7850, 7850, 1, a36)
	steelModulus = read(29, 29, 1000*ksi, a36)
	al6061       = read(.098, .098, lbPerIn3, alTable)
	alModulus    = read(10, 10, 1000*ksi, alHand)
	copperMass   = recalled(.322, .322, lbPerIn3, cda)
	copperE      = recalled(17, 17, 1000*ksi, cda)
	brassMass    = read(.308, .308, lbPerIn3, c26000)
	brassE       = read(16, 16, 1000*ksi, c26000)
)

const (
	fumes    = "Zinc burns off when welded, and its fumes cause metal fume fever: strip the coating at the joint, exhaust at the arc, keep your head out of the fumes (AWS Safety and Health Fact Sheet 25; 29 CFR 1910.252)."
	brassZn  = "Brass gives off zinc when brazed or welded, and the fumes cause metal fume fever: exhaust at the joint, keep your head out of the fumes (common practice)."
	chromium = "Fumes of welding stainless carry hexavalent chromium: exhaust at the arc, keep your head out of the fumes (29 CFR 1910.1026, from memory)."
	noScribe = "Mark bend lines on aluminium with a soft pencil: a scribed line on the outside of a bend starts a crack (common practice)."

	steelWeld   = "MIG or TIG." + filler
	alWeld      = "TIG or MIG after the oxide is brushed off (common practice)."
	copperJoins = "Soft-soldered or brazed; draws heat away fast when welded (common practice)."
	oxide       = "None; its oxide must come off before welding (common practice)."
	films       = "A film on the good face keeps marks of nose and leaf off (common practice)."
)

// Metals, in the order they are offered.
var Metals = []Metal{
	{
		Name: "Stainless 304", Aliases: []string{"304", "stainless", "304 stainless", "stainless steel", "304 annealed"},
		Family: "stainless", Temper: Hard, Constant: .71,
		Density: read(.289, .289, lbPerIn3, a304), Modulus: read(28, 29, 1000*ksi, a304),
		Yield:     read(30, 31.2, ksi, "ASTM A213 / SA-213 minimum, AISI 304 data sheet typical"),
		Tensile:   read(73.2, 75, ksi, "AISI 304 data sheet typical, ASTM A213 / SA-213 minimum"),
		GrainNote: acrossIt, Weld: "TIG; shield the back of the seam." + filler, Coating: films,
		Cautions: []string{chromium},
		Note:     "Annealed sheet. Real sheet often yields above the figures of the standard, and then springs back more (common practice).",
		rows:     []string{"18-8 type 304 stainless", "austenitic stainless soft", "annealed sheet"},
	},
	{
		Name: "Mild steel", Aliases: []string{"steel", "cold-rolled steel", "low-carbon steel", "cr steel", "cold-rolled mild steel", "crs"},
		Family: "steel", Temper: Hard, Constant: .71,
		Density: steelDensity, Modulus: steelModulus,
		Yield:     recalled(20, 40, ksi, "ASTM A1008 CS, typical range"),
		Tensile:   recalled(270, 410, 1, "EN 10130, DC01"),
		GrainNote: steelWay, Weld: steelWeld, Coating: "None; oiled or it rusts (common practice).",
		Note: "Cold-rolled low-carbon sheet of commercial quality.",
		rows: []string{"low-carbon steel", "low-carbon / low-alloy / HSLA steel"},
	},
	{
		Name: "Galvanized steel", Aliases: []string{"galvanised steel", "galvanized", "galvanised", "zinc-coated steel", "galv"},
		Family: "steel", Temper: Hard, Constant: .71,
		Density: Fact{steelDensity.Range, Source{Kind: Published, Title: a36 + "; its zinc not counted"}}, Modulus: steelModulus,
		Yield:     recalled(30, 55, ksi, "ASTM A653 CS-B, typical range"),
		Tensile:   recalled(270, 500, 1, "EN 10346, DX51D"),
		GrainNote: steelWay, Weld: "MIG or TIG after the zinc is ground off at the joint." + filler,
		Coating:  "Zinc: G90 is 0.9 oz/ft2, both sides together (ASTM A653, from memory). Galvanized gauges count it in the thickness. It may flake at sharp bends (common practice).",
		Cautions: []string{fumes}, gauges: "galvanized",
		rows: []string{"low-carbon steel", "low-carbon / low-alloy / HSLA steel"},
	},
	{
		Name: "Soft steel", Aliases: []string{"annealed steel", "1020", "1025", "aisi 1025"},
		Family: "steel", Temper: Hard, Constant: .64,
		Density: steelDensity, Modulus: steelModulus,
		Yield:     read(36, 36, ksi, "MMPDS-01, AISI 1025 sheet, minimum"),
		Tensile:   read(55, 55, ksi, "MMPDS-01, AISI 1025 sheet, minimum"),
		GrainNote: steelWay, Weld: steelWeld, Coating: "None; oiled or it rusts (common practice).",
		Note: "Annealed low-carbon steel; figures of AISI 1025.",
		rows: []string{"1020", "low-carbon steel", "low-carbon / low-alloy / HSLA steel soft", "annealed sheet"},
	},
	{
		Name: "Aluminium 5052-H32", Aliases: []string{"5052-h32", "5052", "aluminium 5052"},
		Family: "aluminium", Temper: Soft, Constant: .64,
		Density: read(.097, .097, lbPerIn3, "Aluminum Association data"), Modulus: read(10.2, 10.2, 1000*ksi, alHand),
		Yield:     read(23, 193/ksi, ksi, alHand+", minimum; aluminium data sheet, typical"),
		Tensile:   read(31, 31, ksi, alHand+", minimum"),
		GrainNote: acrossIt, Weld: alWeld, Coating: oxide, Cautions: []string{noScribe},
		rows: []string{"5052-H32", "aluminium alloys"},
	},
	{
		Name: "Aluminium 3003-H14", Aliases: []string{"3003-h14", "3003", "aluminium 3003"},
		Family: "aluminium", Temper: Soft, Constant: .64,
		Density: read(.099, .099, lbPerIn3, alTable), Modulus: alModulus,
		Yield:     recalled(17, 21, ksi, "Aluminum Design Manual, minimum; Aluminum Association, typical"),
		Tensile:   recalled(22, 22, ksi, "Aluminum Association, typical"),
		GrainNote: acrossIt, Weld: alWeld, Coating: oxide, Cautions: []string{noScribe},
		rows: []string{"3003-H14", "aluminium alloys"},
	},
	{
		Name: "Aluminium 6061-T4", Aliases: []string{"6061-t4"},
		Family: "aluminium", Temper: Soft, Constant: .64,
		Density: al6061, Modulus: alModulus,
		Yield:     recalled(16, 21, ksi, alTyp+": sheet minimum, typical"),
		Tensile:   recalled(30, 35, ksi, alTyp+": sheet minimum, typical"),
		GrainNote: acrossIt, Weld: alWeld, Coating: oxide, Cautions: []string{noScribe},
		Note: "Bends easier than T6; may be aged to T6 after bending (common practice).",
		rows: []string{"6061-T4", "aluminium alloys"},
	},
	{
		Name: "Aluminium 6061-T6", Aliases: []string{"6061-t6", "6061", "aluminium 6061"},
		Family: "aluminium", Temper: Soft, Constant: .64,
		Density: al6061, Modulus: alModulus,
		Yield:     read(35, 276/ksi, ksi, alHand+", minimum; aluminium data sheet, typical"),
		Tensile:   read(42, 42, ksi, alHand+", minimum"),
		GrainNote: acrossIt + " This temper cracks along the grain first (common practice).",
		Weld:      alWeld + " The metal beside the weld loses its temper (common practice).", Coating: oxide,
		Cautions: []string{noScribe, "Cracks at radii that softer aluminium takes: bend a strip first (common practice)."},
		rows:     []string{"6061-T6", "aluminium alloys hard"},
	},
	{
		Name: "Aluminium 2024-T3", Aliases: []string{"2024-t3", "2024", "aluminium 2024"},
		Family: "aluminium", Temper: Soft, Constant: .64,
		Density: recalled(.1, .1, lbPerIn3, alTyp), Modulus: recalled(10.6, 10.6, 1000*ksi, alTyp),
		Yield:     recalled(42, 50, ksi, alTyp+": sheet minimum, typical"),
		Tensile:   recalled(63, 70, ksi, alTyp+": sheet minimum, typical"),
		GrainNote: acrossIt + " This temper cracks along the grain first (common practice).",
		Weld:      "Riveted: it cracks when fusion welded (common practice).", Coating: "Often clad with pure aluminium: do not scratch it through (common practice).",
		Cautions: []string{noScribe, "Cracks at radii that softer aluminium takes: bend a strip first (common practice)."},
		rows:     []string{"2024-T3", "aluminium alloys hard"},
	},
	{
		Name: "Aluminium", Aliases: []string{"aluminium sheet", "aluminium alloy"},
		Family: "aluminium", Temper: Soft, Constant: .64,
		Density: read(.097, .1, lbPerIn3, "the aluminium alloys of this list, least to greatest"),
		Modulus: read(10, 10.6, 1000*ksi, "the aluminium alloys of this list, least to greatest"),
		Yield:   Fact{}, Tensile: Fact{},
		GrainNote: acrossIt, Weld: alWeld, Coating: oxide, Cautions: []string{noScribe},
		Note: "Alloy and temper not said: name them, for strength and least radius hang on them.",
		rows: []string{"aluminium alloys"},
	},
	{
		Name: "Copper", Aliases: []string{"c11000", "copper c11000", "soft copper", "copper sheet"},
		Family: "copper", Temper: Soft, Constant: .55,
		Density: copperMass, Modulus: copperE,
		Yield:     recalled(10, 10, ksi, "C11000 soft, CDA/ASM, typical"),
		GrainNote: acrossIt, Weld: copperJoins,
		Note: "Taken as soft (annealed); half-hard copper is a metal of its own here.",
		rows: []string{"annealed sheet"},
	},
	{
		Name: "Copper, half-hard", Aliases: []string{"half-hard copper", "c11000 h02"},
		Family: "copper", Temper: Medium, Constant: .64,
		Density: copperMass, Modulus: copperE,
		Yield:     recalled(36, 36, ksi, "C11000 half hard H02, CDA/ASM, typical"),
		GrainNote: acrossIt, Weld: copperJoins,
	},
	{
		Name: "Brass", Aliases: []string{"c26000", "cartridge brass", "soft brass", "brass sheet"},
		Family: "copper", Temper: Soft, Constant: .55,
		Density: brassMass, Modulus: brassE,
		Yield:     read(21, 21, ksi, c26000+", annealed, nominal"),
		GrainNote: brassWay, Weld: copperJoins, Cautions: []string{brassZn},
		Note: "Taken as soft (annealed); half-hard brass is a metal of its own here.",
		rows: []string{"brass, low-leaded soft", "annealed sheet"},
	},
	{
		Name: "Brass, half-hard", Aliases: []string{"half-hard brass", "c26000 half hard"},
		Family: "copper", Temper: Medium, Constant: .64,
		Density: brassMass, Modulus: brassE,
		Yield:     read(51, 51, ksi, c26000+", half hard, nominal"),
		GrainNote: brassWay, Weld: copperJoins, Cautions: []string{brassZn},
		rows: []string{"C26000 half hard", "brass, low-leaded"},
	},
}
