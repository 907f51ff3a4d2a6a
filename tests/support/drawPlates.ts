import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import type { ThreePlanes } from "../../src/grid/threePlanes.ts";
import { type Random, seededRandom } from "../../src/numeric/random.ts";
import { primaryShares } from "../../src/plates/primaryShares.ts";

/**
 * Printed sheets of known loss as cells of 1 mm, worked on spectra. Written before the method was ever run on it, and not changed since.
 *
 * Unlike the method: inks are sums of bells, not blocks; one share of the ink lies as a film whose light passes twice, the rest is mixed
 * into the paper; inks take each other on incompletely; light is returned by the surface; n, dot gain, solids, paper and cleaning vary.
 */
export interface PlateScene {
  readonly seed: number;
  readonly stock: "newsprint" | "uncoated" | "calendered" | "coated";
  /** Contone prints vary the amount of ink, halftones the area. */
  readonly tone: "halftone" | "contone";
  readonly edges: "margin" | "bleed";
  /** Plates that the press has: yellow, red, blue, black. */
  readonly has: readonly [boolean, boolean, boolean, boolean];
  readonly losses: readonly [number, number, number, number];
  /** Whether anything was washed off the paper. */
  readonly washed: boolean;
  /** Light added by lost gloss, share of white. */
  readonly gloss: number;
  /** Loss of red varies over the sheet from 0.2 to 1.8 times its mean. */
  readonly uneven?: boolean;
}

export interface DrawnPlates {
  readonly width: number;
  readonly height: number;
  readonly before: ThreePlanes;
  readonly after: ThreePlanes;
  readonly meanCoverage: readonly number[];
  /** Loss of red by cell, as a factor of its mean. */
  readonly factor: Float64Array;
}

const WIDTH = 150;
const HEIGHT = 220;
const COUNT = 31;
const nm = (i: number): number => 400 + 10 * i;
const bell = (w: number, centre: number, left: number, right: number): number =>
  Math.exp(-0.5 * ((w - centre) / (w < centre ? left : right)) ** 2);

/** Absorptivity of the four inks, each different from press to press. */
function inksOf(random: Random): Float64Array[] {
  const about = (value: number, sd: number): number => value + sd * random.normal();
  const [y, r, b] = [about(432, 6), about(540, 8), about(628, 9)];
  const shoulder = Math.min(0.95, Math.max(0.2, about(0.6, 0.2)));
  const tail = Math.max(0.03, about(0.1, 0.04));
  const slope = about(0.08, 0.05);
  const over = (f: (w: number) => number): Float64Array => Float64Array.from({ length: COUNT }, (_, i) => f(nm(i))); // prettier-ignore
  return [
    over((w) => bell(w, y, 60, 34) + 0.02),
    over((w) => bell(w, r, 40, 26) + shoulder * bell(w, 440, 45, 45) + 0.02),
    over((w) => bell(w, b, 48, 60) + tail * bell(w, 420, 30, 40) + 0.25 * bell(w, 560, 40, 40)),
    over((w) => 0.9 * (1 + slope * ((550 - w) / 150))),
  ];
}

/** Smooth values about 0 with sd near 0.5, from `cells` lattice steps across. */
function noise(random: Random, cells: number): (x: number, y: number) => number {
  const n = cells + 3;
  const lattice = Float64Array.from({ length: n * n * 2 }, () => random.normal());
  const ease = (t: number): number => t * t * (3 - 2 * t);
  return (x, y) => {
    const [u, v] = [(x / WIDTH) * cells, (y / WIDTH) * cells];
    const [i, j] = [Math.floor(u), Math.floor(v)];
    const [s, t] = [ease(u - i), ease(v - j)];
    const at = (a: number, b: number): number => lattice[((b % (2 * n)) * n + a) % lattice.length];
    return 0.6 * ((at(i, j) * (1 - s) + at(i + 1, j) * s) * (1 - t) + (at(i, j + 1) * (1 - s) + at(i + 1, j + 1) * s) * t); // prettier-ignore
  };
}

