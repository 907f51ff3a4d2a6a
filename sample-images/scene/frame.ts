/** A frame in mm, (0, 0) its top-left corner, and the pixels it is scanned at. */
export interface FrameSize {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly dpi: number;
}

/** Adds something to row `y` of a frame: interleaved triples in linear light. */
export type RowPainter = (y: number, row: Float32Array) => void;

/** Width and height in pixels. */
export function framePixels(frame: FrameSize): [number, number] {
  const perMm = frame.dpi / 25.4;
  return [Math.round(frame.widthMm * perMm), Math.round(frame.heightMm * perMm)];
}
