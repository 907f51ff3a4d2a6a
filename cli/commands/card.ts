import Table from "cli-table3";
import { Command } from "commander";
import type { Card } from "../../src/card/card.ts";
import { CARDS, DEFAULT_CARD_NAME } from "../../src/card/cards.ts";
import { checkCard } from "../../src/calibrate/checkCard.ts";
import { loadCard } from "../../src/card/loadCard.ts";
import { parseCorners } from "../../src/card/parseCorners.ts";
import { drawSheets } from "../../src/card/sheet/drawSheets.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import type { CardCheck } from "../../src/results/cardCheck.ts";
import { LastrinseError } from "../../src/errors.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import type { CommonOptions, OutputFiles } from "../context.ts";
import { noteLines } from "../noteLines.ts";
import { wholeNumberBetween } from "../parse.ts";
import { plainLine } from "../plainText.ts";

const EXAMPLES = `
Examples:
  lastrinse card list
  lastrinse card sheet --out sheets
  lastrinse card check photo.jpg --card chart24-pre2014
  lastrinse card check photo.jpg --corners "120,80 620,84 616,410 118,405"`;

/** Names of the printable sheets, known before they are drawn. */
const SHEET_FILES = ["strip-card.svg", "strip-card.pdf", "jar-backing.svg", "jar-backing.pdf"];

interface CheckOptions extends CommonOptions {
  readonly card?: string;
  readonly corners?: string;
  readonly page?: number;
}

/** `card`: the colour cards, their reference values, printable sheets, and a check of a photo. */
export function cardCommand(setExitStatus: SetExitStatus): Command {
  const card = new Command("card")
    .description("colour cards: list, show, printable sheets, check a photo")
    .addHelpText("after", EXAMPLES);
  card.addCommand(listCommand(setExitStatus));
  card.addCommand(showCommand(setExitStatus));
  card.addCommand(sheetCommand(setExitStatus));
  card.addCommand(checkCommand(setExitStatus));
  return card;
}

function listCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("list").description("the built-in cards");
  return runsJob(command, setExitStatus, () => ({
    outputs: [],
    run: () =>
      Promise.resolve({
        json: {
          schema: "lastrinse.card-list",
          version: 1,
          cards: CARDS.map(({ name, title, rows, columns, measured, source }) => ({
            name,
            title,
            rows,
            columns,
            measured,
            source,
            default: name === DEFAULT_CARD_NAME,
          })),
        },
        text: CARDS.map(
          ({ name, title, measured }) =>
            `${name.padEnd(18)}${title}${measured ? "" : " (unmeasured: differences only)"}${name === DEFAULT_CARD_NAME ? " (default)" : ""}`,
        ).join("\n"),
      }),
  }));
}

function labText(lab: Triple): string {
  return lab.map((part) => part.toFixed(2).padStart(7)).join(" ");
}

function showCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("show")
    .description("the reference values of a card, CIELAB D50, 2 degree")
    .argument("<name>", "a name of 'card list', or a reference file");
  return runsJob(command, setExitStatus, async ([name]) => {
    const card = await loadCard(name);
    return {
      outputs: [],
      run: () =>
        Promise.resolve({
          json: { schema: "lastrinse.card", version: 1, ...card },
          text: cardText(card),
        }),
    };
  });
}

function cardText({ name, title, source, patches }: Card): string {
  return [
    plainLine(`${name}: ${title}`),
    plainLine(`Source: ${source}`),
    "L* a* b* (D50, 2 degree)",
    ...patches.map((patch) => plainLine(`${patch.name.padEnd(18)}${labText(patch.lab)}`)),
  ].join("\n");
}

function sheetCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("sheet").description(
    "write the strip card and the jar backing as true-size SVG and PDF into --out",
  );
  return runsJob(command, setExitStatus, (_words, options) => ({
    outputs: SHEET_FILES,
    run: async () => {
      if (options.out === undefined)
        throw new LastrinseError("wrong-use", "Expected a folder for the sheets, received none.", {
          remedy: "Give one with --out, for example: lastrinse card sheet --out sheets",
          input: "--out",
        });
      const files: OutputFiles = Object.fromEntries(
        (await drawSheets()).flatMap(({ name, svg, pdf }): [string, string | Uint8Array][] => [
          [`${name}.svg`, svg],
          [`${name}.pdf`, pdf],
        ]),
      );
      return {
        json: { schema: "lastrinse.card-sheet", version: 1, files: Object.keys(files) },
        text: "Print at 100 % (no scaling) on matt white paper and check the printed ruler. Keep the strip card dry and dark.",
        files,
      };
    },
  }));
}

function checkCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("check")
    .description("find the card in a photo or scan and say how well it calibrates the frame")
    .argument("<photo>", "photo or scan with the card")
    .option(
      "--card <name or file>",
      `a name of 'card list', or a reference file (default: ${DEFAULT_CARD_NAME})`,
    )
    .option("--corners <points>", 'centres of the four corner patches, "x,y x,y x,y x,y"')
    .option("--page <n>", "page of a multi-page file", wholeNumberBetween(1, 100_000));
  return runsJob<CheckOptions>(command, setExitStatus, async ([photo], options) => {
    const card = await loadCard(options.card, { strict: options.strict });
    const corners =
      options.corners === undefined ? undefined : parseCorners(options.corners, "--corners");
    return {
      outputs: [],
      run: async () => {
        const check = await checkCard(String(photo), card, {
          corners,
          page: options.page,
          strict: options.strict,
        });
        return { json: check, text: checkText(check) };
      },
    };
  });
}

function checkText(check: CardCheck): string {
  const table = new Table({
    head: ["patch", "reference", "measured", "dE00", ""],
    style: { head: [], border: [] },
  });
  for (const { name, labReference, labMeasured, deltaE00, dropped } of check.patches)
    table.push([
      plainLine(name),
      labText(labReference),
      labText(labMeasured),
      deltaE00.toFixed(2),
      dropped ? "left out" : "",
    ]);
  const { leaveOneOut } = check;
  return [
    plainLine(`Card ${check.card} found (residual ${check.matchResidual.toFixed(1)}).`),
    `Correction: ${check.model === "gam+3x3" ? "tone curve and matrix" : check.model}; leave-one-out ${
      leaveOneOut === null
        ? "not known, the card is not measured"
        : `mean ${leaveOneOut.mean.toFixed(2)}, p95 ${leaveOneOut.p95.toFixed(2)}, largest ${leaveOneOut.max.toFixed(2)} dE00`
    }.`,
    table.toString(),
    ...noteLines(check.warnings),
  ].join("\n");
}