/** Painted art: patches with edges, gradients inside, dark outlines; four coverages a cell. */
function paint(scene: PlateScene, random: Random): Float64Array {
  const c = new Float64Array(4 * WIDTH * HEIGHT);
  const sites = Array.from({ length: 26 }, () => {
    const colour = [0, 1, 2].map(() => (random.uniform() < 0.3 ? 0 : random.uniform() ** 0.8));
    // A painted cover has solids too, and places of one ink.
    if (random.uniform() < 0.25) {
      const one = random.below(3);
      colour.forEach((_, i) => (colour[i] = i === one ? 0.7 + 0.3 * random.uniform() : 0));
    }
    return {
      x: random.uniform() * WIDTH,
      y: random.uniform() * HEIGHT,
      colour,
      black: random.uniform() < 0.25 ? random.uniform() : 0,
      amount: 0.15 + 0.35 * random.uniform(),
    };
  });
  const shade = [0, 1, 2].map(() => noise(random, 6));
  const fine = [0, 1, 2].map(() => noise(random, 30));
  const lines = noise(random, 9);
  const margin = scene.edges === "margin" ? 10 : 0;
  const solid = { x: 20 + random.uniform() * 60, y: 20 + random.uniform() * 120 };
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const at = 4 * (y * WIDTH + x);
      if (x < margin || y < margin || x >= WIDTH - margin || y >= HEIGHT - margin) continue;
      let nearest = sites[0];
      let least = Infinity;
      for (const site of sites) {
        const d = (site.x - x) ** 2 + (site.y - y) ** 2;
        if (d < least) [least, nearest] = [d, site];
      }
      for (let i = 0; i < 3; i++) {
        const base = nearest.colour[i];
        const value = base === 0 ? 0 : base + nearest.amount * shade[i](x, y) + 0.15 * fine[i](x, y); // prettier-ignore
        c[at + i] = Math.min(1, Math.max(scene.edges === "bleed" ? 0.04 : 0, value));
      }
      const line = Math.abs(lines(x, y));
      c[at + 3] = line < 0.02 ? 0.9 : nearest.black * Math.min(1, 0.6 + 0.6 * Math.abs(shade[0](y % WIDTH, x))); // prettier-ignore
      if (Math.abs(x - solid.x) < 9 && Math.abs(y - solid.y) < 9) c[at + 3] = 1;
      for (let i = 0; i < 4; i++) if (!scene.has[i]) c[at + i] = 0;
    }
  return c;
}

const STOCKS = {
  newsprint: { film: [0, 0.15], depth: 0.62, light: 0.018, paper: [0.05, 0.12] },
  uncoated: { film: [0.1, 0.35], depth: 0.85, light: 0.014, paper: [0.025, 0.07] },
  calendered: { film: [0.35, 0.65], depth: 1.1, light: 0.009, paper: [0.03, 0.08] },
  coated: { film: [0.65, 0.95], depth: 1.35, light: 0.006, paper: [0.02, 0.06] },
} as const;

