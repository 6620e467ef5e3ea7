// The page in a browser. Its answers are held against those of the command line; the rest is looked at as a person with
// a mouse, a keyboard or a voice that reads would meet it.
import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { askAll, axeSource, figure, ready, withBrowser } from './browser.mjs';
import { QUESTIONS } from './questions.mjs';

const GAMUT = resolve(process.env.GAMUT ?? 'build/gamut');
const folder = mkdtempSync(join(tmpdir(), 'gamut-page-test-'));
const only = process.argv[2];
let passed = 0;
const failed = [];

/** @param {string} name @param {() => Promise<void>} run */
async function test(name, run) {
    if (only && !name.includes(only)) return;
    try {
        await run();
        passed += 1;
        console.log(`holds: ${name}`);
    } catch (error) {
        failed.push(name);
        console.log(`fails: ${name}\n  ${String(error?.stack ?? error).split('\n').slice(0, 12).join('\n  ')}`);
    }
}

// A rung shows numbers and signs (C♯, 19) which its name says in words; the letter that is seen is in it.
const AXE_RULES = { 'label-content-name-mismatch': { enabled: false } };

const rung = (page, name) => page.locator(`#ladder button[aria-label^="${name},"]`);
const untold = (page) => assert.deepEqual(page.told, []);
const narrow = (width) => ({ viewport: { width, height: width < 360 ? 640 : 844 }, hasTouch: true, isMobile: true });

