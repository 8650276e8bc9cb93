import { it } from 'vitest';
import { holdVerdict, QUICK } from '../../support/verdict-block.js';

it.each(QUICK)('the verdict of %s has at most 60 words, and names no path of a value', holdVerdict);
