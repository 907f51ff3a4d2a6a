import { outlineOfMask } from "../grid/outlineOfMask.ts";
import type { CompareRequest } from "./compareRequest.ts";
import { setImmediate } from "node:timers/promises";
import { chooseCorrection } from "../calibrate/chooseCorrection.ts";
import { prepareFloor } from "../calibrate/prepareFloor.ts";
import { boxRadius, LOW_PASS_MM, lowPass } from "../grid/lowPass.ts";
import type { Progress } from "../progress.ts";
import { evenBothLights } from "./evenBothLights.ts";
import type { Frame } from "./openFrame.ts";
import { pictureOfPlanes } from "../picture/pictureOfPlanes.ts";
import { MM_PER_INCH } from "../numeric/units.ts";
import { DEFAULT_SEED } from "../register/registerSheets.ts";
import { reducedFrame } from "./reducedFrame.ts";
import { registerFrames, sheetPair } from "./registerFrames.ts";
import { prepareScan } from "./prepareScan.ts";
import { scaleOfPair, scaleSource } from "./scaleOfPair.ts";

/**
 * Calibrates both frames, finds the inks of the first, lays the second over it and evens the light of both.
 * @returns What measuring needs; what finding the sheet and its inks took on the way is let go.
 * @throws {LastrinseError} Whatever makes a figure untrustworthy: see the codes of each stage.
 */
export async function preparePair(
  before: Frame,
  after: Frame,
  request: CompareRequest,
  progress: Progress,
) {
  const { card, strict = false, seed = DEFAULT_SEED } = request;
  const scale = scaleOfPair(
    scaleSource(before, request.dpi, request.before.cardScan),
    scaleSource(after, request.dpi, request.after.cardScan),
    card,
    strict,
  );

  progress.report("calibrating", 0.2);
  const sheets = await sheetPair(before, after, scale);
  const frames = [{ samples: before.samples }, { samples: after.samples }];
  const choice = chooseCorrection(frames, card);
  const corrections = [choice.frames[0].correction, choice.frames[1].correction] as const;
  const floor = prepareFloor(frames, card, choice, { seed });

  progress.report("finding the sheet", 0.3);
  const {
    planes: beforePlanes,
    mmPerCell,
    view,
    findInks,
  } = prepareScan(before, corrections[0], scale.before, request);

  progress.report("finding the inks, laying the after scan over the before scan", 0.4);
  // The registration mostly works in other threads: meanwhile the inks are found, the after frame is reduced and the light
  // evened here.
  const inksAndLight = async () => {
    await setImmediate();
    const regions = findInks();
    await setImmediate();
    const afterPlanes = reducedFrame(after, corrections[1], scale.after);
    await setImmediate();
    const light = evenBothLights(
      [before, after],
      [beforePlanes, afterPlanes],
      corrections,
      scale,
      view.sheet.mask,
    );
    // Nothing reads full pixels from here on.
    before.pixels.release();
    after.pixels.release();
    const pictureBefore = pictureOfPlanes(
      beforePlanes,
      corrections[0],
      scale.before / beforePlanes.stepX,
    );
    // A failure is met where the picture is used.
    pictureBefore.catch(() => undefined);
    await setImmediate();
    const smoothBefore = lowPass(beforePlanes, boxRadius(LOW_PASS_MM, mmPerCell));
    await setImmediate();
    const mmPerAfterCell = (afterPlanes.stepX * MM_PER_INCH) / scale.after;
    const smoothed = lowPass(afterPlanes, boxRadius(LOW_PASS_MM, mmPerAfterCell));
    return { regions, afterPlanes, light, pictureBefore, smoothBefore, smoothed };
  };
  const [registration, looked] = await bothOf(
    registerFrames(before, after, sheets, outlineOfMask(view.sheet.mask, beforePlanes), {
      seed,
      workers: request.workers,
      onProgress(share) {
        progress.report(
          "finding the inks, laying the after scan over the before scan",
          0.4 + 0.4 * share,
        );
      },
    }),
    inksAndLight(),
  );
  return {
    scale,
    choice,
    corrections,
    floor,
    beforePlanes,
    mmPerCell,
    registration,
    ...looked,
  };
}

/** Waits for both, also where one fails: nothing is left running. Of two failures the first one's is told. */
async function bothOf<A, B>(first: Promise<A>, second: Promise<B>): Promise<[A, B]> {
  await Promise.allSettled([first, second]);
  return [await first, await second];
}