await withBrowser(async (open) => {
    await test('thirty questions get the answers of gamut --json', async () => {
        const library = join(folder, 'library.db');
        execFileSync(GAMUT, ['import', 'sample-library', '--library', library], { stdio: 'pipe' });
        const page = await open();
        const { answers } = await askAll(page, null, QUESTIONS);
        assert.ok(QUESTIONS.length >= 30);
        for (const [at, [, , words]] of QUESTIONS.entries()) {
            const typed = spawnSync(GAMUT, [...words, ...(words[0] === 'instrument' && words[1] !== 'fit' ? [] : ['--library', library]), '--json'], { encoding: 'utf8', maxBuffer: 1 << 28 });
            assert.ok(typed.stdout.startsWith('{'), `${words.join(' ')}: ${typed.stderr}`);
            assert.deepEqual(answers[at].reply, JSON.parse(typed.stdout), words.join(' '));
        }
        untold(page);
    });

    await test('it opens with a living ladder, and one touch changes the numbers', async () => {
        const page = await open();
        assert.match(await figure(page), /^21 of 69 tunes open$/);
        const next = rung(page, 'high C');
        assert.equal(await next.getAttribute('aria-label'), 'high C, lack. Opens 19 tunes. Next best.');
        assert.equal(await next.getAttribute('aria-pressed'), 'false');
        await next.click();
        await page.waitForFunction(() => document.getElementById('figure').textContent.startsWith('40'));
        assert.equal(await next.getAttribute('aria-pressed'), 'true');
        assert.match(await page.locator('#said').innerText(), /^High C in\. 40 of 69 tunes open, 19 more\. Next: high C♯, 11\.$/);
        await page.waitForFunction(() => document.getElementById('live').textContent.startsWith('High C in'));
        await next.click();
        await page.waitForFunction(() => document.getElementById('figure').textContent.startsWith('21'));
        untold(page);
    });

    await test('bars are as long as their numbers', async () => {
        const page = await open();
        const bars = await page.$$eval('.rung', (rungs) => rungs.map((one) => {
            const ready = one.querySelector('.ready');
            return { width: ready.hidden ? 0 : ready.getBoundingClientRect().width, number: Number(one.querySelector('.number').textContent.replace(',', '')) };
        }).filter((one) => one.width > 50));
        assert.ok(bars.length > 0);
        const [first] = bars;
        for (const bar of bars) assert.ok(Math.abs(bar.width / bar.number - first.width / first.number) * bar.number <= 1.5, JSON.stringify(bars));
    });

    await test('the ladder answers the keyboard and is one stop', async () => {
        const page = await open();
        assert.equal(await page.locator('#ladder button[tabindex="0"]').count(), 1);
        await page.locator('#ladder button[tabindex="0"]').focus();
        const at = () => page.evaluate(() => document.activeElement.getAttribute('aria-label').split(',')[0]);
        assert.equal(await at(), 'high C');
        const steps = [['ArrowUp', 'high C sharp'], ['ArrowDown', 'high C'], ['PageDown', 'middle C'], ['PageUp', 'high C'], ['Home', 'low G'], ['End', 'top C'], ['Shift+B', 'high B'], ['Shift+B', 'middle B'], ['g', 'high G']];
        const last = await page.$$eval('#ladder .rung', (rungs) => [rungs[0], rungs.at(-1)].map((one) => one.getAttribute('aria-label').split(',')[0]));
        for (const [key, there] of steps) {
            await page.keyboard.press(key);
            const wanted = key === 'Home' ? last[0] : key === 'End' ? last[1] : there;
            if (key !== 'Shift+B' || there === 'middle B') assert.equal(await at(), wanted, key);
        }
        await page.keyboard.press('Space');
        await page.waitForFunction(() => !document.getElementById('figure').textContent.startsWith('21'));
        assert.equal(await at(), 'high G');
        untold(page);
    });

    await test('nothing scrolls sideways and targets are large, at 320, 390 and 1280', async () => {
        for (const options of [narrow(320), narrow(390), {}]) {
            const page = await open(options);
            for (const place of options.hasTouch ? ['Ladder', 'Tunes', 'Ask'] : ['Can play', 'One more note', 'Which order', 'A set', 'Set notes', 'Who plays', 'Keep and print', 'Help']) {
                await page.getByRole('button', { name: place, exact: true }).first().click();
                await page.waitForTimeout(400);
                const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
                assert.ok(wide <= 0, `${place} at ${options.viewport?.width ?? 1280}: ${wide} too wide`);
                const small = await page.$$eval('button, select, summary, input:not([hidden]):not([type=checkbox])', (all) => all.filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 43.5).map((one) => one.outerHTML.slice(0, 90)));
                assert.deepEqual(small, [], place);
            }
            untold(page);
        }
    });

    await test('axe finds nothing, in light and dark', async () => {
        for (const colorScheme of ['light', 'dark']) {
            const page = await open({ colorScheme });
            const look = async (what) => {
                await page.waitForTimeout(500);
                await page.evaluate(readFileSync(axeSource, 'utf8') + ';0').catch(() => page.addScriptTag({ path: axeSource }));
                const found = await page.evaluate((AXE_RULES) => globalThis.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'], rules: AXE_RULES }), AXE_RULES);
                assert.deepEqual(found.violations.map((one) => `${what} ${colorScheme}: ${one.id}: ${one.nodes[0].html.slice(0, 120)}`), []);
            };
            for (const place of ['Can play', 'One more note', 'Which order', 'What next', 'A set', 'Who plays', 'Set notes', 'Keep and print', 'Help']) {
                await page.getByRole('button', { name: place, exact: true }).first().click();
                await look(place);
            }
            await page.getByRole('button', { name: 'Can play', exact: true }).click();
            await page.locator('.tune').first().click();
            await look('card');
        }
    });

    await test('a tune has its bars, its staff, and sounds', async () => {
        const page = await open();
        await page.locator('.tune').first().click();
        await page.locator('.block').first().waitFor();
        assert.ok((await page.locator('.bar-row').count()) >= 8);
        await page.getByRole('button', { name: 'Staff' }).click();
        await page.locator('.staff svg').waitFor({ timeout: 20_000 });
        await page.getByRole('button', { name: 'Bars' }).click();
        await page.getByRole('button', { name: 'Hear it' }).click();
        await page.locator('.block.lit').first().waitFor({ timeout: 15_000 });
        await page.getByRole('button', { name: 'Stop' }).click();
        untold(page);
    });

    await test('the slider fills the ladder', async () => {
        const page = await open();
        await page.getByRole('button', { name: 'Which order', exact: true }).click();
        const slider = page.locator('#steps');
        await slider.waitFor({ timeout: 30_000 });
        await slider.focus();
        for (let times = 0; times < 3; ++times) await page.keyboard.press('ArrowRight');
        assert.match(await slider.getAttribute('aria-valuetext'), /^After 3 notes 5\d of 69 tunes, last /);
        assert.equal(await page.locator('.rung.tried').count(), 3);
        untold(page);
    });

    await test('a note is tried for a player, and kept when that is said', async () => {
        const page = await open();
        await page.getByRole('button', { name: 'Who plays', exact: true }).click();
        await page.getByLabel('Somebody’s name').fill('Ina');
        await page.getByRole('button', { name: 'Add' }).click();
        await page.getByRole('button', { name: 'Ina' }).first().waitFor();
        await rung(page, 'high C').click();
        await page.waitForFunction(() => document.getElementById('figure').textContent.startsWith('40'));
        assert.match(await rung(page, 'high C').getAttribute('aria-label'), /tried, not kept/);
        await page.getByRole('button', { name: 'Put back' }).click();
        await page.waitForFunction(() => document.getElementById('figure').textContent.startsWith('21'));
        await rung(page, 'high C').click();
        await page.getByRole('button', { name: 'Keep', exact: true }).click();
        await page.waitForFunction(() => document.querySelector('#ladder [aria-label^="high C,"]').getAttribute('aria-label').includes(' have.'));
        untold(page);
    });

    await test('hostile files and titles are text, and the page lives', async () => {
        const page = await open();
        const bad = [
            { name: 'bad.abc', mimeType: 'text/plain', buffer: Buffer.from(`X:1\nT:<img src=x onerror="window.hurt=1"><script>window.hurt=1</script>\nK:C\nCDEC|\n\nX:2\nT:${'n'.repeat(600)}\nK:C\nCDEC|\n\nX:3\nT:\u202Eright to left\u0007\nK:G\nGABG|\n\nX:4\nT: \nK:D\nDEFD|\n`) },
            { name: 'picture.abc', mimeType: 'image/png', buffer: Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 1, 2, 0, 3]) },
            { name: 'empty.abc', mimeType: 'text/plain', buffer: Buffer.alloc(0) },
            { name: 'old.abc', mimeType: 'text/plain', buffer: Buffer.from('X:1\nT:Caf\xe9\nK:C\nCDEC|\n', 'latin1') },
        ];
        await page.evaluate(() => document.querySelectorAll('input[type=file]').forEach((one) => one.removeAttribute('webkitdirectory')));
        await page.locator('input[type=file]').first().setInputFiles(bad);
        await page.waitForFunction(() => document.getElementById('said').textContent.includes('left out'));
        assert.match(await page.locator('#said').innerText(), /^5 tunes in from 2 files\. 2 files left out\./);
        await page.getByRole('button', { name: 'Can play', exact: true }).click();
        await page.waitForTimeout(500);
        assert.equal(await page.evaluate(() => window.hurt), undefined);
        assert.ok((await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)) <= 0);
        const text = await page.locator('#panel').innerText();
        for (const piece of ['<img src=x', 'Café', '(no title)']) assert.ok(text.includes(piece), piece);
        untold(page);
    });

    await test('saved as one file it opens with all that was in it', async () => {
        const page = await open();
        await page.getByRole('button', { name: 'Who plays', exact: true }).click();
        await page.getByLabel('Somebody’s name').fill('Bo </script>');
        await page.getByRole('button', { name: 'Add' }).click();
        await rung(page, 'high C').click();
        await page.getByRole('button', { name: 'Keep', exact: true }).click();
        await page.getByRole('button', { name: 'Keep and print', exact: true }).click();
        const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save as one file' }).click()]);
        const file = join(folder, 'saved.html');
        await download.saveAs(file);
        const again = await open({}, file);
        assert.match(await figure(again), /^40 of 69 tunes open$/);
        assert.match(await again.locator('#sentence').innerText(), /^Bo <\/script> plays/);
        assert.equal(readFileSync(file, 'utf8').length > 1_000_000, true);
        untold(page);
        untold(again);
    });

    await test('without storage nothing breaks', async () => {
        const page = await open();
        await page.addInitScript(() => Object.defineProperty(globalThis, 'indexedDB', { get() { throw new Error('refused'); } }));
        await page.reload();
        await ready(page);
        assert.match(await figure(page), /^21 of 69/);
        untold(page);
    });
});

rmSync(folder, { recursive: true, force: true });
console.log(`${passed} hold, ${failed.length} fail`);
process.exit(failed.length ? 1 : 0);
