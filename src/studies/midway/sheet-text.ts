import type { InstrumentNow, MidwayResult, NextImages, RulesNow, SupplyOutlook } from './results.js';
import { ALWAYS, cautionsFor } from '../../report/cautions.js';
import { durationText, numberText, SHARE } from '../../wording/numbers.js';
import { shortToolText } from '../../report/study-facts.js';
import { counted, listed } from '../../wording/phrases.js';
import { chanceOfEnd, changeText, tipText } from './words.js';

/** One block of a run sheet: a heading and what stands under it, in plain text. */
export interface SheetBlock {
  readonly title: string;
  readonly lines: readonly string[];
  /** The lines are done one after the other. */
  readonly isOrdered?: boolean;
}

/** What hangs at one instrument, in plain text. */
export interface Sheet {
  readonly heading: string;
  readonly about: readonly string[];
  readonly blocks: readonly SheetBlock[];
  /** Images that come next, to be ticked off. */
  readonly next: readonly NextImages[];
  readonly cautions: readonly { readonly title: string; readonly text: string }[];
  readonly always: string;
  readonly foot: string;
}

/** One sheet an instrument. */
export function sheetsOf(result: MidwayResult): readonly Sheet[] {
  const { now, scenario, strategy, strategies, allocation, tool, seed } = result;
  const [first] = strategies;
  const several = now.instruments.length > 1;
  const chance = numberText(chanceOfEnd(first).value, SHARE);
  const granted = allocation === null ? '' : ` within the granted time (${allocation.text})`;
  return now.instruments.map((instrument, number): Sheet => ({
    heading: several ? `${scenario.title}, instrument ${number + 1}` : scenario.title,
    about: [
      `Strategy: ${strategy} (${result.workflow}). As of ${now.clock}: ${numberText(now.images.kept)} of ${numberText(now.images.planned)} images kept. Probability of completion${granted}: ${chance}.`,
      instrument.tip === null ? 'No tip is on.' : `On: ${tipText(instrument.tip)}.`,
    ],
    blocks: [
      { title: 'Check the tip', lines: checkLines(result.rules, instrument) },
      { title: 'Change the tip', lines: changeLines(result) },
      { title: 'When an image looks bad', lines: badImageLines(result), isOrdered: true },
      { title: 'At hand', lines: result.supplies.map(supplyLine) },
    ].filter(({ lines }) => lines.length > 0),
    next: instrument.next,
    cautions: cautionsFor(scenario.cautions).map(({ title, text }) => ({ title, text })),
    always: ALWAYS,
    foot: `${shortToolText(tool)} · ${scenario.file} · ${result.state.file} · seed ${seed}`,
  }));
}

function checkLines({ check, watch, reviewBy }: RulesNow, { tip }: InstrumentNow): readonly string[] {
  const review = {
    operator: 'Look at every image when it is done.',
    automatic: 'Images are reviewed automatically; note what it flags.',
    nobody: 'Nobody reviews images in this plan.',
  }[reviewBy];
  const watched =
    watch === null
      ? []
      : [
          `While a scan runs, ${watch.by === 'operator' ? 'watch' : 'it is watched'} for ${listed(watch.causes)}; stop it when seen.`,
        ];
  if (check === null) return ['No check on a reference structure is planned.', review, ...watched];
  const scans = tip === null ? 0 : (tip.checkedAgo ?? Math.floor(tip.images + 1e-9));
  const left = Math.max(0, check.every - scans);
  const due =
    tip === null
      ? ''
      : left === 0
        ? ' The tip that is on is due now.'
        : ` The tip that is on is due after ${counted(left, 'more scan')}.`;
  return [
    `Check on the reference structure after every ${counted(check.every, 'finished scan')}${check.onNew ? ', and each new tip before its first scan' : ''}; write down the apex radius.${due}`,
    review,
    ...watched,
  ];
}

function changeLines(result: MidwayResult): readonly string[] {
  const { after, radiusAbove, critical } = result.rules;
  const limits = [
    ...(after === null ? [] : [`after ${after} of use`]),
    ...(radiusAbove === null ? [] : [`when a check reads its apex radius above ${numberText(radiusAbove)} nm`]),
    ...(critical.length === 0 ? [] : [`before every attempt at ${listed(critical)}: a tip that has scanned nothing`]),
  ];
  const change = changeText(result);
  return [
    limits.length === 0
      ? 'No limit of use or radius is set: the tip is replaced when an image or a check says so.'
      : `Change ${listed(limits)}; and when an image or a check says so.`,
    ...(change === null ? [] : [change.text]),
  ];
}

function badImageLines({ rules, workflow }: MidwayResult): readonly string[] {
  const { cleanings, reconditionings, attempts, check } = rules;
  const mend = [
    ...(cleanings === 0 ? [] : [`clean it, at most ${times(cleanings)}`]),
    ...(reconditionings === 0 ? [] : [`recondition it, at most ${times(reconditionings)}`]),
  ];
  const change = workflow === 'hop' ? 'hop to the next site' : 'exchange the probe';
  return [
    'Flag the image in the log. Delete nothing.',
    mend.length === 0
      ? `The tip is replaced: ${change}.`
      : `The tip: ${listed(mend)}; then take the image again. If that does not help, or the tip was seen to break: ${change}.`,
    `Take the image again at once while its region is in place, else when the plan is done: ${counted(attempts, 'attempt')} in all, then it is given up.`,
    ...(check?.repeatSuspects === true
      ? ['After a failed check every image since the last passed one is suspect: take those again too.']
      : []),
  ];
}

function times(count: number): string {
  return count === 1 ? 'once' : count === 2 ? 'twice' : `${numberText(count)} times`;
}

function supplyLine({ what, left, usedAtMost, restock }: SupplyOutlook): string {
  const most = usedAtMost === 0 ? 'none' : `no more than ${numberText(usedAtMost)}`;
  const need = `90 % of campaigns use ${most}`;
  const order =
    usedAtMost >= left && usedAtMost > 0
      ? ` Order now${restock === null ? '' : `: ${durationText(restock)} to come`}.`
      : '';
  return `${counted(left, what)} left; ${need}.${order}`;
}
