/** Part of each side of the frame that a mask touches. */
export function touchedSides(
  mask: Uint8Array,
  width: number,
  height: number,
): (readonly [string, number])[] {
  let top = 0;
  let bottom = 0;
  let left = 0;
  let right = 0;
  for (let x = 0; x < width; x++) {
    top += mask[x];
    bottom += mask[(height - 1) * width + x];
  }
  for (let y = 0; y < height; y++) {
    left += mask[y * width];
    right += mask[y * width + width - 1];
  }
  return [
    ["upper", top / width],
    ["lower", bottom / width],
    ["left", left / height],
    ["right", right / height],
  ];
}
