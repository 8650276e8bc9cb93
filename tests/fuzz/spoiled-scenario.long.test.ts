import { fuzzShortly } from './short.js';

fuzzShortly(['spoiled scenario text']);
