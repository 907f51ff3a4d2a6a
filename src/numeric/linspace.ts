/** `count` (at least 2) equally spaced values from `first` to `last`, both included. */
export function linspace(first: number, last: number, count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, i) => first + ((last - first) * i) / (count - 1));
}
