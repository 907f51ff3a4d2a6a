import cliProgress, { type Options, type Params } from "cli-progress";
import type { Progress } from "../src/progress.ts";
import { plainLine } from "./plainText.ts";

export interface StoppableProgress extends Progress {
  stop(): void;
}

const STEPS = 1000;

function timeOf(seconds: number): string {
  const whole = Math.round(seconds);
  return whole < 60 ? `${String(whole)} s` : `${String(Math.round(whole / 60))} min`;
}

/** Before anything is done nobody knows how long it takes: no time is told then. */
export function progressLine(
  options: Options,
  { progress, eta }: Pick<Params, "progress" | "eta">,
  { stage }: { readonly stage: string },
): string {
  const bar = cliProgress.Format.BarFormat(progress, options);
  const left = progress > 0 && Number.isFinite(eta) ? `, ${timeOf(eta)} left` : "";
  return `${stage} ${bar} ${(100 * progress).toFixed(0)} %${left}`;
}

/** A bar with time left on a terminal; nothing elsewhere, so that log files stay clean. */
export function progressOnStderr(wanted: boolean): StoppableProgress {
  if (!wanted || !process.stderr.isTTY) return { report: () => undefined, stop: () => undefined };
  const bar = new cliProgress.SingleBar({
    stream: process.stderr,
    format: progressLine,
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
