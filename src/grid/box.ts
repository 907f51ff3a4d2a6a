/** A rectangle along the axes, in full pixels of the upright frame or in cells of a grid: the name of the variable says which. */
export type Box = readonly [x: number, y: number, width: number, height: number];
