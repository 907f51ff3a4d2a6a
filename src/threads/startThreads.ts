import type { MessagePort } from "node:worker_threads";
import { Tinypool } from "tinypool";
import { type Carried, received } from "./carrying.ts";

/** What a worker module exports: functions by name, made by `carrying`. */
type WorkOf<Module> = {
  readonly [Name in keyof Module]: Module[Name] extends (
    argument: infer Argument,
  ) => Promise<Carried<infer Value>>
    ? { readonly argument: Argument; readonly value: Value }
    : never;
};

export interface Threads<Module> {
  /** Runs one function of the worker module in a thread. @throws {LastrinseError} What that function refused. */
  run<Name extends keyof Module & string>(
    name: Name,
    argument: WorkOf<Module>[Name]["argument"],
    transfer?: readonly (ArrayBuffer | MessagePort)[],
  ): Promise<WorkOf<Module>[Name]["value"]>;
  /** Ends the threads and gives their memory back. */
  end(): Promise<void>;
}

/**
 * Starts threads of one worker module. They always run the compiled tree, also when the source runs under a TypeScript loader.
 * @param caller `import.meta.url` of the module that starts them; the worker lies in the same folder.
 * @param worker Name of the worker's file without ending.
 * @param most Threads at most. @param least Threads kept ready. @param idleMs How long an idle one is kept.
 */
export function startThreads<Module>(
  caller: string,
  worker: string,
  { most, least = 0, idleMs = 0 }: { most: number; least?: number; idleMs?: number },
): Threads<Module> {
  const pool = new Tinypool({
    filename: compiled(caller, worker).href,
    runtime: "worker_threads",
    minThreads: least,
    maxThreads: most,
    idleTimeout: idleMs,
    concurrentTasksPerWorker: 1,
  });
  return {
    async run(name, argument, transfer = []) {
      type Value = WorkOf<Module>[typeof name]["value"];
      return received(
        (await pool.run(argument, { name, transferList: [...transfer] })) as Carried<Value>,
      );
    },
    end: () => pool.destroy(),
  };
}

function compiled(caller: string, worker: string): URL {
  if (!caller.endsWith(".ts")) return new URL(`./${worker}.js`, caller);
  const place = caller.lastIndexOf("/src/");
  return new URL(
    `${caller.slice(0, place)}/dist${caller.slice(place).replace(/[^/]+$/, "")}${worker}.js`,
  );
}
