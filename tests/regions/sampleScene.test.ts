import { beforeAll, expect, test } from "vitest";
import { REGIONS } from "../../sample-images/scene/cover.ts";
import { pairScenes } from "../../sample-images/scene/pairScenes.ts";
import type { PairTruth } from "../../sample-images/scene/pairTruth.ts";
import { renderFrame } from "../../sample-images/scene/renderFrame.ts";
import { chooseCorrection } from "../../src/calibrate/chooseCorrection.ts";
import { correctionTables } from "../../src/calibrate/correctionTables.ts";
import { planesToLab } from "../../src/calibrate/planesToLab.ts";
import { cardNamed, DEFAULT_CARD_NAME } from "../../src/card/cards.ts";
import { placeCard } from "../../src/card/placeCard.ts";
import { samplePatches } from "../../src/card/samplePatches.ts";
import { linearPlanes } from "../../src/raster/linearPlanes.ts";
import { sheetView } from "../../src/regions/sheetView.ts";
import { findRegions } from "../../src/regions/findRegions.ts";
import type { RegionMap } from "../../src/regions/regionMap.ts";
import { PAPER_LABEL } from "../../src/regions/regionMap.ts";
import { adjustedRandIndex } from "../support/adjustedRandIndex.ts";

/** 100 cells an inch, the size for which the recipe is stated; the cover of the samples, full size. */
const DPI = 100;

let truth: PairTruth;
let map: RegionMap;
/** True label of each cell: 1.. as in REGIONS, 255 bare paper, 0 beside the sheet and where no single colour is printed. */
let labels: Uint8Array;

beforeAll(() => {
  const scenes = pairScenes({ dpiBefore: DPI, widthMm: 130, heightMm: 190 });
  truth = scenes.truth;
  const raster = renderFrame(scenes.before, scenes.scannerBefore);
  const card = cardNamed(DEFAULT_CARD_NAME);
  const corners = truth.cardCornersBefore;
  if (card === undefined || corners === null) throw new Error("the scene has no card");
  const placed = placeCard(raster, card, corners, "before");
  const frame = { samples: samplePatches(raster, card, placed) };
  const { correction } = chooseCorrection([frame, frame], card).frames[0];
  const planes = linearPlanes(raster, correctionTables(correction, 8), 1);
  const [L, a, b] = planesToLab(planes, correction);
  const [p, q, r, s] = corners;
  // From the centres of the corner patches to the card's rim: a tenth more than its size over them.
  const grow = ([x, y]: readonly [number, number]): [number, number] => {
    const cx = (p[0] + q[0] + r[0] + s[0]) / 4;
    const cy = (p[1] + q[1] + r[1] + s[1]) / 4;
    return [cx + 1.45 * (x - cx), cy + 1.45 * (y - cy)];
  };
  map = findRegions(
    sheetView(
      {
        width: planes.width,
        height: planes.height,
        stepX: 1,
        stepY: 1,
        mmPerCell: 25.4 / DPI,
        L,
        a,
        b,
      },
      [[p, q, r, s].map(grow)],
    ),
  );
  labels = Uint8Array.from(map.labels, (_, i) =>
    truth.labelAt(i % map.width, Math.floor(i / map.width)),
  );
});

test("the sheet is found", () => {
  let wrong = 0;
  let sheet = 0;
  for (let i = 0; i < labels.length; i++) {
    const on = truth.onSheet(i % map.width, Math.floor(i / map.width));
    if (on) sheet++;
    if (on !== (map.sheet.mask[i] === 1)) wrong++;
  }
  // 0.7 mm all round, with torn corner and tear.
  expect(wrong / sheet).toBeLessThan(0.015);
});

test("the inks get the names under which they were drawn", () => {
  // Violet-brown is violet in plain words. Red over yellow, on the flag and round the sun, is a colour of its own.
  const kinds = new Map(map.inks.map(({ id, kind }) => [id, kind]));
  const drawn = REGIONS.map((id) => (id === "violet-brown" ? "violet" : id));
  for (const id of drawn) expect([...kinds.keys()]).toContain(id);
  expect(drawn.map((id) => kinds.get(id))).toEqual(
    REGIONS.map((id) =>
      id === "black" ? "black" : /orange|green|violet/.test(id) ? "overprint" : "ink",
    ),
  );
  expect(map.inks.length).toBeLessThanOrEqual(drawn.length + 2);
});

test("labels agree with the truth where one colour is printed (G13: 0.95)", () => {
  // Solids carry small lettering and line work, which the truth leaves out and which is folded into them.
  expect(adjustedRandIndex(labels, map.labels, labels)).toBeGreaterThan(0.95);
});

test("cores are pure: hardly a cell of another drawn colour", () => {
  for (const { id, label } of map.inks) {
    const counts = new Map<number, number>();
    let cells = 0;
    for (let i = 0; i < labels.length; i++)
      if (map.cores[i] === label && labels[i] !== 0) {
        counts.set(labels[i], (counts.get(labels[i]) ?? 0) + 1);
        cells++;
      }
    if (cells < 100) continue;
    expect(Math.max(...counts.values()) / cells, id).toBeGreaterThan(0.995);
  }
});

test("the paper's colour is that of the margins", () => {
  // Mode and mean of unevenly browned paper differ by its spread: 3 units.
  map.paper?.modeLab.forEach((value, c) =>
    expect(Math.abs(value - truth.paper.labBefore[c])).toBeLessThan(3),
  );
  let margins = 0;
  let found = 0;
  for (let i = 0; i < labels.length; i++) {
    if (labels[i] !== PAPER_LABEL || map.sheet.mask[i] === 0) continue;
    margins++;
    if (map.labels[i] === PAPER_LABEL) found++;
  }
  expect(found / margins).toBeGreaterThan(0.98);
});
