import { cv, type Mat } from "./cv.ts";

interface Deletable {
  delete(): void;
}

/** Keeps what the wasm heap must get back. */
export interface Scope {
  /** Registers an object and returns it. */
  keep<T extends Deletable>(object: T): T;
}

function translated(error: unknown): unknown {
  return typeof error === "number"
    ? new Error(cv.exceptionFromPtr(error).msg, { cause: error })
    : error;
}

/**
 * Runs `work` and gives everything it kept back to the wasm heap, also on failure.
 * @throws {Error} OpenCV throws bare numbers; they come out as errors with their text.
 */
export function inScope<T>(work: (scope: Scope) => T): T {
  const kept: Deletable[] = [];
  try {
    return work({
      keep(object) {
        kept.push(object);
        return object;
      },
    });
  } catch (error) {
    throw translated(error);
  } finally {
    for (const object of kept.reverse()) object.delete();
  }
}

/** A one-channel 8-bit Mat holding a copy of `pixels` (height x width, row-major). */
export function matFromBytes(scope: Scope, pixels: Uint8Array, width: number, height: number): Mat {
  const mat = scope.keep(new cv.Mat(height, width, cv.CV_8UC1));
  mat.data.set(pixels);
  return mat;
}
