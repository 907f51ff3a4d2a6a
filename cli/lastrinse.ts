#!/usr/bin/env node
import { runCommandLine } from "./runCommandLine.ts";

process.exitCode = await runCommandLine(process.argv.slice(2));
