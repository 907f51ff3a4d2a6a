/** A one-channel 8-bit image, height x width, row-major. */
export interface GreyImage {
  readonly pixels: Uint8Array;
  readonly width: number;
  readonly height: number;
}

export interface Features {
  /** x, y of each key point, in pixels of the image, interleaved. */
  readonly xy: Float64Array;
  /** Strength of each key point. */
  readonly response: Float64Array;
  /** One binary descriptor a key point, row-major. */
  readonly descriptors: Uint8Array;
  readonly bytesPerDescriptor: number;
}
