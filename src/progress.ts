/** How far a long computation has come; tells nothing about time, so results do not depend on it. */
export interface Progress {
  /**
   * @param stage What is being done, a short phrase for people.
   * @param share Share of the whole work done so far, 0..1.
   */
  report(stage: string, share: number): void;
}

/** Says nothing. */
export const SILENT: Progress = { report: () => undefined };
