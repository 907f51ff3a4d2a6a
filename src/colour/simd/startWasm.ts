/** The part of WebAssembly that is used here; Node's types leave it to those of the browser. */
interface WebAssemblyOfHost {
  readonly validate: (bytes: Uint8Array) => boolean;
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object) => { readonly exports: unknown };
}

/**
 * A new instance of a compiled kernel, with memory of its own.
 * @returns What it exports; null where there is no WebAssembly, or none with vectors of 128 bits (processors from before 2008; switched off).
 */
export function startWasm<Exports>(base64: string): Exports | null {
  const host: object = globalThis;
  const bytes = Buffer.from(base64, "base64");
  if (!offersWebAssembly(host) || !host.WebAssembly.validate(bytes)) return null;
  const { Instance, Module } = host.WebAssembly;
  return new Instance(new Module(bytes)).exports as Exports;
}

function offersWebAssembly(
  host: object,
): host is object & { readonly WebAssembly: WebAssemblyOfHost } {
  return "WebAssembly" in host && host.WebAssembly !== undefined;
}
