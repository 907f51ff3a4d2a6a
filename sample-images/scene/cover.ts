import { seededRandom } from "../../src/numeric/random.ts";
import { lettering, textWidth } from "./lettering.ts";
import type { Coverage, Paint, Plates } from "./plates.ts";
import { blankPlates, paint } from "./plates.ts";
import type { Shape, Vertex } from "./shapes.ts";
import { disc, grown, overlap, polygon, rectangle, star, stroke, without } from "./shapes.ts";
import { fractalNoise, valueNoise } from "./valueNoise.ts";

/** Size of the design in mm. Another size stretches it; a sheet wider than high gets a back and a front cover side by side. */
export const COVER_WIDTH_MM = 172;
export const COVER_HEIGHT_MM = 252;

/** The areas of one colour that the artwork prints. The label of a region is its place in this list, counted from 1. */
export const REGIONS = [
  "red",
  "yellow",
  "blue",
  "light-blue",
  "orange",
  "green",
  "violet-brown",
  "black",
] as const;
export type RegionId = (typeof REGIONS)[number];

export const REGION_COVERAGE: Readonly<Record<RegionId, Required<Coverage>>> = {
  red: { yellow: 0, red: 1, blue: 0, black: 0 },
  yellow: { yellow: 1, red: 0, blue: 0, black: 0 },
  blue: { yellow: 0, red: 0, blue: 1, black: 0 },
  "light-blue": { yellow: 0, red: 0, blue: 0.35, black: 0 },
  orange: { yellow: 1, red: 0.45, blue: 0, black: 0 },
  green: { yellow: 1, red: 0, blue: 0.6, black: 0 },
  "violet-brown": { yellow: 0, red: 1, blue: 1, black: 0 },
  black: { yellow: 0, red: 0, blue: 0, black: 1 },
};

export function labelOf(region: RegionId): number {
  return REGIONS.indexOf(region) + 1;
}

const BARE: Coverage = { yellow: 0, red: 0, blue: 0, black: 0 };
const BLACK_LINE: Coverage = { black: 1 };
/** The picture within its margins, wider at the foot. */
const PICTURE = { left: 6.5, top: 6, right: 165.5, bottom: 242 };
const BAND_HEIGHT = 48;
const PANEL_HEIGHT = 18;

const TITLES = ["BRINE BELL", "DEEP LEAD", "FATHOM TALES"] as const;
const WHALE_TITLES = ["OAKUM", "SALT WHEEL"] as const;
const STORIES = [
  ["THE LANTERN WRECK", "A NOVELETTE OF THE GREY REEF"],
  ["NINE BELLS FOR NOBODY", "A YARN OF THE COLD LATITUDES"],
  ["THE COOK OF THE QUIET SUE", "A TALE OF TAR AND TREASON"],
] as const;

/** What a seed decides. Seed 1 is the cover of the samples. */
interface Layout {
  readonly seed: number;
  readonly title: string;
  readonly story: readonly [string, string];
  readonly titleAtFoot: boolean;
  /** Even seeds show the whale, odd ones the serpent: neighbouring seeds have nothing in common. */
  readonly whale: boolean;
  readonly flipped: boolean;
  readonly horizon: number;
  readonly sun: Vertex;
  readonly sunRadius: number;
  readonly ship: Vertex;
}

function layoutOf(seed: number): Layout {
  if (seed === 1)
    return {
      seed,
      title: TITLES[0],
      story: STORIES[0],
      titleAtFoot: false,
      whale: false,
      flipped: false,
      horizon: 152,
      sun: [112, 124],
      sunRadius: 25,
      ship: [58, 156],
    };
  const random = seededRandom(seed);
  const whale = seed % 2 === 0;
  const titleAtFoot = whale || random.uniform() < 0.5;
  const horizon = (titleAtFoot ? 112 : 150) + 14 * random.uniform();
  return {
    seed,
    title: whale
      ? WHALE_TITLES[random.below(WHALE_TITLES.length)]
      : TITLES[1 + random.below(TITLES.length - 1)],
    story: STORIES[1 + random.below(STORIES.length - 1)],
    titleAtFoot,
    whale,
    flipped: random.uniform() < 0.5,
    horizon,
    sun: [85 + 50 * random.uniform(), horizon - 14 - 24 * random.uniform()],
    sunRadius: 17 + 9 * random.uniform(),
    ship: [50 + 22 * random.uniform(), horizon + 4],
  };
}

