#!/usr/bin/env node
// The bundle is the same program: reading some hundred modules would take longer than many a command.
await import(new URL('../bundled/program.js', import.meta.url).href);
