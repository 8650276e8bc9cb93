import { describe, it } from 'vitest';
import { holdToOnePage, midwayPages } from '../support/midway-pages.js';
import { checkAccess, checkPage, openPages } from '../support/page-checks.js';

const pages = openPages(() => midwayPages('islands'));

checkPage(pages, 'islands', 2);
checkAccess(pages, 'islands', 'light');
checkAccess(pages, 'islands-sheet', 'light');

describe('the run sheet', () => {
  it('of islands prints on one page of A4', async () => {
    await holdToOnePage(pages, 'islands');
  });
});
