/** Said on every report and by every recipe: for people, and for the object. */
export const CAUTIONS: readonly { readonly about: string; readonly text: string }[] = [
  {
    about: "For people",
    text: "Limewater is caustic: goggles and gloves. Label the jars caustic and never use them for food again. Wet hands off mains, lamp and scanner. Collect waste that may hold chrome yellow (lead, chromate). Mould: stop and ask.",
  },
  {
    about: "For the object",
    text: "Washing is irreversible. Never cut a strip from the object, never scan damp paper. Test every ink with the bath itself before the sheet gets wet.",
  },
  {
    about: "Whose judgement counts",
    text: "A conservator's, the product's safety sheet and local rules come before this page. The tool advises, it never certifies: not a condition grade, authentication or valuation.",
  },
];