/** Paints shapes given in the design's mm onto a page of the sheet. */
interface Brush {
  readonly apply: (shape: Shape, paintOf: Paint, label?: number) => void;
  readonly region: (shape: Shape, region: RegionId) => void;
}

interface Page {
  readonly left: number;
  readonly width: number;
  readonly height: number;
  readonly flipped: boolean;
}

function brushFor(plates: Plates, page: Page): Brush {
  const scaleX = page.width / COVER_WIDTH_MM;
  const scaleY = page.height / COVER_HEIGHT_MM;
  const scale = Math.min(scaleX, scaleY);
  const designX = (x: number): number => {
    const u = (x - page.left) / scaleX;
    return page.flipped ? COVER_WIDTH_MM - u : u;
  };
  const apply = (shape: Shape, paintOf: Paint, label = 0): void => {
    const [left, top, right, bottom] = shape.box;
    const near = page.flipped ? COVER_WIDTH_MM - right : left;
    const far = page.flipped ? COVER_WIDTH_MM - left : right;
    const onSheet: Shape = {
      distance: (x, y) => scale * shape.distance(designX(x), y / scaleY),
      box: [page.left + near * scaleX, top * scaleY, page.left + far * scaleX, bottom * scaleY],
    };
    const colour: Paint =
      typeof paintOf === "function" ? (x, y) => paintOf(designX(x), y / scaleY) : paintOf;
    paint(plates, onSheet, colour, label);
  };
  return {
    apply,
    region: (shape, region) => apply(shape, REGION_COVERAGE[region], labelOf(region)),
  };
}

function ramp(from: number, to: number, value: number): number {
  const t = Math.min(1, Math.max(0, (value - from) / (to - from)));
  return t * t * (3 - 2 * t);
}

/** Points along a curve y = f(x). */
function curve(from: number, to: number, step: number, f: (x: number) => number): Vertex[] {
  const points: Vertex[] = [];
  for (let x = from; x <= to + 1e-9; x += step) points.push([x, f(x)]);
  return points;
}

function paintSky(brush: Brush, layout: Layout, top: number): void {
  const { horizon, seed } = layout;
  const { left, right } = PICTURE;
  const height = horizon - top;
  const flatFoot = top + 0.4 * height;
  brush.apply(rectangle(left, flatFoot - 1, right, horizon), (x, y) => {
    const t = (y - flatFoot) / (horizon - flatFoot);
    const streak = 0.06 * fractalNoise(seed + 11, x / 40, y / 4, 3);
    return {
      blue: Math.max(0, 0.35 * (1 - ramp(0, 0.75, t + streak))),
      yellow: 0.85 * ramp(0.1, 0.95, t + streak),
      red: 0.42 * ramp(0.3, 1, t + streak),
      black: 0,
    };
  });
  brush.region(rectangle(left, top, right, flatFoot), "light-blue");
  const glow = curve(left, right, 3, (x) => horizon - 13 - 3 * valueNoise(seed + 3, x / 18, 0));
  brush.region(polygon([...glow, [right, horizon], [left, horizon]]), "orange");

  const [sx, sy] = layout.sun;
  const r = layout.sunRadius;
  for (let ray = 0; ray < 14; ray++) {
    const angle = Math.PI + ((ray + 0.5) * Math.PI) / 14;
    const spread = 0.035;
    const at = (a: number, d: number): Vertex => [sx + d * Math.cos(a), sy + d * Math.sin(a)];
    const wedge = polygon([
      at(angle - spread, r + 3),
      at(angle - spread, r + 16),
      at(angle, r + 19),
      at(angle + spread, r + 16),
      at(angle + spread, r + 3),
    ]);
    brush.apply(overlap(wedge, rectangle(left, top, right, horizon)), {
      yellow: 1,
      red: 0,
      blue: 0,
    });
  }
  const aboveSea = rectangle(left, top, right, horizon);
  brush.apply(overlap(disc(sx, sy, r + 1.2), aboveSea), { red: 1, yellow: 1, blue: 0 });
  brush.region(overlap(disc(sx, sy, r), aboveSea), "yellow");
}

