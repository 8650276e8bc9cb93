import { Collector } from '../collector.js';
import { continuationsStage } from '../midway/continuations.js';
import { drawnStage } from './drawn.js';
import type { Answer, Order, Play, Wants } from './order.js';
import type { Stage } from './stage.js';
import { strategiesStage } from './strategies.js';

/**
 * Runs an order here and now.
 * @throws Error that names the strategy and the replication in which something went wrong
 */
export function carryOut({ play, seed, from, to, wants }: Order): Answer {
  const { parts, perform } = stageOf(play, seed, wants);
  const collectors = Array.from({ length: parts }, () => new Collector(wants));
  for (const collector of collectors) collector.reserve(to - from + 1);
  for (let replication = from; replication <= to; replication += 1)
    perform(replication, (part, outcome, more) => {
      collectors[part].add(outcome, more);
    });
  return collectors.map((collector) => collector.batch());
}

function stageOf(play: Play, seed: string, wants: Wants): Stage {
  switch (play.kind) {
    case 'strategies':
      return strategiesStage(play, seed, wants);
    case 'drawn':
      return drawnStage(play, seed, wants);
    case 'continuations':
      return continuationsStage(play, seed);
  }
}
