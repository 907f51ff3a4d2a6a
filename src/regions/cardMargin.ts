/** Kept clear around the card: its own rim and its shadow. */
export const CARD_MARGIN_MM = 2;
