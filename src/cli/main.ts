#!/usr/bin/env node
import { setFlagsFromString } from 'node:v8';

// Left to itself the heap grows to four times of what lives in it before it is swept; a plan of months is to fit into a gigabyte.
setFlagsFromString('--heap-growing-percent=50');
// The bundle is the same program: reading some hundred modules would take longer than many a command.
await import(new URL('../bundled/program.js', import.meta.url).href);