/** Both scans of a scene. */
export function drawPlates(scene: PlateScene): DrawnPlates {
  const random = seededRandom(scene.seed);
  const stock = STOCKS[scene.stock];
  const between = ([low, high]: readonly [number, number]): number => low + (high - low) * random.uniform(); // prettier-ignore
  const inks = inksOf(random);
  const film = between(stock.film);
  const depths = inks.map(() => stock.depth * Math.exp(0.12 * random.normal()));
  const trapping = 0.8 + 0.2 * random.uniform();
  const n = 1.3 + 0.7 * random.uniform();
  const gain = 0.08 + 0.14 * random.uniform();
  const grey = between(stock.paper) * 0.4;
  const brown = between(stock.paper) * 1.6;
  const fall = 0.011 + 0.005 * random.uniform();
  const cleaning = scene.washed ? 0.2 + 0.3 * random.uniform() : 0;
  const soil = scene.washed ? 0.015 * random.uniform() : 0;

  /** Reflectance of paper under inks of given amounts; `old` 0..1 how much of its browning is left. */
  const reflectance = (amounts: readonly number[], old: number): Float64Array =>
    Float64Array.from({ length: COUNT }, (_, i) => {
      const w = nm(i);
      let density = 0;
      for (let k = 0; k < 4; k++) density += amounts[k] * depths[k] * inks[k][i];
      const absorbed = Math.LN10 * density;
      // The share in the paper: its K/S at which the same amount as a film would have the same weak effect is left to the depth.
      const q = grey * (0.9 + 0.1 * old) + brown * old * Math.exp(-fall * (w - 450)) + 1.6 * (1 - film) * absorbed ** 1.5; // prettier-ignore
      const below = 1 + q - Math.sqrt(q * q + 2 * q);
      const dirt = Math.exp(-soil * old * Math.exp(-0.01 * (w - 450)));
      return stock.light * 0.5 + (1 - stock.light) * below * Math.exp(-film * absorbed) * dirt;
    });
  const laid = (plates: number, losses: readonly number[]): number[] => {
    let under = 0;
    return [0, 1, 2, 3].map((k) => {
      if (((plates >> k) & 1) === 0) return 0;
      const amount = trapping ** under * (1 - losses[k]);
      under++;
      return amount;
    });
  };
  const art = paint(scene, random);
  const size = WIDTH * HEIGHT;
  const printed = art.map((c) => Math.min(1, c + gain * 4 * c * (1 - c) * 0.5));
  const clean = noise(random, 4);
  const uneven = noise(random, 3);
  const factor = Float64Array.from({ length: size }, (_, i) =>
    scene.uneven === true
      ? Math.min(1.8, Math.max(0.2, 1 + 1.1 * uneven(i % WIDTH, Math.floor(i / WIDTH))))
      : 1,
  );
  const root = (spectra: Float64Array[]): Float64Array[] => spectra.map((R) => R.map((v) => v ** (1 / n))); // prettier-ignore
  const all = Array.from({ length: 16 }, (_, j) => j);
  const primaries = (losses: readonly number[], old: number): Float64Array[] =>
    root(all.map((j) => reflectance(laid(j, losses), old)));
  const none = [0, 0, 0, 0];
  const shares = new Float64Array(16);
  /** XYZ of a halftone cell from primaries. */
  const screened = (at: number, set: readonly Float64Array[]): readonly number[] => {
    primaryShares(printed, at, 4, shares);
    const R = new Float64Array(COUNT);
    for (let i = 0; i < COUNT; i++) {
      let sum = 0;
      for (let j = 0; j < 16; j++) sum += shares[j] * set[j][i];
      R[i] = sum ** n;
    }
    return reflectanceToXyzD50(R);
  };
  const toned = (at: number, losses: readonly number[], old: number): readonly number[] =>
    reflectanceToXyzD50(
      reflectance(
        [0, 1, 2, 3].map((k) => art[at + k] * (1 - losses[k])),
        old,
      ),
    );
  const first = primaries(none, 1);
  const lossesAt = (f: number): readonly number[] => scene.losses.map((loss, k) => (k === 1 ? loss * f : loss)); // prettier-ignore
  // After washing: interpolated between two cleanings and, where uneven, two losses of red.
  const olds = [1 - cleaning * 1.25, 1 - cleaning * 0.75];
  const factors = scene.uneven === true ? [0.2, 1.8] : [1, 1];
  const ends = factors.map((f) => olds.map((old) => primaries(lossesAt(f), old)));
  const before = [0, 1, 2].map(() => new Float32Array(size));
  const after = [0, 1, 2].map(() => new Float32Array(size));
  for (let cell = 0; cell < size; cell++) {
    const [x, y] = [cell % WIDTH, Math.floor(cell / WIDTH)];
    const t = Math.min(1, Math.max(0, 0.5 + 0.5 * clean(x, y)));
    const s = scene.uneven === true ? (factor[cell] - 0.2) / 1.6 : 0;
    const old = olds[0] + t * (olds[1] - olds[0]);
    const one = scene.tone === "halftone" ? screened(4 * cell, first) : toned(4 * cell, none, 1);
    for (let c = 0; c < 3; c++) before[c][cell] = one[c];
    if (scene.tone === "contone") {
      const two = toned(4 * cell, lossesAt(factor[cell]), old);
      for (let c = 0; c < 3; c++) after[c][cell] = two[c];
      continue;
    }
    const [a, b] = [screened(4 * cell, ends[0][0]), screened(4 * cell, ends[0][1])];
    const [d, e] = s > 0 ? [screened(4 * cell, ends[1][0]), screened(4 * cell, ends[1][1])] : [a, b]; // prettier-ignore
    for (let c = 0; c < 3; c++)
      after[c][cell] = Math.exp(
        (1 - s) * ((1 - t) * Math.log(a[c]) + t * Math.log(b[c])) +
          s * ((1 - t) * Math.log(d[c]) + t * Math.log(e[c])),
      );
  }
  const scanned = scan({ planes: after, random, shiftMm: 0.1, drift: 0.003, added: scene.gloss });
  return {
    width: WIDTH,
    height: HEIGHT,
    before: scan({ planes: before, random, shiftMm: 0, drift: 0, added: 0 }),
    after: scanned,
    meanCoverage: [0, 1, 2, 3].map((k) => {
      let sum = 0;
      for (let cell = 0; cell < size; cell++) sum += printed[4 * cell + k];
      return sum / size;
    }),
    factor,
  };
}

const WHITE = [0.96422, 1, 0.82521];

/** What a scanner makes of it: places off by a smooth shift, an exponent and gains of its own, noise. */
function scan(options: {
  readonly planes: readonly Float32Array[];
  readonly random: Random;
  readonly shiftMm: number;
  readonly drift: number;
  readonly added: number;
}): ThreePlanes {
  const { planes, random, shiftMm, drift, added } = options;
  const [dx, dy] = [noise(random, 10), noise(random, 10)];
  const exponent = 1 + drift * random.normal();
  const gains = [0, 1, 2].map(() => 1 + 0.7 * drift * random.normal());
  const out = planes.map((plane, c) =>
    plane.map((_, i) => {
      const [x, y] = [i % WIDTH, Math.floor(i / WIDTH)];
      const u = Math.min(WIDTH - 1.001, Math.max(0, x + 2 * shiftMm * dx(x, y)));
      const v = Math.min(HEIGHT - 1.001, Math.max(0, y + 2 * shiftMm * dy(x, y)));
      const at = Math.floor(v) * WIDTH + Math.floor(u);
      const [s, t] = [u % 1, v % 1];
      const value = (plane[at] * (1 - s) + plane[at + 1] * s) * (1 - t) + (plane[at + WIDTH] * (1 - s) + plane[at + WIDTH + 1] * s) * t; // prettier-ignore
      const light = WHITE[c] * gains[c] * ((value + added * WHITE[c]) / WHITE[c]) ** exponent;
      return light * (1 + 0.004 * random.normal()) + 0.0004 * random.normal();
    }),
  );
  return [out[0], out[1], out[2]];
}
