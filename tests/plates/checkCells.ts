import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import type { ThreePlanes } from "../../src/grid/threePlanes.ts";
import { cellsOfPlanes, type PlateCells } from "../../src/plates/plateCells.ts";
import { sharedData } from "../support/sharedData.ts";

type Four = readonly [number, number, number, number];
type Three = readonly [number, number, number];
type Name = "yellow" | "red" | "blue" | "black";

/** Figures of each step for one pair of cells, worked by another implementation. */
export interface CheckFigures {
  readonly width: number;
  readonly height: number;
  readonly drawn: readonly number[];
  readonly usable: number;
  readonly paperBands: Three;
  readonly paperFromLights: boolean;
  readonly barePaperCells: number;
  readonly medianPaperChange: Three;
  readonly darkness: number;
  readonly told: boolean;
  readonly q: number;
  readonly solids: Readonly<Record<Name, Three>>;
  readonly absorptions: Readonly<Record<Name, Three>>;
  readonly films: readonly {
    readonly h: number;
    readonly f: Four;
    readonly raw: Four;
    readonly sd: Four;
    readonly g: Three;
    readonly dp: Three;
    readonly addedLight: Three;
    readonly u: number;
    readonly weight: number;
  }[];
  readonly cells: readonly {
    readonly index: number;
    readonly x: Three;
    readonly y: Three;
    readonly e: number;
    readonly mostBlack: Four;
    readonly leastBlack: Four;
    readonly G: readonly [Four, Four, Four];
  }[];
  readonly plates: {
    readonly F: Four;
    readonly low: Four;
    readonly high: Four;
    readonly verdict: readonly string[];
  };
}

export interface CheckPair {
  readonly figures: CheckFigures;
  readonly cells: PlateCells;
}

/** The pair kept with the tests. */
export function ownCheckPair(): CheckPair {
  const file = (name: string): Buffer => readFileSync(new URL(`data/${name}`, import.meta.url));
  const figures = JSON.parse(file("newsprint-red.json").toString()) as CheckFigures;
  const bytes = gunzipSync(file("newsprint-red.u16.gz"));
  const size = figures.width * figures.height;
  const plane = (p: number): Float32Array => {
    let code = 0;
    return Float32Array.from({ length: size }, (_, i) => {
      code = (code + bytes.readUInt16LE(2 * (p * size + i))) & 0xffff;
      return code === 0xffff ? NaN : Math.exp(code / 9000 - 7);
    });
  };
  return { figures, cells: cellsFrom(figures, plane) };
}

/** A pair published beside the project. */
export function sharedCheckPair(name: string): CheckPair {
  const figures = JSON.parse(
    readFileSync(sharedData(`plates/${name}.json`), "utf8"),
  ) as CheckFigures;
  const bytes = readFileSync(sharedData(`plates/${name}.f32`));
  const size = figures.width * figures.height;
  const plane = (p: number): Float32Array =>
    Float32Array.from({ length: size }, (_, i) => bytes.readFloatLE(4 * (6 * i + p)));
  return { figures, cells: cellsFrom(figures, plane) };
}

function cellsFrom(
  { width, height }: CheckFigures,
  plane: (p: number) => Float32Array,
): PlateCells {
  const before: ThreePlanes = [plane(0), plane(1), plane(2)];
  const after: ThreePlanes = [plane(3), plane(4), plane(5)];
  return cellsOfPlanes({ width, height, before, after });
}
