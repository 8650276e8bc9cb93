import { closeSync, ftruncateSync, mkdirSync, openSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, swapOrHop } from '../support/command.js';
import { expectRefusal } from '../support/refusal.js';

describe('a file that is no scenario is refused with exit code 2', () => {
  it('though it has 50 MB', async () => {
    await inEmptyFolder(async (cwd) => {
      const file = openSync(join(cwd, 'big.yaml'), 'w');
      ftruncateSync(file, 50_000_000);
      closeSync(file);
      expectRefusal(await swapOrHop(['compare', 'big.yaml'], { cwd }), /big\.yaml: the file has 50\.0 MB/);
    });
  });

  it.each<[string, Buffer, RegExp]>([
    ['bytes that are no UTF-8', Buffer.from([0xff, 0xfe, 0x00, 0x41]), /not text in UTF-8/],
    ['nothing', Buffer.from(''), /file\.yaml:1:1 .*empty/],
    ['a list', Buffer.from('- 1\n- 2\n'), /file\.yaml:1:1 .*a scenario .*is wanted/],
    ['broken YAML', Buffer.from('title: "x\nplan: {'), /file\.yaml:\d+:\d+ {2}error/],
    [
      'an alias bomb',
      Buffer.from(
        `a: &a [x, x]\n${['b', 'c', 'd', 'e', 'f', 'g', 'h']
          .map(
            (k, i) =>
              `${k}: &${k} [${Array(9)
                .fill(`*${'abcdefg'.charAt(i)}`)
                .join(', ')}]`,
          )
          .join('\n')}\n`,
      ),
      /file\.yaml:\d+:\d+ {2}error .*alias/,
    ],
  ])('though it holds %s', async (_, bytes, message) => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'file.yaml'), bytes);
      expectRefusal(await swapOrHop(['compare', 'file.yaml'], { cwd }), message);
      expect(readdirSync(cwd)).toEqual(['file.yaml']);
    });
  });

  it('though it is only a folder of that name', async () => {
    await inEmptyFolder(async (cwd) => {
      mkdirSync(join(cwd, 'x.yaml'));
      expectRefusal(await swapOrHop(['compare', 'x.yaml'], { cwd }), /this is a folder/);
    });
  });
});
