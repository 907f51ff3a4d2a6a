#!/usr/bin/env node
import { guardStandardStreams } from "./guardStandardStreams.ts";
import { runCommandLine } from "./runCommandLine.ts";

guardStandardStreams();
process.exitCode = await runCommandLine(process.argv.slice(2));
