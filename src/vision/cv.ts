import { cv as loaded } from "opencv-wasm";

/** The part of the package that is used here; its own types are all `any`. */
export interface Mat {
  readonly rows: number;
  readonly cols: number;
  /** Views into the wasm heap: detached when the heap grows. Fetch again after every allocation. */
  readonly data: Uint8Array;
  readonly data32S: Int32Array;
  readonly data32F: Float32Array;
  delete(): void;
}

export interface Vector<T> {
  size(): number;
  get(index: number): T;
  delete(): void;
}

export interface KeyPoint {
  readonly pt: { readonly x: number; readonly y: number };
  readonly response: number;
}

export interface RotatedRect {
  readonly center: { readonly x: number; readonly y: number };
  readonly size: { readonly width: number; readonly height: number };
  readonly angle: number;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

export interface OpenCv {
  readonly CV_8UC1: number;
  readonly CV_32FC1: number;
  readonly CV_32SC2: number;
  readonly TM_CCOEFF_NORMED: number;
  readonly RETR_LIST: number;
  readonly CHAIN_APPROX_SIMPLE: number;
  readonly ADAPTIVE_THRESH_MEAN_C: number;
  readonly THRESH_BINARY: number;
  readonly THRESH_BINARY_INV: number;
  readonly MORPH_RECT: number;
  readonly Mat: new (rows?: number, columns?: number, type?: number) => Mat;
  readonly MatVector: new () => Vector<Mat>;
  readonly KeyPointVector: new () => Vector<KeyPoint>;
  readonly Size: new (width: number, height: number) => Size;
  readonly AKAZE: new () => {
    detectAndCompute(image: Mat, mask: Mat, keyPoints: Vector<KeyPoint>, descriptors: Mat): void;
    delete(): void;
  };
  matchTemplate(image: Mat, template: Mat, result: Mat, method: number): void;
  boxFilter(source: Mat, target: Mat, depth: number, size: Size): void;
  medianBlur(source: Mat, target: Mat, size: number): void;
  adaptiveThreshold(
    source: Mat,
    target: Mat,
    maximum: number,
    method: number,
    type: number,
    blockSize: number,
    offset: number,
  ): void;
  threshold(source: Mat, target: Mat, limit: number, maximum: number, type: number): void;
  Canny(source: Mat, target: Mat, low: number, high: number): void;
  bitwise_not(source: Mat, target: Mat): void;
  dilate(source: Mat, target: Mat, kernel: Mat): void;
  erode(source: Mat, target: Mat, kernel: Mat): void;
  getStructuringElement(shape: number, size: Size): Mat;
  findContours(
    image: Mat,
    contours: Vector<Mat>,
    hierarchy: Mat,
    mode: number,
    method: number,
  ): void;
  arcLength(curve: Mat, closed: boolean): number;
  contourArea(contour: Mat): number;
  approxPolyDP(curve: Mat, approximation: Mat, epsilon: number, closed: boolean): void;
  isContourConvex(contour: Mat): boolean;
  minAreaRect(points: Mat): RotatedRect;
  exceptionFromPtr(pointer: number): { readonly msg: string };
}

/**
 * The package. Import only inside a worker: it adds process-wide handlers, and its object has a `then`, so it must never be
 * awaited or returned from an async function.
 */
export const cv = checked(loaded);

/** @throws {TypeError} A package of another make: what it exports is not what is declared here. */
function checked(found: unknown): OpenCv {
  if (!isOpenCv(found)) throw new TypeError("Expected opencv-wasm to export OpenCV 4.");
  return found;
}

function isOpenCv(found: unknown): found is OpenCv {
  return (
    typeof found === "object" &&
    found !== null &&
    ["Mat", "AKAZE", "findContours", "exceptionFromPtr"].every((name) => name in found)
  );
}
