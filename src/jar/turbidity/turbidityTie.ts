/** The user's own dilution series, fitted. */
export interface TurbidityTie {
  /** `FNU`: strengths were given as such. `relative`: own dilutions, no unit. */
  readonly unit: "FNU" | "relative";
  /** strength = linear x index + quadratic x index^2, index per cm. */
  readonly linear: number;
  readonly quadratic: number;
  readonly points: readonly {
    readonly strength: number;
    readonly indexPerCm: number;
    /** Fitted less given. */
    readonly residual: number;
  }[];
  /** Of the strongest point: beyond it the tie says nothing but "more". */
  readonly largestIndex: number;
}