function paintClouds(brush: Brush, layout: Layout, top: number): void {
  const random = seededRandom(layout.seed + 500);
  const clip = rectangle(PICTURE.left, top, PICTURE.right, layout.horizon);
  for (let cloud = 0; cloud < 3; cloud++) {
    const cx = 30 + 56 * cloud + 10 * random.uniform();
    const cy = top + 20 + 26 * random.uniform();
    for (let puff = 0; puff < 9; puff++) {
      const u = puff / 8 - 0.5;
      const radius = 3 + 6 * (1 - 4 * u * u) * (0.7 + 0.3 * random.uniform());
      const shape = disc(cx + 34 * u, cy - 0.4 * radius + 2 * random.uniform(), radius);
      brush.apply(overlap(overlap(shape, clip), rectangle(0, 0, 172, cy + 1)), (x, y) => {
        const shade = ramp(cy - 9, cy + 1, y + 3 * fractalNoise(layout.seed + 21, x / 5, y / 4, 3));
        return { blue: 0.3 * shade, red: 0.04 + 0.22 * shade, yellow: 0.1, black: 0 };
      });
    }
  }
}

function paintSea(brush: Brush, layout: Layout, foot: number): void {
  const { horizon, seed } = layout;
  const { left, right } = PICTURE;
  const random = seededRandom(seed + 900);
  const water = rectangle(left, horizon, right, foot);
  brush.region(water, "blue");
  for (let i = 0; i < 26; i++) {
    const depth = random.uniform();
    const y = horizon + 2 + (foot - horizon - 30) * depth;
    const x = left + (right - left) * random.uniform();
    const length = 5 + 14 * depth * random.uniform();
    const phase = 6 * random.uniform();
    const crest = stroke(
      curve(x, x + length, 1, (u) => y + (0.4 + depth) * Math.sin(u / (1.5 + 2 * depth) + phase)),
      0.3 + 0.5 * depth,
    );
    brush.apply(overlap(crest, water), { blue: 0.25, red: 0, yellow: 0 });
  }
  const [sx] = layout.sun;
  for (let i = 0; i < 16; i++) {
    const y = horizon + 1.6 + 2.3 * i;
    const half = (layout.sunRadius * (0.9 - 0.04 * i) + 3 * random.normal()) * 0.6;
    if (half < 2) continue;
    const middle = sx + 3 * random.normal();
    const glint = stroke(
      curve(middle - half, middle + half, 2, (u) => y + 0.35 * Math.sin(1.3 * u + i)),
      0.65,
    );
    brush.apply(overlap(glint, water), { yellow: 1, red: 0.45, blue: 0 });
  }
  const swell = (x: number): number =>
    foot - 19 + 5 * Math.sin(x / 11 + seed) + 2.2 * Math.sin(x / 4.1) - 3 * ramp(120, 30, x);
  const near = polygon([...curve(left, right, 1.5, swell), [right, foot], [left, foot]]);
  brush.region(near, "green");
  brush.apply(overlap(stroke(curve(left, right, 1.5, swell), 1.1), water), BARE);
  brush.apply(
    overlap(
      stroke(
        curve(left, right, 1.5, (x) => swell(x) + 1.5),
        0.35,
      ),
      water,
    ),
    BLACK_LINE,
  );
  for (let i = 0; i < 30; i++) {
    const x = left + (right - left) * random.uniform();
    const y = swell(x) + 4 + 12 * random.uniform();
    brush.apply(
      overlap(
        stroke(
          curve(x, x + 6, 1, (u) => y + 0.8 * Math.sin(u)),
          0.28,
        ),
        water,
      ),
      BLACK_LINE,
    );
  }
}

function paintIsland(brush: Brush, layout: Layout): void {
  const { horizon } = layout;
  const rock = polygon([
    [PICTURE.left, horizon - 23],
    [12, horizon - 27],
    [17, horizon - 24],
    [22, horizon - 25],
    [27, horizon - 15],
    [33, horizon - 13],
    [39, horizon - 3],
    [46, horizon + 1.5],
    [PICTURE.left, horizon + 1.5],
  ]);
  brush.region(rock, "violet-brown");
  brush.apply(
    overlap(
      stroke(
        [
          [22, horizon - 25],
          [24, horizon - 12],
          [30, horizon],
        ],
        0.4,
      ),
      rock,
    ),
    {
      black: 1,
    },
  );
  const tower = polygon([
    [13, horizon - 25],
    [14.2, horizon - 47],
    [19.2, horizon - 47],
    [20.4, horizon - 25],
  ]);
  brush.apply(grown(tower, 0.5), BLACK_LINE);
  brush.apply(tower, BARE);
  brush.apply(overlap(tower, rectangle(0, horizon - 42, 40, horizon - 37)), { red: 1 });
  brush.apply(overlap(tower, rectangle(0, horizon - 32, 40, horizon - 27.5)), { red: 1 });
  brush.apply(rectangle(14, horizon - 51, 19.4, horizon - 47.4), { yellow: 1, red: 0, blue: 0 });
  brush.apply(
    without(
      rectangle(13.6, horizon - 52.5, 19.8, horizon - 47),
      rectangle(14.6, horizon - 51, 18.8, horizon - 48),
    ),
    BLACK_LINE,
  );
}

