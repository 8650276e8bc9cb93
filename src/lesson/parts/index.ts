import type { Part } from '../stage.js';
import { oneSession } from './session.js';
import { rushing } from './rushing.js';
import { sameNumbers } from './same-numbers.js';
import { swapOrHop } from './swap-or-hop.js';
import { waiting } from './waiting.js';
import { whenToHop } from './when-to-hop.js';

/** Every part of the lesson, in the order of the page; a new part is one file and one line here. */
export const PARTS: readonly Part[] = [oneSession, rushing, waiting, swapOrHop, whenToHop, sameNumbers];
