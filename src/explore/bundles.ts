/** Writes the two scripts of the page beside this file. */

import { bundleScripts } from '../page/bundle-scripts.js';

await bundleScripts(import.meta.url);
