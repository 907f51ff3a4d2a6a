/** Three values of many places, one plane each, all of the same length. */
export type ThreePlanes = readonly [Float32Array, Float32Array, Float32Array];
