export { type BluntingLaw, bluntingOf, cubeRoot, missingVolumeFactor } from '../scenario/blunting.js';
