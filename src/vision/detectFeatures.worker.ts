import type { Features, GreyImage } from "./features.ts";
import { cv } from "./cv.ts";
import { inScope, matFromBytes } from "./scope.ts";

/** The worker's half of `detectFeatures`. */
export function detectFeatures({ pixels, width, height }: GreyImage): Features {
  return inScope((scope) => {
    const image = matFromBytes(scope, pixels, width, height);
    const noMask = scope.keep(new cv.Mat());
    const keyPoints = scope.keep(new cv.KeyPointVector());
    const descriptors = scope.keep(new cv.Mat());
    const detector = scope.keep(new cv.AKAZE());
    detector.detectAndCompute(image, noMask, keyPoints, descriptors);
    const count = keyPoints.size();
    const xy = new Float64Array(2 * count);
    const response = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      const point = keyPoints.get(i);
      xy[2 * i] = point.pt.x;
      xy[2 * i + 1] = point.pt.y;
      response[i] = point.response;
    }
    return {
      xy,
      response,
      descriptors: count === 0 ? new Uint8Array(0) : descriptors.data.slice(),
      bytesPerDescriptor: descriptors.cols,
    };
  });
}
