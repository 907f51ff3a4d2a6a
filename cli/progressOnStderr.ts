import { SingleBar } from "cli-progress";
import type { Progress } from "../src/progress.ts";
import { plainLine } from "./plainText.ts";

export interface StoppableProgress extends Progress {
  stop(): void;
}

const STEPS = 1000;

/** A bar with time left on a terminal; nothing elsewhere, so that log files stay clean. */
export function progressOnStderr(wanted: boolean): StoppableProgress {
  if (!wanted || !process.stderr.isTTY) return { report: () => undefined, stop: () => undefined };
  const bar = new SingleBar({
    stream: process.stderr,
    format: "{stage} {bar} {percentage} %, {eta_formatted} left",
    hideCursor: true,
    clearOnComplete: true,
  });
  bar.start(STEPS, 0, { stage: "starting" });
  return {
    report: (stage, share) => {
      bar.update(Math.round(share * STEPS), { stage: plainLine(stage) });
    },
    stop: () => {
      bar.stop();
    },
  };
}