function paintShip(brush: Brush, layout: Layout): void {
  const [x0, y0] = layout.ship;
  const at = (dx: number, dy: number): Vertex => [x0 + dx, y0 + dy];
  const line = (points: Vertex[], width: number): void =>
    brush.apply(stroke(points, width / 2), BLACK_LINE);
  const masts = [
    { x: 8, height: 44 },
    { x: 24, height: 52 },
    { x: 39, height: 42 },
  ];
  line([at(-2, -8), at(-17, -15)], 0.7);
  for (const mast of masts) {
    line([at(mast.x, -7), at(mast.x, -7 - mast.height)], 0.9);
    for (let sail = 0; sail < 3; sail++) {
      const foot = -11 - sail * mast.height * 0.28;
      const head = foot - mast.height * 0.25;
      const half = 7.2 - 1.5 * sail;
      const cloth = polygon([
        at(mast.x - half, foot),
        at(mast.x - half + 1.3, head),
        at(mast.x + half - 1.3, head),
        at(mast.x + half, foot),
        at(mast.x + half * 0.5, foot - 1.3),
        at(mast.x - half * 0.5, foot - 1.3),
      ]);
      brush.apply(grown(cloth, 0.3), BLACK_LINE);
      brush.apply(cloth, (x, y) => {
        const shade =
          ramp(mast.x + x0 - half, mast.x + x0 + half, x) +
          0.25 * fractalNoise(layout.seed + 31, x / 2, y / 6, 2);
        return {
          yellow: 0.16,
          red: 0.03,
          blue: 0.12 * shade + 0.02,
          black: 0.14 * Math.max(0, shade),
        };
      });
    }
    line([at(mast.x, -7 - mast.height), at(-2, -8)], 0.3);
    line([at(mast.x, -7 - mast.height), at(50, -9)], 0.3);
  }
  const jib = polygon([at(-14, -13.5), at(6, -38), at(-1, -11)]);
  brush.apply(grown(jib, 0.3), BLACK_LINE);
  brush.apply(jib, { yellow: 0.16, red: 0.03, blue: 0.04, black: 0.04 });
  const pennant = polygon([at(24, -61), at(37, -59.5), at(33, -57.6), at(37, -56), at(24, -56)]);
  brush.apply(pennant, { red: 1, yellow: 1, blue: 0 });
  const hull = polygon([
    at(-5, -9.5),
    at(2, -7),
    at(26, -5.8),
    at(45, -7.5),
    at(52, -11),
    at(50, 0),
    at(46, 4.5),
    at(4, 4.5),
    at(-1, 0),
  ]);
  brush.apply(grown(hull, 0.5), BLACK_LINE);
  brush.region(hull, "violet-brown");
  brush.apply(stroke([at(-1, -5), at(26, -3.4), at(49, -6)], 0.45), BARE);
  for (let port = 0; port < 7; port++)
    brush.apply(disc(x0 + 7 + 5.6 * port, y0 - 0.6, 0.8), BLACK_LINE);
  const foam = curve(x0 - 6, x0 + 54, 1.5, (x) => y0 + 4.6 + 0.7 * Math.sin(x));
  brush.apply(stroke(foam, 1), BARE);
}

