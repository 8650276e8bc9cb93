/** What the command does, from its words to its exit code. */

import { outliveReaders } from './console.js';
import { EXIT } from '../scenario/failure.js';
import { run } from './run.js';

outliveReaders();
const code = await run(process.argv.slice(2));
// What went wrong while it was shown stays said.
if (code !== EXIT.ok) process.exitCode = code;
