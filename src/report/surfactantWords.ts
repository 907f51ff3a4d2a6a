/** Whether a bath held surfactant, in words; what nobody stated is said to be that. */
export function surfactantWords(surfactant: boolean | null): string {
  if (surfactant === null) return "surfactant not stated";
  return surfactant ? "with surfactant" : "without surfactant";
}