function paintSerpent(brush: Brush, layout: Layout, foot: number): void {
  const { horizon } = layout;
  const waterline = Math.min(foot - 22, horizon + 42);
  const clip = rectangle(PICTURE.left, 0, PICTURE.right, waterline + 2);
  const arch = (cx: number, half: number, height: number, radius: number): Shape => {
    const points: Vertex[] = [];
    for (let i = 0; i <= 14; i++) {
      const t = (Math.PI * i) / 14;
      points.push([cx - half * Math.cos(t), waterline + 3 - height * Math.sin(t)]);
    }
    return stroke(points, radius);
  };
  const neck: Vertex[] = [];
  const radii: number[] = [];
  for (let i = 0; i <= 20; i++) {
    const t = i / 20;
    neck.push([
      146 + 9 * Math.sin(4.2 * t + 0.3) - 12 * t * t,
      waterline + 4 - 74 * t + 12 * ramp(0.75, 1.1, t),
    ]);
    radii.push(8 - 2.6 * t + 1.6 * ramp(0.8, 1, t));
  }
  const [hx, hy] = neck[20];
  const head = stroke(
    [
      [hx + 2, hy],
      [hx - 9, hy + 3],
      [hx - 17, hy + 6.5],
    ],
    [7, 5.6, 3],
  );
  const parts = [arch(104, 11, 19, 5.5), arch(74, 8, 11, 4.2), stroke(neck, radii), head];
  for (const part of parts) {
    const visible = overlap(part, clip);
    brush.apply(overlap(grown(part, 0.8), clip), BLACK_LINE);
    brush.region(visible, "green");
  }
  const belly = neck.map(([x, y], i): Vertex => [x - 0.55 * radii[i], y]);
  const bellyShape = stroke(
    belly.slice(0, 18),
    radii.slice(0, 18).map((r) => 0.34 * r),
  );
  brush.region(overlap(bellyShape, clip), "orange");
  for (let i = 1; i < 17; i++) {
    const [x, y] = neck[i];
    const scale = stroke(
      [
        [x - 0.1 * radii[i], y - 1.2],
        [x + 0.35 * radii[i], y + 0.3],
        [x + 0.85 * radii[i], y - 1.2],
      ],
      0.32,
    );
    brush.apply(overlap(scale, clip), BLACK_LINE);
  }
  for (let i = 2; i < 20; i += 2) {
    const [x, y] = neck[i];
    const fin = polygon([
      [x + radii[i] - 0.4, y - 2],
      [x + radii[i] + 3.4, y - 2.6],
      [x + radii[i] - 0.4, y + 2],
    ]);
    brush.apply(overlap(fin, clip), { red: 1, yellow: 1, blue: 0, black: 0 });
  }
  brush.apply(disc(hx - 4, hy - 1.2, 2.1), BLACK_LINE);
  brush.apply(disc(hx - 4, hy - 1.2, 1.6), { yellow: 1, red: 0, blue: 0, black: 0 });
  brush.apply(disc(hx - 4.6, hy - 1, 0.7), BLACK_LINE);
  brush.apply(
    stroke(
      [
        [hx - 20, hy + 7.2],
        [hx - 11, hy + 6.2],
        [hx - 4, hy + 4.5],
      ],
      0.5,
    ),
    BLACK_LINE,
  );
  for (let tooth = 0; tooth < 5; tooth++) {
    const x = hx - 17 + 2.8 * tooth;
    const y = hy + 6.9 - 0.25 * tooth;
    brush.apply(
      polygon([
        [x, y],
        [x + 1.8, y - 0.2],
        [x + 0.9, y + 2.2],
      ]),
      BARE,
    );
  }
  const splash = curve(60, 164, 1.5, (x) => waterline + 2 + 1.1 * Math.sin(x / 1.9));
  brush.apply(overlap(stroke(splash, 0.9), rectangle(60, 0, PICTURE.right, foot)), BARE);
}

/** A round picture in four screened colours, as a photograph of a harbour at dusk would print. */
function paintPhotograph(brush: Brush, layout: Layout, cx: number, cy: number): void {
  const { seed } = layout;
  brush.apply(disc(cx, cy, 20.6), BLACK_LINE);
  brush.apply(disc(cx, cy, 19.9), BARE);
  brush.apply(disc(cx, cy, 18.6), (x, y) => {
    const u = (x - cx) / 18.6;
    const v = (y - cy) / 18.6;
    const ridge = -0.1 + 0.22 * fractalNoise(seed + 41, u * 2 + 5, 0.5, 4);
    const quay = 0.42 + 0.06 * valueNoise(seed + 43, u * 4, 0);
    const grainy = fractalNoise(seed + 47, x / 1.3, y / 1.3, 4);
    if (v < ridge) {
      const cloud = 0.5 + 0.5 * fractalNoise(seed + 53, u * 2.2, v * 5, 4);
      return {
        yellow: 0.15 + 0.5 * ramp(-1, 0.1, v),
        red: 0.1 + 0.35 * ramp(-0.9, 0.1, v),
        blue: 0.55 * cloud * (1 - ramp(-0.9, 0, v)) + 0.05,
        black: 0.18 * cloud,
      };
    }
    if (v < quay) {
      const glitter = valueNoise(seed + 59, x / 2.5, y / 0.5);
      return {
        yellow: 0.2 + 0.25 * Math.max(0, glitter),
        red: 0.12,
        blue: 0.6 - 0.3 * Math.max(0, glitter),
        black: 0.2 + 0.35 * (v - ridge) - 0.12 * glitter,
      };
    }
    return { yellow: 0.4, red: 0.4 + 0.12 * grainy, blue: 0.45, black: 0.5 + 0.25 * grainy };
  });
}

