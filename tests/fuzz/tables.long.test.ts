import { fuzzShortly } from './short.js';

fuzzShortly(['any log', 'spoiled log', 'spoiled table of radii', 'spoiled table of drift', 'spoiled table of a state']);
