/** x right, y down; in pixels of the upright frame unless the name says otherwise; (0, 0) is the centre of the top-left pixel. */
export type Point = readonly [number, number];
