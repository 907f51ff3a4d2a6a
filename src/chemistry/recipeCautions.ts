export interface CautionState {
  readonly ph: number;
  readonly temperatureC: number;
  readonly saturated: boolean;
  /** null: no surfactant asked for. */
  readonly shareOfCmc: number | null;
  readonly shareOfIso9706: number;
  readonly rinses: number | null;
}

/** Usual upper limit for groundwood and for red or blue lakes (common practice, no source). */
export const STRONG_PH = 9;
/** From here limewater is treated as caustic (safety sheets say "above 12" for saturated; a margin of half a unit). */
const CAUSTIC_PH = 11.5;
/** More than this many times the cmc is needlessly hard to rinse out. */
const MUCH_SURFACTANT_CMC = 3;
/** Warm from the hand; dye and adhesive loosen faster above (common practice, no source). */
const WARM_C = 40;

/**
 * What the person and the object need to know about a bath, most weighty first. Never empty.
 */
export function recipeCautions(state: CautionState): readonly string[] {
  const cautions: string[] = [];
  if (state.ph > STRONG_PH)
    cautions.push(
      `pH ${state.ph.toFixed(1)} is stronger than usual for groundwood paper and for red or blue lakes (usual: 7.5 to 8.5, at most about 9). Add limewater little by little, stir, and stop at a measured pH.`,
    );
  cautions.push(
    state.ph > CAUSTIC_PH
      ? "This bath and its stock are caustic: goggles and gloves, no contact lenses. In the eye: rinse for 15 minutes and see a doctor."
      : "The limewater stock is caustic: goggles and gloves, no contact lenses. In the eye: rinse for 15 minutes and see a doctor.",
    "Label the jars caustic and never use them for food again. Keep them from children. Wet hands off mains, lamp and scanner.",
    "Put solid lime into water, never water onto lime. Make the stock cold, let it settle, decant it clear, then thin it with warm water.",
  );
  if (state.saturated)
    cautions.push(
      "At this temperature less lime dissolves than the stock brings: the rest comes out as a white solid that lodges in the paper. Use less stock.",
    );
  if (state.temperatureC > WARM_C)
    cautions.push(
      `At ${state.temperatureC.toFixed(0)} °C dye and adhesive loosen faster as well as soil.`,
    );
  if (state.shareOfCmc !== null && state.shareOfCmc > MUCH_SURFACTANT_CMC)
    cautions.push(
      `More than ${MUCH_SURFACTANT_CMC} times the critical micelle concentration cleans no better and is harder to rinse out. Use fewer drops.`,
    );
  if (state.shareOfCmc !== null && state.shareOfCmc > 0)
    cautions.push(
      "Drops differ by tip: weigh 20 of them, or count mL of a 1 % dilution. After a bath with surfactant at least one plain rinse, better two.",
      "Octylphenol ethoxylates are restricted in the EU: ask for an alcohol ethoxylate.",
    );
  if (state.rinses !== null)
    cautions.push(
      "The number of rinses counts dilution only; surfactant that clings to the fibre leaves more slowly. Shake 20 mL of the last rinse in a closed bottle: a foam ring after one minute means another rinse.",
    );
  if (state.ph > STRONG_PH && state.shareOfIso9706 < 1)
    cautions.push(
      `Dried in, this bath leaves about ${(100 * state.shareOfIso9706).toFixed(state.shareOfIso9706 < 0.1 ? 1 : 0)} % of the reserve ISO 9706 asks of permanent paper, less what the sheet's own acid takes. It is not a lasting reserve.`,
    );
  cautions.push(
    "An open lime bath clouds by itself as it takes up carbon dioxide: keep a blank of the same age beside it, cover the tray, stir little. Tap water takes up part of the lime: trust the measured pH.",
    "Test every ink with this very bath, warm and for the intended time, under a blotter. Not for iron blue, chrome yellow, unknown pinks and violets, coated or starch-sized covers.",
    "Washing cannot be undone. Mould: stop and ask. A valuable or loved object belongs with a conservator.",
    "Follow local rules for the waste. Baths that may hold chrome yellow (lead, chromate) are collected, not poured away.",
  );
  return cautions;
}