function paintCentred(
  text: string,
  {
    top,
    height,
    weight,
    centre = COVER_WIDTH_MM / 2,
  }: {
    readonly top: number;
    readonly height: number;
    readonly weight: number;
    readonly centre?: number;
  },
  draw: (letter: Shape) => void,
): void {
  for (const letter of lettering(text, centre - textWidth(text, height) / 2, top, height, weight))
    draw(letter);
}

function paintTitle(brush: Brush, layout: Layout, top: number): void {
  const { left, right } = PICTURE;
  brush.region(rectangle(left, top, right, top + BAND_HEIGHT), "red");
  brush.apply(rectangle(left, top + BAND_HEIGHT - 1.3, right, top + BAND_HEIGHT), BLACK_LINE);
  const height = Math.min(21, (140 / textWidth(layout.title, 1)) * 1);
  const weight = 0.235 * height;
  const width = textWidth(layout.title, height);
  const letters = lettering(
    layout.title,
    (COVER_WIDTH_MM - width) / 2,
    top + 8.5 + (21 - height) / 2,
    height,
    weight,
  );
  for (const letter of letters) {
    const [l, t, r, b] = letter.box;
    const shadow: Shape = {
      distance: (x, y) => letter.distance(x - 1.5, y - 1.5) - 0.5,
      box: [l + 1, t + 1, r + 2, b + 2],
    };
    brush.apply(shadow, BLACK_LINE);
  }
  for (const letter of letters) brush.apply(grown(letter, 0.8), BLACK_LINE);
  for (const letter of letters) brush.region(letter, "yellow");
  const white = (letter: Shape): void => brush.apply(letter, BARE);
  paintCentred(
    layout.whale ? "TALES TOLD ON THE LEE SIDE" : "A MONTHLY OF DEEP WATER YARNS",
    { top: top + 37.6, height: 3.6, weight: 0.75 },
    white,
  );
}

function paintPanel(brush: Brush, layout: Layout, top: number): void {
  brush.region(rectangle(PICTURE.left, top, PICTURE.right, top + PANEL_HEIGHT), "black");
  const yellow = (letter: Shape): void =>
    brush.apply(letter, { yellow: 1, red: 0, blue: 0, black: 0 });
  const white = (letter: Shape): void => brush.apply(letter, BARE);
  paintCentred(layout.story[0], { top: top + 3, height: 6.2, weight: 1.25, centre: 96 }, yellow);
  paintCentred(layout.story[1], { top: top + 12.2, height: 2.9, weight: 0.55, centre: 96 }, white);
}

function paintPrice(brush: Brush, cx: number, cy: number): void {
  brush.apply(star(cx, cy, 15.2, 12.4, 18), BLACK_LINE);
  brush.region(star(cx, cy, 14.2, 11.6, 18), "yellow");
  const black = (letter: Shape): void => brush.apply(letter, BLACK_LINE);
  paintCentred("15", { top: cy - 6.5, height: 8, weight: 1.9, centre: cx }, black);
  paintCentred("CENTS", { top: cy + 4.4, height: 2.6, weight: 0.6, centre: cx }, black);
}

