import { parse } from 'node:path';

/** Signs that some system does not allow in a name, or that would show as something else than they are. */
const ODD = /[\p{Cc}\p{Bidi_Control}\p{Zl}\p{Zp}<>:"/\\|?*]/gu;
/** Devices by name, with any ending (Microsoft, "Naming Files, Paths, and Namespaces"; from memory). */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)(?=\.|$)/iu;

/**
 * The name of a file without its ending, for a folder that is called after it: one that every system can have, and never
 * a step upwards or a place elsewhere.
 */
export function plainName(file: string): string {
  const name = parse(file)
    .name.replace(ODD, '_')
    .replace(/[. ]+$/u, '');
  return (name === '' ? 'report' : name).replace(DEVICE, '$&_');
}
