/** Writes the two scripts of the lesson beside this file. */

import { bundleScripts } from '../page/bundle-scripts.js';

await bundleScripts(import.meta.url);