/** @param picture Draws mirrored where the layout is flipped; `type` never does. */
function paintFront(picture: Brush, type: Brush, layout: Layout): void {
  const { titleAtFoot } = layout;
  const bandTop = titleAtFoot ? PICTURE.bottom - BAND_HEIGHT : PICTURE.top;
  const panelTop = titleAtFoot ? PICTURE.top : PICTURE.bottom - PANEL_HEIGHT;
  const skyTop = PICTURE.top + (titleAtFoot ? PANEL_HEIGHT : BAND_HEIGHT);
  const seaFoot = titleAtFoot ? bandTop : panelTop;
  if (layout.whale) {
    paintWhale(picture, layout, skyTop, seaFoot);
  } else {
    paintSky(picture, layout, skyTop);
    paintClouds(picture, layout, skyTop);
    paintSea(picture, layout, seaFoot);
    paintIsland(picture, layout);
    paintShip(picture, layout);
    paintSerpent(picture, layout, seaFoot);
  }
  paintTitle(type, layout, bandTop);
  paintPanel(type, layout, panelTop);
  if (!layout.whale) {
    paintPrice(type, 146, titleAtFoot ? bandTop - 16 : bandTop + BAND_HEIGHT + 5);
    paintPhotograph(picture, layout, 30, titleAtFoot ? bandTop - 14 : panelTop - 9);
  }
  if (layout.whale) return;
  const black = (letter: Shape): void => type.apply(letter, BLACK_LINE);
  for (const [i, text] of ["SIX LONG YARNS", "FOUR SHORT ONES", "ALL SALT, NO SUGAR"].entries())
    for (const letter of lettering(text, 12, skyTop + 5 + 5.4 * i, 3, 0.62)) black(letter);
}

/** The other picture: a whale breaching at dusk, a boat in the way. It shares no outline with the serpent. */
function paintWhale(brush: Brush, layout: Layout, top: number, foot: number): void {
  const { seed } = layout;
  const { left, right } = PICTURE;
  const random = seededRandom(seed + 2100);
  const horizon = top + 0.56 * (foot - top);
  const sway = 8 * random.uniform();
  brush.region(rectangle(left, top, right, horizon), "orange");
  brush.apply(rectangle(left, top, right, top + 26), (x, y) => {
    const t = ramp(top, top + 26, y + 4 * fractalNoise(seed + 21, x / 30, y / 6, 3));
    return { yellow: 0.95 * t, red: 0.1 + 0.35 * t, blue: 0.5 * (1 - t), black: 0 };
  });
  const moon: Vertex = [136 - sway, top + 36];
  brush.apply(disc(...moon, 18), { red: 0.2, yellow: 0.5, blue: 0 });
  brush.apply(disc(...moon, 15), BARE);
  const ridge = (x: number): number =>
    horizon - 12 - 9 * fractalNoise(seed + 5, x / 21, 0, 3) - 7 * Math.abs(Math.sin(x / 23 + seed));
  const hills = polygon([...curve(left, right, 2, ridge), [right, horizon], [left, horizon]]);
  brush.region(hills, "violet-brown");
  brush.region(rectangle(left, horizon, right, foot), "green");

  const at = (dx: number, dy: number): Vertex => [58 + sway + dx, horizon + dy];
  const spine = [at(-34, 26), at(-26, 10), at(-14, -8), at(2, -24), at(20, -37), at(34, -45)];
  const girth = [3, 9, 15, 19, 18, 13];
  const body = stroke(spine, girth);
  const water = rectangle(left, 0, right, horizon + 24);
  brush.apply(overlap(grown(body, 1), water), BLACK_LINE);
  brush.region(overlap(body, water), "blue");
  const belly = stroke([at(-12, 8), at(6, -10), at(24, -26), at(39, -38)], [5, 7, 7, 4]);
  brush.apply(overlap(belly, body), BARE);
  for (let fold = 0; fold < 5; fold++) {
    const d = 2.6 * fold - 5;
    const crease = stroke(
      [at(-10 + d, 6 + d), at(8 + d, -11 + d), at(26 + d, -27 + d), at(40 + d, -39 + d)],
      0.35,
    );
    brush.apply(overlap(overlap(crease, belly), body), BLACK_LINE);
  }
  brush.apply(disc(...at(24, -41), 2.2), BARE);
  brush.apply(disc(...at(24.6, -40.6), 1.2), BLACK_LINE);
  const fin = stroke([at(4, -14), at(-8, 2), at(-24, 4)], [6, 5, 1.5]);
  brush.apply(overlap(grown(fin, 0.8), water), BLACK_LINE);
  brush.region(overlap(fin, water), "blue");
  for (let jet = 0; jet < 5; jet++) {
    const lean = -6 + 3 * jet;
    const spray = stroke(
      [at(30, -58), at(30 + 0.6 * lean, -68), at(30 + 1.8 * lean, -72 + 0.8 * Math.abs(lean))],
      [1.5, 1.1, 0.6],
    );
    brush.apply(overlap(spray, rectangle(left, top, right, foot)), {
      yellow: 0,
      red: 0,
      blue: 0.25,
    });
  }

  const boat = polygon([at(26, 26), at(34, 31), at(72, 31), at(86, 22), at(80, 40), at(38, 41)]);
  for (let oar = 0; oar < 4; oar++) {
    const x = 42 + 9 * oar;
    brush.apply(stroke([at(x, 29), at(x - 9, 49)], [0.5, 0.9]), BLACK_LINE);
    brush.apply(stroke([at(x + 1, 33), at(x + 2, 24)], [3.2, 2.2]), BLACK_LINE);
    brush.apply(disc(...at(x + 2.4, 20.5), 2.4), { yellow: 0.4, red: 0.3, blue: 0, black: 0 });
  }
  brush.apply(grown(boat, 0.7), BLACK_LINE);
  brush.region(boat, "red");
  brush.apply(stroke([at(30, 30.5), at(72, 33.5), at(83, 26)], 0.5), BARE);
  const foamAt = (y: number, phase: number): Shape =>
    stroke(
      curve(left, right, 1.5, (x) => horizon + y + 1.6 * Math.sin(x / 6 + phase)),
      0.8,
    );
  for (let wave = 0; wave < 4; wave++)
    brush.apply(
      overlap(foamAt(24 + 9 * wave, 2 * wave + sway), rectangle(left, horizon, right, foot)),
      {
        yellow: 0.3,
        blue: 0.1,
      },
    );
}

