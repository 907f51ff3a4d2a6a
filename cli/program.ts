import { Command } from "commander";
import type { SetExitStatus } from "./addCommon.ts";
import { adviseCommand } from "./commands/advise.ts";
import { amendCommand } from "./commands/amend.ts";
import { bathCommand } from "./commands/bath.ts";
import { blotCommand } from "./commands/blot.ts";
import { exportCommand } from "./commands/export.ts";
import { jarCommand } from "./commands/jar.ts";
import { openCommand } from "./commands/open.ts";
import { afterCommand, beforeCommand } from "./commands/scans.ts";
import { stepCommand } from "./commands/step.ts";
import { cardCommand } from "./commands/card.ts";
import { compareCommand } from "./commands/compare.ts";
import { demoCommand } from "./commands/demo.ts";
import { recipeCommand } from "./commands/recipe.ts";
import { reportCommand } from "./commands/report.ts";
import { readVersion } from "./readVersion.ts";

const CAUTIONS = `
Washing is irreversible. Limewater is caustic: goggles and gloves. Test every ink in the bath itself first.
The tool advises, it never certifies; a valuable or loved object goes to a conservator.`;

/**
 * The whole command line. Every command throws: usage errors as commander's own error, the rest as the library throws it.
 * @param setExitStatus Called once with the status of a command that ran to its end.
 */
export function buildProgram(setExitStatus: SetExitStatus): Command {
  const program = new Command("lastrinse")
    .description(
      "Is this the last rinse? Measures what washing did to a printed cover and to its bath.",
    )
    .version(readVersion(), "--version")
    .addHelpText("after", CAUTIONS);
  for (const command of [
    compareCommand,
    cardCommand,
    jarCommand,
    openCommand,
    beforeCommand,
    blotCommand,
    bathCommand,
    stepCommand,
    adviseCommand,
    afterCommand,
    amendCommand,
    reportCommand,
    exportCommand,
    recipeCommand,
    demoCommand,
  ])
    program.addCommand(command(setExitStatus));
  quietly(program);
  return program;
}

/** Commander must throw instead of ending the process, and leave printing of errors to the caller. */
function quietly(command: Command): void {
  command.exitOverride().configureOutput({ writeErr: () => undefined });
  command.commands.forEach(quietly);
}
