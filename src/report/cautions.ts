/** Usual cautions by the key that a scenario names. They defer to local rules; nothing here is a work instruction. */

export interface Caution {
  readonly title: string;
  readonly text: string;
  /** Where the numbers come from. */
  readonly source: string;
}

export const ALWAYS =
  'Follow your local rules and the advice of licensed or trained staff; this time plan is no reason to shorten a safety step, nor is a hurried pace in it.';

const PRACTICE = 'common practice, no source';

export const CAUTION_TEXTS: Readonly<Partial<Record<string, Caution>>> = {
  laser: {
    title: 'Laser of the head',
    text:
      'Visible light up to 1 mW is class 2, 1 to 5 mW class 3R, 5 to 500 mW class 3B, above it class 4; outside 400 to 700 nm the limits differ, and near-infrared light gives no blink. ' +
      'Taking the cantilever out or opening an interlock can raise the accessible class. Never look into the beam, least of all with optics.',
    source: 'IEC 60825-1, by summaries of it; the last two points from memory',
  },
  'high-voltage': {
    title: 'High voltage of the scanner',
    text:
      'Take drives above 50 V, 5 mA or 10 J of stored energy as hazardous; scanner drives often exceed 100 V. ' +
      'Power down, let charge bleed off and retract before hands go near.',
    source:
      'IEEE Trans. Ind. Appl. 2010, 10.1109/TIA.2009.2036541 (50 V); limits of current and energy from a secondary page',
  },
  'sharp-silicon': {
    title: 'Silicon fragments',
    text: 'Broken chips and tips are sharp and nearly invisible: eye protection, tweezers, a sharps container.',
    source: PRACTICE,
  },
  vacuum: {
    title: 'Vacuum and venting',
    text:
      'Implosion, pinching, over-pressure when venting with nitrogen, hot surfaces after a bake. ' +
      'A relief valve against over-pressure; no high voltage in the glow range of roughly 0.01 to 10 mbar; isolate gauges and pumps first.',
    source: 'textbook knowledge, from memory',
  },
  cryogen: {
    title: 'Cryogens and nitrogen',
    text:
      'Air with less than 19.5 % of oxygen (normal: 20.9 %) counts as oxygen-deficient. One litre of liquid nitrogen becomes about 0.7 m³ of gas: ' +
      '10 L spilt and well mixed into 50 m³ leave about 18 %. Oxygen monitor, ventilation, protection from cold.',
    source:
      'US National Institutes of Health, guard against oxygen deficiency (19.5 %); expansion from a gas supplier’s page, dilution computed',
  },
  'uv-ozone': {
    title: 'Ultraviolet and ozone',
    text: 'Workplace limit 0.1 ppm of ozone (8 h mean), dangerous to life at 5 ppm. Exhaust or purge before opening; interlock against ultraviolet on eyes and skin.',
    source: 'US OSHA, 29 CFR 1910.1000 Table Z-1; ultraviolet from memory',
  },
  plasma: {
    title: 'Plasma cleaner',
    text: 'Radio frequency and high voltage, ultraviolet, hot parts, oxygen that must not meet ordinary pump oil, toxic products of fluorinated residue.',
    source: 'textbook knowledge, from memory',
  },
  nanoparticles: {
    title: 'Nanoparticles',
    text: 'Take precaution where no limit exists; for carbon nanotubes and nanofibres 1 µg/m³ (8 h, elemental carbon) is recommended. Keep loose material wet or enclosed.',
    source: 'US NIOSH, recommended limit; general advice after Approaches to Safe Nanotechnology (2009)',
  },
  biological: {
    title: 'Biological samples',
    text: 'Work at the biosafety level of the sample; disinfect holder, probe and chip before they are used again. A shared chip carries material from sample to sample.',
    source: PRACTICE,
  },
};

/** The cautions of a scenario, in its order; keys without a text are left out. */
export function cautionsFor(keys: readonly string[]): readonly Caution[] {
  return keys.flatMap((key) => CAUTION_TEXTS[key] ?? []);
}