const WORDS =
  "ANCHOR BELAY CABLE DECK EBB FATHOM GALE HAWSER INLET JIB KEEL LEEWARD MAST NEAP OAR PILOT QUAY REEF SHOAL TIDE UNDER VANE WHARF YARD AND THE OF A TO IN BY FOR".split(
    " ",
  );

/** Two columns of small type and a box with two pictures, as a back cover. */
function paintBack(brush: Brush, layout: Layout): void {
  const { left, top, right } = PICTURE;
  const { whale } = layout;
  const random = seededRandom(layout.seed + 1300);
  brush.region(rectangle(left, top, right, top + 26), whale ? "violet-brown" : "blue");
  const white = (letter: Shape): void => brush.apply(letter, BARE);
  const black = (letter: Shape): void => brush.apply(letter, BLACK_LINE);
  paintCentred(
    whale ? "MIND THE LINE" : "LEARN THE ROPES",
    { top: top + 6, height: 11, weight: 2.3 },
    white,
  );
  const typeTop = whale ? 118 : 40;
  for (let column = 0; column < 2; column++)
    for (let row = 0; row < 33; row++) {
      let x = left + 4 + 80 * column;
      const end = x + (row % 9 === 8 ? 30 : 68);
      for (;;) {
        const word = WORDS[random.below(WORDS.length)];
        const next = x + textWidth(word, 1.9) + 2.2;
        if (next > end) break;
        for (const letter of lettering(word, x, typeTop + 3.7 * row, 1.9, 0.4)) black(letter);
        x = next;
      }
    }
  const boxTop = whale ? 36 : 166;
  brush.region(rectangle(left, boxTop, right, boxTop + 76), "orange");
  const [pictureX, badgeX] = whale ? [124, 46] : [42, 122];
  const middle = boxTop + 38;
  brush.region(rectangle(pictureX - 32, middle - 32, pictureX + 32, middle + 32), "green");
  brush.region(disc(badgeX, middle, 26), whale ? "blue" : "red");
  brush.region(star(badgeX, middle, 19, 8, whale ? 5 : 8), "yellow");
  paintPhotograph(brush, layout, pictureX, middle);
}

/**
 * The plates of an invented cover.
 * @param seed 1 gives the cover of the samples; any other seed another issue, drawn differently.
 * @param widthMm, heightMm Size of the sheet. Wider than high: back cover left, front cover right.
 */
export function drawCover(seed = 1, widthMm = COVER_WIDTH_MM, heightMm = COVER_HEIGHT_MM): Plates {
  const plates = blankPlates(widthMm, heightMm);
  const layout = layoutOf(seed);
  const front = (left: number, width: number): void => {
    const page = { left, width, height: heightMm, flipped: false };
    paintFront(
      brushFor(plates, { ...page, flipped: layout.flipped }),
      brushFor(plates, page),
      layout,
    );
  };
  if (widthMm <= heightMm) {
    front(0, widthMm);
    return plates;
  }
  const width = widthMm / 2;
  paintBack(brushFor(plates, { left: 0, width, height: heightMm, flipped: false }), layout);
  front(width, width);
  return plates;
}
