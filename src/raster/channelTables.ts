/** A value for each code of R, G and B: 256 values a channel for 8 bit, 65536 for 16 bit. */
export type ChannelTables = readonly [
  Float64Array | Float32Array,
  Float64Array | Float32Array,
  Float64Array | Float32Array,
];
