import { CautionsPart } from "./cautionsPart.tsx";
import { nameOf } from "./figures.ts";
import { renderPage } from "./page.tsx";
import { RefusalPart } from "./refusalPart.tsx";
import { Written } from "./text.tsx";

/** What a page needs to know of a refusal; fields of `LastrinseError` fit. */
export interface Refusal {
  readonly code: string;
  readonly message: string;
  readonly remedy: string;
  readonly input: string | null;
}

/** The page in place of a report where the scans can't bear one: why, and what to do. It holds no figure of the object. */
export function refusedReport({ code, message, remedy, input }: Refusal): string {
  return renderPage({
    title: "No figure can be given",
    body: (
      <>
        <h1>Before and after</h1>
        <RefusalPart message={message} remedy={remedy} />
        <p class="soft">
          {input === null ? null : (
            <>
              About: <Written text={nameOf(input)} />.{" "}
            </>
          )}
          Nothing was measured, and nothing on the object or in the files was changed. Reason by
          name: {code}.
        </p>
        <CautionsPart />
      </>
    ),
  });
}
