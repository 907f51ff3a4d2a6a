import { encodePng } from "./encodePng.ts";

/** Half the width of the line, cells: black inside the area, white outside, seen on light and dark alike. */
const REACH = 1;

interface LabelPicture {
  readonly labels: Uint8Array;
  readonly width: number;
  readonly height: number;
}

function nearLabel(
  { labels, width, height }: LabelPicture,
  x: number,
  y: number,
  wanted: (label: number) => boolean,
): boolean {
  for (let dy = -REACH; dy <= REACH; dy++)
    for (let dx = -REACH; dx <= REACH; dx++) {
      const [i, j] = [x + dx, y + dy];
      if (i < 0 || j < 0 || i >= width || j >= height) continue;
      if (wanted(labels[j * width + i])) return true;
    }
  return false;
}

/**
 * The outline of one label as a PNG with a clear ground.
 * @param labels Row-major.
 */
export function outlinePicture(
  labels: Uint8Array,
  width: number,
  height: number,
  label: number,
): Promise<Buffer> {
  const data = new Uint8Array(4 * width * height);
  const picture = { labels, width, height };
  const isIt = (value: number): boolean => value === label;
  const isOther = (value: number): boolean => value !== label;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const at = y * width + x;
      const inside = labels[at] === label;
      if (!nearLabel(picture, x, y, inside ? isOther : isIt)) continue;
      const grey = inside ? 0 : 255;
      data.set([grey, grey, grey, 255], 4 * at);
    }
  return encodePng({ width, height, channels: 4, data });
}
