/** One deliberate fault: a single character of a formula changed. */
export interface Fault {
  /** Path in the project. */
  readonly file: string;
  /** Text that occurs exactly once in the file, and what it becomes. */
  readonly original: string;
  readonly faulty: string;
  /** What the change does, in words. */
  readonly meaning: string;
  /** Test files or folders that should notice. */
  readonly tests: readonly string[];
}

/** Formulas and decisions of colour, calibration, jar, bath, recipe, comparison and record, each wrong by a character or two. */
export const FAULTS: readonly Fault[] = [
  {
    file: "src/colour/ciede2000.ts",
    original: "0.32 * Math.cos((3 * hm + 6) * RADIANS)",
    faulty: "0.32 * Math.cos((3 * hm - 6) * RADIANS)",
    meaning: "sign inside the hue weight T of CIEDE2000",
    tests: ["tests/outside/ciede2000.test.ts", "tests/outside/libraries.test.ts", "tests/colour"],
  },
  {
    file: "src/colour/cielab.ts",
    original: "const KAPPA = 24389 / 27;",
    faulty: "const KAPPA = 24389 / 28;",
    meaning: "slope of CIELAB near black",
    tests: ["tests/outside", "tests/colour"],
  },
  {
    file: "src/colour/adapt.ts",
    original: "0.0389, -0.0685,  1.0296,",
    faulty: "0.0389, +0.0685,  1.0296,",
    meaning: "one sign of the Bradford matrix",
    tests: ["tests/outside/conversions.test.ts", "tests/outside/libraries.test.ts"],
  },
  {
    file: "src/colour/yellowness.ts",
    original: '"D65/2": { x: 1.2985, z: 1.1335 }',
    faulty: '"D65/2": { x: 1.2985, z: 1.1336 }',
    meaning: "last digit of a constant of ASTM E313",
    tests: ["tests/outside/yellowness.test.ts"],
  },
  {
    file: "src/colour/greyScaleStaining.ts",
    original: "6.1 - 1.45 * Math.log(difference)",
    faulty: "6.1 - 1.46 * Math.log(difference)",
    meaning: "factor of the staining rating of ISO 105-A04",
    tests: ["tests/colour/greyScales.test.ts"],
  },
  {
    file: "src/calibrate/fitThinPlate.ts",
    original: "const kernel = -Math.hypot(",
    faulty: "const kernel = +Math.hypot(",
    meaning: "sign of the thin plate's kernel in the fit",
    tests: ["tests/outside/closedForms.test.ts", "tests/calibrate/thinPlate.test.ts"],
  },
  {
    file: "src/jar/turbidity/turbidityIndex.ts",
    original: "const k = 2 * Math.LN10 * wide;",
    faulty: "const k = 1 * Math.LN10 * wide;",
    meaning: "way of the scattered light, in and out again, counted once",
    tests: ["tests/jar/optics/liquidOptics.test.ts"],
  },
  {
    file: "src/print/twoLayerSheet.ts",
    original: "return (1 - R0 * (a - bCoth)) / (a - R0 + bCoth);",
    faulty: "return (1 - R0 * (a - bCoth)) / (a + R0 + bCoth);",
    meaning: "sign of the background in the formula of Kubelka and Munk",
    tests: ["tests/outside/kubelkaMunk.test.ts", "tests/bath/predictFade.test.ts"],
  },
  {
    file: "src/print/bandAbsorbance.ts",
    original: "const perDecade = Math.LN10 * pathCm;",
    faulty: "const perDecade = Math.LN10 / pathCm;",
    meaning: "path length in the law of Beer and Lambert",
    tests: ["tests/outside/beerLambert.test.ts", "tests/bath/colourants.test.ts"],
  },
  {
    file: "src/chemistry/limePh.ts",
    original: "const g2 = 10 ** (-4 * A * screening);",
    faulty: "const g2 = 10 ** (-2 * A * screening);",
    meaning: "charge squared of the calcium ion in the activity of Davies",
    tests: ["tests/outside/limewater.test.ts", "tests/outside/limeRecipe.test.ts"],
  },
  {
    file: "src/compare/scaleOfPair.ts",
    original: "knownAfter / ratio",
    faulty: "knownAfter * ratio",
    meaning: "scale of the before scan from that of the after scan and the card in both",
    tests: ["tests/compare/scaleOfPair.test.ts"],
  },
  {
    file: "src/compare/evenLight.ts",
    original: "(light.atCard[c] / here[c]) ** exponents[c]",
    faulty: "(light.atCard[c] * here[c]) ** exponents[c]",
    meaning: "light multiplied in where it is to be divided out",
    tests: ["tests/compare/evenLight.test.ts"],
  },
  {
    file: "src/compare/bedLight.ts",
    original: "const FEWEST_SIDES = 3;",
    faulty: "const FEWEST_SIDES = 2;",
    meaning: "a light field extrapolated over a sheet with bed on two sides only",
    tests: ["tests/compare/bedLight.test.ts"],
  },
  {
    file: "src/compare/orderWarnings.ts",
    original: "2 * darkened.length >= changed.length",
    faulty: "1 * darkened.length >= changed.length",
    meaning: "share of darkened inks that speaks for scans the wrong way round",
    tests: ["tests/compare/orderWarnings.test.ts"],
  },
  {
    file: "src/compare/measureAreas.ts",
    original: "if (cells.length < FEWEST_CELLS)",
    faulty: "if (cells.length > FEWEST_CELLS)",
    meaning: "areas of too few cells measured, the others not",
    tests: ["tests/compare/measureAreas.test.ts"],
  },
  {
    file: "src/record/derivedStore.ts",
    original: "kept.sources === sources &&",
    faulty: "kept.sources !== sources &&",
    meaning: "a result kept from other inputs is answered",
    tests: ["tests/record/derivedStore.test.ts"],
  },
  {
    file: "src/record/inputs.ts",
    original: 'return sha256 === input.sha256 ? "unchanged" : "changed";',
    faulty: 'return sha256 !== input.sha256 ? "unchanged" : "changed";',
    meaning: "a changed input passes for the one that was recorded",
    tests: ["tests/record/hashedInputs.test.ts"],
  },
  {
    file: "src/record/cardOf.ts",
    original: "basename(input.file) === basename(card)",
    faulty: "basename(input.file) !== basename(card)",
    meaning: "the reference file of a card is another than its event names",
    tests: ["tests/record/hashedInputs.test.ts"],
  },
  {
    file: "src/advice/riskOfExceeding.ts",
    original: "Math.log(medianDeltaE00 / maxDeltaE00)",
    faulty: "Math.log(maxDeltaE00 / medianDeltaE00)",
    meaning: "a fade far under the limit passes for a risk, one far over it for none",
    tests: ["tests/advice/decide.test.ts"],
  },
  {
    file: "src/advice/forecastLogSd.ts",
    original: "nextShare * nextLogSd",
    faulty: "nextShare / nextLogSd",
    meaning: "doubt of the next bath not weighed by its share of the whole",
    tests: ["tests/advice/decide.test.ts"],
  },
];
