import { expect, test } from "vitest";
import { z } from "zod";
import { derivedStore } from "../../src/record/derivedStore.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

test("a kept value of another form than the schema says is made anew, a fitting one is not", async () => {
  const store = derivedStore(temporaryFolder());
  const form = z.object({ share: z.number() });
  let made = 0;
  const share = () => Promise.resolve({ share: ++made });
  await store.keep("one", ["sources"], () => Promise.resolve({ portion: 1 }), z.unknown());
  expect(await store.keep("one", ["sources"], share, form)).toEqual({ share: 1 });
  expect(await store.keep("one", ["sources"], share, form)).toEqual({ share: 1 });
});
