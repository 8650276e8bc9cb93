import type { Part } from '../part.js';
import { oneAfternoon } from './afternoon.js';
import { rushing } from './rushing.js';
import { sameNumbers } from './same-numbers.js';

/** Every part of the lesson, in the order of the page; a new part is one file and one line here. */
export const PARTS: readonly Part[] = [oneAfternoon, rushing, sameNumbers];
