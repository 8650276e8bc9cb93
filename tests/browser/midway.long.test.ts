import { describe, it } from 'vitest';
import { holdToOnePage, midwayPages } from '../support/midway-pages.js';
import { checkAccess, checkPage, openPages } from '../support/page-checks.js';

const pages = openPages(() => midwayPages('vacuum', 'kinds'));

checkPage(pages, 'vacuum', 2);
checkAccess(pages, 'kinds', 'dark');

describe('the run sheet', () => {
  it.each(['vacuum', 'kinds'])('of %s prints on one page of A4', async (name) => {
    await holdToOnePage(pages, name);
  });
});
